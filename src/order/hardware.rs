//! The hardware at each column: one row a column, so that a crate can be packed from it.

use super::packs::{ColumnPacks, packs};
use crate::check::{Case, ColumnCase};
use crate::length::Length;
use crate::model::{NutPart, RodLabel, Setting, State};
use crate::plan::{Action, StackPiece};

/// What stands at one column.
#[derive(Clone, Debug)]
pub struct HardwareRow {
    /// The column's mark.
    pub mark: String,
    /// Its base's mark.
    pub base: String,
    /// The rods: how many and which size.
    pub rods: (u32, String),
    /// The nuts of each rod, from the plate up, by series, and by grade where given.
    pub nuts: Vec<String>,
    /// The washers of each rod, from the plate up, by series, without extra ones.
    pub washers: Vec<String>,
    /// The washers added under nuts: series and how many at this column in all.
    pub extra: Option<(String, u32)>,
    /// The rods that take them, and how many each.
    pub extra_rods: Vec<(RodLabel, u32)>,
    /// The plate thickness.
    pub plate: Length,
    /// The stack under the plate, thickest first.
    pub stack: Vec<StackPiece>,
    /// What is done.
    pub action: Action,
    /// The raise; none for `refer` and `unmeasured`.
    pub raise: Option<Length>,
    /// The bed of grout that the drawings have; 0 is none.
    pub bed: Length,
    /// The rod with the least thread to spare, and what it has.
    pub governs: Option<RodHardware>,
    /// The rods that were not measured: any of them may be the worst.
    pub unmeasured: Vec<RodLabel>,
    /// Whether the column may be set.
    pub may_set: bool,
    /// What its plate is set on, by the job's word, where the job says.
    pub seat_on: Option<&'static str>,
    /// What is on each rod under the plate, where it is set on levelling nuts.
    pub levelling: Option<LevellingHardware>,
    /// Its packs, where it is set on packs and a bed is planned.
    pub packs: Option<ColumnPacks>,
}

/// The levelling nuts at one column: one on each rod.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LevellingHardware {
    /// The nut by series, and by grade where given.
    pub nut: String,
    /// The washer by series, where there is one.
    pub washer: Option<String>,
}

/// The thread to spare at one rod.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RodHardware {
    /// Which rod.
    pub label: RodLabel,
    /// Rod above the outer nut less what is wanted there, every part at its most and the tape off.
    pub spare: Length,
    /// Its state.
    pub state: State,
}

/// Lists the hardware of every column in job order.
#[must_use]
pub fn hardware(case: &Case<'_>) -> Vec<HardwareRow> {
    case.columns.iter().map(|column| row(case, column)).collect()
}

fn row(case: &Case<'_>, column: &ColumnCase) -> HardwareRow {
    let base = case.base(column.index);
    let choice = case.choice(column.index);
    let extra_rods: Vec<(RodLabel, u32)> = column
        .rods
        .iter()
        .filter(|rod| rod.result.extra_washers > 0)
        .map(|rod| (rod.label, rod.result.extra_washers))
        .collect();
    let total = added_washers(&extra_rods, base.rods.count);
    HardwareRow {
        mark: case.column(column.index).mark.clone(),
        base: base.mark.clone(),
        rods: (base.rods.count, base.rods.size.clone()),
        nuts: base.nuts.iter().map(NutPart::called).collect(),
        washers: base.washers.iter().map(|washer| washer.series.clone()).collect(),
        extra: base.extra.as_ref().filter(|_| total > 0).map(|washer| (washer.series.clone(), total)),
        extra_rods,
        plate: base.plate.thickness.nominal,
        stack: choice.stack.clone(),
        action: choice.action,
        raise: column.raise.map(|raise| raise.nominal),
        bed: case.base(column.index).bed,
        governs: governs(case, column),
        unmeasured: unmeasured(column),
        may_set: column.may_set(),
        seat_on: base.setting.as_ref().map(Setting::word),
        levelling: base.levelling().map(|levelling| LevellingHardware {
            nut: levelling.nut.called(),
            washer: levelling.washer.as_ref().map(|washer| washer.series.clone()),
        }),
        packs: packs(base, &case.job.shims, column),
    }
}

/// Sums the washers added under the nuts of a column with so many rods.
///
/// The lowest and the highest of a group stand for all of its rods.
pub(super) fn added_washers(rods: &[(RodLabel, u32)], count: u32) -> u32 {
    let added = || rods.iter().filter(|(_, extra)| *extra > 0);
    if added().all(|(label, _)| matches!(label, RodLabel::Number(_))) {
        return added().map(|(_, extra)| extra).sum();
    }
    added().map(|(_, extra)| *extra).max().unwrap_or(0).saturating_mul(count)
}

fn unmeasured(column: &ColumnCase) -> Vec<RodLabel> {
    let open = column.rods.iter().filter(|rod| rod.result.state == State::Unmeasured);
    open.map(|rod| rod.label).collect()
}

/// Finds the measured rod with the least to spare; one that runs out governs before all others.
fn governs(case: &Case<'_>, column: &ColumnCase) -> Option<RodHardware> {
    let base = case.base(column.index);
    column
        .rods
        .iter()
        .filter_map(|rod| {
            let spare = rod.result.beyond_worst? - base.beyond.value - rod.plus_minus;
            Some(RodHardware { label: rod.label, spare, state: rod.result.state })
        })
        .min_by_key(|rod| (rod.state != State::RunsOut, rod.spare))
}
