//! A job read, planned and ready to be judged: what check, explain and hardware share.

use super::Refusal;
use super::args::{AimArg, JobArgs, PlanArgs, ToArg};
use super::print;
use super::what_if::read_what_if;
use crate::catalog::Catalog;
use crate::check::{Judged, judge, plan_then};
use crate::input::{Loaded, Override, load};
use crate::levels::{Levelled, reduce, with_rods_by_level};
use crate::model::{Earlier, Job};
use crate::plan::{Aim, Beside, Considered, NoPlan, Plan, To, Wish, beside, considered, firmness, plan_to};
use crate::report::{OpensAt, Tried, Workbook, clash_words, too_coarse_words, workbook};
use crate::source::{Files, nearest, render};
use crate::text::quoted;

/// A job with its plan.
pub(super) struct Planned {
    job: Job,
    levels: Levelled,
    wish: Wish,
    plan: Plan,
    /// The hardware and limits that are known.
    pub(super) catalog: Catalog,
    /// What was tried.
    pub(super) tried: Tried,
    /// The files it was read from.
    pub(super) files: Files,
}

/// Reads a job, all its faults told at once; none of its files may be where the answer is to be written.
pub(super) fn loaded(args: &JobArgs) -> Result<Loaded, Refusal> {
    let with = Override {
        limits: args.limits.clone(),
        levels: args.levels.clone(),
        rods: args.rods.clone(),
        walk: args.walk.clone(),
    };
    let loaded =
        load(&args.job, &with).map_err(|refused| Refusal(render(&refused.problems, &refused.files)))?;
    print::spare_inputs(&args.out, &loaded.files)?;
    Ok(loaded)
}

impl Planned {
    /// Reads a job and plans it.
    pub(super) fn read(args: &JobArgs, plan: &PlanArgs) -> Result<Self, Refusal> {
        let Loaded { mut job, files, catalog } = loaded(args)?;
        if job.columns.is_empty() {
            return Err(Refusal(
                "the job has no columns: list them under [[column]], in columns.csv or in walk.csv"
                    .to_owned(),
            ));
        }
        let levels = reduce(&job);
        with_rods_by_level(&mut job, &levels);
        let what_if = read_what_if(&mut job, &levels, plan)?;
        let to = match plan.to {
            ToArg::Accept => To::Accept,
            ToArg::Desired => To::Desired,
        };
        let aim = match plan.aim {
            AimArg::Fewest => Aim::Fewest,
            AimArg::Level => Aim::Level,
        };
        let wish = Wish { to, pins: what_if.pins, guarded: plan.guarded, ..Wish::default() };
        let mut plan = plan_to(&job, &levels, aim, &wish).map_err(|why| no_plan(&job, &why))?;
        if aim == Aim::Fewest {
            plan.firm = firmness(&job, &levels, &wish, &plan);
        }
        Ok(Self { job, levels, wish, plan, tried: what_if.tried, files, catalog })
    }

    /// Finds a column by its mark.
    pub(super) fn column(&self, mark: &str) -> Result<usize, Refusal> {
        let marks = || self.job.columns.iter().map(|column| column.mark.as_str());
        marks().position(|known| known == mark).ok_or_else(|| {
            Refusal(match nearest(mark, marks()) {
                Some(near) => format!("there is no column {mark}; did you mean {near}?"),
                None => format!("there is no column {mark} in this job"),
            })
        })
    }

    /// Judges the plan.
    pub(super) fn judged(&self) -> Judged<'_> {
        self.judged_as(&self.plan)
    }

    /// Judges another plan of the same job.
    pub(super) fn judged_as<'p>(&'p self, plan: &'p Plan) -> Judged<'p> {
        judge(&self.job, &self.levels, plan)
    }

    /// Makes the plan of an earlier answer again, which must share a column with the job.
    pub(super) fn plan_then(&self, earlier: &Earlier) -> Result<Plan, Refusal> {
        if !self.job.columns.iter().any(|column| earlier.column(&column.mark).is_some()) {
            return Err(Refusal(format!(
                "--since {}: none of its columns is a column of this job; it is an answer for {}: \
                 name an answer for this job",
                earlier.file,
                quoted(&earlier.job)
            )));
        }
        Ok(plan_then(&self.job, earlier, &self.plan))
    }

    /// Makes the workbook.
    pub(super) fn workbook(&self, opens_at: OpensAt) -> Workbook {
        workbook(&self.judged(), &self.files, self.tried.words(), opens_at)
    }

    /// Tells what became of every option at a column; nothing where the plan does not aim at the fewest.
    pub(super) fn considered(&self, column: usize) -> Vec<Considered> {
        if self.plan.aim != Aim::Fewest {
            return Vec::new();
        }
        considered(&self.job, &self.levels, &self.wish, &self.plan, column).unwrap_or_default()
    }

    /// Makes the plans to compare with.
    pub(super) fn beside(&self) -> Result<Vec<Beside>, Refusal> {
        beside(&self.job, &self.levels, &self.wish, &self.plan).map_err(|why| no_plan(&self.job, &why))
    }
}

fn no_plan(job: &Job, why: &NoPlan) -> Refusal {
    Refusal(match why {
        NoPlan::Clash(hurdle) => clash_words(job, hurdle),
        NoPlan::TooCoarse(coarse) => too_coarse_words(job, coarse),
        NoPlan::NotProven => {
            "the plan did not pass its own check: this is a fault of rodreach, please report it; \
             nothing was planned"
                .to_owned()
        }
    })
}
