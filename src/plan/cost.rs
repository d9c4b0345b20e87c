//! What a plan costs, in the order in which it counts.

use crate::length::Length;
use std::ops::Add;

/// What a plan asks of those who do the work; the first component counts more than all that follow.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Cost {
    /// Columns referred to the engineer.
    pub refer: u32,
    /// Pads ground.
    pub grind: u32,
    /// Columns set to height and grouted, a designed bed not counted.
    pub grout: u32,
    /// Options held by rods or by the height of the stack.
    pub held: u32,
    /// Shim pieces.
    pub pieces: u32,
    /// Shims, grout beds and grinding depths in all; for a designed bed what the seat departs from its design.
    pub thickness: Length,
}

impl Cost {
    /// What a referred column costs.
    pub(super) const REFER: Self =
        Self { refer: 1, grind: 0, grout: 0, held: 0, pieces: 0, thickness: Length::ZERO };

    /// Gives the components in their order, the thickness in nanometres.
    #[must_use]
    pub fn components(&self) -> [i64; 6] {
        let [refer, grind, grout, held, pieces] =
            [self.refer, self.grind, self.grout, self.held, self.pieces].map(i64::from);
        [refer, grind, grout, held, pieces, self.thickness.nm()]
    }

    /// Gives the components in the order in which grinding counts after shim pieces.
    pub(super) fn components_grind_after_shims(&self) -> [i64; 6] {
        let [refer, grind, grout, held, pieces, thickness] = self.components();
        [refer, grout, held, pieces, grind, thickness]
    }
}

impl Add for Cost {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self {
            refer: self.refer.saturating_add(other.refer),
            grind: self.grind.saturating_add(other.grind),
            grout: self.grout.saturating_add(other.grout),
            held: self.held.saturating_add(other.held),
            pieces: self.pieces.saturating_add(other.pieces),
            thickness: self.thickness + other.thickness,
        }
    }
}

impl std::iter::Sum for Cost {
    fn sum<I: Iterator<Item = Self>>(each: I) -> Self {
        each.fold(Self::default(), Add::add)
    }
}
