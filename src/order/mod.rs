//! What hardware stands at each column, what its packs are made of, what the shims weigh, and what a partly engaged thread comes to.

mod hardware;
mod mass;
mod packs;
mod since;
mod thread_form;
mod thread_limits;
mod thread_strength;

pub use hardware::{HardwareRow, LevellingHardware, RodHardware, hardware};
pub use mass::{Mass, STEEL, shim_mass};
pub use packs::{ColumnPacks, packs};
pub use since::{Counts, ShimsSince, WashersSince, shims_since, washers_since};
pub use thread_form::{Profile, ThreadForm, both_length};
pub use thread_limits::thread_limits;
pub use thread_strength::{Area, Engaged, ThreadStrength};
