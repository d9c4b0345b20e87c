//! How far a base plate stands above its pad.

use crate::catalog::{Extent, ShimPiece};
use crate::length::Length;

/// The height of the underside of the plate above the pad, negative where ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Raise {
    /// What it is called by.
    pub nominal: Length,
    /// The least it may be, with every shim at its thinnest.
    pub least: Length,
    /// The most it may be, with every shim at its thickest.
    pub most: Length,
}

impl Raise {
    /// Gives a raise that is set to height and has no tolerance: none, grout, grinding.
    #[must_use]
    pub const fn exact(height: Length) -> Self {
        Self { nominal: height, least: height, most: height }
    }

    /// Sums a stack of shims.
    #[must_use]
    pub fn of_stack<'s>(stack: impl IntoIterator<Item = (&'s ShimPiece, u32)>) -> Self {
        let none = Extent::exact(Length::ZERO);
        let sum = stack.into_iter().fold(none, |sum, (piece, count)| {
            let count = i64::from(count);
            Extent {
                least: sum.least + piece.thickness.least * count,
                nominal: sum.nominal + piece.thickness.nominal * count,
                most: sum.most + piece.thickness.most * count,
            }
        });
        Self { nominal: sum.nominal, least: sum.least, most: sum.most }
    }
}
