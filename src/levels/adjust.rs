//! Least squares: small corrections to whole-nanometre heights.

use super::carry::{Carried, Step};
use super::network::{Eliminated, Network};
use super::nodes::Nodes;
use super::observation::Observation;
use super::rounding::{half_up, snapped};
use crate::length::Length;

/// Most rounds of correcting; the first finds the heights, the second their last digits.
const ROUNDS: usize = 8;

/// Corrections no larger than this need no further round.
const SETTLED: f64 = 0.75;

/// A height: whole nanometres, and a correction below one nanometre.
#[derive(Clone, Copy, Debug)]
pub(super) struct Adjusted {
    whole: Length,
    correction: f64,
}

impl Adjusted {
    /// Rounds the height above another one.
    pub(super) fn above(self, other: Self) -> Length {
        self.whole - other.whole + half_up(self.correction - other.correction)
    }

    /// Rounds the height above zero.
    pub(super) fn above_zero(self) -> Length {
        self.above(Self { whole: Length::ZERO, correction: 0.0 })
    }

    /// Tells whether the height is above another one, before any rounding to whole nanometres.
    pub(super) fn is_above(self, other: Self) -> bool {
        whole_nm(self.whole - other.whole) + snapped(self.correction - other.correction) > 0.0
    }
}

/// The adjusted heights on the datum, and the network behind them.
#[derive(Clone, Debug)]
pub(super) struct Adjustment {
    /// A height for each point on the datum.
    pub(super) points: Vec<Option<Adjusted>>,
    lines: Vec<Option<Adjusted>>,
    /// Which of them are on the datum.
    pub(super) nodes: Nodes,
    /// The network of observations, solved.
    pub(super) network: Eliminated,
}

impl Adjustment {
    /// Gives how far an observation was off: adjusted less observed, in nanometres.
    pub(super) fn residual(&self, observation: &Observation) -> Option<f64> {
        let point = self.points.get(observation.point).copied().flatten()?;
        let zero = Adjusted { whole: Length::ZERO, correction: 0.0 };
        let base = match observation.setup {
            Some(setup) => self.lines.get(setup).copied().flatten()?,
            None => zero,
        };
        let whole = point.whole - base.whole - observation.rise;
        Some(whole_nm(whole) + (point.correction - base.correction))
    }
}

/// Adjusts the carried heights on the datum.
pub(super) fn adjust(carried: &Carried, nodes: Nodes, observations: &[Observation]) -> Adjustment {
    let mut network = Network::new(nodes.count());
    for observation in observations {
        if let Some((point, base)) = nodes.ends(observation) {
            network.join(point, base, observation.weight);
        }
    }
    let mut adjustment = Adjustment {
        points: carried_heights(&carried.points, |point| nodes.point(point).is_some()),
        lines: carried_heights(&carried.lines, |setup| nodes.line(setup).is_some()),
        network: network.eliminate(),
        nodes,
    };
    for _ in 0..ROUNDS {
        let corrections = adjustment.network.solve(&adjustment.loads(observations));
        adjustment.correct(&corrections);
        if corrections.iter().all(|correction| correction.abs() <= SETTLED) {
            break;
        }
    }
    adjustment
}

fn carried_heights(steps: &[Option<Step>], on_datum: impl Fn(usize) -> bool) -> Vec<Option<Adjusted>> {
    let heights = steps.iter().enumerate().map(|(index, step)| match step {
        Some(step) if on_datum(index) => Some(Adjusted { whole: step.height, correction: 0.0 }),
        _ => None,
    });
    heights.collect()
}

impl Adjustment {
    /// Sums up how the whole heights fail the observations, at each node.
    ///
    /// Sights all weigh 1 and are summed as whole nanometres: where they cancel, nothing is left.
    fn loads(&self, observations: &[Observation]) -> Vec<f64> {
        let mut whole = vec![Length::ZERO; self.nodes.count()];
        let mut weighed = vec![0.0; self.nodes.count()];
        for observation in observations {
            let Some((point, base)) = self.nodes.ends(observation) else { continue };
            let Some(misclosure) = self.misclosure(observation) else { continue };
            match (observation.setup, point, base) {
                (Some(_), point, base) => {
                    if let Some(point) = point {
                        whole[point] = whole[point] + misclosure;
                    }
                    if let Some(base) = base {
                        whole[base] = whole[base] - misclosure;
                    }
                }
                (None, Some(point), _) => weighed[point] += observation.weight * whole_nm(misclosure),
                (None, None, _) => {}
            }
        }
        whole.into_iter().zip(weighed).map(|(whole, weighed)| whole_nm(whole) + weighed).collect()
    }

    /// Gives an observation less what the whole heights make of it.
    fn misclosure(&self, observation: &Observation) -> Option<Length> {
        let point = self.points.get(observation.point).copied().flatten()?;
        let base = match observation.setup {
            Some(setup) => self.lines.get(setup).copied().flatten()?.whole,
            None => Length::ZERO,
        };
        Some(observation.rise - (point.whole - base))
    }

    /// Moves the whole heights to the nearest nanometre and keeps the rest.
    ///
    /// Halves all go one way, so that heights which fit each other before still do.
    fn correct(&mut self, corrections: &[f64]) {
        let nodes = &self.nodes;
        let points = self.points.iter_mut().enumerate().map(|(index, it)| (nodes.point(index), it));
        let lines = self.lines.iter_mut().enumerate().map(|(index, it)| (nodes.line(index), it));
        for (node, height) in points.chain(lines) {
            let (Some(Some(node)), Some(height)) = (node, height.as_mut()) else { continue };
            let correction = corrections[node];
            let whole = half_up(correction);
            height.whole = height.whole + whole;
            height.correction = correction - whole_nm(whole);
        }
    }
}

fn whole_nm(length: Length) -> f64 {
    length.nm() as f64
}
