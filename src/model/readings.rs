//! What was read with the level.

use crate::length::Length;
use crate::source::Place;

/// All level readings of a job.
#[derive(Clone, Debug)]
pub struct Readings {
    /// The names of the setups, in the order of reading.
    pub setups: Vec<String>,
    /// The names of the points, pads and others, in the order of reading.
    pub points: Vec<String>,
    /// The sights in the order of reading.
    pub sights: Vec<Sight>,
    /// Elevations that were measured elsewhere.
    pub elevations: Vec<ElevationReading>,
    /// Points of known elevation.
    pub benchmarks: Vec<Benchmark>,
    /// Whether a lower reading is a higher point.
    pub sense: Sense,
    /// One reading is good to plus or minus this, at 95 %.
    pub plus_minus: Length,
    /// Whether that figure is this program's default and not the job's.
    pub plus_minus_assumed: bool,
}

/// Which way the readings count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sense {
    /// Read on a rod: a lower reading is a higher point.
    Rod,
    /// Read as heights: a higher reading is a higher point.
    Height,
}

/// One reading of one setup on one point.
#[derive(Clone, Debug)]
pub struct Sight {
    /// Its setup, an index into [`Readings::setups`].
    pub setup: usize,
    /// Its point, an index into [`Readings::points`].
    pub point: usize,
    /// Its kind.
    pub kind: SightKind,
    /// The reading as it was written.
    pub reading: Length,
    /// Where it stands in the input.
    pub place: Place,
}

/// The kind of a sight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SightKind {
    /// Backsight, BS: the first sight of a setup, on a point that is known already.
    Back,
    /// Intermediate sight, IS.
    Intermediate,
    /// Foresight, FS: the last sight of a setup, on the point that carries the run on.
    Fore,
}

impl SightKind {
    /// Gives the sight as a field book abbreviates it.
    #[must_use]
    pub const fn short(self) -> &'static str {
        match self {
            Self::Back => "BS",
            Self::Intermediate => "IS",
            Self::Fore => "FS",
        }
    }
}

/// An elevation measured elsewhere.
#[derive(Clone, Debug)]
pub struct ElevationReading {
    /// Its point, an index into [`Readings::points`].
    pub point: usize,
    /// The elevation.
    pub elevation: Length,
    /// It is good to plus or minus this, at 95 %.
    pub plus_minus: Length,
    /// Where it stands in the input.
    pub place: Place,
}

/// A point of known elevation, held as it is.
#[derive(Clone, Debug)]
pub struct Benchmark {
    /// Its point, an index into [`Readings::points`].
    pub point: usize,
    /// Its elevation.
    pub elevation: Length,
}

impl Readings {
    /// Tells whether elevations are absolute: a benchmark or a measured elevation is there.
    #[must_use]
    pub const fn is_absolute(&self) -> bool {
        !self.benchmarks.is_empty() || !self.elevations.is_empty()
    }
}
