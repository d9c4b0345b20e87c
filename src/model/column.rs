//! A column and the rods measured at it.

use crate::length::Length;
use crate::source::Place;
use std::fmt;

/// One column of the job.
#[derive(Clone, Debug)]
pub struct Column {
    /// Its mark.
    pub mark: String,
    /// Its base, an index into [`super::Job::bases`].
    pub base: usize,
    /// Its plan position x, y, where known.
    pub at: Option<[Length; 2]>,
    /// Its own design elevation of the underside of the base plate.
    pub seat: Option<Length>,
    /// Its pad, an index into [`super::Readings::points`], where anything was read on it.
    pub point: Option<usize>,
    /// Its rods: numbered, or the lowest and the highest of the group.
    pub rods: Vec<Rod>,
    /// What the crew noted.
    pub note: Option<String>,
}

/// A rod of a column and what was measured of it.
#[derive(Clone, Debug)]
pub struct Rod {
    /// Its number, clockwise from the plan's north-west, or which of the group it is.
    pub label: RodLabel,
    /// Its projection above its own pad, where measured.
    pub projection: Option<Length>,
    /// What its projection is good to at 95 %, where that is not what the job says of every rod.
    pub plus_minus: Option<Length>,
    /// What the level says of its projection, where its top was read.
    pub by_level: Option<ByLevel>,
    /// Full thread down from its top, where measured.
    pub thread: Option<Length>,
    /// Its condition.
    pub condition: Condition,
    /// Whether its projection is one value that stands for all rods of the column.
    pub one_for_all: bool,
    /// Where its projection stands in the input.
    pub place: Option<Place>,
}

impl Rod {
    /// Gives what its projection is good to, at 95 %; `job` is what the job says of every rod.
    #[must_use]
    pub fn good_to(&self, job: Length) -> Length {
        self.plus_minus.unwrap_or(job)
    }

    /// Gives a rod of which nothing is known.
    #[must_use]
    pub const fn unmeasured(label: RodLabel) -> Self {
        Self {
            label,
            projection: None,
            plus_minus: None,
            by_level: None,
            thread: None,
            condition: Condition::Sound,
            one_for_all: false,
            place: None,
        }
    }
}

/// A projection from two level readings: the top of the rod less its pad.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ByLevel {
    /// The projection by tape, where there is one.
    pub tape: Option<Length>,
    /// The projection by level.
    pub level: Length,
    /// What that is good to, at 95 %.
    pub plus_minus: Length,
    /// Whether tape and level agree within what both are good to; where there is no tape, they do. A top below its
    /// pad agrees with nothing.
    pub agrees: bool,
}

impl ByLevel {
    /// Gives how far tape and level are apart; none without a tape.
    #[must_use]
    pub fn apart(&self) -> Option<Length> {
        Some((self.tape? - self.level).abs())
    }

    /// Gives the most that tape and level may be apart and still agree, where the tape is good to so much at 95 %.
    ///
    /// # Units
    /// The root of the sum of both squares, down to whole nanometres: what is apart by a whole number of them is
    /// within the root exactly where it is within this.
    #[must_use]
    pub fn may_be_apart(&self, tape_plus_minus: Length) -> Length {
        let square = |it: Length| u128::from(it.nm().unsigned_abs()).pow(2);
        let root = (square(tape_plus_minus) + square(self.plus_minus)).isqrt();
        Length::from_nm(i64::try_from(root).unwrap_or(i64::MAX))
    }

    /// Tells whether the top of the rod was read below its pad, which is no projection.
    #[must_use]
    pub const fn is_below_its_pad(&self) -> bool {
        self.level.is_negative()
    }
}

/// Which rod of its group.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RodLabel {
    /// Its number from 1, clockwise from the plan's north-west.
    Number(u32),
    /// The lowest of the group.
    Low,
    /// The highest of the group.
    High,
}

impl fmt::Display for RodLabel {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Number(number) => write!(f, "{number}"),
            Self::Low => f.write_str("low"),
            Self::High => f.write_str("high"),
        }
    }
}

/// The condition of a rod.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Condition {
    /// Nothing wrong was noted.
    Sound,
    /// Bent, cut, damaged or whatever the crew wrote.
    Noted(String),
}

impl Condition {
    /// Tells whether nothing wrong was noted.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        *self == Self::Sound
    }
}
