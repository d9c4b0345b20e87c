//! What goes under each column.
//!
//! The plan proposes; [`crate::check`] judges it afresh.

mod action;
mod answer;
mod beside;
mod capacity;
mod cells;
mod cost;
#[cfg(test)]
mod enumerated;
mod fewest;
mod firm;
mod flow;
#[cfg(test)]
mod flow_oracle;
mod grind_one;
mod guard;
mod highest;
mod hold_at;
mod hurdle;
mod layout;
mod level;
mod limits_kept;
mod lost;
mod options;
mod pack_stack;
mod pose;
mod prices;
mod reach;
mod solve;
mod stacks;
mod stages;
mod stock;
mod system;
mod task;

pub use action::{Action, Aim, Choice, Optimum, Plan, Shortage, StackPiece};
pub use beside::{Beside, What, beside, plan_to};
pub use cost::Cost;
pub use fewest::{Grinding, NoPlan, Wish, plan_fewest};
pub use firm::{Firmness, Loose, firmness};
pub use grind_one::{MOST_TO_GRIND_IN, grind_one};
pub use guard::TooCoarse;
pub use highest::plan_highest;
pub use hold_at::{NoSuchRaise, option_at};
pub use hurdle::{Hurdle, HurdleLink, Stop, Way};
pub use level::plan_level;
pub use limits_kept::{Tie, To};
pub use lost::{Considered, Fate, considered};
pub use options::{OnBed, Open, PlannedOption, all_options, judge, open_options, options_at};
pub use pack_stack::{PackStack, pack_stack};
pub use stacks::{Stack, every_stack, stacks};
