//! The global test: do the readings agree within their +-?

use super::adjust::Adjustment;
use super::observation::{Observation, Precision};
use statrs::distribution::{ChiSquared, ContinuousCDF};

/// Standard deviations in the half width of 95 %.
pub(super) const HALF_WIDTH: f64 = 1.96;

/// Half of the 5 % at which the test is made, on each side.
const TAIL: f64 = 0.025;

/// The test of all readings together, at 5 %.
///
/// The weighted sum of squared residuals against the chi-squared distribution of the redundancy.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GlobalTest {
    /// The weighted sum of squared residuals.
    pub statistic: f64,
    /// The lower bound; below it the readings agree better than their +- says.
    pub lower: f64,
    /// The upper bound.
    pub upper: f64,
    /// Whether the statistic is no more than the upper bound.
    pub passed: bool,
}

/// Tests the adjustment; none where nothing is redundant or the readings are called exact.
pub(super) fn global_test(
    adjustment: &Adjustment,
    observations: &[Observation],
    precision: Precision,
    redundancy: usize,
) -> Option<GlobalTest> {
    if redundancy == 0 || precision.exact {
        return None;
    }
    let deviation = precision.unit / HALF_WIDTH;
    let squares = observations.iter().filter_map(|observation| {
        let residual = adjustment.residual(observation)? / deviation;
        Some(observation.weight * residual * residual)
    });
    // what was known of the slopes beforehand is tested with the readings
    let known = adjustment.systematic.squares_of_priors(&adjustment.slopes) / (deviation * deviation);
    let statistic = squares.sum::<f64>() + known;
    let (lower, upper) = bounds(redundancy)?;
    Some(GlobalTest { statistic, lower, upper, passed: statistic <= upper })
}

/// Gives the bounds between which 95 % of such statistics lie.
fn bounds(redundancy: usize) -> Option<(f64, f64)> {
    let distribution = ChiSquared::new(redundancy as f64).ok()?;
    Some((quantile(&distribution, TAIL), quantile(&distribution, 1.0 - TAIL)))
}

/// Finds a quantile by halving, to the last bit.
///
/// The `inverse_cdf` of the distribution takes Newton steps that leave the positive numbers
/// where the density is steep: at one degree of freedom its lower quantile is not a number.
fn quantile(distribution: &ChiSquared, share: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    while distribution.cdf(high) < share {
        (low, high) = (high, high * 2.0);
    }
    loop {
        let middle = f64::midpoint(low, high);
        if middle <= low || middle >= high {
            return high;
        }
        if distribution.cdf(middle) < share { low = middle } else { high = middle }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    /// Quantiles 0.025 and 0.975 of chi-squared, recomputed with scipy 1.17.1.
    #[test]
    fn the_bounds_are_those_of_the_tables() {
        let table = [
            (1, 0.0010, 5.0239),
            (2, 0.0506, 7.3778),
            (3, 0.2158, 9.3484),
            (6, 1.2373, 14.4494),
            (10, 3.2470, 20.4832),
            (30, 16.7908, 46.9792),
        ];
        for (redundancy, lower, upper) in table {
            let (low, high) = bounds(redundancy).unwrap();
            assert_abs_diff_eq!(low, lower, epsilon = 6e-5);
            assert_abs_diff_eq!(high, upper, epsilon = 6e-5);
        }
    }

    /// For a large redundancy r, chi-squared is near r with a standard deviation of the root of 2 r.
    #[test]
    fn a_very_large_redundancy_has_its_bounds_too() {
        let redundancy = 200_000_usize;
        let (low, high) = bounds(redundancy).unwrap();
        let half_width = HALF_WIDTH * (2.0 * redundancy as f64).sqrt();
        assert_abs_diff_eq!(high - redundancy as f64, half_width, epsilon = 4.0);
        assert_abs_diff_eq!(redundancy as f64 - low, half_width, epsilon = 4.0);
    }
}
