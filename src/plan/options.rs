//! What can be done at one column, and what of it is held.

use super::action::{Action, StackPiece};
use super::stacks::{Stack, stacks};
use crate::length::Length;
use crate::model::{Column, Job, Raise, State, stack_up};

/// One thing that can be done at a column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlannedOption {
    /// What is done.
    pub action: Action,
    /// The raise, negative where ground.
    pub raise: Length,
    /// The stack; empty without shims.
    pub stack: Vec<StackPiece>,
    /// How many pieces the stack has.
    pub pieces: u32,
}

/// Whether an option is open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Open {
    /// It may be planned.
    Yes,
    /// It may be planned, and a rod or a tall stack holds it.
    Held,
    /// A measured sound rod would be short or run out of thread.
    No,
}

/// Lists everything that can be done at a column without a designed bed.
#[must_use]
pub fn all_options(job: &Job) -> Vec<PlannedOption> {
    let limits = &job.limits.tables;
    let mut options = vec![plain(Action::NoShim, Length::ZERO)];
    let tallest = limits.shim.as_ref().and_then(|shim| shim.tall.as_ref()).map(|tall| tall.value);
    for stack in stacks(&job.shims, tallest) {
        let pieces = stack.count();
        let Stack { height, pieces: stack } = stack;
        options.push(PlannedOption { action: Action::Shim, raise: height, stack, pieces });
    }
    if let Some(grout) = &limits.grout {
        let steps = (grout.most.value - grout.least.value).nm().div_euclid(grout.step.value.nm().max(1));
        let bed = |step| grout.least.value + grout.step.value * step;
        options.extend((0..=steps).map(|step| plain(Action::Grout, bed(step))));
    }
    if let Some(grind) = &limits.grind {
        let steps = grind.most.value.nm() / grind.step.value.nm().max(1);
        options.extend((1..=steps).map(|step| plain(Action::Grind, -(grind.step.value * step))));
    }
    options
}

/// Gives the options that are open at a column, each with whether it is held.
#[must_use]
pub fn open_options(job: &Job, column: &Column, all: &[PlannedOption]) -> Vec<(PlannedOption, bool)> {
    all.iter()
        .filter_map(|option| match judge(job, column, option) {
            Open::Yes => Some((option.clone(), false)),
            Open::Held => Some((option.clone(), true)),
            Open::No => None,
        })
        .collect()
}

/// Tells whether an option is open at a column, and whether it is held.
#[must_use]
pub fn judge(job: &Job, column: &Column, option: &PlannedOption) -> Open {
    let raise = raise_of(job, option);
    let most = job.limits.tables.shim.as_ref().and_then(|shim| shim.most.as_ref());
    let mut held = option.action == Action::Shim && most.is_some_and(|most| option.raise > most.value);
    let sound = column.rods.iter().filter(|rod| rod.condition.is_sound());
    for rod in sound {
        match stack_up(job.base_of(column), raise, rod, job.rods_plus_minus).state {
            State::Short | State::RunsOut => return Open::No,
            State::Scant | State::Unsure => held = true,
            State::Full | State::Unmeasured => {}
        }
    }
    if held { Open::Held } else { Open::Yes }
}

fn raise_of(job: &Job, option: &PlannedOption) -> Raise {
    if option.stack.is_empty() {
        return Raise::exact(option.raise);
    }
    Raise::of_stack(option.stack.iter().filter_map(|piece| {
        let found = job.shims.pieces.iter().find(|shim| shim.thickness.nominal == piece.thickness);
        found.map(|shim| (shim, piece.count))
    }))
}

fn plain(action: Action, raise: Length) -> PlannedOption {
    PlannedOption { action, raise, stack: Vec::new(), pieces: 0 }
}
