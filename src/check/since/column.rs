//! One column that both answers have.

use super::fit::{StillFits, Why};
use super::moved::Moved;
use super::setting::is_other;
use super::stack_of;
use crate::check::case::{Case, RodCase};
use crate::length::Length;
use crate::model::{EarlierColumn, EarlierRod, RodLabel, State};
use std::collections::BTreeMap;

/// What changed at a column.
#[derive(Clone, Debug)]
pub struct ColumnChange<'e> {
    /// The column, an index into the job's.
    pub index: usize,
    /// What it was.
    pub before: &'e EarlierColumn,
    /// How far its pad moved; none where one answer has no elevation of it.
    pub moved: Option<Moved>,
    /// Whether its pad was measured then and is not now, or the other way round.
    pub pad_came_or_went: bool,
    /// Whether it stands on another base.
    pub other_base: bool,
    /// Whether something else goes under it.
    pub other_plan: bool,
    /// Whether its plate is set otherwise, by what the job says of it.
    pub other_setting: bool,
    /// Whether it is held for other reasons.
    pub other_hold: bool,
    /// The rods that changed.
    pub rods: Vec<RodChange<'e>>,
    /// Whether what was planned then fits as it is.
    pub fit: StillFits,
    /// Why not.
    pub why: Vec<Why>,
}

/// What changed at a rod.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RodChange<'e> {
    /// Which rod.
    pub label: RodLabel,
    /// What it was; none where it was not listed.
    pub before: Option<&'e EarlierRod>,
    /// What it is now; none where it is not listed.
    pub now: Option<RodNow>,
}

/// A rod now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RodNow {
    /// Its projection, where measured.
    pub projection: Option<Length>,
    /// What that is good to, at 95 %.
    pub plus_minus: Length,
    /// What is certain about its nuts.
    pub state: State,
    /// Washers added under the nut.
    pub extra_washers: u32,
}

impl RodNow {
    const fn of(rod: &RodCase) -> Self {
        Self {
            projection: rod.projection,
            plus_minus: rod.plus_minus,
            state: rod.result.state,
            extra_washers: rod.result.extra_washers,
        }
    }
}

impl RodChange<'_> {
    fn is_one(&self) -> bool {
        match (self.before, self.now) {
            (Some(before), Some(now)) => {
                (before.projection, before.state, before.extra_washers)
                    != (now.projection, now.state, now.extra_washers)
            }
            _ => true,
        }
    }
}

impl<'e> ColumnChange<'e> {
    /// Compares a column; `fit` is what was said of what was planned there.
    pub(super) fn new(
        case: &Case<'_>,
        index: usize,
        before: &'e EarlierColumn,
        moved: Option<Moved>,
        (fit, why): (StillFits, Vec<Why>),
    ) -> Self {
        let column = &case.columns[index];
        let choice = case.choice(index);
        let mut stack = stack_of(before);
        stack.sort_by_key(|piece| std::cmp::Reverse(piece.thickness));
        let raise = column.raise.map(|raise| raise.nominal);
        let hold: Vec<&str> = column.hold.iter().map(|hold| hold.name()).collect();
        Self {
            index,
            before,
            moved,
            pad_came_or_went: column.pad.is_some() != before.pad.is_some(),
            other_base: before.base != case.base(index).mark,
            other_plan: (before.action, before.raise, &stack) != (choice.action, raise, &choice.stack),
            other_setting: before.raise.is_some() && is_other(case.base(index), before),
            other_hold: before.hold != hold || before.may_set != column.may_set(),
            rods: rods(before, &column.rods),
            fit,
            why,
        }
    }

    /// Tells whether anything changed here.
    #[must_use]
    pub fn changed(&self) -> bool {
        let moved = self.moved.is_some_and(|moved| moved.by != Length::ZERO);
        let other = self.other_base || self.other_plan || self.other_hold || self.other_setting;
        moved || self.pad_came_or_went || other || !self.rods.is_empty()
    }
}

/// Lists the rods that changed, in number order.
fn rods<'e>(before: &'e EarlierColumn, now: &[RodCase]) -> Vec<RodChange<'e>> {
    let mut all: BTreeMap<RodLabel, RodChange<'e>> = BTreeMap::new();
    for rod in &before.rods {
        all.insert(rod.label, RodChange { label: rod.label, before: Some(rod), now: None });
    }
    for rod in now {
        let change = RodChange { label: rod.label, before: None, now: None };
        all.entry(rod.label).or_insert(change).now = Some(RodNow::of(rod));
    }
    all.into_values().filter(RodChange::is_one).collect()
}
