//! Lengths and counts as the numbers of a workbook, and the format that shows all of each.
#![allow(
    clippy::disallowed_types,
    clippy::float_arithmetic,
    clippy::cast_precision_loss,
    reason = "a workbook has no other numbers; the words and the whole nanometres stand beside each"
)]

use crate::length::{Length, Unit};
use crate::text::System;
use serde_json::Number;

/// Whole numbers up to this are exact in a workbook.
const MOST_EXACT: i64 = 1 << 53;

/// Gives a whole number; none where a workbook could not hold it exactly.
pub(super) fn count(whole: i64) -> Option<f64> {
    (-MOST_EXACT..=MOST_EXACT).contains(&whole).then_some(whole as f64)
}

/// Gives a mass, a volume or an area as JSON has it; none where it is no number of a workbook.
pub(super) fn figure(number: &Number) -> Option<f64> {
    number.as_f64()
}

/// Gives a length in inches or millimetres, and a format that hides nothing of it.
///
/// A whole number of 1/64 in is shown as a fraction, reduced (`# ??/16` would show 1-1/64 as 1). Inches with more
/// than six decimals are shown with a `~`.
pub(super) fn measure(length: Length, system: System) -> (f64, &'static str) {
    let (unit, nm) = match system {
        System::Inch => (Unit::Inch.nm(), length.nm()),
        System::Metric => (Unit::Millimetre.nm(), length.nm()),
    };
    // one division of two whole numbers that are exact: the nearest number there is
    let number = nm as f64 / unit as f64;
    let format = match system {
        System::Metric => "0.0#####",
        System::Inch if nm % (unit / 64) == 0 => "# ??/??",
        System::Inch if i128::from(nm) * 1_000_000 % i128::from(unit) == 0 => "0.0#####",
        System::Inch => "\"~\"0.000000",
    };
    (number, format)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::length::{Bare, read};

    fn inches(text: &str) -> (f64, &'static str) {
        measure(read(text, Bare::of(Unit::Inch)).unwrap(), System::Inch)
    }

    #[test]
    fn sixty_fourths_are_fractions_and_nothing_finer_is() {
        for (text, number) in [("1-1/64", 1.015_625), ("-3/8", -0.375), ("0", 0.0), ("1199-7/8", 1199.875)] {
            assert_eq!(inches(text), (number, "# ??/??"), "{text}");
        }
        assert_eq!(inches("0.758"), (0.758, "0.0#####"));
        assert_eq!(inches("3.2 mm").1, "\"~\"0.000000");
    }

    #[test]
    fn millimetres_are_the_decimal_that_was_meant() {
        let mm = |text: &str| measure(read(text, Bare::of(Unit::Millimetre)).unwrap(), System::Metric);
        for text in ["3.1", "-0.000001", "100234.5", "1234567.123456"] {
            let (number, format) = mm(text);
            assert_eq!((number.to_string().as_str(), format), (text, "0.0#####"));
        }
    }

    #[test]
    fn a_count_is_exact_or_not_a_number() {
        assert_eq!(count(-3_175_000), Some(-3_175_000.0));
        assert_eq!(count(MOST_EXACT + 1), None);
    }
}
