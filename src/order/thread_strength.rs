//! What the thread of a partly engaged nut comes to: areas and lengths for the engineer, never a verdict.
#![allow(
    clippy::float_arithmetic,
    clippy::disallowed_types,
    reason = "an area is a worked-out figure, not a length that is compared"
)]

use super::thread_form::{Profile, ThreadForm};
use super::thread_limits::thread_limits;
use crate::catalog::{Catalog, Pitch, ThreadLimits};
use crate::length::{Length, Unit};
use serde::{Serialize, Serializer};

/// An area.
///
/// # Units
/// Square millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area(f64);

impl Area {
    /// Makes an area of so many square micrometres (1/1,000,000 mm2).
    #[must_use]
    #[allow(clippy::cast_precision_loss, reason = "an area stays below 2^53 square micrometres")]
    pub fn from_square_micrometres(square_micrometres: i64) -> Self {
        Self(square_micrometres as f64 / 1e6)
    }

    /// Gives the area in square millimetres.
    pub(super) const fn square_millimetres(self) -> f64 {
        self.0
    }

    /// Gives the area in whole square micrometres (1/1,000,000 mm2), down.
    #[must_use]
    #[allow(clippy::cast_possible_truncation, reason = "no rod comes near 2^63 square micrometres")]
    pub fn square_micrometres(self) -> i64 {
        (self.0 * 1e6).floor() as i64
    }
}

impl Serialize for Area {
    /// Writes square millimetres to six decimals, down.
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        #[allow(clippy::cast_precision_loss, reason = "an area stays below 2^53 square micrometres")]
        serializer.serialize_f64(self.square_micrometres() as f64 / 1e6)
    }
}

/// The areas of so much engaged thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Engaged {
    /// How much of the outer nut's height is on thread; points and countersinks are not taken off.
    pub length: Length,
    /// The least area in which the rod's thread shears, form 4a.
    pub rod_shear: Area,
    /// The least area in which the nut's thread shears, form 2a.
    pub nut_shear: Area,
    /// The simplified area of the rod's thread, form 5.
    pub rod_shear_simple: Area,
    /// The simplified area of the nut's thread, form 3.
    pub nut_shear_simple: Area,
}

/// The thread of a rod: what the engineer needs to judge a nut that is not full.
#[derive(Clone, Debug, PartialEq)]
pub struct ThreadStrength {
    /// The tensile stress area, form 1b, or its metric twin.
    pub stress_area: Area,
    /// The engagement at which the rod breaks before its own thread shears, form 14, up.
    pub rod_length: Length,
    /// The engagement at which the rod breaks before the thread of a nut of the same tensile strength shears, form
    /// 16, up. Of a nut so many times as strong it is so many times less.
    pub nut_length: Length,
    /// The engagement at which the rod breaks before both threads shear together, form 13, up.
    pub both_length: Length,
    /// The limits it was worked out from, and on whose word.
    pub limits: ThreadLimits,
    /// The classes of the thread.
    pub classes: &'static str,
    form: ThreadForm,
}

impl ThreadStrength {
    /// Works out the thread of a rod; none where the limits of its thread are not known.
    #[must_use]
    pub fn of(catalog: &Catalog, diameter: Length, pitch: Pitch) -> Option<Self> {
        let (unit, limits) = thread_limits(catalog, diameter, pitch)?;
        let (threads, over) = pitch.threads_over();
        let (profile, classes) = match unit {
            Unit::Inch => (Profile::Unified, "2A/2B"),
            _ => (Profile::Metric, "6g/6H"),
        };
        #[allow(clippy::cast_precision_loss, reason = "no thread has 2^53 turns")]
        let form = ThreadForm {
            profile,
            diameter: millimetres(diameter),
            pitch: millimetres(over) / threads as f64,
            rod_major: millimetres(limits.rod_major),
            rod_pitch: millimetres(limits.rod_pitch),
            nut_minor: millimetres(limits.nut_minor),
            nut_pitch: millimetres(limits.nut_pitch),
        };
        Some(Self {
            stress_area: Area(form.stress_area()),
            rod_length: length_up(form.rod_length()),
            nut_length: length_up(form.nut_length(1.0)),
            both_length: length_up(form.both_length()),
            limits,
            classes,
            form,
        })
    }

    /// Gives the areas of so much engaged thread; less than none counts as none.
    #[must_use]
    pub fn engaged(&self, length: Length) -> Engaged {
        let length = length.max(Length::ZERO);
        let engaged = millimetres(length);
        Engaged {
            length,
            rod_shear: Area(self.form.rod_shear(engaged)),
            nut_shear: Area(self.form.nut_shear(engaged)),
            rod_shear_simple: Area(self.form.rod_shear_simple(engaged)),
            nut_shear_simple: Area(self.form.nut_shear_simple(engaged)),
        }
    }
}

#[allow(clippy::cast_precision_loss, reason = "lengths stay below 2^53 nm")]
fn millimetres(length: Length) -> f64 {
    length.nm() as f64 / 1e6
}

/// Gives a length up to the next nanometre.
#[allow(clippy::cast_possible_truncation, reason = "no engagement comes near 2^63 nm")]
fn length_up(millimetres: f64) -> Length {
    Length::from_nm((millimetres * 1e6).ceil() as i64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::load;

    /// A rod that ends below its nut has no thread in it: areas of nothing, never less.
    #[test]
    fn less_than_no_engagement_has_no_area() {
        let catalog = load().unwrap();
        let (diameter, row) = catalog.threads.iter().find_map(|table| table.rows.first()).unwrap();
        let thread = ThreadStrength::of(&catalog, *diameter, row.pitch).unwrap();
        let none = thread.engaged(Length::from_nm(-1_000_000));
        assert_eq!(none, thread.engaged(Length::ZERO));
        let areas = [none.rod_shear, none.nut_shear, none.rod_shear_simple, none.nut_shear_simple];
        assert_eq!(areas.map(Area::square_micrometres), [0; 4]);
    }
}
