//! The uncertainty of every difference of heights.

use super::adjust::Adjustment;
use super::network::Node;
use super::rounding::up;
use crate::length::Length;

/// A height as a sum of shares of nodes: one node, or the mean of several.
pub(super) type Shares = Vec<(Node, f64)>;

/// What every height is made of, and how the readings vary.
#[derive(Clone, Debug)]
pub(super) struct Spread {
    /// The half width at 95 % of an observation of weight 1; 0 where readings are called exact.
    pub(super) unit: f64,
    /// What the height of each point is made of; none where it has no height.
    pub(super) points: Vec<Option<Shares>>,
    /// The adjustment.
    pub(super) adjustment: Adjustment,
}

impl Spread {
    /// Gives the half width at 95 % of the difference between two points; of one alone where there is no other.
    pub(super) fn plus_minus(&self, one: usize, other: Option<usize>) -> Option<Length> {
        let shares = |point: usize| self.points.get(point)?.as_deref();
        let mut sum = shares(one)?.to_vec();
        if let Some(other) = other {
            sum.extend(shares(other)?.iter().map(|(node, share)| (*node, -share)));
        }
        Some(up(self.unit * self.variance(&sum).sqrt()))
    }

    /// Gives the variance of a sum of shares of nodes, that of an observation of weight 1 being 1.
    fn variance(&self, sum: &[(Node, f64)]) -> f64 {
        self.adjustment.network.variance(sum) + self.adjustment.systematic.variance(sum)
    }
}
