//! `rodreach check`.

use super::Refusal;
use super::args::{AimArg, CheckArgs, JobArgs};
use super::print;
use crate::check::{Judged, judge};
use crate::input::{Loaded, Override, load};
use crate::levels::reduce;
use crate::plan::plan_level;
use crate::report::{Answer, check_answer};
use crate::source::render;

/// Runs the command and tells whether all is well.
pub(super) fn run(args: &CheckArgs) -> Result<bool, Refusal> {
    let AimArg::Level = args.aim;
    let answer = judged(&args.job, |judged| Ok(check_answer(judged)))?;
    print::answer(&answer, &args.job.out)
}

/// Reads a job, all its faults told at once.
pub(super) fn loaded(args: &JobArgs) -> Result<Loaded, Refusal> {
    let with = Override {
        limits: args.limits.clone(),
        levels: args.levels.clone(),
        rods: args.rods.clone(),
        walk: args.walk.clone(),
    };
    load(&args.job, &with).map_err(|refused| Refusal(render(&refused.problems, &refused.files)))
}

/// Reads a job, plans it and judges the plan.
pub(super) fn judged(
    args: &JobArgs,
    answer: impl FnOnce(&Judged<'_>) -> Result<Answer, Refusal>,
) -> Result<Answer, Refusal> {
    let loaded = loaded(args)?;
    if loaded.job.columns.is_empty() {
        return Err(Refusal(
            "the job has no columns: list them under [[column]], in columns.csv or in walk.csv".to_owned(),
        ));
    }
    let levels = reduce(&loaded.job);
    let plan = plan_level(&loaded.job, &levels);
    answer(&judge(&loaded.job, &levels, &plan))
}
