//! How far a base plate stands above its pad.

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
}
