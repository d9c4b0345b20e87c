//! What may lie between two bounds: how it is judged, which bound is told, and both in words.

use crate::check::finding::{Level, Outcome};
use crate::length::Length;
use crate::text::{Relation, Style};

/// Judges how far something stands from its design: asked about beyond either bound.
pub(super) fn outcome(off: Length, [low, high]: [Length; 2]) -> Outcome {
    if off < low || off > high {
        return Outcome::Fail(Level::Ask);
    }
    Outcome::Pass { margin: Some((off - low).min(high - off)) }
}

/// Gives the bound that is broken or nearer.
pub(super) fn bound(off: Length, [low, high]: [Length; 2]) -> (Length, Relation) {
    if high - off <= off - low { (high, Relation::AtMost) } else { (low, Relation::AtLeast) }
}

/// Writes both bounds, every digit.
pub(super) fn words([low, high]: [Length; 2], style: Style) -> String {
    format!("from {} to {}", style.exact(low), style.exact(high))
}
