//! What acts on many readings at once: a line of sight that slopes, a plane that is tilted; what tells it, and what does not.

pub(super) mod found;
pub(super) mod parameter;
mod peg;
pub(super) mod systematic;
pub(super) mod untold;

pub use found::FoundSlope;
pub use parameter::{Axis, Parameter};
pub use untold::{Entangled, Untold};
