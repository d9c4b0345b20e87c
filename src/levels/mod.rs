//! Level notes into elevations with their uncertainty; closures, the global test, suspect readings.
//!
//! Heights are first carried from reading to reading as whole nanometres
//! (`carry`), which also gives the closures. Least squares with equal weights then
//! finds small corrections to them (`adjust`), in floating point, and each elevation
//! is rounded once (`rounding`). The notes are a network: setups and points are its
//! nodes, readings its edges, and the variance of a difference of height is the
//! resistance between two nodes (`network`), so that no covariance matrix is formed.
//!
//! The same notes as a page of a level book, misclosure shared by setup, are `book`:
//! for reading beside the notes, not what a plan is made of.

#![allow(
    clippy::float_arithmetic,
    clippy::disallowed_types,
    reason = "least squares finds small corrections to whole nanometres; each elevation is rounded once"
)]

mod adjust;
#[cfg(test)]
mod any_notes;
mod book;
mod carry;
mod closure;
mod corners;
#[cfg(test)]
mod dense;
#[cfg(test)]
mod estimability;
mod extra;
mod global_test;
#[cfg(test)]
mod grid;
mod known;
mod levelled;
mod made;
mod network;
mod nodes;
mod observation;
mod pads;
mod parameter;
mod peg;
mod plane;
mod posed;
#[cfg(test)]
mod published;
#[cfg(test)]
mod published_networks;
mod reduce;
mod reliability;
mod rounding;
#[cfg(test)]
mod rules_of_thumb;
#[cfg(test)]
mod sample;
mod sight;
mod slips;
mod slope;
mod spread;
mod suspects;
mod systematic;
#[cfg(test)]
mod tilted;
mod tops;
mod untold;
mod zero;

pub use book::{Book, BookCheck, BookRow, BookSection, BookSums, Booked, CheckKind, level_book};
pub use closure::Closure;
pub use extra::Extra;
pub use global_test::GlobalTest;
pub use levelled::{Datum, Height, Levelled, SetupLine};
pub use pads::{Fall, PadPlace, PadPlane, PadShape, pad_shapes, places_without_height};
pub use parameter::{Axis, Parameter};
pub use reduce::reduce;
pub use reliability::Reliability;
pub use slips::{Along, RoundAmount, Slip, SlipKind};
pub use slope::FoundSlope;
pub use suspects::Suspect;
pub use tops::with_rods_by_level;
pub use untold::{Entangled, Untold};
