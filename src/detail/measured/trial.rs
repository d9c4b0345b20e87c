//! What becomes of measured rods under another projection on the drawing.

use super::sample::{MeasuredColumn, MeasuredRod, Need};
use crate::detail::kinds::Member;
use crate::length::{Length, Rounding};
use crate::model::{Condition, Raise, Rod, State, stack_up};

/// How many rods are in each state.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Full.
    pub full: usize,
    /// Nut full, less thread beyond than wanted.
    pub scant: usize,
    /// Too close to call.
    pub unsure: usize,
    /// Not full, whatever the parts.
    pub short: usize,
    /// The thread runs out under the nut.
    pub runs_out: usize,
    /// Without a raise, so that nothing is said.
    pub without_raise: usize,
    /// Of those that are judged, how many have no thread measured: whether it runs out is not known.
    pub thread_unknown: usize,
}

/// A projection on the step and what it does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Candidate {
    /// The projection on the drawing.
    pub projection: Length,
    /// What becomes of the rods, the threads left as they are.
    pub counts: Counts,
    /// How many columns it clears, thread apart.
    pub cleared: usize,
    /// The thread on the drawing with which no measured thread would run out; none where that cannot be told.
    pub thread: Option<Length>,
}

/// Most candidates that are listed.
const MOST: usize = 40;

/// Counts the rods with every projection moved by what a member's drawing would change; none leaves a member out.
pub(super) fn counts(
    members: &[Member<'_>],
    columns: &[MeasuredColumn],
    moved: impl Fn(&Member<'_>) -> Option<Length>,
) -> Counts {
    let mut counts = Counts::default();
    for column in columns {
        let Some((member, more)) = members.get(column.member).and_then(|it| Some((it, moved(it)?))) else {
            continue;
        };
        for rod in &column.rods {
            let Some(raise) = column.raise else {
                counts.without_raise += 1;
                continue;
            };
            counts.thread_unknown += usize::from(rod.thread.is_none());
            match state(member, raise, rod, more) {
                State::Full => counts.full += 1,
                State::Scant => counts.scant += 1,
                State::Unsure => counts.unsure += 1,
                State::Short => counts.short += 1,
                State::RunsOut => counts.runs_out += 1,
                State::Unmeasured => {}
            }
        }
    }
    counts
}

/// Judges one rod with so much more projection; its thread stays as it was measured.
fn state(member: &Member<'_>, raise: Raise, rod: &MeasuredRod, more: Length) -> State {
    let longer = Rod {
        projection: Some(rod.projection + more),
        plus_minus: Some(rod.plus_minus),
        thread: rod.thread,
        condition: Condition::Sound,
        ..Rod::unmeasured(rod.label)
    };
    stack_up(member.base, raise, &longer, rod.plus_minus).state
}

/// Tries every projection on the step from the lowest that is drawn or would do for a rod to the highest that any needs;
/// gives the highest ones, and how many lower ones are left out.
pub(super) fn candidates(
    members: &[Member<'_>],
    columns: &[MeasuredColumn],
    step: Length,
    specified: Option<Length>,
) -> (Vec<Candidate>, usize) {
    let drawn = || members.iter().filter_map(|member| member.base.rods.projection);
    let needs = || columns.iter().flat_map(|column| &column.rods).filter_map(|rod| rod.needs);
    let low = drawn().chain(needs()).min();
    let high = drawn().chain(needs()).chain(specified).max();
    let (Some(low), Some(high), true) = (low, high, needs().next().is_some()) else {
        return (Vec::new(), 0);
    };
    let (first, last) = (low.steps(step, Rounding::Down), high.steps(step, Rounding::Up));
    let wanted = usize::try_from(last.saturating_sub(first)).unwrap_or(usize::MAX).saturating_add(1);
    let shown = wanted.min(MOST);
    let from = last.saturating_sub(i64::try_from(shown).unwrap_or(0)) + 1;
    let list = (from..=last).map(|steps| candidate(members, columns, step * steps)).collect();
    (list, wanted - shown)
}

fn candidate(members: &[Member<'_>], columns: &[MeasuredColumn], projection: Length) -> Candidate {
    let moved = |member: &Member<'_>| Some(projection - member.base.rods.projection?);
    let cleared = |column: &&MeasuredColumn| matches!(column.need, Need::UpTo(need) if need <= projection);
    Candidate {
        projection,
        counts: counts(members, columns, moved),
        cleared: columns.iter().filter(cleared).count(),
        thread: thread(members, columns, projection),
    }
}

/// Gives the thread on the drawing with which every measured thread would be long enough, under a levelling nut too, no
/// washer added.
fn thread(members: &[Member<'_>], columns: &[MeasuredColumn], projection: Length) -> Option<Length> {
    let each = columns.iter().flat_map(|column| {
        column.rods.iter().filter_map(move |rod| {
            let base = members.get(column.member)?.base;
            let (drawn, drawn_thread) = (base.rods.projection?, base.rods.thread?);
            let raise = column.raise?;
            let above = rod.projection + (projection - drawn) - raise.least;
            let below = base.levelling().map_or_else(
                || -(base.plate.thickness.least + base.washers_with(0).least),
                |levelling| levelling.height().most,
            );
            let wanted = above + below + base.clear.value + rod.plus_minus;
            Some(drawn_thread + (wanted - rod.thread?))
        })
    });
    each.max()
}
