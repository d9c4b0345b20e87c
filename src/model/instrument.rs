//! Instruments, where they stood, and what is known of their line of sight.

use crate::length::Length;

/// So much rise over so much run.
///
/// # Units
/// Both exact lengths; the run is more than nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Slope {
    /// The rise, negative downward.
    pub rise: Length,
    /// The run.
    pub run: Length,
}

/// An instrument that readings were taken with.
#[derive(Clone, Debug, PartialEq)]
pub struct Instrument {
    /// What the job calls it.
    pub name: String,
    /// Its kind in the catalog, where the job names one.
    pub kind: Option<String>,
    /// One reading at no distance is good to plus or minus this, at 95 %.
    pub reading: Length,
    /// What that grows by with the length of the sight, at 95 %; the two add as squares.
    pub per_sight: Option<Slope>,
    /// A reading whose sight length is not known is good to plus or minus this, at 95 %.
    pub without_sight: Length,
    /// What is done about the slope of its line of sight.
    pub line: LineOfSight,
    /// How its swept plane stands in its body, the same at every setup but for the turn of the body.
    pub tilt: Tilt,
}

/// What is done about the slope of a line of sight, upward with the distance.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum LineOfSight {
    /// It is taken as level.
    #[default]
    Level,
    /// It is found from the readings, with what is known of it beforehand.
    Found {
        /// The slope as it is stated, and what it is good to at 95 %.
        stated: Option<(Slope, Slope)>,
        /// The peg tests.
        pegs: Vec<PegTest>,
    },
}

/// A two-peg test: two pegs read from two places, each reading with its sight length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PegTest {
    /// The readings from the first place, on peg A and on peg B.
    pub first: [PegReading; 2],
    /// The readings from the second place, on peg A and on peg B.
    pub second: [PegReading; 2],
}

/// One reading of a peg test.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PegReading {
    /// The reading.
    pub reading: Length,
    /// The sight length.
    pub sight: Length,
}

impl PegTest {
    /// Gives by how much the sights differ more from the second place than from the first; nothing tells nothing.
    #[must_use]
    pub fn lever(&self) -> Length {
        let unequal = |place: [PegReading; 2]| place[0].sight - place[1].sight;
        unequal(self.first) - unequal(self.second)
    }
}

/// How far the plane that a setup sweeps may be off level.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tilt {
    /// It is taken as level.
    #[default]
    Level,
    /// It is found from the readings, and nothing is known of it beforehand.
    Free,
    /// It is found from the readings; along x and along y it is level to plus or minus this, at 95 %.
    Within(Slope),
}

/// One standing of an instrument.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    /// What the level notes call it.
    pub name: String,
    /// Its instrument, an index into [`super::Readings::instruments`], where the job describes one.
    pub instrument: Option<usize>,
    /// Where the instrument stood, in the plan of the columns.
    pub at: Option<[Length; 2]>,
    /// How its swept plane stands.
    pub tilt: Tilt,
    /// How far the body of the instrument was turned, in degrees counterclockwise.
    pub turned: i64,
}

impl Setup {
    /// Gives a setup of which nothing is known but its name.
    #[must_use]
    pub fn named(name: &str) -> Self {
        Self { name: name.to_owned(), instrument: None, at: None, tilt: Tilt::Level, turned: 0 }
    }
}
