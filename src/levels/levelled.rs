//! The reduced level notes.

use super::closure::Closure;
use super::extra::Extra;
use super::global_test::GlobalTest;
use super::reliability::Reliability;
use super::slips::Slip;
use super::slopes::found::FoundSlope;
use super::slopes::untold::{Entangled, Untold};
use super::spread::Spread;
use super::suspects::Suspect;
use crate::length::Length;

/// What elevations are counted from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Datum {
    /// Nothing outside the readings: 0 is the highest column pad.
    Relative,
    /// Known elevations: the benchmarks by name, none where only measured elevations are given.
    Absolute(Vec<String>),
}

/// The height of a point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Height {
    /// Its elevation on the datum.
    pub elevation: Length,
    /// It is good to plus or minus this, at 95 %; in a relative job against the pad at 0.
    pub plus_minus: Length,
    /// How many readings were taken on it, elevations among them.
    pub readings: usize,
}

/// Level notes reduced to elevations, with what is known of their uncertainty.
///
/// Points are indices into [`crate::model::Readings::points`].
#[derive(Clone, Debug)]
pub struct Levelled {
    pub(super) datum: Datum,
    pub(super) heights: Vec<Option<Height>>,
    pub(super) readings: Vec<usize>,
    pub(super) closures: Vec<Closure>,
    pub(super) redundancy: usize,
    pub(super) test: Option<GlobalTest>,
    pub(super) suspects: Vec<Suspect>,
    pub(super) slips: Vec<Slip>,
    pub(super) reliabilities: Vec<Reliability>,
    pub(super) blocks: Vec<Vec<usize>>,
    pub(super) lines: Vec<SetupLine>,
    pub(super) slopes: Vec<FoundSlope>,
    pub(super) untold: Vec<Untold>,
    pub(super) entangled: Vec<Entangled>,
    pub(super) sight_lengths: Vec<Option<Length>>,
    pub(super) extra: Option<Extra>,
    pub(super) spread: Spread,
}

/// The line of sight of a setup.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SetupLine {
    /// Its height on the datum, over the middle of the plan where it is tilted; none where it is not connected or not told.
    pub height: Option<Length>,
}

impl Levelled {
    /// Gives what elevations are counted from.
    #[must_use]
    pub const fn datum(&self) -> &Datum {
        &self.datum
    }

    /// Names the datum: `relative`, the benchmarks, or `elevations` where there is no benchmark.
    #[must_use]
    pub fn datum_words(&self) -> String {
        match &self.datum {
            Datum::Relative => "relative".to_owned(),
            Datum::Absolute(names) if names.is_empty() => "elevations".to_owned(),
            Datum::Absolute(names) => names.join(", "),
        }
    }

    /// Gives the height of a point; none where it is not connected to the datum.
    #[must_use]
    pub fn height(&self, point: usize) -> Option<&Height> {
        self.heights.get(point)?.as_ref()
    }

    /// Gives how many readings were taken on a point, connected or not.
    #[must_use]
    pub fn readings(&self, point: usize) -> usize {
        self.readings.get(point).copied().unwrap_or(0)
    }

    /// Gives what the difference of two heights is good to, at 95 %; none where one is not connected.
    ///
    /// It is not the sum of the two +-: what both have in common, such as the setup, drops out.
    ///
    /// # Units
    /// Rounded up to whole nanometres.
    #[must_use]
    pub fn difference_plus_minus(&self, a: usize, b: usize) -> Option<Length> {
        self.spread.plus_minus(a, Some(b))
    }

    /// Lists the misclosures, one for each redundant reading, in the order of reading.
    ///
    /// Those of blocks that are not connected to the datum are among them.
    #[must_use]
    pub fn closures(&self) -> &[Closure] {
        &self.closures
    }

    /// Gives how many readings on the datum are more than were needed.
    #[must_use]
    pub const fn redundancy(&self) -> usize {
        self.redundancy
    }

    /// Gives the test of all readings together; none where nothing can be tested.
    #[must_use]
    pub const fn test(&self) -> Option<&GlobalTest> {
        self.test.as_ref()
    }

    /// Lists the readings that do not fit, the worst first; after one that cannot be told from others none.
    ///
    /// A single bad reading among many good ones may stand here although the test of all together is passed.
    #[must_use]
    pub fn suspects(&self) -> &[Suspect] {
        &self.suspects
    }

    /// Lists what a crew may have done wrong, as far as it shows in the readings.
    #[must_use]
    pub fn slips(&self) -> &[Slip] {
        &self.slips
    }

    /// Gives how every reading on the datum fits and is checked, in the order of reading.
    #[must_use]
    pub fn reliabilities(&self) -> &[Reliability] {
        &self.reliabilities
    }

    /// Lists the blocks that share no point with the datum: their points, in the order of reading.
    #[must_use]
    pub fn blocks(&self) -> &[Vec<usize>] {
        &self.blocks
    }

    /// Gives the line of sight of every setup, in their order.
    #[must_use]
    pub fn lines(&self) -> &[SetupLine] {
        &self.lines
    }

    /// Lists the slopes that were found along with the heights.
    #[must_use]
    pub fn slopes(&self) -> &[FoundSlope] {
        &self.slopes
    }

    /// Lists what the readings cannot tell: slopes that pads, or other slopes, can take up entirely.
    #[must_use]
    pub fn untold(&self) -> &[Untold] {
        &self.untold
    }

    /// Lists the slopes that can hardly be told apart.
    #[must_use]
    pub fn entangled(&self) -> &[Entangled] {
        &self.entangled
    }

    /// Gives the length of every sight, as it was measured or as positions give it, in the order of reading.
    #[must_use]
    pub fn sight_lengths(&self) -> &[Option<Length>] {
        &self.sight_lengths
    }

    /// Gives the reading more that would help most; none where nothing was read with an instrument.
    #[must_use]
    pub const fn extra(&self) -> Option<&Extra> {
        self.extra.as_ref()
    }

    /// Lists the points that were read but are not connected to the datum.
    #[must_use]
    pub fn unconnected(&self) -> Vec<usize> {
        (0..self.heights.len()).filter(|&it| self.readings(it) > 0 && self.height(it).is_none()).collect()
    }
}
