//! The plan with the fewest interventions that the pieces on hand allow.
//!
//! With as many pieces as one likes the best plan is one minimum cut. With a limited stock it is as hard as packing
//! (strongly NP-hard even without any limit of differences), so it is looked for in steps, and what is not proven is said:
//!
//! 1. The plan with all thicknesses to be ordered. If its seats can be come to with what is on hand at the same
//!    cost it is the plan, all its ties broken as always.
//! 2. The plan with as many pieces as one likes of the thicknesses on hand. Its cost is a bound; if its seats can be
//!    come to with what is on hand at the same cost, it is the plan likewise.
//! 3. Otherwise weights are laid on the pieces of which there are not enough ([`ascent`]); the cuts give plans
//!    and bounds, and where a gap is left pads are decided one by one ([`branch`]), up to a limit of work. Which of
//!    several plans of one cost is found is then not said, but always the same.

mod ascent;
mod branch;
mod compose;
mod cut;
mod draft;
mod field;
mod moves;
mod price;
mod search;
mod shelf;
mod shortage;
#[cfg(test)]
mod tests;
mod work;

use super::action::{Optimum, Plan};
use super::fewest::{Grinding, NoPlan, Wish, solved};
use super::options::PlannedOption;
use super::pose::Posed;
use super::solve::Chosen;
use super::task::Candidate;
use crate::levels::Levelled;
use crate::model::Job;
use compose::compose;
use draft::Draft;
use field::{Field, Pick};
use moves::Moves;
use search::Search;
use shelf::{Parts, Shelf, parts};
use shortage::shortage;
use work::Work;

/// The work for each column, and the least and the most for a job: some two seconds for 60 columns, seven at most.
const WORK: (i64, i64, i64) = (1_300_000, 60_000_000, 150_000_000);

/// The work of putting the stacks of the best plan found in order.
const IN_ORDER: i64 = 2_000_000;

/// Plans with what is on hand.
///
/// # Errors
/// As [`super::plan_fewest`].
pub(super) fn plan_from_stock(job: &Job, levels: &Levelled, wish: &Wish) -> Result<Plan, NoPlan> {
    let free = Posed::new(job, levels, wish)?;
    let free_chosen = solved(job, &free)?;
    let free_cost = free.cost(&free_chosen);
    let is_measured = |column: usize| free.task.pads.iter().any(|pad| pad.column == column);
    let pinned: Vec<&PlannedOption> =
        wish.pins.iter().filter(|(column, _)| is_measured(**column)).map(|(_, pin)| pin).collect();
    let mut shelf = Shelf::new(job, wish.grinding, &pinned);
    let posed = Posed::of(job, levels, wish, shelf.options())?;
    let field = Field::new(job, &posed.task, &mut shelf);
    let columns = columns(&field);
    let (each, least, most) = WORK;
    let part = if wish.grinding == Grinding::Last { 1 } else { 8 };
    let mut work = Work::new(each.saturating_mul(columns).clamp(least, most) / part);

    let with_all = parts(free_cost, wish.grinding);
    let found = match as_chosen(&shelf, &field, &free, &free_chosen, &with_all, &mut work) {
        Some(picks) => Draft::of(&shelf, &field, &posed.system, picks).map(|draft| (draft, with_all)),
        None => None,
    };
    let (draft, lower) = match found {
        Some(found) => found,
        None => search_plan(job, &shelf, &posed, &field, wish, work)?,
    };
    let mut plan = made(job, &shelf, &posed, &draft, wish)?;
    plan.optimum = plan.optimum.map(|it| Optimum { at_least: shelf.cost(&lower), ..it });
    if with_all < draft.parts {
        plan.shortage = shortage(job, &free, &free_chosen);
    }
    Ok(plan)
}

