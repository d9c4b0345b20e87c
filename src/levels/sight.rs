//! The length of a sight, and what curvature and refraction do over it.

use super::rounding::half_up;
use crate::length::Length;

/// The radius of the earth as levelling takes it, in metres.
const RADIUS: f64 = 6_371_000.0;

/// The part of the curvature that refraction takes back: 1/7, the textbook coefficient (0.13 is also used).
const REFRACTION: f64 = 1.0 / 7.0;

/// Nanometres in a metre.
pub(super) const METRE: f64 = 1e9;

/// Gives a length in metres.
pub(super) fn metres(length: Length) -> f64 {
    length.nm() as f64 / METRE
}

/// Gives the distance between two places, in metres.
pub(super) fn apart(one: [Length; 2], other: [Length; 2]) -> f64 {
    let [x, y] = [metres(one[0] - other[0]), metres(one[1] - other[1])];
    x.hypot(y)
}

/// Gives by how much a level line of sight stands above the level surface at its end, refraction taken off.
///
/// A reading on a rod is too high by this. Source: d squared over 2 R, less one seventh, as in every textbook of
/// levelling (0.067 K squared metres, K in kilometres).
///
/// # Units
/// The sight in metres, the answer rounded to whole nanometres.
pub(super) fn curvature_and_refraction(sight: f64) -> Length {
    half_up((1.0 - REFRACTION) * curvature(sight))
}

/// Gives the curvature alone, in nanometres.
fn curvature(sight: f64) -> f64 {
    sight * sight / (2.0 * RADIUS) * METRE
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    /// Sight in metres; curvature and net correction (coefficient 1/7) in millimetres, recomputed with R = 6371 km.
    const TABLE: [(f64, f64, f64); 16] = [
        (5.0, 0.0020, 0.0017),
        (10.0, 0.0078, 0.0067),
        (15.0, 0.0177, 0.0151),
        (20.0, 0.0314, 0.0269),
        (25.0, 0.0491, 0.0420),
        (30.0, 0.0706, 0.0605),
        (40.0, 0.1256, 0.1076),
        (50.0, 0.1962, 0.1682),
        (60.0, 0.2825, 0.2422),
        (75.0, 0.4415, 0.3784),
        (100.0, 0.7848, 0.6727),
        (150.0, 1.7658, 1.5136),
        (200.0, 3.1392, 2.6908),
        (500.0, 19.6202, 16.8173),
        (1000.0, 78.4806, 67.2691),
        (2000.0, 313.9225, 269.0764),
    ];

    #[test]
    fn curvature_and_refraction_are_those_of_the_table() {
        for (sight, alone, net) in TABLE {
            assert_abs_diff_eq!(curvature(sight) / 1e6, alone, epsilon = 5.1e-5);
            let rounded = curvature_and_refraction(sight).nm() as f64 / 1e6;
            assert_abs_diff_eq!(rounded, net, epsilon = 5.1e-5);
        }
    }

    /// civinnovate.com, levelling: 0.5 km 0.0196 and 0.0168 m, 1 km 0.0785 and 0.0673 m; the rule of thumb
    /// 0.0785 K squared and 0.0673 K squared metres (technoupendra.com, civilnoteppt.com).
    #[test]
    fn published_rows_agree_to_their_last_digit() {
        for (kilometres, alone, net) in [(0.5, 0.0196, 0.0168), (1.0, 0.0785, 0.0673)] {
            assert_abs_diff_eq!(curvature(kilometres * 1e3) / METRE, alone, epsilon = 5e-5);
            let rounded = curvature_and_refraction(kilometres * 1e3).nm() as f64 / METRE;
            assert_abs_diff_eq!(rounded, net, epsilon = 5e-5);
        }
        // in feet: 0.0239 F squared and 0.0206 F squared, F in thousands of feet; 0.021 (aboutcivil.org)
        let thousand_feet = 304.8;
        assert_abs_diff_eq!(curvature(thousand_feet) / METRE / 0.3048, 0.0239, epsilon = 5e-5);
        let net = curvature_and_refraction(thousand_feet).nm() as f64 / METRE / 0.3048;
        assert_abs_diff_eq!(net, 0.0206, epsilon = 2e-4);
    }
}
