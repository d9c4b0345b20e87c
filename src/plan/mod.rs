//! What goes under each column.
//!
//! The plan proposes; [`crate::check`] judges it afresh.

mod action;
mod level;
mod options;
mod stacks;

pub use action::{Action, Choice, Plan, StackPiece};
pub use level::plan_level;
pub use options::{Open, PlannedOption, all_options, judge, open_options};
pub use stacks::{Stack, stacks};
