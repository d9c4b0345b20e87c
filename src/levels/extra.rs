//! Which reading more would help most.

use super::adjust::Adjustment;
use super::carry::Carried;
use super::observation::Precision;
use super::rounding::up;
use super::spread::Shares;
use crate::length::Length;
use crate::model::Job;

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

/// Finds the reading that is known worst beforehand, and so tells most: of equals the first setup, then the first column.
///
/// This is the reading that lessens the volume of all uncertainties most (D-optimal design of experiments).
pub(super) fn extra_reading(
    job: &Job,
    carried: &Carried,
    adjustment: &Adjustment,
    points: &[Option<Shares>],
    precision: Precision,
    redundancy: usize,
) -> Option<Extra> {
    let setups = carried.setups;
    let pads: Vec<usize> = job.columns.iter().filter_map(|column| column.point).collect();
    let nodes = adjustment.nodes.count();
    if pads.is_empty() || setups.saturating_mul(nodes) > MOST || precision.exact {
        return None;
    }
    let network = &adjustment.network;
    let own: Vec<f64> = pads
        .iter()
        .map(|pad| points.get(*pad).and_then(|it| it.as_deref()).map_or(f64::NAN, |it| network.variance(it)))
        .collect();
    let mut best: Option<(f64, usize, usize)> = None;
    for setup in 0..setups {
        let Some(line) = adjustment.nodes.line(setup) else { continue };
        let mut loads = vec![0.0; adjustment.nodes.count()];
        if let Some(line) = line {
            loads[line] = 1.0;
        }
        let with_line = network.solve(&loads);
        let of_line = network.variance(&[(line, 1.0)]);
        for (&pad, own) in pads.iter().zip(&own) {
            let Some(shares) = points.get(pad).and_then(|it| it.as_deref()) else { continue };
            let together: f64 =
                shares.iter().map(|(node, share)| node.map_or(0.0, |node| share * with_line[node])).sum();
            let variance = own + of_line - 2.0 * together;
            if best.is_none_or(|(largest, ..)| variance > largest * (1.0 + 1e-9)) {
                best = Some((variance, setup, pad));
            }
        }
    }
    let (variance, setup, point) = best?;
    let known_to = up(precision.unit * variance.max(0.0).sqrt());
    Some(Extra { setup, point, known_to, first_check: redundancy == 0 })
}
