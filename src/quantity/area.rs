//! Exact areas of plates.

use super::parts::{down, narrow, up};
use crate::length::Length;

/// An area.
///
/// # Units
/// Square nanometres.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Area(i128);

impl Area {
    /// Makes an area of so many square nanometres.
    #[must_use]
    pub const fn from_square_nanometres(nanometres: i128) -> Self {
        Self(nanometres)
    }

    /// Gives the area of a rectangle; less than none counts as none.
    #[must_use]
    pub fn of([one, other]: [Length; 2]) -> Self {
        Self(i128::from(one.nm().max(0)) * i128::from(other.nm().max(0)))
    }

    /// Gives the area in square nanometres.
    #[must_use]
    pub const fn square_nanometres(self) -> i128 {
        self.0
    }

    /// Gives so many times the area, as far as it is held.
    #[must_use]
    pub const fn times(self, count: u32) -> Self {
        Self(self.0.saturating_mul(count as i128))
    }

    /// Gives the root of the product of two areas, down; none where the product is beyond what is held.
    #[must_use]
    pub fn mean(self, other: Self) -> Option<Self> {
        self.0.max(0).checked_mul(other.0.max(0)).map(|product| Self(product.isqrt()))
    }

    /// Gives the area in whole square micrometres (1/1,000,000 mm2), down.
    #[must_use]
    pub fn square_micrometres_down(self) -> i64 {
        narrow(down(self.0, 1_000_000))
    }

    /// Gives the area in whole square micrometres (1/1,000,000 mm2), up.
    #[must_use]
    pub fn square_micrometres_up(self) -> i64 {
        narrow(up(self.0, 1_000_000))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_mean_of_two_areas_is_exact_where_it_is_whole_and_goes_down_elsewhere() {
        let [four, nine] = [4, 9].map(Area::from_square_nanometres);
        assert_eq!(four.mean(nine), Some(Area::from_square_nanometres(6)));
        assert_eq!(four.mean(Area::from_square_nanometres(5)), Some(four));
        let most = Area::from_square_nanometres(i128::MAX);
        assert_eq!(most.mean(most), None);
    }

    #[test]
    fn a_side_of_nothing_leaves_no_area() {
        let sides = [Length::from_nm(-3), Length::from_nm(-4)];
        assert_eq!(Area::of(sides), Area::default());
    }
}
