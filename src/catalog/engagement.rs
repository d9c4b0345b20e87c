//! Limits of thread engagement, some of them counted in pitches.

use super::limits::Limit;
use super::threads::Pitch;
use crate::length::Length;

/// A length, or a number of pitches of the rod.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InPitches {
    /// A length.
    Length(Length),
    /// So many pitches.
    Pitches(i64),
}

impl InPitches {
    /// Gives the length at a rod of this pitch, up to the next nanometre.
    #[must_use]
    pub fn at(self, pitch: Pitch) -> Length {
        match self {
            Self::Length(length) => length,
            Self::Pitches(pitches) => pitch.times(pitches),
        }
    }
}

/// What must be left of the thread on both sides of the nut.
#[derive(Clone, Debug)]
pub struct Engagement {
    /// Thread wanted beyond the outer nut.
    pub beyond: Limit<InPitches>,
    /// Clear thread to remain under the nut.
    pub clear: Limit<InPitches>,
    /// Most washers that may be added under the nut.
    pub extra: Limit<u32>,
}
