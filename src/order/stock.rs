//! What the shims on hand cover of an order.

use crate::length::Length;
use crate::model::ShimSupply;
use std::collections::BTreeMap;

/// The shims on hand that nothing was taken of yet; none where nothing is known to be on hand.
pub(super) struct OnHand(Option<BTreeMap<Length, u32>>);

impl OnHand {
    /// Starts with all that is on hand.
    pub(super) fn all(shims: &ShimSupply) -> Self {
        Self(shims.stock.clone())
    }

    /// Takes up to so many pieces of a thickness, and tells how many there were; none without a stock.
    pub(super) fn take(&mut self, thickness: Length, wanted: u32) -> Option<u32> {
        let stock = self.0.as_mut()?;
        let Some(left) = stock.get_mut(&thickness) else { return Some(0) };
        let taken = wanted.min(*left);
        *left -= taken;
        Some(taken)
    }
}
