//! What the rules look at: every column with its pad, its raise and its rods, worked out afresh.

use super::difference::{Difference, differences};
use super::hold::{Hold, holds};
use crate::length::Length;
use crate::levels::{Datum, Levelled, PadShape, pad_shapes, places_without_height};
use crate::model::{
    Base, ByLevel, Column, Interval, Job, Raise, Rod, RodLabel, StackUp, allowed_raises, intersect,
    needed_projection, stack_up,
};
use crate::plan::{Action, Choice, Plan};

/// A job with its levels and a plan, ready to be judged.
#[derive(Debug)]
pub struct Case<'a> {
    /// The job.
    pub job: &'a Job,
    /// The levels.
    pub levels: &'a Levelled,
    /// The plan that is judged.
    pub plan: &'a Plan,
    /// The columns, in job order.
    pub columns: Vec<ColumnCase>,
    /// The differences the limits compare.
    pub differences: Vec<Difference>,
    /// The departure that is shown as 0: in a relative job that of the highest pad, otherwise none.
    pub zero: Length,
}

/// One column under the plan.
#[derive(Clone, Debug)]
pub struct ColumnCase {
    /// Its index in the job.
    pub index: usize,
    /// Its pad, where the level notes reach it.
    pub pad: Option<PadCase>,
    /// The shape of its pad, where two places of it have a height at least.
    pub shape: Option<PadShape>,
    /// Places of its pad beside others that have no height, by the crew's words: not connected, or still to be read.
    pub places_without_height: Vec<String>,
    /// The raise; none for `refer` and `unmeasured`.
    pub raise: Option<Raise>,
    /// The elevation of the underside of its plate; none for `refer` and `unmeasured`.
    pub seat: Option<Length>,
    /// How far that stands above the column's own design seat.
    pub seat_departure: Option<Length>,
    /// Its rods, worked out at the raise, or at no raise where there is none.
    pub rods: Vec<RodCase>,
    /// Why it may not be set.
    pub hold: Vec<Hold>,
    /// The raises at which every measured sound rod is full; none where no sound rod is measured.
    pub allowed: Option<Vec<Interval>>,
    /// What every rod must stand above the pad; none for `refer` and `unmeasured`.
    pub needs_projection: Option<Length>,
}

/// The pad of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PadCase {
    /// Its elevation on the datum.
    pub elevation: Length,
    /// It is good to plus or minus this, at 95 %.
    pub plus_minus: Length,
    /// How far it stands above its own design seat.
    pub departure: Length,
}

/// One rod under the plan.
#[derive(Clone, Debug)]
pub struct RodCase {
    /// Which rod.
    pub label: RodLabel,
    /// Its projection, where measured.
    pub projection: Option<Length>,
    /// What its projection is good to, at 95 %.
    pub plus_minus: Length,
    /// What the level says of its projection, where its top was read.
    pub by_level: Option<ByLevel>,
    /// Its measured full thread, where measured.
    pub thread: Option<Length>,
    /// Whether nothing wrong was noted of it.
    pub sound: bool,
    /// Its figures.
    pub result: StackUp,
}

impl<'a> Case<'a> {
    /// Works a plan out afresh.
    #[must_use]
    pub fn new(job: &'a Job, levels: &'a Levelled, plan: &'a Plan) -> Self {
        let mut columns: Vec<ColumnCase> = (pad_shapes(job, levels).into_iter().enumerate())
            .map(|(index, shape)| ColumnCase::new(job, levels, index, shape, chosen(plan, index)))
            .collect();
        for (column, places) in columns.iter_mut().zip(places_without_height(job, levels)) {
            column.places_without_height = places;
        }
        let differences = differences(job, levels, &columns);
        let departures = columns.iter().filter_map(|column| column.pad).map(|pad| pad.departure);
        let zero = match levels.datum() {
            Datum::Relative => departures.max().unwrap_or(Length::ZERO),
            Datum::Absolute(_) => Length::ZERO,
        };
        Self { job, levels, plan, columns, differences, zero }
    }

    /// Gives the column of the job behind a worked-out column.
    #[must_use]
    pub fn column(&self, index: usize) -> &'a Column {
        &self.job.columns[index]
    }

    /// Gives the base under a column.
    #[must_use]
    pub fn base(&self, index: usize) -> &'a Base {
        self.job.base_of(self.column(index))
    }

    /// Gives the marks of columns, in their order.
    #[must_use]
    pub fn marks(&self, columns: &[usize]) -> Vec<&'a str> {
        columns.iter().map(|&index| self.column(index).mark.as_str()).collect()
    }

    /// Gives where a referred column's seat must come to, as raises from its pad.
    #[must_use]
    pub fn raise_range(&self, column: &ColumnCase) -> Option<Interval> {
        let (low, high) = self.choice(column.index).seat_range?;
        let pad = column.pad?.elevation;
        Some(Interval { low: low.map(|low| low - pad), high: high.map(|high| high - pad) })
    }

    /// Gives what the plan does at a column.
    #[must_use]
    pub fn choice(&self, index: usize) -> &'a Choice {
        chosen(self.plan, index)
    }
}

