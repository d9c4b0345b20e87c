//! Probability in steps of a grid, and the sum of two that do not depend on each other.

use super::HALF_WIDTH;
use crate::detail::asked::Spread;
use statrs::distribution::{ContinuousCDF, Normal};

/// Deviations of a normal spread that have steps of their own; what lies above them counts as above everything.
const REACH: f64 = 8.0;

/// What sums of doubles may be off in a share.
const SUMS: f64 = 1e-12;

/// The probability of each step of a grid.
#[derive(Clone, Debug)]
pub(super) struct Masses {
    /// What the value is at step 0, in nanometres: off the grid.
    from: i64,
    /// The probability that the value, rounded up, is so many steps above that. What is missing to 1 is above the last.
    steps: Vec<f64>,
}

impl Masses {
    /// Gives a value that is 0 for certain.
    pub(super) fn nothing() -> Self {
        Self { from: 0, steps: vec![1.0] }
    }

    /// Puts a band on the grid, every value rounded up to the next step.
    pub(super) fn of(least: i64, most: i64, spread: Spread, step: i64) -> Self {
        let width = (most - least) as f64;
        let step = step as f64;
        match spread {
            Spread::Worst => Self { from: most, steps: vec![1.0] },
            Spread::Uniform => {
                let up_to = |at: usize| (at as f64 * step / width).min(1.0);
                let last = (width / step).ceil() as usize;
                Self { from: least, steps: differences(up_to, last) }
            }
            Spread::Normal => {
                let deviation = width / 2.0 / HALF_WIDTH;
                let below = (REACH * deviation).ceil();
                let from = least + (width / 2.0 - below).floor() as i64;
                let offset = least as f64 + width / 2.0 - from as f64;
                let normal = Normal::new(offset, deviation).ok();
                // what lies below the first step counts at it
                let up_to = |at: usize| {
                    if at == 0 { 0.0 } else { normal.as_ref().map_or(0.0, |it| it.cdf(at as f64 * step)) }
                };
                let last = ((offset + below) / step).ceil() as usize;
                Self { from, steps: differences(up_to, last) }
            }
        }
    }

    /// Adds a value that does not depend on this one.
    pub(super) fn plus(&self, other: &Self) -> Self {
        let mut steps = vec![0.0; self.steps.len() + other.steps.len() - 1];
        for (at, mass) in self.steps.iter().enumerate() {
            if *mass > 0.0 {
                for (sum, more) in steps[at..].iter_mut().zip(&other.steps) {
                    *sum += mass * more;
                }
            }
        }
        Self { from: self.from + other.from, steps }
    }

    /// Gives the least value on the grid that at least this share of values does not exceed; none where the grid ends
    /// before that.
    pub(super) fn quantile(&self, share: f64, step: i64) -> Option<i64> {
        let mut below = 0.0;
        for (at, mass) in self.steps.iter().enumerate() {
            below += mass;
            if below >= share + SUMS {
                return self.from.checked_add(step.checked_mul(i64::try_from(at).ok()?)?);
            }
        }
        None
    }
}

/// Gives what each step adds to a rising share, the first to nothing.
fn differences(up_to: impl Fn(usize) -> f64, last: usize) -> Vec<f64> {
    let mut before = up_to(0);
    let mut steps = vec![before];
    for at in 1..=last {
        let now = up_to(at);
        steps.push((now - before).max(0.0));
        before = now;
    }
    steps
}
