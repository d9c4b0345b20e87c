//! Which reading more would help most.

use super::adjust::Adjustment;
use super::network::Node;
use super::observation::{Plan, half_width_of};
use super::posed::Posed;
use super::rounding::up;
use super::slopes::parameter::{Parameter, Seen};
use super::slopes::systematic::Systematic;
use super::spread::Shares;
use crate::length::Length;
use crate::model::{Sight, SightKind};
use nalgebra::DVector;
use std::collections::BTreeMap;

/// Most setups times points that are looked at.
const MOST: usize = 2_000_000;

/// A reading more that would help most.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Extra {
    /// The setup it would be read from, an index into [`crate::model::Readings::setups`].
    pub setup: usize,
    /// The point it would be read on, an index into [`crate::model::Readings::points`].
    pub point: usize,
    /// What that reading is known to beforehand, at 95 %.
    pub known_to: Length,
    /// Whether it would be the first that checks anything.
    pub first_check: bool,
}

/// A part of a direction below this counts as nothing.
const NOTHING: f64 = 1e-7;

/// Finds the reading that is known worst beforehand for what it is good to, and so tells most.
///
/// Of equals the first setup, then the first column. This is the reading that lessens the volume of all uncertainties most
/// (D-optimal design of experiments: it grows with the variance of the reading known beforehand over its own). A reading
/// that hangs on what nothing tells, or on a sight length or a place that is not known, is left out.
pub(super) fn extra_reading(
    posed: &Posed<'_>,
    adjustment: &Adjustment,
    points: &[Option<Shares>],
    redundancy: usize,
) -> Option<Extra> {
    let (job, precision, setups) = (posed.job, posed.precision, posed.carried.setups);
    let pads: Vec<usize> = job.columns.iter().filter_map(|column| column.point).collect();
    let nodes = adjustment.nodes.count();
    if pads.is_empty() || setups.saturating_mul(nodes) > MOST || precision.exact {
        return None;
    }
    let network = &adjustment.network;
    let systematic = &adjustment.systematic;
    let taken = Taken::of(posed);
    let own: Vec<Option<(&Shares, f64, Moved)>> = pads
        .iter()
        .map(|pad| {
            let shares = points.get(*pad)?.as_ref()?;
            Some((shares, network.variance(shares), Moved::of(systematic, shares)))
        })
        .collect();
    let mut best: Option<(f64, f64, usize, usize)> = None;
    for setup in 0..setups {
        let Some(line) = adjustment.nodes.line(setup) else { continue };
        let mut loads = vec![0.0; adjustment.nodes.count()];
        if let Some(line) = line {
            loads[line] = 1.0;
        }
        let with_line = network.solve(&loads);
        let of_line = network.variance(&[(line, 1.0)]);
        let line_moved = Moved::of(systematic, &[(line, 1.0)]);
        let acting = taken.acting(setup);
        for (&pad, own) in pads.iter().zip(&own) {
            let Some((shares, own, moved)) = own else { continue };
            let together: f64 =
                shares.iter().map(|(node, share)| node.map_or(0.0, |node| share * with_line[node])).sum();
            let mut variance = own + of_line - 2.0 * together;
            if !posed.slopes.is_empty() {
                let Some(shares) = taken.shares(&acting, setup, pad) else { continue };
                let Some(by_slopes) = moved.against(&line_moved, systematic, &shares) else { continue };
                variance += by_slopes;
            }
            let gain = variance * taken.weight(setup, pad);
            if best.is_none_or(|(largest, ..)| gain > largest * (1.0 + 1e-9)) {
                best = Some((gain, variance, setup, pad));
            }
        }
    }
    let (_, variance, setup, point) = best?;
    let known_to = up(precision.unit * variance.max(0.0).sqrt());
    Some(Extra { setup, point, known_to, first_check: redundancy == 0 })
}

/// How a height goes with the slopes.
struct Moved {
    /// By slope.
    along: DVector<f64>,
    /// The same times the covariance of the slopes.
    weighed: DVector<f64>,
    /// By what nothing tells.
    untold: Vec<f64>,
}

