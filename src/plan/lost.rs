//! Why each option at a column was not taken.

use super::action::{Action, Plan};
use super::cells::domains;
use super::cost::Cost;
use super::fewest::{Wish, plan_fewest};
use super::hurdle::rod_that_stops;
use super::limits_kept::Tie;
use super::options::PlannedOption;
use super::pose::Posed;
use super::reach::{Domain, End, Reach, reach};
use crate::length::Length;
use crate::levels::Levelled;
use crate::model::{Job, RodLabel, State};
use std::collections::BTreeMap;

/// Most work that planning anew with every option may take: options times all that is open at all pads.
const MOST_WORK: usize = 400_000;

/// An option at a column and what became of it.
#[derive(Clone, Debug)]
pub struct Considered {
    /// The option.
    pub option: PlannedOption,
    /// Whether a rod or a tall stack holds it.
    pub held: bool,
    /// What became of it.
    pub fate: Fate,
    /// What the whole plan would cost with it; none where that was not tried, or cannot be.
    pub whole: Option<Cost>,
}

/// What became of an option.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    /// It is taken.
    Taken,
    /// A rod forbids it.
    Rod(RodLabel, State),
    /// It leaves the limit from the column's design seat.
    Design,
    /// With all other seats as planned it stands too far from one of them.
    Apart {
        /// Under which limit.
        tie: Tie,
        /// From which column, an index into [`Job::columns`].
        column: usize,
    },
    /// It would do, and the column is held at another raise by wish.
    HeldElsewhere,
    /// It would do, and costs more.
    Dearer,
    /// It would do and costs as much; the seats then are less flat, or higher.
    NoFlatter,
}

/// Tells what became of every option at a column of a plan with the fewest interventions, lowest raise first.
///
/// All else is taken as planned; where the job is small enough, the whole is planned anew with each.
/// Of several stacks of one height the one that counts is told. None where the pad is not measured.
#[must_use]
pub fn considered(
    job: &Job,
    levels: &Levelled,
    wish: &Wish,
    plan: &Plan,
    column: usize,
) -> Option<Vec<Considered>> {
    let wish_free = Wish { pins: without(&wish.pins, column), ..wish.clone() };
    let posed = Posed::new(job, levels, &wish_free).ok()?;
    let at = posed.task.pads.iter().position(|pad| pad.column == column)?;
    let taken = plan.choices.get(column)?;
    let reached = [End::Low, End::High].map(|end| reach(&posed.system, &beside(&posed, plan, at), end));
    let open: usize = posed.task.pads.iter().map(|pad| pad.open.len()).sum();
    let pad = &posed.task.pads[at];
    let anew = job.shims.stock.is_none() && open.saturating_mul(pad.open.len()) <= MOST_WORK;
    let own = pad.open.iter().find(|it| Some(Length::from_nm(it.departure - pad.departure)) == taken.raise);
    let mut told: BTreeMap<(Length, Action), Considered> = BTreeMap::new();
    for (index, option) in pad.own.clone().zip(posed.task.options_of(pad)) {
        let candidate = pad.open.iter().find(|it| it.option == index);
        let raise = option.raise.nominal;
        let fate =
            if taken.action == option.action && taken.raise == Some(raise) && taken.stack == option.stack {
                Fate::Taken
            } else if let Some((_, rod, state)) = rod_that_stops(job, column, option) {
                Fate::Rod(rod, state)
            } else if pad.window.is_some_and(|most| (pad.departure + raise.nm()).abs() > most) {
                Fate::Design
            } else if let Some(fate) = apart(&posed, &reached, at, pad.departure + raise.nm()) {
                fate
            } else if wish.pins.contains_key(&column) {
                Fate::HeldElsewhere
            } else if own.is_some_and(|own| candidate.is_none_or(|it| it.cost > own.cost)) {
                Fate::Dearer
            } else {
                Fate::NoFlatter
            };
        let whole = candidate.filter(|_| anew && fate != Fate::Taken).and_then(|_| {
            let mut wish = wish_free.clone();
            wish.pins.insert(column, option.clone());
            plan_fewest(job, levels, &wish).ok()?.optimum.map(|optimum| optimum.cost)
        });
        let held = candidate.is_some_and(|it| it.cost.held > 0);
        let it = Considered { option: option.clone(), held, fate, whole };
        // of one height the one that is open to the plan
        match told.get_mut(&(raise, option.action)) {
            Some(before) if fate == Fate::Taken || before.fate != Fate::Taken && candidate.is_some() => {
                *before = it
            }
            Some(_) => {}
            None => drop(told.insert((raise, option.action), it)),
        }
    }
    Some(told.into_values().collect())
}

fn without(pins: &BTreeMap<usize, PlannedOption>, column: usize) -> BTreeMap<usize, PlannedOption> {
    let mut pins = pins.clone();
    pins.remove(&column);
    pins
}

/// Gives what every variable may be with all other pads as planned, and this one free.
fn beside(posed: &Posed, plan: &Plan, pad: usize) -> Vec<Domain> {
    let raise = |pad: usize| plan.choices.get(posed.task.pads[pad].column).and_then(|choice| choice.raise);
    let mut free: Vec<bool> = (0..posed.task.pads.len()).map(|pad| raise(pad).is_none()).collect();
    free[pad] = true;
    let mut all = domains(&posed.task, &posed.system, &free, None);
    for (index, domain) in all.iter_mut().enumerate().take(posed.task.pads.len()) {
        if let Some(raise) = raise(index).filter(|_| index != pad) {
            *domain = Domain::Values(vec![posed.task.pads[index].departure + raise.nm()]);
        }
    }
    all
}

/// Finds the seat that another stands too far from.
fn apart(posed: &Posed, reached: &[Reach; 2], pad: usize, departure: i64) -> Option<Fate> {
    let [lows, highs] = reached;
    let from = if lows.ends[pad].is_some_and(|low| departure < low) {
        lows
    } else if highs.ends[pad].is_some_and(|high| departure > high) {
        highs
    } else {
        return None;
    };
    let links = from.reason(pad);
    let tie = links.last()?.bound.map(|bound| posed.system.bounds[bound].tie)?;
    let other = links.iter().rev().skip(1).find_map(|link| posed.task.pads.get(link.variable))?;
    Some(Fate::Apart { tie, column: other.column })
}
