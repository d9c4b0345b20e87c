//! Masses and volumes as JSON and sheets have them.

use super::check_json::decimal;
use crate::length::{Length, Volume};
use crate::order::Mass;
use serde_json::Number;

/// Gives a mass in kilograms, to the milligram.
pub(super) fn kg(mass: Mass) -> Number {
    decimal(i128::from(mass.milligrams()), 6)
}

/// Gives a volume in litres, up to the cubic millimetre.
pub(super) fn litres(volume: Volume) -> Number {
    decimal(i128::try_from(volume.mm3()).unwrap_or(i128::MAX), 6)
}

/// Gives the area of a rectangle in square millimetres, up to a millionth of one.
pub(super) fn mm2(sides: [Length; 2]) -> Number {
    let [a, b] = sides.map(|side| i128::from(side.nm()).abs());
    decimal((a * b + 999_999) / 1_000_000, 6)
}

/// Writes a number into a cell; blank where it is not known.
pub(super) fn cell(number: Option<Number>) -> String {
    number.map(|number| number.to_string()).unwrap_or_default()
}
