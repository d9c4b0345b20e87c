//! Exact forces: newtons and pounds-force are both whole numbers here.

use super::Area;
use super::parts::{down, narrow, times, up};
use super::stress::{PER_PASCAL, Stress};

/// Parts of a newton that one unit of [`Force`] is: in these the newton and the pound-force (4.448 221 615 260 5 N, by
/// definition) are both whole.
const PER_NEWTON: i128 = 2_000_000_000_000;

/// The units of a pound-force.
const PER_POUND: i128 = 8_896_443_230_521;

/// A force, none of it lost in either system.
///
/// # Units
/// Half a trillionth of a newton.
///
/// # Example
/// ```
/// use rodreach::quantity::{Force, ForceUnit, read_force};
/// let kip = read_force("1 kip").unwrap();
/// assert_eq!(kip, read_force("1000 lb").unwrap());
/// assert_eq!((kip.millinewtons_down(), kip.millinewtons_up()), (4_448_221, 4_448_222));
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Force(i128);

/// The units a force may be written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ForceUnit {
    /// Kip, 1000 pounds-force.
    Kip,
    /// Pound-force.
    Pound,
    /// Kilonewton.
    Kilonewton,
    /// Newton.
    Newton,
}

impl ForceUnit {
    /// Gives the units of [`Force`] in one of this unit.
    #[must_use]
    pub(super) const fn parts(self) -> i128 {
        match self {
            Self::Kip => 1000 * PER_POUND,
            Self::Pound => PER_POUND,
            Self::Kilonewton => 1000 * PER_NEWTON,
            Self::Newton => PER_NEWTON,
        }
    }
}

impl Force {
    /// No force at all.
    pub const ZERO: Self = Self(0);
    /// The largest force that is read, 1 GN.
    pub const MOST_READ: Self = Self(1_000_000_000 * PER_NEWTON);

    /// Makes a force of so many of its own units.
    pub(super) const fn from_parts(parts: i128) -> Self {
        Self(parts)
    }

    /// Gives the force of a stress over an area, down; none where it is beyond what is held.
    #[must_use]
    pub fn over(stress: Stress, area: Area) -> Option<Self> {
        // a unit of stress over a square nanometre is 1 / PER_AREA units of force
        let product = stress.parts().checked_mul(area.square_nanometres())?;
        Some(Self(down(product, PER_AREA)))
    }

    /// Gives the area that a stress needs for the force, up; none where the stress is none.
    #[must_use]
    pub fn area_at(self, stress: Stress) -> Option<Area> {
        if stress.parts() <= 0 {
            return None;
        }
        let product = self.0.checked_mul(PER_AREA)?;
        Some(Area::from_square_nanometres(up(product, stress.parts())))
    }

    /// Gives so many hundredths of the force, down; none where it is beyond what is held.
    #[must_use]
    pub fn hundredths(self, hundredths: u32) -> Option<Self> {
        times(self.0, i128::from(hundredths), 100).map(Self)
    }

    /// Gives so many hundredths of the force, up; none where it is beyond what is held.
    #[must_use]
    pub fn hundredths_up(self, hundredths: u32) -> Option<Self> {
        times(-self.0, i128::from(hundredths), 100).map(|it| Self(-it))
    }

    /// Gives the force divided by so many hundredths, down; none of 0.
    #[must_use]
    pub fn by_hundredths(self, hundredths: u32) -> Option<Self> {
        (hundredths > 0).then(|| times(self.0, 100, i128::from(hundredths)).map(Self)).flatten()
    }

    /// Gives the force of which `part / whole` is this one, up; none where nothing is a part of it.
    #[must_use]
    pub fn over_share(self, part: i64, whole: i64) -> Option<Self> {
        (part > 0).then(|| times(-self.0, i128::from(whole), i128::from(part)).map(|it| Self(-it))).flatten()
    }

    /// Gives so many times the force.
    #[must_use]
    pub const fn times(self, count: u32) -> Self {
        // a u32 always fits
        Self(self.0.saturating_mul(count as i128))
    }

    /// Gives an equal share of the force among so many, up; among none all of it.
    #[must_use]
    pub fn shared_by(self, count: u32) -> Self {
        Self(up(self.0, i128::from(count.max(1))))
    }

    /// Gives the force in whole millinewtons, down.
    #[must_use]
    pub fn millinewtons_down(self) -> i64 {
        narrow(down(self.0, PER_NEWTON / 1000))
    }

    /// Gives the force in whole millinewtons, up.
    #[must_use]
    pub fn millinewtons_up(self) -> i64 {
        narrow(up(self.0, PER_NEWTON / 1000))
    }

    /// Makes a force of whole millinewtons.
    #[must_use]
    pub const fn from_millinewtons(millinewtons: i64) -> Self {
        Self(millinewtons as i128 * (PER_NEWTON / 1000))
    }

    /// Counts the force in steps of a unit's `1/parts`, down.
    #[must_use]
    pub fn steps_down(self, unit: ForceUnit, parts: i64) -> i128 {
        times(self.0, i128::from(parts), unit.parts()).unwrap_or(0)
    }

    /// Counts the force in steps of a unit's `1/parts`, up.
    #[must_use]
    pub fn steps_up(self, unit: ForceUnit, parts: i64) -> i128 {
        -times(-self.0, i128::from(parts), unit.parts()).unwrap_or(0)
    }
}

/// Square nanometres times units of stress in one unit of force.
const PER_AREA: i128 = 1_000_000_000_000_000_000 / PER_NEWTON * PER_PASCAL;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::length::Length;

    fn inches(inches: i64) -> Length {
        Length::from_nm(inches * 25_400_000)
    }

    /// The pound-force, 0.45359237 kg at 9.80665 m/s2, is 4.4482216152605 N by definition.
    #[test]
    fn a_pound_and_a_newton_are_both_whole() {
        assert_eq!(PER_POUND * 10_000_000_000_000, 44_482_216_152_605 * PER_NEWTON);
    }

    #[test]
    fn a_pound_a_square_inch_over_square_inches_is_so_many_pounds_and_nothing_is_lost() {
        let stress = crate::quantity::read_stress("3000 psi").unwrap();
        let force = Force::over(stress, Area::of([inches(22), inches(20)])).unwrap();
        assert_eq!(force, Force(1_320_000 * PER_POUND));
        assert_eq!(force.area_at(stress), Some(Area::of([inches(22), inches(20)])));
        assert_eq!(force.steps_down(ForceUnit::Kip, 10), 13_200);
    }

    #[test]
    fn shares_and_hundredths_go_the_stated_way() {
        let newton = Force(PER_NEWTON);
        assert_eq!(newton.shared_by(3), Force(666_666_666_667), "up: it has to be borne");
        assert_eq!(Force(3).hundredths(65), Some(Force(1)), "down: it is what can be borne");
        assert_eq!(newton.by_hundredths(250), Some(Force(PER_NEWTON * 2 / 5)));
        assert_eq!((newton.by_hundredths(0), newton.shared_by(0)), (None, newton));
        assert_eq!((Force(1).millinewtons_down(), Force(1).millinewtons_up()), (0, 1));
    }

    #[test]
    fn what_is_beyond_all_reading_is_no_figure() {
        let most = Stress::from_parts(i128::MAX / 2);
        assert_eq!(Force::over(most, Area::of([inches(22), inches(20)])), None);
        assert_eq!(Force(1).area_at(Stress::from_parts(0)), None);
    }
}
