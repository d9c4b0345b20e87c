//! What was read with the level.

use super::column::RodLabel;
use super::instrument::{Instrument, Setup};
use crate::length::{Length, Unit};
use crate::source::Place;
use std::fmt;

/// All level readings of a job.
#[derive(Clone, Debug, Default)]
pub struct Readings {
    /// The setups, in the order of reading.
    pub setups: Vec<Setup>,
    /// The instruments the job describes.
    pub instruments: Vec<Instrument>,
    /// The names of the points, pads and others, in the order of reading.
    pub points: Vec<String>,
    /// Points that are rod tops, or other places on the pad of a column.
    pub spots: Vec<Spot>,
    /// Spots that are named and still to be read: their column, an index into [`super::Job::columns`], and what they are.
    pub unread: Vec<(usize, SpotKind)>,
    /// The sights in the order of reading.
    pub sights: Vec<Sight>,
    /// Elevations that were measured elsewhere.
    pub elevations: Vec<ElevationReading>,
    /// Differences that were measured from point to point.
    pub differences: Vec<DifferenceReading>,
    /// Points of known elevation.
    pub benchmarks: Vec<Benchmark>,
    /// Rows of a surveyor's file that are no pad, no rod and no benchmark of this job; none of them is used.
    pub unmatched: Vec<Unmatched>,
    /// Whether a lower reading is a higher point.
    pub sense: Sense,
    /// The unit of bare numbers in the readings, where the job states it.
    pub unit: Option<Unit>,
    /// One reading is good to plus or minus this, at 95 %, where no instrument says otherwise.
    pub plus_minus: Length,
    /// Whether that figure is this program's default and not the job's.
    pub plus_minus_assumed: bool,
    /// Kinds of instrument whose figures in the catalog stand for what the job does not say of its readings.
    pub kinds_assumed: Vec<String>,
}

/// A row of a surveyor's file that is no pad, no rod and no benchmark of this job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unmatched {
    /// Its point as it was written, or blank.
    pub point: String,
    /// Its description as it was written, or blank.
    pub description: String,
    /// Where it stands in the input.
    pub place: Place,
}

impl Unmatched {
    /// Gives what it is called: its point, its description in brackets where it has one.
    #[must_use]
    pub fn called(&self) -> String {
        match (self.point.as_str(), self.description.as_str()) {
            (point, "") => point.to_owned(),
            ("", description) => format!("({description})"),
            (point, description) => format!("{point} ({description})"),
        }
    }
}

/// Which way the readings count.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Sense {
    /// Read on a rod: a lower reading is a higher point.
    #[default]
    Rod,
    /// Read as heights: a higher reading is a higher point.
    Height,
}

/// A point that belongs to a column but is not the pad as such.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spot {
    /// The point, an index into [`Readings::points`].
    pub point: usize,
    /// The column, an index into [`super::Job::columns`].
    pub column: usize,
    /// What was read.
    pub what: SpotKind,
}

/// What was read at a spot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SpotKind {
    /// The top of a rod.
    Rod(RodLabel),
    /// Another place on the pad, in the crew's word.
    Place(String),
}

impl fmt::Display for SpotKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Rod(label) => write!(f, "rod {label}"),
            Self::Place(word) => f.write_str(word),
        }
    }
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
    /// The length of the sight, where it was measured.
    pub distance: Option<Length>,
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

/// A difference of height measured from one point to another.
#[derive(Clone, Debug)]
pub struct DifferenceReading {
    /// The point it counts from, an index into [`Readings::points`].
    pub from: usize,
    /// The point it counts to.
    pub to: usize,
    /// How far the second point stands above the first.
    pub difference: Length,
    /// It is good to plus or minus this, at 95 %.
    pub plus_minus: Length,
    /// Where it stands in the input.
    pub place: Place,
}

/// A point of known elevation.
#[derive(Clone, Debug)]
pub struct Benchmark {
    /// Its point, an index into [`Readings::points`].
    pub point: usize,
    /// Its elevation.
    pub elevation: Length,
    /// It is good to plus or minus this, at 95 %; held as it is where that is nothing.
    pub plus_minus: Length,
    /// Where it stands in the plan of the columns, where known.
    pub at: Option<[Length; 2]>,
    /// Where its elevation stands in the input.
    pub place: Place,
}

impl Readings {
    /// Tells whether elevations are absolute: a benchmark or a measured elevation is there.
    #[must_use]
    pub const fn is_absolute(&self) -> bool {
        !self.benchmarks.is_empty() || !self.elevations.is_empty()
    }

    /// Tells whether nothing was read at all.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.sights.is_empty() && self.elevations.is_empty() && self.differences.is_empty()
    }
}
