//! A plan: one choice a column.

use crate::length::Length;
use serde::Serialize;

/// What is done under a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Action {
    /// It is left as it is.
    NoShim,
    /// A stack of shims.
    Shim,
    /// Set to height and grouted.
    Grout,
    /// The pad is ground down.
    Grind,
    /// Nothing that is open brings it where it must be: the engineer decides.
    Refer,
    /// Its pad has no elevation.
    Unmeasured,
}

/// So many pieces of one thickness.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StackPiece {
    /// The thickness of one piece.
    pub thickness: Length,
    /// How many.
    pub count: u32,
}

/// What the plan does at one column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What is done.
    pub action: Action,
    /// The raise, negative where ground; none for `refer` and `unmeasured`.
    pub raise: Option<Length>,
    /// The stack, thickest piece first; empty without shims.
    pub stack: Vec<StackPiece>,
    /// Whether a rod or a tall stack holds the option.
    pub held: bool,
    /// For `refer`: the elevations the seat would have to come to; a missing bound is unlimited.
    pub seat_range: Option<(Option<Length>, Length)>,
}

/// What is done under every column, in job order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// One choice a column.
    pub choices: Vec<Choice>,
}
