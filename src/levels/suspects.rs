//! Which reading does not fit, where the global test has failed.

use super::adjust::Adjustment;
use super::global_test::HALF_WIDTH;
use super::observation::{Observation, Precision};
use crate::length::Length;
use crate::source::Place;

/// A standardised residual above this is suspect (0.1 % of good readings exceed it).
const SUSPECT: f64 = 3.29;

/// Below this share of control a reading is not checked by the others.
const CONTROLLED: f64 = 1e-9;

/// Standardised residuals this close cannot be told apart.
const TIED: f64 = 1e-6;

/// The reading that fits worst.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Suspect {
    /// Where the reading stands in the input.
    pub place: Place,
    /// Its point, an index into [`crate::model::Readings::points`].
    pub point: usize,
    /// How far it seems to be off, without sign.
    pub size: Length,
    /// Other readings that would explain the fault as well.
    pub tied_with: Vec<Place>,
}

/// Finds the reading with the largest standardised residual, and those tied with it.
///
/// None where no residual is suspect. Only the largest is named: a gross error spoils
/// the residuals of its neighbours, so that the next is known only when it is put right.
pub(super) fn suspects(
    adjustment: &Adjustment,
    observations: &[Observation],
    precision: Precision,
) -> Vec<Suspect> {
    let judged: Vec<(f64, f64, &Observation)> = observations
        .iter()
        .filter_map(|observation| {
            let (point, base) = adjustment.nodes.ends(observation)?;
            let control = 1.0 - observation.weight * adjustment.network.variance(point, base);
            let residual = adjustment.residual(observation)?.abs();
            let deviation = precision.unit / HALF_WIDTH / observation.weight.sqrt();
            let standardised = residual / (deviation * control.sqrt());
            (control > CONTROLLED).then_some((standardised, residual / control, observation))
        })
        .collect();
    let largest = judged.iter().fold(0.0_f64, |largest, (standardised, _, _)| largest.max(*standardised));
    if largest <= SUSPECT {
        return Vec::new();
    }
    let mut tied = judged.iter().filter(|(standardised, _, _)| *standardised >= largest * (1.0 - TIED));
    let Some((_, size, observation)) = tied.next() else { return Vec::new() };
    vec![Suspect {
        place: observation.place,
        point: observation.point,
        size: Length::from_nm(size.round() as i64),
        tied_with: tied.map(|(_, _, observation)| observation.place).collect(),
    }]
}
