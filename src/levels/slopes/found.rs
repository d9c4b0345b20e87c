//! The slopes that were found: a line of sight that is not level, a plane that is tilted.

use super::parameter::Parameter;
use super::peg;
use super::systematic::Prior;
use crate::length::Length;
use crate::levels::adjust::Adjustment;
use crate::levels::observation::{Precision, over};
use crate::levels::rounding::{half_up, up};
use crate::levels::sight::metres;
use crate::model::{Job, LineOfSight, Slope, Tilt};

/// The run over which slopes are told: 100 m.
const RUN: Length = Length::from_nm(100_000_000_000);

/// A slope that was found from the readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FoundSlope {
    /// Which.
    pub slope: Parameter,
    /// Its value.
    pub value: Slope,
    /// It is good to plus or minus this, at 95 %; none where the readings do not tell it.
    pub plus_minus: Option<Slope>,
}

/// Lists what is known of the slopes beforehand: what is stated, peg tests, what a bubble is good to.
pub(in crate::levels) fn priors(job: &Job, slopes: &[Parameter], precision: Precision) -> Vec<Prior> {
    let readings = &job.readings;
    let mut found = Vec::new();
    for (slope, parameter) in slopes.iter().enumerate() {
        let mut know = |value: f64, half_width: f64| {
            let weight = (precision.unit / half_width.max(f64::MIN_POSITIVE)).powi(2);
            found.push(Prior { slope, value, weight });
        };
        if let Tilt::Within(within) = parameter.level_to(&readings.instruments, &readings.setups) {
            know(0.0, a_metre(within).abs());
        }
        let Parameter::Slope(instrument) = *parameter else { continue };
        let Some(instrument) = readings.instruments.get(instrument) else { continue };
        let LineOfSight::Found { stated, pegs } = &instrument.line else { continue };
        if let Some((value, within)) = stated {
            // a slope that is said to be exact is held as closely as a hundredth of a micrometre a metre
            know(a_metre(*value), a_metre(*within).abs().max(10.0));
        }
        for test in pegs {
            let half_width = |length: f64| over(instrument, length);
            if let Some(peg) = peg::slope(test, readings.sense, true, half_width) {
                know(peg.slope, peg.half_width);
            }
        }
    }
    found
}

/// Gives a slope in nanometres a metre.
fn a_metre(slope: Slope) -> f64 {
    slope.rise.nm() as f64 / metres(slope.run)
}

/// Gives the slopes as they were found.
pub(in crate::levels) fn found_slopes(
    adjustment: &Adjustment,
    slopes: &[Parameter],
    precision: Precision,
    untold: &[Parameter],
) -> Vec<FoundSlope> {
    let cofactor = adjustment.systematic.cofactor();
    let over_run = |nm_a_metre: f64| nm_a_metre * metres(RUN);
    let each = slopes.iter().enumerate().map(|(index, &slope)| {
        let half_width = precision.unit * cofactor[(index, index)].max(0.0).sqrt();
        let told = !untold.contains(&slope);
        FoundSlope {
            slope,
            value: Slope { rise: half_up(over_run(adjustment.slopes[index])), run: RUN },
            plus_minus: told.then(|| Slope { rise: up(over_run(half_width)), run: RUN }),
        }
    });
    each.collect()
}
