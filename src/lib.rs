#![doc = include_str!("../README.md")]
// the library alone is held to these; tests may unwrap and print
#![warn(
    clippy::disallowed_types,
    clippy::expect_used,
    clippy::float_arithmetic,
    clippy::panic,
    clippy::print_stderr,
    clippy::print_stdout,
    clippy::unreachable,
    clippy::unwrap_used
)]

pub mod catalog;
pub mod check;
pub mod cli;
pub mod draw;
pub mod input;
pub mod length;
pub mod levels;
pub mod model;
pub mod order;
pub mod output;
pub mod plan;
pub mod report;
pub mod source;
pub mod text;
