//! The one place where floating nanometres become whole ones.

use crate::length::Length;

/// Elevations are taken to this part of a nanometre before they are rounded, so that the
/// last bits of a float, which hang on the order of the readings, decide nothing.
const PARTS_OF_ELEVATION: f64 = 1e4;

/// Likewise for a +-, so that 1587500.0000001 is 1587500 and not one more.
const PARTS_OF_PLUS_MINUS: f64 = 1e3;

/// Takes a correction to the nearest 0.0001 nm.
pub(super) fn snapped(nm: f64) -> f64 {
    (nm * PARTS_OF_ELEVATION).round() / PARTS_OF_ELEVATION
}

/// Rounds a correction to whole nanometres, halves up.
///
/// Halves go one way on both sides of zero, so that it does not matter which whole
/// number the correction is counted from.
pub(super) fn half_up(nm: f64) -> Length {
    Length::from_nm((snapped(nm) + 0.5).floor() as i64)
}

/// Rounds a +- up to whole nanometres.
pub(super) fn up(nm: f64) -> Length {
    Length::from_nm(((nm * PARTS_OF_PLUS_MINUS).round() / PARTS_OF_PLUS_MINUS).ceil() as i64)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_half_goes_up_on_both_sides_of_zero_whatever_its_last_bits() {
        let nm = |value| half_up(value).nm();
        assert_eq!([nm(0.5), nm(0.500_000_001), nm(0.499_999_999)], [1, 1, 1]);
        assert_eq!([nm(-0.5), nm(-0.500_000_001), nm(-0.499_999_999)], [0, 0, 0]);
        assert_eq!([nm(0.4999), nm(-0.5001), nm(1.5), nm(-1.5)], [0, -1, 2, -1]);
    }

    #[test]
    fn a_plus_minus_goes_up_but_not_for_its_last_bits() {
        assert_eq!(up(1_587_500.000_000_1), Length::from_nm(1_587_500));
        assert_eq!(up(1_587_499.999_999_9), Length::from_nm(1_587_500));
        assert_eq!(up(1_587_500.001), Length::from_nm(1_587_501));
        assert_eq!(up(0.0), Length::ZERO);
    }
}
