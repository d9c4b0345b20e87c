//! The least projection at a probability: by convolution, and by root-sum-square beside it.
#![allow(
    clippy::float_arithmetic,
    clippy::disallowed_types,
    reason = "a probability is no length; what comes of it is rounded up to whole nanometres once"
)]

mod masses;
#[cfg(test)]
mod tests;

use super::asked::{Spread, Spreads};
use super::percent::Percent;
use super::terms::{Term, Terms};
use crate::length::Length;
use masses::Masses;
use statrs::distribution::{ContinuousCDF, Normal};

/// Standard deviations in the half width of 95 %.
const HALF_WIDTH: f64 = 1.96;

/// The least projection with which a stated share of rods is full.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Likely {
    /// By convolution of the stated spreads, up: at least the exact figure, and no more than `grid_error` above it.
    pub convolved: Length,
    /// The step of the grid.
    pub grid: Length,
    /// The most that `convolved` may be too large.
    pub grid_error: Length,
    /// By root-sum-square: means, and so many deviations of all together as a normal sum would need.
    pub root_sum_square: Length,
}

/// Works out the least projection with which a share of rods is full; none where the figures are beyond any base.
///
/// Every term that varies is rounded up to the grid, so that the sum is never too small; it is too large by less than
/// one step of the grid for each such term.
///
/// # Units
/// `grid` is the step of the grid; it is made ten times as coarse for as long as the bands have more than
/// 20,000 steps together.
#[must_use]
pub fn likely(terms: &Terms, spreads: Spreads, probability: Percent, grid: Length) -> Option<Likely> {
    let varying: Vec<(&Term, Spread)> = (terms.list.iter().map(|term| (term, spreads.of(term))))
        .filter(|(_, spread)| *spread != Spread::Worst)
        .collect();
    let fixed: Length =
        (terms.list.iter()).filter(|term| spreads.of(term) == Spread::Worst).map(|term| term.most).sum();
    let width: i64 = varying.iter().map(|(term, _)| (term.most - term.least).nm()).sum();
    let mut step = grid.nm().max(1);
    while width / step > MOST_STEPS {
        step = step.checked_mul(10)?;
    }
    let mut sum = Masses::nothing();
    for (term, spread) in &varying {
        sum = sum.plus(&Masses::of(term.least.nm(), term.most.nm(), *spread, step));
    }
    let convolved = sum.quantile(share(probability), step)?;
    let count = i64::try_from(varying.len()).ok()?;
    Some(Likely {
        convolved: fixed + Length::from_nm(convolved),
        grid: Length::from_nm(step),
        grid_error: Length::from_nm(step) * count,
        root_sum_square: fixed + root_sum_square(&varying, probability)?,
    })
}

/// Most steps of the grid in all bands together.
const MOST_STEPS: i64 = 20_000;

/// Gives the means and so many deviations of the sum as leave the stated share of a normal sum below, up.
fn root_sum_square(varying: &[(&Term, Spread)], probability: Percent) -> Option<Length> {
    let normal = Normal::new(0.0, 1.0).ok()?;
    let (mut twice_the_mean, mut variance) = (0_i64, 0.0);
    for (term, spread) in varying {
        twice_the_mean = twice_the_mean.checked_add((term.least + term.most).nm())?;
        let width = (term.most - term.least).nm() as f64;
        let deviation = match spread {
            Spread::Uniform => width / 12_f64.sqrt(),
            Spread::Normal => width / 2.0 / HALF_WIDTH,
            Spread::Worst => 0.0,
        };
        variance += deviation * deviation;
    }
    let more = normal.inverse_cdf(share(probability)) * variance.sqrt();
    let nm = twice_the_mean as f64 / 2.0 + more;
    (nm.abs() < 1e15).then(|| Length::from_nm(nm.ceil() as i64))
}

/// Gives a share as a number from 0 to 1.
fn share(percent: Percent) -> f64 {
    f64::from(percent.millionths()) / 1e6
}