/// Looks for the best plan, with what none is better than.
fn search_plan(
    job: &Job,
    shelf: &Shelf,
    posed: &Posed,
    field: &Field,
    wish: &Wish,
    mut work: Work,
) -> Result<(Draft, Parts), NoPlan> {
    let chosen = solved(job, posed)?;
    let first = parts(posed.cost(&chosen), wish.grinding);
    if let Some(picks) = as_chosen(shelf, field, posed, &chosen, &first, &mut work)
        && let Some(draft) = Draft::of(shelf, field, &posed.system, picks)
    {
        return Ok((draft, first));
    }
    let seats = seats(posed, &chosen);
    let cheapest = |(pad, seat): (usize, &Option<i64>)| {
        let departure = (*seat)?;
        let ways = field.ways_to(pad, departure).iter();
        let picks = ways.map(|&way| Pick { departure, way, made: 0 });
        picks.min_by_key(|pick| *pick.parts(shelf))
    };
    let picks = seats.iter().enumerate().map(cheapest).collect();
    let mut best = Draft::of(shelf, field, &posed.system, picks).ok_or(NoPlan::NotProven)?;
    let moves = Moves { shelf, field, system: &posed.system };
    if !moves.repair(&mut best, columns(field), &mut work) {
        return Err(NoPlan::NotProven);
    }
    work.within(20, |work| moves.improve(&mut best, work));
    let mut search = Search::new(shelf, &posed.system, field, best, first, work);
    search.run().map_err(|_| NoPlan::NotProven)?;
    let Search { mut best, lower, .. } = search;
    // pads that are alike take their stacks in job order
    let cost = best.parts;
    let mut work = Work::new(IN_ORDER);
    if let Some(picks) = as_cheap(shelf, field, &best.seats(), &cost, &mut work) {
        best.put_all(shelf, picks);
    }
    Ok((best, lower))
}

/// Finds stacks for chosen seats that cost just as much and take no more than there is.
fn as_chosen(
    shelf: &Shelf,
    field: &Field,
    posed: &Posed,
    chosen: &Chosen,
    cost: &Parts,
    work: &mut Work,
) -> Option<Vec<Option<Pick>>> {
    work.within(8, |work| as_cheap(shelf, field, &seats(posed, chosen), cost, work))
}

/// Finds stacks for seats that cost no more than this and take no more than there is.
fn as_cheap(
    shelf: &Shelf,
    field: &Field,
    seats: &[Option<i64>],
    cost: &Parts,
    work: &mut Work,
) -> Option<Vec<Option<Pick>>> {
    let mut above = *cost;
    if let Some(last) = above.last_mut() {
        *last += 1;
    }
    compose(shelf, field, seats, Some(&above), work).picks
}

fn columns(field: &Field) -> i64 {
    i64::try_from(field.pads.len()).unwrap_or(i64::MAX)
}

fn seats(posed: &Posed, chosen: &Chosen) -> Vec<Option<i64>> {
    let each = posed.task.pads.iter().zip(chosen);
    each.map(|(pad, choice)| choice.map(|choice| pad.open[choice].departure)).collect()
}

/// Makes the plan of a draft, every difference and every number of pieces looked at once more.
fn made(job: &Job, shelf: &Shelf, posed: &Posed, draft: &Draft, wish: &Wish) -> Result<Plan, NoPlan> {
    let mut task = posed.task.clone();
    let mut chosen: Chosen = Vec::new();
    for (pad, pick) in task.pads.iter_mut().zip(&draft.picks) {
        let Some(pick) = pick else {
            chosen.push(None);
            continue;
        };
        let option = shelf.makes[pick.way.make].made[pick.made].option.clone();
        let seat = pad.open.iter().position(|it| it.departure == pick.departure).ok_or(NoPlan::NotProven)?;
        pad.open[seat] = Candidate {
            departure: pick.departure,
            cost: option.cost(pick.way.held),
            option: task.options.len(),
        };
        task.options.push(option);
        chosen.push(Some(seat));
    }
    let taken = |pinned: bool| {
        let pads = task.pads.iter().zip(&chosen).filter(move |(pad, _)| pad.referable != pinned);
        pads.filter_map(|(pad, choice)| task.options.get(pad.open[(*choice)?].option))
    };
    let free = shelf::taken(taken(false));
    let pinned = shelf::taken(taken(true));
    let too_many = free.iter().any(|(thickness, count)| {
        let pinned = pinned.get(thickness).copied().unwrap_or(0);
        job.shims.on_hand(*thickness).is_some_and(|there| *count > there.saturating_sub(pinned))
    });
    if too_many {
        return Err(NoPlan::NotProven);
    }
    let posed = Posed { task, system: posed.system.clone(), neighbours: Vec::new() };
    posed.plan(job, &chosen, wish)
}
