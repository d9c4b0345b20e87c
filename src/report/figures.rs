//! Masses and volumes as JSON and sheets have them.

use super::check::json::decimal;
use crate::length::{Length, Volume};
use crate::order::Mass;
use crate::quantity::Area;
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
    decimal(i128::from(Area::of(sides).square_micrometres_up()), 6)
}

/// Writes a number into a cell; blank where it is not known.
pub(super) fn cell(number: Option<Number>) -> String {
    number.map(|number| number.to_string()).unwrap_or_default()
}
