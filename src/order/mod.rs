//! What hardware stands at each column, and what the shims weigh.

mod hardware;
mod mass;

pub use hardware::{HardwareRow, RodHardware, hardware};
pub use mass::{Mass, shim_mass};
