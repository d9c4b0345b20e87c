//! Level notes into elevations with their uncertainty; closures, the global test, suspect readings.
//!
//! Heights are first carried from reading to reading as whole nanometres
//! (`carry`), which also gives the closures. Least squares, each reading weighed by
//! what it is good to, then finds small corrections to them (`adjust`), in floating
//! point, and each elevation is rounded once (`rounding`). The notes are a network:
//! setups and points are its nodes, readings its edges, and the variance of a
//! difference of height is the resistance between two nodes (`network`), so that no
//! covariance matrix is formed. What an instrument does to all its readings is found
//! along with the heights where that is asked for (`slopes`). What does not fit is
//! named (`suspects`), and what a crew may have done wrong (`slips`).
//!
//! The same notes as a page of a level book, misclosure shared by setup, are `book`:
//! for reading beside the notes, not what a plan is made of.

#![allow(
    clippy::float_arithmetic,
    clippy::disallowed_types,
    reason = "least squares finds small corrections to whole nanometres; each elevation is rounded once"
)]

mod adjust;
mod book;
mod carry;
mod closure;
mod extra;
mod global_test;
mod known;
mod levelled;
mod made;
mod network;
mod nodes;
mod observation;
mod pad;
mod posed;
mod reduce;
mod reliability;
mod rounding;
mod sight;
mod slips;
mod slopes;
mod spread;
mod suspects;
#[cfg(test)]
mod tests;
mod zero;

pub use book::{Book, BookCheck, BookRow, BookSection, BookSums, Booked, CheckKind, level_book};
pub use closure::Closure;
pub use extra::Extra;
pub use global_test::GlobalTest;
pub use levelled::{Datum, Height, Levelled, SetupLine};
pub use observation::sights_good_to;
pub use pad::{Fall, PadPlace, PadPlane, PadShape, pad_shapes, places_without_height, with_rods_by_level};
pub use reduce::reduce;
pub use reliability::Reliability;
pub use slips::{Along, RoundAmount, Slip, SlipKind};
pub use slopes::{Axis, Entangled, FoundSlope, Parameter, Untold};
pub use suspects::Suspect;
