//! One pad and what stands on it: the places it was read at, its shape, the tops of its rods.

pub(super) mod corners;
mod plane;
mod shape;
mod tops;

pub use shape::{Fall, PadPlace, PadPlane, PadShape, pad_shapes, places_without_height};
pub use tops::with_rods_by_level;
