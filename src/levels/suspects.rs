//! Which readings do not fit: one by one, the worst first, each time adjusted without it.

use super::adjust::Adjustment;
use super::global_test::HALF_WIDTH;
use super::observation::{Observation, Precision};
use super::posed::Posed;
use super::reliability::{Judged, judged};
use crate::length::Length;
use crate::source::Place;
use statrs::distribution::{ContinuousCDF, Normal};

/// A standardised residual above this is suspect: 1 in 1000 good readings exceeds it.
const SUSPECT: f64 = 3.29;

/// The part of jobs without any bad reading in which one is called suspect, where there are many readings.
const WHOLE_JOB: f64 = 0.05;

/// Residuals that go together as closely as this cannot be told apart.
const TIED: f64 = 0.999;

/// Standardised residuals this close to the largest stand beside it.
const AS_LARGE: f64 = 1e-6;

/// Most suspect readings that are looked for.
const MOST: usize = 20;

/// A reading that does not fit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Suspect {
    /// Where the reading stands in the input.
    pub place: Place,
    /// Its point, an index into [`crate::model::Readings::points`].
    pub point: usize,
    /// Which sight it is, an index into [`crate::model::Readings::sights`]; none for an elevation or a difference.
    pub sight: Option<usize>,
    /// How far it seems to be off, without sign.
    pub size: Length,
    /// Whether it puts its point too high.
    pub too_high: bool,
    /// Its residual in its own standard deviations, in hundredths.
    pub standardised: u32,
    /// Other readings that would explain the fault as well.
    pub tied_with: Vec<Place>,
}

/// Finds the readings that do not fit: of those that can be told apart the worst, then the worst of the rest, and so on.
///
/// A reading is suspect above 3.29 standard deviations, or above what 1 in 20 whole jobs exceeds somewhere where that is
/// more. After a tie nothing further is looked for: it is not known which of the readings to leave out.
pub(super) fn suspects(posed: &Posed<'_>, first: &Adjustment) -> Vec<Suspect> {
    let precision = posed.precision;
    let mut found = Vec::new();
    if precision.exact {
        return found;
    }
    let mut left = posed.observations.clone();
    let mut again: Option<Adjustment> = None;
    while found.len() < MOST {
        let adjustment = again.as_ref().unwrap_or(first);
        let judged = judged(adjustment, &left, precision);
        let Some(worst) = worst(&judged) else { break };
        let suspect = suspect(adjustment, &left, &judged, (&worst, precision));
        let tied = !suspect.tied_with.is_empty();
        found.push(suspect);
        if tied {
            break;
        }
        left.remove(worst.index);
        again = Some(posed.adjusted(&left));
    }
    found
}

/// Finds the reading with the largest standardised residual, of equals the first; none where none is suspect.
fn worst(judged: &[Judged]) -> Option<Judged> {
    let sizes = || judged.iter().filter_map(|it| Some((it.standardised()?.abs(), it)));
    let count = sizes().count();
    let largest = sizes().fold(0.0_f64, |largest, (size, _)| largest.max(size));
    if largest <= critical(count) {
        return None;
    }
    sizes().find(|(size, _)| *size >= largest * (1.0 - AS_LARGE)).map(|(_, it)| *it)
}

/// Gives what a standardised residual must exceed to be suspect among so many.
fn critical(count: usize) -> f64 {
    let Ok(normal) = Normal::new(0.0, 1.0) else { return SUSPECT };
    // Sidak: all of them together stay below this in 95 of 100 jobs
    let each = 1.0 - (1.0 - WHOLE_JOB).powf(1.0 / count.max(1) as f64);
    normal.inverse_cdf(1.0 - each / 2.0).max(SUSPECT)
}

fn suspect(
    adjustment: &Adjustment,
    observations: &[Observation],
    judged: &[Judged],
    (worst, precision): (&Judged, Precision),
) -> Suspect {
    let observation = &observations[worst.index];
    let together = correlations(adjustment, judged, worst, precision);
    let standardised = worst.standardised().unwrap_or(0.0).abs();
    let tied = judged.iter().zip(together).filter(|(it, together)| {
        let as_large = it.standardised().is_some_and(|it| it.abs() >= standardised * (1.0 - AS_LARGE));
        it.index != worst.index && it.is_checked() && (as_large || together.abs() >= TIED)
    });
    let off = worst.residual / worst.control;
    Suspect {
        place: observation.place,
        point: observation.point,
        sight: observation.sight,
        size: Length::from_nm(off.abs().round() as i64),
        too_high: off < 0.0,
        standardised: (standardised * 100.0).round() as u32,
        tied_with: tied.map(|(it, _)| observations[it.index].place).collect(),
    }
}

/// Gives the correlation of every residual with one of them.
fn correlations(adjustment: &Adjustment, judged: &[Judged], with: &Judged, precision: Precision) -> Vec<f64> {
    let mut loads = vec![0.0; adjustment.nodes.count()];
    for (node, load) in [(with.ends.0, 1.0), (with.ends.1, -1.0)] {
        if let Some(node) = node {
            loads[node] += load;
        }
    }
    let moved = adjustment.network.solve(&loads);
    let at = |node: Option<usize>| node.map_or(0.0, |node| moved[node]);
    let size = |it: &Judged| it.deviation * it.control.max(0.0).sqrt();
    let unit = (precision.unit / HALF_WIDTH).powi(2);
    let each = judged.iter().map(|it| {
        let common = at(it.ends.0) - at(it.ends.1) + adjustment.systematic.between(with.row, it.row);
        -common * unit / (size(with) * size(it))
    });
    each.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    /// Sidak at 5 %: 24 observations 3.07 and 48 observations 3.27, both below 3.29, which then rules.
    #[test]
    fn few_readings_are_held_to_3_29_and_many_to_what_a_whole_job_allows() {
        assert_abs_diff_eq!(critical(24), 3.29, epsilon = 1e-12);
        assert_abs_diff_eq!(critical(48), 3.29, epsilon = 1e-12);
        assert!(critical(6_000) > 4.0 && critical(6_000) < 4.6, "{}", critical(6_000));
    }
}
