//! What can be done at one column, and what of it is held.

use super::action::{Action, Choice, StackPiece};
use super::cost::Cost;
use super::stacks::{Stack, stacks};
use crate::length::Length;
use crate::model::{Column, Job, Raise, State, state_at};
use std::borrow::Cow;

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
    /// What it is to a bed the drawings have; none where they have none.
    pub on_bed: Option<OnBed>,
}

/// A bed of grout where the drawings have one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OnBed {
    /// How thick the drawings have it.
    pub designed: Length,
    /// How far the seat then departs from its design, either way: what the bed counts as; nothing in a relative job.
    pub counts: Length,
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
            grout: u32::from(self.action == Action::Grout && self.on_bed.is_none()),
            held: u32::from(held),
            pieces: self.pieces,
            thickness: self.on_bed.map_or(self.raise.nominal.abs(), |bed| bed.counts),
        }
    }

    /// Gives how far a bed is from the one the drawings have; nothing without one.
    #[must_use]
    pub fn off_bed(&self) -> Length {
        self.on_bed.map_or(Length::ZERO, |bed| (self.raise.nominal - bed.designed).abs())
    }

    /// Counts a bed by the seat it makes of a pad that departs so far from the design seat; none in a relative job.
    pub(super) fn count_from(&mut self, departure: Option<Length>) {
        let seat = departure.map(|departure| departure + self.raise.nominal);
        if let Some(bed) = &mut self.on_bed {
            bed.counts = seat.map_or(Length::ZERO, Length::abs);
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
        options.push(PlannedOption { action: Action::Shim, raise: height, stack, pieces, on_bed: None });
    }
    options.extend(beds(job).map(|bed| plain(Action::Grout, bed)));
    if let Some(grind) = &limits.grind {
        let steps = grind.most.value.nm() / grind.step.value.nm().max(1);
        options.extend((1..=steps).map(|step| plain(Action::Grind, -(grind.step.value * step))));
    }
    options
}

/// Gives what can be done at a column: on a designed bed grout alone, and `all` where there is none.
///
/// What a bed counts as is left open: that hangs on the pad.
#[must_use]
pub fn options_at<'a>(job: &Job, column: &Column, all: &'a [PlannedOption]) -> Cow<'a, [PlannedOption]> {
    let base = job.base_of(column);
    if !base.has_bed() {
        return Cow::Borrowed(all);
    }
    let on_bed = Some(OnBed { designed: base.bed, counts: Length::ZERO });
    beds(job).map(|bed| PlannedOption { on_bed, ..plain(Action::Grout, bed) }).collect()
}

/// Lists the beds of grout on the step of their limits, thinnest first.
fn beds(job: &Job) -> impl Iterator<Item = Length> + use<'_> {
    job.limits.tables.grout.iter().flat_map(|grout| {
        let steps = (grout.most.value - grout.least.value).nm().div_euclid(grout.step.value.nm().max(1));
        (0..=steps).map(|step| grout.least.value + grout.step.value * step)
    })
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
    PlannedOption { action, raise: Raise::exact(raise), stack: Vec::new(), pieces: 0, on_bed: None }
}