/// Gives what a plan does at a column; a plan that ends before it does nothing there.
fn chosen(plan: &Plan, index: usize) -> &Choice {
    static NOTHING: Choice = Choice {
        action: Action::Unmeasured,
        raise: None,
        stack: Vec::new(),
        held: false,
        seat_range: None,
        hurdle: None,
    };
    plan.choices.get(index).unwrap_or(&NOTHING)
}

impl ColumnCase {
    fn new(job: &Job, levels: &Levelled, index: usize, shape: Option<PadShape>, choice: &Choice) -> Self {
        let column = &job.columns[index];
        let base = job.base_of(column);
        let pad = column.point.and_then(|point| levels.height(point)).map(|height| PadCase {
            elevation: height.elevation,
            plus_minus: height.plus_minus,
            departure: height.elevation - job.design_seat(column),
        });
        let raise = raise_of(job, choice);
        let shown = raise.unwrap_or(Raise::exact(Length::ZERO));
        let rods: Vec<RodCase> = column
            .rods
            .iter()
            .map(|rod| RodCase::new(base, shown, rod, rod.good_to(job.rods_plus_minus)))
            .collect();
        let extra = rods.iter().map(|rod| rod.result.extra_washers).max().unwrap_or(0);
        let seat = pad.and_then(|pad| Some(pad.elevation + raise?.nominal));
        Self {
            index,
            pad,
            places_without_height: Vec::new(),
            raise,
            seat,
            seat_departure: seat.map(|seat| seat - job.design_seat(column)),
            hold: holds(&job.limits.tables, base, choice, &rods, pad.as_ref(), shape.as_ref()),
            allowed: allowed(base, column, job.rods_plus_minus),
            needs_projection: raise.map(|raise| needed_projection(base, raise, extra, job.rods_plus_minus)),
            rods,
            shape,
        }
    }

    /// Tells whether the column may be set.
    #[must_use]
    pub const fn may_set(&self) -> bool {
        self.raise.is_some() && self.hold.is_empty()
    }
}

impl RodCase {
    fn new(base: &Base, raise: Raise, rod: &Rod, plus_minus: Length) -> Self {
        Self {
            label: rod.label,
            projection: rod.projection,
            plus_minus,
            by_level: rod.by_level,
            thread: rod.thread,
            sound: rod.condition.is_sound(),
            result: stack_up(base, raise, rod, plus_minus),
        }
    }
}

/// Counts the rods of a base that a column does not list: the lowest and the highest, or every number.
pub(super) fn rods_missing(base: &Base, rods: &[RodCase]) -> u32 {
    let listed = |label: RodLabel| u32::from(rods.iter().any(|rod| rod.label == label));
    let group = listed(RodLabel::Low) + listed(RodLabel::High);
    if group > 0 {
        return 2 - group;
    }
    (1..=base.rods.count).map(|number| 1 - listed(RodLabel::Number(number))).sum()
}

/// Sums the pieces of a choice afresh; a piece the job does not have counts as exact.
fn raise_of(job: &Job, choice: &Choice) -> Option<Raise> {
    let nominal = choice.raise?;
    if choice.action != Action::Shim {
        return Some(Raise::exact(nominal));
    }
    let zero = Raise::exact(Length::ZERO);
    Some(choice.stack.iter().fold(zero, |sum, piece| {
        let count = i64::from(piece.count);
        let known = job.shims.pieces.iter().find(|shim| shim.thickness.nominal == piece.thickness);
        let one = known.map_or(Raise::exact(piece.thickness), |shim| Raise {
            nominal: shim.thickness.nominal,
            least: shim.thickness.least,
            most: shim.thickness.most,
        });
        Raise {
            nominal: sum.nominal + one.nominal * count,
            least: sum.least + one.least * count,
            most: sum.most + one.most * count,
        }
    }))
}

fn allowed(base: &Base, column: &Column, plus_minus: Length) -> Option<Vec<Interval>> {
    let sound = column.rods.iter().filter(|rod| rod.condition.is_sound());
    let each = sound.filter_map(|rod| allowed_raises(base, rod, rod.good_to(plus_minus)));
    each.reduce(|all, rod| intersect(&all, &rod))
}
