//! Forces, stresses and areas, held exactly in both systems; no wording.
//!
//! As with [`crate::length`], only [`crate::text`] turns one into words.

mod area;
mod force;
mod parts;
mod read;
mod stress;

pub use area::Area;
pub use force::{Force, ForceUnit};
pub use read::{NotRead, read_force, read_stress};
pub use stress::{Stress, StressUnit};
