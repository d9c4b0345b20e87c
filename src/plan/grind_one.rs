//! One high pad ground instead of several columns shimmed or grouted.

use super::action::{Action, Choice, Plan};
use super::fewest::{Grinding, NoPlan, Wish, plan_fewest};
use crate::length::Length;
use crate::levels::Levelled;
use crate::model::Job;
use std::cmp::Reverse;

/// Most columns of a job in which grinding one pad is tried.
pub const MOST_TO_GRIND_IN: usize = 300;

/// Most pads that are tried.
const MOST_TRIED: usize = 8;

/// Fewest columns whose shims or grout must be saved.
const SAVED: usize = 2;

/// Looks for one pad whose grinding saves shims or grout under at least two columns, and refers, grouts and
/// holds no more.
///
/// A plan of the fewest interventions grinds only where nothing else will do; this shows the engineer what
/// grinding would be worth. Where grinding as much as one likes saves no grout, no hold and no piece there is none;
/// otherwise the pads that are ground then are tried one by one, the highest first, and the best is given with its
/// column. A plan that grinds already is left alone, as is a job of more than [`MOST_TO_GRIND_IN`] columns.
///
/// # Errors
/// As [`plan_fewest`].
pub fn grind_one(
    job: &Job,
    levels: &Levelled,
    wish: &Wish,
    plan: &Plan,
) -> Result<Option<(usize, Plan)>, NoPlan> {
    let now = Needs::of(job, plan);
    if now.ground > 0 || now.worked() < SAVED || job.columns.len() > MOST_TO_GRIND_IN {
        return Ok(None);
    }
    let with = |grinding: Grinding| plan_fewest(job, levels, &Wish { grinding, ..wish.clone() });
    let freely = with(Grinding::AfterShims)?;
    if Needs::of(job, &freely).burden() >= now.burden() {
        return Ok(None);
    }
    let departure = |index: usize| {
        let column = job.columns.get(index)?;
        Some(levels.height(column.point?)?.elevation - job.design_seat(column))
    };
    let ground = freely.choices.iter().enumerate().filter(|(_, choice)| choice.action == Action::Grind);
    let mut tried: Vec<usize> = ground.map(|(index, _)| index).collect();
    tried.sort_by_key(|index| Reverse(departure(*index)));
    tried.truncate(MOST_TRIED);
    let mut best: Option<(Needs, usize, Plan)> = None;
    for column in tried {
        let plan = with(Grinding::OnlyAt(column))?;
        let needs = Needs::of(job, &plan);
        let better = best
            .as_ref()
            .is_none_or(|(best, ..)| (needs.burden(), needs.thickness) < (best.burden(), best.thickness));
        if needs.ground == 1 && needs.saves(&now) && better {
            best = Some((needs, column, plan));
        }
    }
    Ok(best.map(|(_, column, plan)| (column, plan)))
}

/// What a plan asks for, as far as grinding is weighed against it.
#[derive(Clone, Debug, Default)]
struct Needs {
    referred: usize,
    ground: usize,
    grouted: usize,
    held: usize,
    shimmed: usize,
    pieces: u32,
    thickness: Length,
}

impl Needs {
    /// Counts a plan over; designed beds are no work that grinding could save.
    fn of(job: &Job, plan: &Plan) -> Self {
        let count = |wanted: fn(&Choice) -> bool| plan.choices.iter().filter(|choice| wanted(choice)).count();
        let without_bed = plan.choices.iter().zip(&job.columns).filter(|(_, it)| !job.base_of(it).has_bed());
        let without_bed: Vec<&Choice> = without_bed.map(|(choice, _)| choice).collect();
        let raises = without_bed.iter().filter_map(|choice| choice.raise);
        Self {
            referred: count(|choice| choice.action == Action::Refer),
            ground: count(|choice| choice.action == Action::Grind),
            grouted: without_bed.iter().filter(|choice| choice.action == Action::Grout).count(),
            held: count(|choice| choice.held),
            shimmed: count(|choice| choice.action == Action::Shim),
            pieces: plan.choices.iter().flat_map(|choice| &choice.stack).map(|piece| piece.count).sum(),
            thickness: raises.map(Length::abs).sum(),
        }
    }

    /// Tells whether it is worth showing beside another plan.
    fn saves(&self, other: &Self) -> bool {
        self.worked() + SAVED <= other.worked()
            && self.referred <= other.referred
            && self.grouted <= other.grouted
            && self.held <= other.held
    }

    /// Counts the columns with shims or grout under them.
    fn worked(&self) -> usize {
        self.shimmed + self.grouted
    }

    /// Gives what counts before grinding where grinding counts after shims.
    fn burden(&self) -> (usize, usize, usize, u32) {
        (self.referred, self.grouted, self.held, self.pieces)
    }
}
