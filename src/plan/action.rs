//! A plan: one choice a column.

use super::cost::Cost;
use super::firm::Firmness;
use super::hurdle::Hurdle;
use super::limits_kept::To;
use crate::length::Length;
pub use crate::model::Action;
use serde::Serialize;

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
    pub seat_range: Option<(Option<Length>, Option<Length>)>,
    /// For `refer` in a plan of the fewest interventions: what stands in the way.
    pub hurdle: Option<Hurdle>,
}

impl Choice {
    /// Gives a choice without a raise.
    #[must_use]
    pub const fn without(action: Action) -> Self {
        Self { action, raise: None, stack: Vec::new(), held: false, seat_range: None, hurdle: None }
    }
}

/// What a plan aims at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Aim {
    /// The fewest interventions that keep every limit.
    #[default]
    Fewest,
    /// Every column into a band below one level.
    Level,
}

/// How good a plan is known to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Optimum {
    /// What it costs.
    pub cost: Cost,
    /// No plan costs less than this, in the order of the components.
    ///
    /// Up to the first component in which it differs from the cost, the cost is proven; that component is at
    /// least what is said here; what follows it here is so only for plans that come down to that.
    pub at_least: Cost,
}

impl Optimum {
    /// Tells whether no plan costs less.
    #[must_use]
    pub fn is_proven(&self) -> bool {
        self.cost == self.at_least
    }
}

/// What is done under every column, in job order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// One choice a column.
    pub choices: Vec<Choice>,
    /// What it aims at.
    pub aim: Aim,
    /// Which limits it keeps.
    pub to: To,
    /// Whether it keeps them by value and +-, and not by value alone.
    pub guarded: bool,
    /// How good it is known to be; none where it does not aim at the fewest.
    pub optimum: Option<Optimum>,
    /// How firm it stands; none where that was not tried.
    pub firm: Option<Firmness>,
    /// What is missing for a better plan; none where the pieces on hand do, or all can be ordered.
    pub shortage: Option<Shortage>,
}

/// The pieces that are missing for the plan that all thicknesses allow.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shortage {
    /// The pieces to be bought beside those on hand, thickest first; with them that plan can be done.
    pub pieces: Vec<StackPiece>,
    /// What that plan costs.
    pub cost: Cost,
}
