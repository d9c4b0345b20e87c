#![doc = include_str!("../README.md")]

pub mod catalog;
pub mod check;
pub mod cli;
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
