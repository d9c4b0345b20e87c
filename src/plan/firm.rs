//! Whether a plan stays as it is where a pad is off by as much as its reading may be.

use super::action::Plan;
use super::fewest::Wish;
use super::pose::Posed;
use super::solve::{Chosen, Puzzle};
use crate::length::Length;
use crate::levels::Levelled;
use crate::model::Job;

/// Most work that trying every pad anew may take: pads times all that is open at all of them.
const MOST_WORK: usize = 400_000;

/// How firm a plan stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Firmness {
    /// Pads that change the plan where they are off by their own plus or minus.
    pub loose: Vec<Loose>,
    /// Whether the whole job was planned anew for every pad; if not, only whether the plan still keeps its limits
    /// was looked at.
    pub planned_anew: bool,
}

/// A pad that changes the plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Loose {
    /// Its column, an index into [`Job::columns`].
    pub column: usize,
    /// So far off, up or down.
    pub off: Length,
    /// The columns where something else would be done; empty where only the limits were looked at.
    pub changed: Vec<usize>,
}

/// Tries every pad higher and lower by its own plus or minus.
///
/// A plan under a limited stock, and one of a large job, is only held against its limits. None where there is no plan.
#[must_use]
pub fn firmness(job: &Job, levels: &Levelled, wish: &Wish, plan: &Plan) -> Option<Firmness> {
    let mut posed = Posed::new(job, levels, wish).ok()?;
    let open: usize = posed.task.pads.iter().map(|pad| pad.open.len()).sum();
    let planned_anew = job.shims.stock.is_none() && open.saturating_mul(posed.task.pads.len()) <= MOST_WORK;
    let solved = if planned_anew { posed.puzzle().solve().ok() } else { None };
    let mut loose = Vec::new();
    for pad in 0..posed.task.pads.len() {
        let column = posed.task.pads[pad].column;
        let height = job.columns[column].point.and_then(|point| levels.height(point));
        let Some(plus_minus) = height.map(|height| height.plus_minus) else { continue };
        for off in [-plus_minus, plus_minus] {
            let changed = match &solved {
                Some(now) => anew(job, &mut posed, now, pad, off),
                None => breaks(&posed.puzzle(), plan, pad, off).then(Vec::new),
            };
            loose.extend(changed.map(|changed| Loose { column, off, changed }));
        }
    }
    Some(Firmness { loose, planned_anew: solved.is_some() })
}

/// Plans anew with a pad off by so much, and gives the columns where something else is done, if there are any.
fn anew(job: &Job, posed: &mut Posed, now: &Chosen, pad: usize, off: Length) -> Option<Vec<usize>> {
    let own = posed.task.pads[pad].column;
    let before: Vec<Option<usize>> = options(posed, now);
    posed.task.move_pad(job, pad, off);
    let then = posed.puzzle().solve();
    let after = then.as_ref().map(|then| options(posed, then));
    posed.task.move_pad(job, pad, -off);
    let Ok(after) = after else { return Some(Vec::new()) };
    let columns = posed.task.pads.iter().map(|pad| pad.column);
    let changed = columns.zip(before.iter().zip(&after)).filter(|(column, (before, after))| {
        // a bed is poured up to its plate, so another bed on the pad itself is the same plan
        let same_bed = *column == own && job.base_of(&job.columns[own]).has_bed();
        before != after && !(same_bed && before.is_some() && after.is_some())
    });
    let changed: Vec<usize> = changed.map(|(column, _)| column).collect();
    (!changed.is_empty()).then_some(changed)
}

/// Gives the option chosen at each pad.
fn options(posed: &Posed, chosen: &Chosen) -> Vec<Option<usize>> {
    let pads = posed.task.pads.iter().zip(chosen);
    pads.map(|(pad, choice)| choice.and_then(|choice| pad.open.get(choice)).map(|it| it.option)).collect()
}

/// Tells whether a pad that is off by so much takes the plan out of its limits.
fn breaks(puzzle: &Puzzle<'_>, plan: &Plan, pad: usize, off: Length) -> bool {
    let seat = |pad: usize| {
        let pad = puzzle.task.pads.get(pad)?;
        Some(pad.departure + plan.choices.get(pad.column)?.raise?.nm())
    };
    let Some(own) = seat(pad).map(|seat| seat + off.nm()) else { return false };
    if puzzle.task.pads[pad].window.is_some_and(|most| own.abs() > most) {
        return true;
    }
    let system = puzzle.system;
    system.leaving(pad).iter().chain(system.entering(pad)).any(|&index| {
        let bound = &system.bounds[index];
        let other = if bound.from == pad { bound.to } else { bound.from };
        match other.checked_sub(system.pads) {
            None => seat(other).is_some_and(|other| (own - other).abs() > bound.most),
            Some(spread) if bound.from == pad => {
                let others = system.spreads[spread].iter().filter(|&&member| member != pad);
                others.filter_map(|&member| seat(member)).any(|other| (own - other).abs() > bound.most)
            }
            Some(_) => false,
        }
    })
}
