//! The plan with the fewest interventions that keeps every limit.

use super::action::Plan;
use super::guard::TooCoarse;
use super::hurdle::{self, Hurdle};
use super::limits_kept::To;
use super::options::PlannedOption;
use super::pose::Posed;
use super::solve::{Chosen, Unsolved};
use super::stock::plan_from_stock;
use crate::levels::Levelled;
use crate::model::Job;
use std::collections::BTreeMap;

/// What a plan is asked for.
#[derive(Clone, Debug, Default)]
pub struct Wish {
    /// Which limits it keeps.
    pub to: To,
    /// Columns that take this option whatever it leads to, indices into [`Job::columns`].
    pub pins: BTreeMap<usize, PlannedOption>,
    /// How freely pads are ground.
    pub grinding: Grinding,
    /// Whether the limits are kept by value and +-, and not by value alone.
    pub guarded: bool,
}

/// How freely pads are ground.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Grinding {
    /// Where nothing else will do.
    #[default]
    Last,
    /// Wherever it saves a shim: it counts after shim pieces.
    AfterShims,
    /// Wherever it saves a shim, and at this column alone, an index into [`Job::columns`].
    OnlyAt(usize),
}

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoPlan {
    /// Columns that are pinned stand in each other's way: from the first to the last of the chain.
    Clash(Hurdle),
    /// A limit that is to be kept by value and +- is closer than that +-.
    TooCoarse(TooCoarse),
    /// The plan did not pass its own check: a fault of this program.
    NotProven,
}

/// Plans the fewest interventions that keep every limit: the exact optimum.
///
/// With a limited stock of shims the plan takes no more than is on hand, and says whether it is the optimum.
///
/// # Errors
/// [`NoPlan::Clash`] where pins cannot stand together; [`NoPlan::TooCoarse`] where a guarded limit cannot be kept at all.
pub fn plan_fewest(job: &Job, levels: &Levelled, wish: &Wish) -> Result<Plan, NoPlan> {
    if job.shims.stock.is_some() {
        return plan_from_stock(job, levels, wish);
    }
    let posed = Posed::new(job, levels, wish)?;
    let chosen = solved(job, &posed)?;
    posed.plan(job, &chosen, wish)
}

/// Solves a job that is laid out.
pub(super) fn solved(job: &Job, posed: &Posed) -> Result<Chosen, NoPlan> {
    posed.puzzle().solve().map_err(|unsolved| match unsolved {
        Unsolved::Clash(clash) => NoPlan::Clash(hurdle::clash(job, posed, clash)),
        Unsolved::NotProven => NoPlan::NotProven,
    })
}
