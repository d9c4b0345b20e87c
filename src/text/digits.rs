//! Lengths as bare decimal numbers with every digit they have, for files that state their unit once.

use super::length::decimal;
use crate::length::{Length, Unit};

/// Writes a length in millimetres, exactly and without its unit.
///
/// # Example
/// ```
/// use rodreach::length::Length;
/// use rodreach::text::millimetres;
/// assert_eq!(millimetres(Length::from_nm(23_812_500)), "23.8125");
/// assert_eq!(millimetres(Length::from_nm(-1)), "-0.000001");
/// ```
#[must_use]
pub fn millimetres(length: Length) -> String {
    decimal(length, Unit::Millimetre, 6)
}

/// Writes half a length in millimetres, exactly and without its unit.
#[must_use]
pub fn half_in_millimetres(length: Length) -> String {
    let sign = if length.is_negative() { "-" } else { "" };
    let (whole, rest) = (length.abs().nm() / 2_000_000, length.abs().nm() % 2_000_000 * 5);
    match format!("{rest:07}").trim_end_matches('0') {
        "" => format!("{sign}{whole}"),
        tail => format!("{sign}{whole}.{tail}"),
    }
}

/// Writes a length in inches, exactly and without its unit; none where six decimals do not do: every 1/64 in is written.
#[must_use]
pub fn inches(length: Length) -> Option<String> {
    let millionths = i128::from(length.nm()) * 1_000_000;
    (millionths % i128::from(Unit::Inch.nm()) == 0).then(|| decimal(length, Unit::Inch, 6))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_a_nanometre_is_written() {
        let half = |nm: i64| half_in_millimetres(Length::from_nm(nm));
        assert_eq!([half(1), half(23_812_500), half(30_000_000)], ["0.0000005", "11.90625", "15"]);
        assert_eq!([half(0), half(-3)], ["0", "-0.0000015"]);
    }

    #[test]
    fn a_sixty_fourth_is_written_and_a_millimetre_is_no_finite_number_of_inches() {
        assert_eq!(inches(Length::from_nm(396_875)).as_deref(), Some("0.015625"));
        assert_eq!(inches(Length::from_nm(38_100_000)).as_deref(), Some("1.5"));
        assert_eq!(inches(Length::from_nm(1_000_000)), None);
    }
}
