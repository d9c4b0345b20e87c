//! Why a column may not be set yet.

use super::case::{PadCase, RodCase, rods_missing};
use super::levelling::cannot_be_set;
use crate::catalog::Limits;
use crate::length::Length;
use crate::levels::PadShape;
use crate::model::{Base, Duty, State};
use crate::plan::{Action, Choice};
use serde::Serialize;

/// A reason to hold a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Hold {
    /// A rod's projection was not measured.
    RodUnmeasured,
    /// It is too close to call whether a nut is full.
    RodUnsure,
    /// Less thread stands beyond the nut than wanted.
    RodScant,
    /// A nut is not full.
    RodShort,
    /// The thread runs out under the nut.
    RodRunsOut,
    /// A rod is bent, cut, damaged.
    RodCondition,
    /// The column has too few rods.
    RodsTooFew,
    /// The stack is higher than without asking.
    TallStack,
    /// It is planned on grout, and not on a designed bed.
    Grout,
    /// Its pad is to be ground.
    Grind,
    /// Its pad falls more across the plate than a flat shim may bridge.
    PadTilted,
    /// Its levelling nuts have no room in the bed, or a thread does not reach them.
    LevellingNut,
}

impl Hold {
    /// Gives the reason as JSON has it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::RodUnmeasured => "rod-unmeasured",
            Self::RodUnsure => "rod-unsure",
            Self::RodScant => "rod-scant",
            Self::RodShort => "rod-short",
            Self::RodRunsOut => "rod-runs-out",
            Self::RodCondition => "rod-condition",
            Self::RodsTooFew => "rods-too-few",
            Self::TallStack => "tall-stack",
            Self::Grout => "grout",
            Self::Grind => "grind",
            Self::PadTilted => "pad-tilted",
            Self::LevellingNut => "levelling-nut",
        }
    }
}

/// Tells whether a pad falls more than a flat shim may bridge.
fn falls_too_much(limits: &Limits, shape: Option<&PadShape>) -> bool {
    let tilt = limits.pad.as_ref().and_then(|pad| pad.tilt.as_ref());
    tilt.zip(shape).is_some_and(|(tilt, shape)| shape.counts().value > tilt.value)
}

/// Gives the reasons to hold a column, in the order of [`Hold`].
#[must_use]
pub fn holds(
    limits: &Limits,
    base: &Base,
    choice: &Choice,
    rods: &[RodCase],
    pad: Option<&PadCase>,
    shape: Option<&PadShape>,
) -> Vec<Hold> {
    let mut found: Vec<Hold> = Vec::new();
    for rod in rods {
        if !rod.sound {
            found.push(Hold::RodCondition);
            continue;
        }
        match rod.result.state {
            State::Full => {}
            State::Unmeasured => found.push(Hold::RodUnmeasured),
            State::Unsure => found.push(Hold::RodUnsure),
            State::Scant => found.push(Hold::RodScant),
            State::Short => found.push(Hold::RodShort),
            State::RunsOut => found.push(Hold::RodRunsOut),
        }
    }
    if rods_missing(base, rods) > 0 {
        found.push(Hold::RodUnmeasured);
    }
    let least = limits.rods.as_ref().and_then(|rods| rods.least.as_ref());
    if base.duty == Duty::Column && least.is_some_and(|least| base.rods.count < least.value) {
        found.push(Hold::RodsTooFew);
    }
    let most = limits.shim.as_ref().and_then(|shim| shim.most.as_ref());
    let height: Length = choice.stack.iter().map(|piece| piece.thickness * i64::from(piece.count)).sum();
    if most.is_some_and(|most| height > most.value) {
        found.push(Hold::TallStack);
    }
    match choice.action {
        // a bed that the drawings have
        Action::Grout if base.has_bed() => {}
        Action::Grout => found.push(Hold::Grout),
        Action::Grind => found.push(Hold::Grind),
        // a bed of grout and grinding take the fall up
        Action::NoShim | Action::Shim if falls_too_much(limits, shape) => found.push(Hold::PadTilted),
        _ => {}
    }
    let bed = choice.raise.filter(|_| choice.action == Action::Grout);
    if cannot_be_set(base, bed, pad, shape, rods) {
        found.push(Hold::LevellingNut);
    }
    found.sort_unstable();
    found.dedup();
    found
}
