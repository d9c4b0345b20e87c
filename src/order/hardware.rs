//! The hardware at each column: one row a column, so that a crate can be packed from it.

use super::fastener::Fastener;
use super::grout::GroutBed;
use super::mass::{Mass, sum_of_masses};
use super::outline::PlateKind;
use super::packs::{ColumnPacks, packs};
use crate::check::{Case, ColumnCase, Hold};
use crate::length::Length;
use crate::model::{Base, NutPart, RodLabel, Setting, State};
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
    /// The nuts and washers that the drawings have, and how many of each at this column in all.
    pub drawn: Vec<(Fastener, u32)>,
    /// The washers added under nuts, and how many at this column in all; none too where there is no raise.
    pub extra: Option<(Fastener, u32)>,
    /// The rods that take them, and how many each.
    pub extra_rods: Vec<(RodLabel, u32)>,
    /// The plate thickness.
    pub plate: Length,
    /// The two sides of the plate, where known.
    pub plate_size: Option<[Length; 2]>,
    /// The stack under the plate, thickest first.
    pub stack: Vec<StackPiece>,
    /// The same as plates that are cut, and how many of each kind.
    pub shims: Vec<(PlateKind, u32)>,
    /// The mass of these plates; none where it is not known, or there is no raise.
    pub shim_mass: Option<Mass>,
    /// The grout under the plate, where it is set on grout.
    pub grout: Option<GroutBed>,
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
    /// Why it is held.
    pub hold: Vec<Hold>,
    /// What its plate is set on, by the job's word, where the job says.
    pub seat_on: Option<&'static str>,
    /// What is on each rod under the plate, where it is set on levelling nuts.
    pub levelling: Option<LevellingHardware>,
    /// The same as it is counted at this column, apart from what is on the rods above the plate.
    pub under: Vec<(Fastener, u32)>,
    /// Its packs, where it is set on packs and a bed is planned.
    pub packs: Option<ColumnPacks>,
}

impl HardwareRow {
    /// Tells whether the plan puts something under the column, be it nothing at all: it is not left to the engineer and its
    /// pad is measured.
    #[must_use]
    pub const fn is_planned(&self) -> bool {
        self.raise.is_some()
    }

    /// Gives the pieces of its packs as plates that are cut, an empty list where there are no packs; none where there are and
    /// nobody knows how many or of what.
    #[must_use]
    pub fn pack_plates(&self) -> Option<Vec<(PlateKind, u32)>> {
        self.packs.as_ref().map_or(Some(Vec::new()), |packs| packs.plates(&self.base))
    }

    /// Gives the mass of its packs, where there are none too; none where it is not known.
    #[must_use]
    pub fn pack_mass(&self) -> Option<Mass> {
        self.packs.as_ref().map_or(Some(Mass::ZERO), ColumnPacks::mass)
    }
}

/// The levelling nuts at one column: one on each rod.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LevellingHardware {
    /// The nut by series, and by grade where given.
    pub nut: String,
    /// The washer by series, where there is one.
    pub washer: Option<String>,
}

impl LevellingHardware {
    /// Gives what is on each rod under the plate of a base; none where it is not set on levelling nuts.
    #[must_use]
    pub fn of(base: &Base) -> Option<Self> {
        let levelling = base.levelling()?;
        let washer = levelling.washer.as_ref().map(|washer| washer.series.clone());
        Some(Self { nut: levelling.nut.called(), washer })
    }
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
    let raise = column.raise.map(|raise| raise.nominal);
    let shims: Vec<(PlateKind, u32)> =
        choice.stack.iter().map(|piece| (PlateKind::under(base, piece.thickness), piece.count)).collect();
    let bed = raise.filter(|_| choice.action == Action::Grout);
    let extra = base.extra.as_ref().filter(|_| total > 0 && raise.is_some());
    HardwareRow {
        mark: case.column(column.index).mark.clone(),
        base: base.mark.clone(),
        rods: (base.rods.count, base.rods.size.clone()),
        nuts: base.nuts.iter().map(NutPart::called).collect(),
        washers: base.washers.iter().map(|washer| washer.series.clone()).collect(),
        drawn: Fastener::drawn(base),
        extra: extra.map(|washer| (Fastener::washer(base, washer), total)),
        extra_rods,
        plate: base.plate.thickness.nominal,
        plate_size: base.plate.size,
        stack: choice.stack.clone(),
        shim_mass: raise
            .and_then(|_| sum_of_masses(shims.iter().map(|(kind, count)| Some(kind.mass()?.times(*count))))),
        shims,
        grout: bed.map(|bed| GroutBed::under(base, &case.job.supplies.grout, bed)),
        action: choice.action,
        raise,
        bed: base.bed,
        governs: governs(case, column),
        unmeasured: unmeasured(column),
        may_set: column.may_set(),
        hold: column.hold.clone(),
        seat_on: base.setting.as_ref().map(Setting::word),
        levelling: LevellingHardware::of(base),
        under: Fastener::levelling(base),
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
