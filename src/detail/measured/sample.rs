//! The measured columns: how far rods and pads came out from design, and what the drawing would have had to say.

use crate::check::Case;
use crate::detail::kinds::{Member, Studied};
use crate::length::Length;
use crate::levels::Datum;
use crate::model::{Base, Column, Job, Raise, Rod, RodLabel, needed_projection};
use crate::plan::{Action, Wish, plan_fewest};

/// Where the pads alone want each column of a job: planned as if no rod stood in the way.
#[derive(Clone, Debug)]
pub(in crate::detail) struct Raises(Vec<(Option<Raise>, Option<Action>)>);

impl Raises {
    /// Plans a job without its rods, so that a short rod does not move the plate it is held against.
    pub(in crate::detail) fn of(studied: &Studied<'_>) -> Self {
        let mut job = studied.job.clone();
        for rod in job.columns.iter_mut().flat_map(|column| &mut column.rods) {
            *rod = Rod::unmeasured(rod.label);
        }
        let Ok(plan) = plan_fewest(&job, studied.levels, &Wish::default()) else {
            return Self(job.columns.iter().map(|_| (None, None)).collect());
        };
        let case = Case::new(&job, studied.levels, &plan);
        let raise = |index: usize| (case.columns[index].raise, Some(plan.choices[index].action));
        Self((0..job.columns.len()).map(raise).collect())
    }

    fn at(&self, column: usize) -> (Option<Raise>, Option<Action>) {
        self.0.get(column).copied().unwrap_or((None, None))
    }
}

/// Why a column says less than it could.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Missed {
    /// No rod of it was measured.
    NotMeasured,
    /// Some of its rods were not measured, or are not sound.
    Partly,
    /// Nothing brings its plate where it must be.
    Referred,
    /// Its pad has no height, or no plan could be made.
    NoRaise,
    /// The drawing's projection is not given.
    NotDrawn,
}

/// What the drawing would have had to say for every rod of a column to be full.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// So much.
    UpTo(Length),
    /// It is not known how much, and counts as more than anything.
    Above,
    /// Nothing can be said of it, and it does not count.
    Unknown,
}

/// One rod that was measured and is sound.
#[derive(Clone, Copy, Debug)]
pub struct MeasuredRod {
    /// Which rod.
    pub label: RodLabel,
    /// Its projection above its own pad.
    pub projection: Length,
    /// What that is good to.
    pub plus_minus: Length,
    /// Its full thread, where measured.
    pub thread: Option<Length>,
    /// Whether its projection stands for all rods of the column.
    pub one_for_all: bool,
    /// Its projection less the drawing's.
    pub off_drawing: Option<Length>,
    /// Its top from its design, where elevations are absolute.
    pub top_off: Option<Length>,
    /// What the drawing would have had to say for it to be full.
    pub needs: Option<Length>,
}

/// One column at which a rod was measured.
#[derive(Clone, Debug)]
pub struct MeasuredColumn {
    /// Its job, an index into the members of the kind.
    pub member: usize,
    /// Its mark.
    pub mark: String,
    /// The raise that its pad and those of the others want.
    pub raise: Option<Raise>,
    /// Its pad from its design, where elevations are absolute.
    pub pad_off: Option<Length>,
    /// Its rods that were measured and are sound.
    pub rods: Vec<MeasuredRod>,
    /// Whether every rod of it was measured and is sound.
    pub whole: bool,
    /// What it needs.
    pub need: Need,
    /// Why it says less than it could.
    pub missed: Option<Missed>,
}

