//! What can be done at one column, and what of it is held.

use super::action::{Action, Choice, StackPiece};
use super::cost::Cost;
use super::stacks::{Stack, stacks};
use crate::length::Length;
use crate::model::{Column, Job, Raise, State, state_at};

/// One thing that can be done at a column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlannedOption {
    /// What is done.
    pub action: Action,
    /// The raise, negative where ground, with the least and the most it may be.
    pub raise: Raise,
    /// The stack; empty without shims.
    pub stack: Vec<StackPiece>,
    /// How many pieces the stack has.
    pub pieces: u32,
}

impl PlannedOption {
    /// Gives the choice of it.
    #[must_use]
    pub fn choice(&self, held: bool) -> Choice {
        let (raise, stack) = (Some(self.raise.nominal), self.stack.clone());
        Choice { raise, stack, held, ..Choice::without(self.action) }
    }

    /// Gives what it adds to the cost of a plan.
    #[must_use]
    pub fn cost(&self, held: bool) -> Cost {
        Cost {
            refer: 0,
            grind: u32::from(self.action == Action::Grind),
            grout: u32::from(self.action == Action::Grout),
            held: u32::from(held),
            pieces: self.pieces,
            thickness: self.raise.nominal.abs(),
        }
    }
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

/// Lists everything that can be done at a column without a designed bed: of one height the better first.
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
    let most = job.limits.tables.shim.as_ref().and_then(|shim| shim.most.as_ref());
    let tall = most.is_some_and(|most| option.raise.nominal > most.value);
    let mut held = option.action == Action::Shim && tall;
    let sound = column.rods.iter().filter(|rod| rod.condition.is_sound());
    for rod in sound {
        match state_at(job.base_of(column), option.raise, rod, rod.good_to(job.rods_plus_minus)) {
            State::Short | State::RunsOut => return Open::No,
            State::Scant | State::Unsure => held = true,
            State::Full | State::Unmeasured => {}
        }
    }
    if held { Open::Held } else { Open::Yes }
}

fn plain(action: Action, raise: Length) -> PlannedOption {
    PlannedOption { action, raise: Raise::exact(raise), stack: Vec::new(), pieces: 0 }
}