impl Moved {
    fn of(systematic: &Systematic, shares: &[(Node, f64)]) -> Self {
        let along = systematic.along(shares);
        let weighed = systematic.cofactor() * &along;
        let untold = systematic.untold.iter().map(|it| it.dot(&along)).collect();
        Self { along, weighed, untold }
    }

    /// Gives what the slopes add to the variance of a reading between this point and a line of sight.
    ///
    /// `shares` are those of the slopes in the reading. None where it hangs on what nothing tells.
    fn against(&self, line: &Self, systematic: &Systematic, shares: &[(usize, f64)]) -> Option<f64> {
        let largest = shares.iter().fold(1.0_f64, |largest, (_, share)| largest.max(share.abs()));
        for (direction, (point, line)) in systematic.untold.iter().zip(self.untold.iter().zip(&line.untold)) {
            let own: f64 = shares.iter().map(|(slope, share)| share * direction[*slope]).sum();
            if (point - line + own).abs() > NOTHING * largest {
                return None;
            }
        }
        let heights = self.along.dot(&self.weighed) + line.along.dot(&line.weighed)
            - 2.0 * self.along.dot(&line.weighed);
        let own = shares.iter().map(|&(slope, share)| {
            let cofactor = systematic.cofactor();
            let slopes: f64 = shares.iter().map(|(other, with)| with * cofactor[(slope, *other)]).sum();
            share * (slopes + 2.0 * (self.weighed[slope] - line.weighed[slope]))
        });
        Some(heights + own.sum::<f64>())
    }
}

/// Readings that were not taken, as the slopes would see them.
struct Taken<'p> {
    posed: &'p Posed<'p>,
    plan: Plan,
    /// The taped length from a setup to a point that it has read already.
    taped: BTreeMap<(usize, usize), Length>,
}

impl<'p> Taken<'p> {
    fn of(posed: &'p Posed<'p>) -> Self {
        let sights = posed.job.readings.sights.iter();
        let taped = sights.filter_map(|sight| Some(((sight.setup, sight.point), sight.distance?)));
        Self { posed, plan: Plan::of(posed.job), taped: taped.collect() }
    }

    /// Makes the sight.
    fn sight(&self, setup: usize, point: usize) -> Option<Sight> {
        let place = self.posed.job.readings.sights.first()?.place;
        let distance = self.taped.get(&(setup, point)).copied();
        let (kind, reading) = (SightKind::Intermediate, Length::ZERO);
        Some(Sight { setup, point, kind, reading, distance, place })
    }

    /// Gives its weight.
    fn weight(&self, setup: usize, point: usize) -> f64 {
        let readings = &self.posed.job.readings;
        let half_width = self.sight(setup, point).map(|sight| {
            let length = self.plan.length(readings, &sight);
            half_width_of(readings, &sight, length)
        });
        half_width.map_or(1.0, |half_width| (self.posed.precision.unit / half_width).powi(2))
    }

    /// Lists the slopes that act on a setup.
    fn acting(&self, setup: usize) -> Vec<(usize, Parameter)> {
        let instrument = self.posed.job.readings.setups.get(setup).and_then(|it| it.instrument);
        let slopes = self.posed.slopes.iter().copied().enumerate();
        let acting = slopes.filter(|(_, slope)| match *slope {
            Parameter::Tilt(tilted, _) => tilted == setup,
            Parameter::Slope(of) | Parameter::BodyTilt(of, _) => instrument == Some(of),
        });
        acting.collect()
    }

    /// Gives the share of each of these slopes in a reading; none where the length or the place it needs is not known.
    fn shares(&self, acting: &[(usize, Parameter)], setup: usize, point: usize) -> Option<Vec<(usize, f64)>> {
        let readings = &self.posed.job.readings;
        let length = self.plan.length(readings, &self.sight(setup, point)?);
        let at = self.plan.off_middle(point);
        let seen = Seen { setup: (setup, readings.setups.get(setup)?), length, at };
        let each = acting.iter().map(|&(index, slope)| {
            let known = match slope {
                Parameter::Slope(_) => length.is_some(),
                Parameter::Tilt(..) | Parameter::BodyTilt(..) => at.is_some(),
            };
            known.then(|| (index, slope.share(&seen)))
        });
        each.collect()
    }
}
