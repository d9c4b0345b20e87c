//! Exact lengths: whole nanometres, read from text, rounded in a stated direction.
//!
//! There is no `Display` here and no wording: only [`crate::text`] turns a
//! length into words, so that a unit and a rounding are always chosen.

mod read;
mod round;
mod volume;

pub use read::{Bare, Unreadable, read};
pub use round::Rounding;
pub use volume::{Volume, read_volume};

use std::iter::Sum;
use std::ops::{Add, Mul, Neg, Sub};

/// A signed length, held as a whole number of nanometres.
///
/// Arithmetic saturates instead of overflowing; what [`read`] accepts is at
/// most 10 km, so that no sum of a real job comes near the ends.
///
/// # Units
/// Nanometres: 1/64 in is 396 875 nm and 0.01 ft is 3 048 000 nm, both exact.
///
/// # Example
/// ```
/// use rodreach::length::{Bare, Length, Unit, read};
/// let eighth = read("1/8", Bare::of(Unit::Inch)).unwrap();
/// assert_eq!(eighth, read("0.125", Bare::of(Unit::Inch)).unwrap());
/// assert_eq!(eighth, Length::from_nm(3_175_000));
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Length(i64);

/// The units a length may be written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Inch, 25.4 mm exactly.
    Inch,
    /// Foot, 12 in.
    Foot,
    /// Millimetre.
    Millimetre,
    /// Centimetre.
    Centimetre,
    /// Metre.
    Metre,
}

impl Unit {
    /// Gives the nanometres in one of this unit.
    #[must_use]
    pub const fn nm(self) -> i64 {
        match self {
            Self::Inch => 25_400_000,
            Self::Foot => 304_800_000,
            Self::Millimetre => 1_000_000,
            Self::Centimetre => 10_000_000,
            Self::Metre => 1_000_000_000,
        }
    }
}

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self(0);
    /// The largest length that is read, 10 km.
    pub const MOST_READ: Self = Self(10_000_000_000_000);

    /// Makes a length of so many nanometres.
    #[must_use]
    pub const fn from_nm(nm: i64) -> Self {
        Self(nm)
    }

    /// Gives the length in nanometres.
    #[must_use]
    pub const fn nm(self) -> i64 {
        self.0
    }

    /// Gives the length without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.saturating_abs())
    }

    /// Tells whether the length is less than nothing.
    #[must_use]
    pub const fn is_negative(self) -> bool {
        self.0 < 0
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

impl Mul<i64> for Length {
    type Output = Self;
    fn mul(self, times: i64) -> Self {
        Self(self.0.saturating_mul(times))
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
        items.fold(Self::ZERO, Add::add)
    }
}
