//! The reduced level notes.

use super::closure::Closure;
use super::global_test::GlobalTest;
use super::network::{Eliminated, Node};
use super::nodes::Nodes;
use super::rounding::up;
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
    pub(super) spread: Spread,
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
        Some(self.spread.plus_minus(self.spread.nodes.point(a)?, self.spread.nodes.point(b)?))
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

    /// Lists the readings that fit worst; empty unless the test has failed.
    #[must_use]
    pub fn suspects(&self) -> &[Suspect] {
        &self.suspects
    }

    /// Lists the points that were read but are not connected to the datum.
    #[must_use]
    pub fn unconnected(&self) -> Vec<usize> {
        (0..self.heights.len()).filter(|&it| self.readings(it) > 0 && self.height(it).is_none()).collect()
    }
}

/// The uncertainty of every difference of heights.
#[derive(Clone, Debug)]
pub(super) struct Spread {
    /// The half width at 95 % of an observation of weight 1; 0 where readings are called exact.
    pub(super) unit: f64,
    /// The nodes of the network.
    pub(super) nodes: Nodes,
    /// The network.
    pub(super) network: Eliminated,
}

impl Spread {
    /// Gives the half width at 95 % of the difference between two nodes.
    pub(super) fn plus_minus(&self, one: Node, other: Node) -> Length {
        up(self.unit * self.network.variance(one, other).sqrt())
    }
}
