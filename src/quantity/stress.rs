//! Exact stresses: pascals and pounds a square inch are both whole numbers here.

use super::parts::{down, narrow, times};

/// The units of a pascal.
pub(super) const PER_PASCAL: i128 = 1_290_320_000;

/// The units of a pound-force a square inch, 4.448 221 615 260 5 N over 645.16 mm2.
const PER_PSI: i128 = 8_896_443_230_521;

/// A stress, such as the strength of concrete, none of it lost in either system.
///
/// # Units
/// 1/1,290,320,000 of a pascal, in which the pascal and the pound a square inch are both whole: what is exactly three
/// quarters in one system is so in the other.
///
/// # Example
/// ```
/// use rodreach::quantity::read_stress;
/// let psi = |text| read_stress(text).unwrap();
/// assert!(psi("2250 psi").is_at_least(75, psi("3 ksi")));
/// assert!(!psi("2249 psi").is_at_least(75, psi("3 ksi")));
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Stress(i128);

/// The units a stress may be written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StressUnit {
    /// Pound-force a square inch.
    Psi,
    /// Kip a square inch.
    Ksi,
    /// Megapascal, a newton a square millimetre.
    Megapascal,
}

impl StressUnit {
    /// Gives the units of [`Stress`] in one of this unit.
    #[must_use]
    pub(super) const fn parts(self) -> i128 {
        match self {
            Self::Psi => PER_PSI,
            Self::Ksi => 1000 * PER_PSI,
            Self::Megapascal => 1_000_000 * PER_PASCAL,
        }
    }
}

impl Stress {
    /// The largest stress that is read, 100 GPa.
    pub const MOST_READ: Self = Self(100_000_000_000 * PER_PASCAL);

    /// Makes a stress of so many of its own units.
    pub(super) const fn from_parts(parts: i128) -> Self {
        Self(parts)
    }

    /// Gives the stress in its own units.
    pub(super) const fn parts(self) -> i128 {
        self.0
    }

    /// Makes a stress of whole units.
    #[must_use]
    pub const fn of(count: i64, unit: StressUnit) -> Self {
        Self(count as i128 * unit.parts())
    }

    /// Gives the stress in whole pascals, down.
    #[must_use]
    pub fn pascals(self) -> i64 {
        narrow(down(self.0, PER_PASCAL))
    }

    /// Tells whether the stress is no less than so many hundredths of another.
    #[must_use]
    pub fn is_at_least(self, hundredths: u32, of: Self) -> bool {
        self.0.saturating_mul(100) >= of.0.saturating_mul(i128::from(hundredths))
    }

    /// Gives so many hundredths of the stress, to the next unit below.
    #[must_use]
    pub fn hundredths(self, hundredths: u32) -> Self {
        Self(times(self.0, i128::from(hundredths), 100).unwrap_or(0))
    }

    /// Gives so many hundredths of the stress, to the next unit above.
    #[must_use]
    pub fn hundredths_up(self, hundredths: u32) -> Self {
        Self(-times(-self.0, i128::from(hundredths), 100).unwrap_or(0))
    }

    /// Counts the stress in steps of a unit's `1/parts`, down.
    #[must_use]
    pub fn steps_down(self, unit: StressUnit, parts: i64) -> i128 {
        times(self.0, i128::from(parts), unit.parts()).unwrap_or(0)
    }

    /// Tells whether the stress is a whole number of steps of a unit's `1/parts`.
    #[must_use]
    pub fn is_whole(self, unit: StressUnit, parts: i64) -> bool {
        self.0.saturating_mul(i128::from(parts)).rem_euclid(unit.parts()) == 0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pound_a_square_inch_is_6894_757_pascals() {
        assert_eq!(PER_PSI * 1_000_000 / PER_PASCAL, 6_894_757_293);
        assert_eq!(Stress::of(1, StressUnit::Psi).pascals(), 6_894, "down");
    }

    #[test]
    fn three_quarters_are_three_quarters_in_every_unit() {
        for (psi, part) in [(3000, 2250), (3500, 2625), (4000, 3000), (2500, 1875), (5000, 3750)] {
            let whole = Stress::of(psi, StressUnit::Psi);
            assert!(Stress::of(part, StressUnit::Psi).is_at_least(75, whole), "{psi}");
            assert!(!Stress::of(part - 1, StressUnit::Psi).is_at_least(75, whole), "{psi}");
            assert_eq!(whole.hundredths_up(75), Stress::of(part, StressUnit::Psi));
        }
        let whole = Stress::of(28, StressUnit::Megapascal);
        assert!(Stress::of(21, StressUnit::Megapascal).is_at_least(75, whole));
    }
}
