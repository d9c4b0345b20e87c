//! The mass of shim plates: one of the few places where floats are right.
#![allow(
    clippy::float_arithmetic,
    clippy::disallowed_types,
    reason = "a mass is a measured figure, not a length"
)]

use crate::length::Length;
use crate::model::Job;
use crate::plan::Plan;

/// Steel, in kg/m3: EN 1993-1-1 and EN 1991-1-1 Table A.4 (published); 490 lb/ft3 agrees to 0.013 %.
pub const STEEL: f64 = 7850.0;

/// A mass.
///
/// # Units
/// Kilograms.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mass(f64);

impl Mass {
    /// Gives the mass in whole grams, to the nearest.
    #[must_use]
    #[allow(clippy::cast_possible_truncation, reason = "no job comes near 2^63 grams")]
    pub fn grams(self) -> i64 {
        (self.0 * 1000.0).round() as i64
    }
}

/// Weighs the shims of a plan, cut to each base plate's outline with its rod holes; none where a plate
/// size is not known.
///
/// Missing hole sizes weigh as no holes, so that the mass is never too small.
#[must_use]
pub fn shim_mass(job: &Job, plan: &Plan) -> Option<Mass> {
    let mut sum = 0.0;
    for (column, choice) in job.columns.iter().zip(&plan.choices) {
        let height: Length = choice.stack.iter().map(|piece| piece.thickness * i64::from(piece.count)).sum();
        if height == Length::ZERO {
            continue;
        }
        let base = job.base_of(column);
        let [width, depth] = base.plate.size?;
        let hole = base.plate.holes.map_or(0.0, metres);
        let holes = f64::from(base.rods.count) * std::f64::consts::FRAC_PI_4 * hole * hole;
        let area = metres(width) * metres(depth) - holes;
        sum += area.max(0.0) * metres(height) * STEEL;
    }
    Some(Mass(sum))
}

#[allow(clippy::cast_precision_loss, reason = "lengths stay below 2^53 nm")]
fn metres(length: Length) -> f64 {
    length.nm() as f64 / 1e9
}
