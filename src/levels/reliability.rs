//! How well each reading is checked by the others, and what slip in it would be seen.

use super::adjust::Adjustment;
use super::global_test::HALF_WIDTH;
use super::network::Node;
use super::observation::{From, Observation, Precision};
use super::rounding::up;
use crate::length::Length;
use crate::source::Place;

/// Below this share of control a reading is not checked by the others.
pub(super) const CONTROLLED: f64 = 1e-9;

/// Deviations of a slip that is seen in 80 of 100 cases where 1 in 1000 good readings is called bad.
///
/// Baarda's reliability: 3.2905 + 0.8416, the normal quantiles of 0.1 % on both sides and of 80 %.
const SEEN: f64 = 4.132_1;

/// One observation as the adjustment sees it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Judged {
    /// Its place among the observations.
    pub(super) index: usize,
    /// Its place among those on the datum.
    pub(super) row: usize,
    /// Its nodes, the point first.
    pub(super) ends: (Node, Node),
    /// Adjusted less observed, in nanometres.
    pub(super) residual: f64,
    /// The share of an error in it that shows in its residual: 0 unchecked, 1 wholly checked.
    pub(super) control: f64,
    /// Its standard deviation, in nanometres.
    pub(super) deviation: f64,
}

impl Judged {
    /// Gives the residual in its own standard deviations; none where it is not checked.
    pub(super) fn standardised(&self) -> Option<f64> {
        self.is_checked().then(|| self.residual / (self.deviation * self.control.sqrt()))
    }

    /// Tells whether the other readings check this one at all.
    pub(super) fn is_checked(&self) -> bool {
        self.control > CONTROLLED
    }
}

/// Judges every observation on the datum.
pub(super) fn judged(
    adjustment: &Adjustment,
    observations: &[Observation],
    precision: Precision,
) -> Vec<Judged> {
    let mut found = Vec::with_capacity(observations.len());
    let mut slate = Vec::new();
    for (index, observation) in observations.iter().enumerate() {
        let Some(ends) = adjustment.nodes.ends(observation) else { continue };
        let row = found.len();
        let known = adjustment.network.variance_on(&mut slate, &[(ends.0, 1.0), (ends.1, -1.0)])
            + adjustment.systematic.between(row, row);
        found.push(Judged {
            index,
            row,
            ends,
            residual: adjustment.residual(observation).unwrap_or(0.0),
            control: 1.0 - observation.weight * known,
            deviation: precision.unit / HALF_WIDTH / observation.weight.sqrt(),
        });
    }
    found
}

/// How one reading fits and how it is checked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reliability {
    /// Where the reading stands in the input.
    pub place: Place,
    /// Its point, an index into [`crate::model::Readings::points`].
    pub point: usize,
    /// The point it counts from, where it is a measured difference.
    pub from: Option<usize>,
    /// Which sight it is, an index into [`crate::model::Readings::sights`]; none for an elevation or a difference.
    pub sight: Option<usize>,
    /// Adjusted less observed, as heights of the point.
    pub residual: Length,
    /// The share of an error in it that would show, in thousandths: 0 is unchecked.
    pub checked: u16,
    /// The least slip in it that would be seen; none where it is not checked at all.
    pub seen_from: Option<Length>,
}

/// Gives how every reading on the datum fits and is checked.
pub(super) fn reliabilities(judged: &[Judged], observations: &[Observation]) -> Vec<Reliability> {
    let each = judged.iter().filter_map(|it| {
        let observation = observations.get(it.index)?;
        let thousandths = (it.control.clamp(0.0, 1.0) * 1e3).round();
        Some(Reliability {
            place: observation.place,
            point: observation.point,
            from: if let From::Point(from) = observation.from { Some(from) } else { None },
            sight: observation.sight,
            residual: Length::from_nm(it.residual.round() as i64),
            checked: if it.is_checked() { (thousandths as u16).max(1) } else { 0 },
            seen_from: it.is_checked().then(|| up(SEEN * it.deviation / it.control.sqrt())),
        })
    });
    each.collect()
}
