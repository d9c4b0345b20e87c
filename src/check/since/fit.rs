//! Whether what was planned then still does at the new measurement: the limits, and every rod.

use super::setting::setting;
use crate::check::case::{Case, ColumnCase};
use crate::check::difference::{Difference, DifferenceKind, Verdict};
use crate::check::hold::Hold;
use crate::length::Length;
use crate::model::{Action, Earlier, EarlierColumn};
use serde::Serialize;

/// Whether what was planned then fits as it is; the worse, the greater.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum StillFits {
    /// It keeps the limits, and every nut is full.
    Yes,
    /// It does by figures, and the engineer has to agree first.
    Ask,
    /// Something is not known, or too close to call: no pass.
    Unknown,
    /// It does not.
    No,
}

/// Why it does not, or may not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// The column is not in the earlier answer.
    New,
    /// Nothing was planned there then: its pad was not measured, or it was left to the engineer.
    NothingThen(Action),
    /// Its pad has no elevation now.
    NoPad,
    /// It is held.
    Held(Hold),
    /// A thickness is not among the shims of the job: its tolerance is not known.
    UnknownShim(Length),
    /// It stands on another base now, for which nothing was made.
    OtherBase,
    /// Its plate is set on something else now, and parts of either way go with it.
    OtherSetting,
    /// Number, size or pieces of its packs are not those of now, or were not told.
    OtherPacks,
    /// Its levelling nuts, or the washers on them, are not those of now, or were not told.
    OtherLevelling,
    /// A difference is out of its limit: an index into the differences of the case.
    Apart(usize),
    /// A difference is too close to its limit, where limits are kept by value and +-.
    Close(usize),
}

impl Why {
    const fn fit(self) -> StillFits {
        match self {
            Self::New
            | Self::NothingThen(_)
            | Self::NoPad
            | Self::UnknownShim(_)
            | Self::OtherSetting
            | Self::OtherPacks
            | Self::OtherLevelling
            | Self::Close(_) => StillFits::Unknown,
            Self::OtherBase | Self::Apart(_) => StillFits::No,
            Self::Held(hold) => match hold {
                Hold::RodShort | Hold::RodRunsOut | Hold::RodScant | Hold::PadTilted | Hold::LevellingNut => {
                    StillFits::No
                }
                Hold::RodUnmeasured | Hold::RodUnsure => StillFits::Unknown,
                Hold::ConcreteStrength
                | Hold::RodCondition
                | Hold::RodsTooFew
                | Hold::TallStack
                | Hold::Grout
                | Hold::Grind => StillFits::Ask,
            },
        }
    }
}

/// Judges what was planned then at every column of the job, in its order; `case` is that plan at the new measurement.
pub(super) fn fits(case: &Case<'_>, earlier: &Earlier) -> Vec<(StillFits, Vec<Why>)> {
    let apart = apart(case);
    let each = case.columns.iter().map(|column| {
        let why = match earlier.column(&case.column(column.index).mark) {
            None => vec![Why::New],
            Some(then) => why(case, column, then, &apart),
        };
        (why.iter().map(|why| why.fit()).max().unwrap_or(StillFits::Yes), why)
    });
    each.collect()
}

fn why(case: &Case<'_>, column: &ColumnCase, then: &EarlierColumn, apart: &[(Why, Vec<usize>)]) -> Vec<Why> {
    if matches!(then.action, Action::Refer | Action::Unmeasured) {
        return vec![Why::NothingThen(then.action)];
    }
    let mut found = Vec::new();
    if then.base != case.base(column.index).mark {
        found.push(Why::OtherBase);
    }
    if column.pad.is_none() {
        found.push(Why::NoPad);
    }
    found.extend(column.hold.iter().map(|hold| Why::Held(*hold)));
    let known = |thickness: Length| case.job.shims.pieces.iter().any(|it| it.thickness.nominal == thickness);
    let of_packs = then.packs.as_ref().and_then(|packs| packs.pieces.as_deref()).unwrap_or_default();
    let strange = then.stack.iter().chain(of_packs).filter(|(thickness, _)| !known(*thickness));
    found.extend(strange.map(|(thickness, _)| Why::UnknownShim(*thickness)));
    if then.base == case.base(column.index).mark {
        found.extend(setting(case.base(column.index), then));
    }
    found.extend(apart.iter().filter(|(_, ends)| ends.contains(&column.index)).map(|(why, _)| *why));
    found
}

/// Lists the differences that are not kept, each with the columns at its ends.
///
/// Limits are kept by value, as the plan keeps them; by value and +- where it was asked for that.
fn apart(case: &Case<'_>) -> Vec<(Why, Vec<usize>)> {
    let all = case.differences.iter().enumerate();
    all.filter_map(|(at, it)| {
        let out = it.value?.abs() > it.limit;
        let close = case.plan.guarded && it.verdict == Verdict::Unsure;
        let why = match (out, close) {
            (true, _) => Why::Apart(at),
            (false, true) => Why::Close(at),
            (false, false) => return None,
        };
        Some((why, ends(case, it)))
    })
    .collect()
}

/// Gives the columns at the ends of a difference: both, or the highest and the lowest.
fn ends(case: &Case<'_>, it: &Difference) -> Vec<usize> {
    if matches!(it.kind, DifferenceKind::Neighbours | DifferenceKind::Design) {
        return it.columns.clone();
    }
    let departure = |index: usize| case.columns.get(index)?.seat_departure;
    let known = || it.columns.iter().filter_map(|&index| departure(index));
    let (low, high) = (known().min(), known().max());
    let at_an_end = |index: &usize| departure(*index).is_some_and(|it| Some(it) == low || Some(it) == high);
    it.columns.iter().copied().filter(at_an_end).collect()
}