/// Gives every column of a base, and how far the pads of all of them lie apart.
pub(super) fn columns(
    member_index: usize,
    member: &Member<'_>,
    jobs: &[Studied<'_>],
    raises: &[Raises],
) -> (Vec<MeasuredColumn>, Option<Length>) {
    let Some((studied, raises)) = jobs.get(member.job_index).zip(raises.get(member.job_index)) else {
        return (Vec::new(), None);
    };
    let mine = |(_, column): &(usize, &Column)| column.base == member.base_index;
    let mut departures = Vec::new();
    let mut found = Vec::new();
    for (index, column) in member.job.columns.iter().enumerate().filter(mine) {
        let pad = column.point.and_then(|point| studied.levels.height(point)).map(|height| height.elevation);
        departures.extend(pad.map(|pad| pad - member.job.design_seat(column)));
        found.push(one(member_index, member, studied, column, (pad, raises.at(index))));
    }
    let spread = departures.iter().max().zip(departures.iter().min());
    (found, spread.filter(|_| departures.len() > 1).map(|(high, low)| *high - *low))
}

fn one(
    member_index: usize,
    member: &Member<'_>,
    studied: &Studied<'_>,
    column: &Column,
    (pad, (raise, action)): (Option<Length>, (Option<Raise>, Option<Action>)),
) -> MeasuredColumn {
    let (job, base) = (member.job, member.base);
    let pad_off = pad.and_then(|pad| off_design(job, base, studied, column, pad));
    let drawn = base.rods.projection;
    let sound = column.rods.iter().filter(|rod| rod.condition.is_sound());
    let rods: Vec<MeasuredRod> = sound
        .filter_map(|rod| {
            let projection = rod.projection?;
            let plus_minus = rod.good_to(job.rods_plus_minus);
            let off_drawing = drawn.map(|drawn| projection - drawn);
            let needed = raise.map(|raise| needed_projection(base, raise, 0, plus_minus));
            Some(MeasuredRod {
                label: rod.label,
                projection,
                plus_minus,
                thread: rod.thread,
                one_for_all: rod.one_for_all,
                off_drawing,
                top_off: pad_off.zip(off_drawing).map(|(pad, rod)| pad + rod),
                needs: needed.zip(off_drawing).map(|(needed, off)| needed - off),
            })
        })
        .collect();
    let whole = is_whole(base, column);
    let measured = column.rods.iter().any(|rod| rod.projection.is_some());
    let missed = if !measured {
        Some(Missed::NotMeasured)
    } else if drawn.is_none() {
        Some(Missed::NotDrawn)
    } else if !whole {
        Some(Missed::Partly)
    } else if action == Some(Action::Refer) {
        Some(Missed::Referred)
    } else if raise.is_none() {
        Some(Missed::NoRaise)
    } else {
        None
    };
    let worst = rods.iter().filter_map(|rod| rod.needs).max();
    let need = match (missed, worst) {
        (None, Some(worst)) => Need::UpTo(worst),
        (Some(Missed::Partly | Missed::Referred), _) => Need::Above,
        _ => Need::Unknown,
    };
    let mark = column.mark.clone();
    MeasuredColumn { member: member_index, mark, raise, pad_off, rods, whole, need, missed }
}

/// Gives how far a pad stands above its design, where the datum is the drawing's and the seat is given.
fn off_design(job: &Job, base: &Base, studied: &Studied<'_>, column: &Column, pad: Length) -> Option<Length> {
    if !matches!(studied.levels.datum(), Datum::Absolute(_)) {
        return None;
    }
    let seat = column.seat.or(job.seat)?;
    Some(pad - (seat - base.bed))
}

/// Tells whether every rod of a column was measured and is sound: the lowest and the highest, or every number.
fn is_whole(base: &Base, column: &Column) -> bool {
    let there = |label: RodLabel| {
        let rod = column.rods.iter().find(|rod| rod.label == label);
        rod.is_some_and(|rod| rod.projection.is_some())
    };
    let sound = column.rods.iter().all(|rod| rod.condition.is_sound());
    let by_group = column.rods.iter().any(|rod| matches!(rod.label, RodLabel::Low | RodLabel::High));
    let all = if by_group {
        there(RodLabel::Low) && there(RodLabel::High)
    } else {
        (1..=base.rods.count).all(|number| there(RodLabel::Number(number)))
    };
    sound && all
}
