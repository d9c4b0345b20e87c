//! The whole numbers that flow through a network.

use std::fmt::Debug;
use std::ops::{Add, Sub};

/// A whole number that flows: 64 bits, or 128 where the totals of a job do not fit.
pub(super) trait Capacity:
    Copy + Debug + Default + Ord + Add<Output = Self> + Sub<Output = Self>
{
    /// What never runs out: no total of a stage comes near it.
    const UNLIMITED: Self;
    /// Totals of one stage stay below this.
    const MOST: i128;

    /// Takes a whole number below [`Self::MOST`].
    fn of(number: i128) -> Self;

    /// Adds, and stays at what never runs out.
    fn add_capped(self, other: Self) -> Self {
        (self + other).min(Self::UNLIMITED)
    }
}

impl Capacity for i64 {
    const UNLIMITED: Self = 1 << 61;
    const MOST: i128 = 1 << 59;

    fn of(number: i128) -> Self {
        Self::try_from(number).unwrap_or(Self::UNLIMITED)
    }
}

impl Capacity for i128 {
    const UNLIMITED: Self = 1 << 125;
    const MOST: i128 = 1 << 123;

    fn of(number: i128) -> Self {
        number
    }
}
