//! Least squares: small corrections to whole-nanometre heights.

use super::carry::{Carried, Step};
use super::network::{Eliminated, Network};
use super::nodes::Nodes;
use super::observation::{From, Observation};
use super::rounding::{half_up, snapped};
use super::slopes::systematic::{Prior, Systematic};
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

    /// Gives the mean of heights by shares that add up to 1; none without any.
    pub(super) fn mean(heights: &[(Self, f64)]) -> Option<Self> {
        let (first, _) = heights.first()?;
        let above = heights
            .iter()
            .map(|(height, share)| share * (whole_nm(height.whole - first.whole) + height.correction));
        let above = above.sum::<f64>();
        let whole = half_up(above);
        Some(Self { whole: first.whole + whole, correction: above - whole_nm(whole) })
    }
}

/// The adjusted heights on the datum, and the network behind them.
#[derive(Clone, Debug)]
pub(super) struct Adjustment {
    /// A height for each point on the datum.
    pub(super) points: Vec<Option<Adjusted>>,
    lines: Vec<Option<Adjusted>>,
    /// The slopes, in nanometres a metre.
    pub(super) slopes: Vec<f64>,
    /// Which of them are on the datum.
    pub(super) nodes: Nodes,
    /// The network of observations, solved.
    pub(super) network: Eliminated,
    /// The slopes that act on many readings.
    pub(super) systematic: Systematic,
}

impl Adjustment {
    /// Gives how far an observation was off: adjusted less observed, in nanometres.
    pub(super) fn residual(&self, observation: &Observation) -> Option<f64> {
        let (whole, correction) = self.fitted(observation)?;
        Some(whole_nm(whole - observation.rise) + correction - self.by_slopes(observation))
    }

    /// Gives an observation's point above what it counts from, whole and the rest.
    fn fitted(&self, observation: &Observation) -> Option<(Length, f64)> {
        let point = self.height(observation.point)?;
        let base = self.base(observation)?;
        Some((point.whole - base.whole, point.correction - base.correction))
    }

    fn height(&self, point: usize) -> Option<Adjusted> {
        self.points.get(point).copied().flatten()
    }

    fn base(&self, observation: &Observation) -> Option<Adjusted> {
        match observation.from {
            From::Line(setup) => self.line(setup),
            From::Point(point) => self.height(point),
            From::Zero => Some(Adjusted { whole: Length::ZERO, correction: 0.0 }),
        }
    }

    /// Gives the height of a setup's line of sight, over the middle of the plan where it is tilted.
    pub(super) fn line(&self, setup: usize) -> Option<Adjusted> {
        self.lines.get(setup).copied().flatten()
    }

    /// Gives what the slopes add to the line of an observation at its point.
    fn by_slopes(&self, observation: &Observation) -> f64 {
        observation.shares.iter().map(|(slope, share)| share * self.slopes[*slope]).sum()
    }
}

/// Adjusts the carried heights on the datum, and so many slopes along with them.
pub(super) fn adjust(
    carried: &Carried,
    nodes: Nodes,
    observations: &[Observation],
    (slopes, priors): (usize, Vec<Prior>),
) -> Adjustment {
    let mut network = Network::new(nodes.count());
    for observation in observations {
        if let Some((point, base)) = nodes.ends(observation) {
            network.join(point, base, observation.weight);
        }
    }
    let network = network.eliminate();
    let mut adjustment = Adjustment {
        points: carried_heights(&carried.points, |point| nodes.point(point).is_some()),
        lines: carried_heights(&carried.lines, |setup| nodes.line(setup).is_some()),
        slopes: vec![0.0; slopes],
        systematic: Systematic::new(slopes, &network, &nodes, observations, priors),
        network,
        nodes,
    };
    for _ in 0..ROUNDS {
        let corrections = adjustment.corrections(observations);
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
    /// Finds how far every node has to go, and moves the slopes.
    fn corrections(&mut self, observations: &[Observation]) -> Vec<f64> {
        let mut corrections = self.network.solve(&self.loads(observations));
        if self.slopes.is_empty() {
            return corrections;
        }
        let at = |node: Option<usize>| node.map_or(0.0, |node| corrections[node]);
        let rest = observations.iter().filter_map(|it| {
            let (point, base) = self.nodes.ends(it)?;
            Some(whole_nm(self.misclosure(it)?) + self.by_slopes(it) - (at(point) - at(base)))
        });
        let rest: Vec<f64> = rest.collect();
        let more = self.systematic.solve(&rest, &self.slopes);
        for (slope, more) in self.slopes.iter_mut().zip(&more) {
            *slope += more;
        }
        for (carried, more) in self.systematic.carried.iter().zip(&more) {
            for (correction, carried) in corrections.iter_mut().zip(carried) {
                *correction -= carried * more;
            }
        }
        corrections
    }

    /// Sums up how the whole heights fail the observations, at each node.
    ///
    /// Readings of weight 1 are summed as whole nanometres: where they cancel, nothing is left.
    fn loads(&self, observations: &[Observation]) -> Vec<f64> {
        let mut whole = vec![Length::ZERO; self.nodes.count()];
        let mut weighed = vec![0.0; self.nodes.count()];
        for observation in observations {
            let Some((point, base)) = self.nodes.ends(observation) else { continue };
            let Some(misclosure) = self.misclosure(observation) else { continue };
            #[allow(clippy::float_cmp, reason = "the weight of a plain reading is 1 by definition")]
            if observation.weight == 1.0 {
                if let Some(point) = point {
                    whole[point] = whole[point] + misclosure;
                }
                if let Some(base) = base {
                    whole[base] = whole[base] - misclosure;
                }
            } else {
                let load = observation.weight * whole_nm(misclosure);
                if let Some(point) = point {
                    weighed[point] += load;
                }
                if let Some(base) = base {
                    weighed[base] -= load;
                }
            }
            let load = observation.weight * self.by_slopes(observation);
            if let Some(point) = point {
                weighed[point] += load;
            }
            if let Some(base) = base {
                weighed[base] -= load;
            }
        }
        whole.into_iter().zip(weighed).map(|(whole, weighed)| whole_nm(whole) + weighed).collect()
    }

    /// Gives an observation less what the whole heights make of it.
    fn misclosure(&self, observation: &Observation) -> Option<Length> {
        let point = self.height(observation.point)?;
        Some(observation.rise - (point.whole - self.base(observation)?.whole))
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
