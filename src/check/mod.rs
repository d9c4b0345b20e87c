//! The rules, over the job, the levels and a plan.
//!
//! Nothing is taken from the planner but its choices: every rod, every
//! difference and every hold is worked out afresh.

mod bearing;
mod case;
mod chain;
mod difference;
mod finding;
mod high_rod;
mod hold;
mod levelling;
mod pack_places;
mod pack_stack;
pub mod rules;
mod short_rod;
mod since;
mod slip_words;
mod untold_words;

pub use bearing::{Bearing, Bears, Seat, Stage};
pub use case::{Case, ColumnCase, PadCase, RodCase};
pub use chain::chain;
pub use difference::{Difference, DifferenceKind, Verdict, differences, distinct_neighbours};
pub use finding::{Finding, Level, Outcome, Subject};
pub use high_rod::{HighRod, high_rods};
pub use hold::{Hold, holds};
pub use levelling::{Fit, Reach, Room, room};
pub use pack_stack::{Pack, PackStack, pack_stack};
pub use rules::{Judged, RULES, Rule, judge, style};
pub use short_rod::{Asked, Ladder, Lower, Published, Said, ShortRod, Thinner, short_rods};
pub use since::{ColumnChange, Moved, RodChange, RodNow, Since, StillFits, Why, plan_then, since, stack_of};
pub use slip_words::slip_words;
pub use untold_words::{entangled_words, slope_words, untold_words};
