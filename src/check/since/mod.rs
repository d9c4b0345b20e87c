//! What a new measurement changes against an earlier answer, and whether what was planned then still fits.
//!
//! The earlier plan is judged afresh at the new measurement like any other plan; nothing is taken from the
//! earlier answer but what was measured and done then.

mod column;
mod fit;
mod moved;
mod setting;
mod told;

pub use column::{ColumnChange, RodChange, RodNow};
pub use fit::{StillFits, Why};
pub use moved::Moved;

use super::rules::Judged;
use crate::model::{Earlier, EarlierColumn, EarlierFinding, Job};
use crate::plan::{Action, Aim, Choice, Plan, StackPiece, To};

/// What changed.
#[derive(Debug)]
pub struct Since<'e> {
    /// The earlier answer.
    pub earlier: &'e Earlier,
    /// Whether that was an answer for a job of another name.
    pub other_job: bool,
    /// The column whose pad counts as not moved; none where both answers stand on a datum from outside.
    pub from: Option<usize>,
    /// Columns whose pads are good to something else than then, in job order.
    pub other_plus_minus: Vec<usize>,
    /// Columns that are new, in job order.
    pub added: Vec<usize>,
    /// Columns of the earlier answer that the job has no more, in its order.
    pub removed: Vec<&'e EarlierColumn>,
    /// Columns of both, in job order.
    pub columns: Vec<ColumnChange<'e>>,
    /// What the plan was made by: what of it, then and now, where that differs.
    pub planned: Vec<(&'static str, String, String)>,
    /// Whether what was planned then fits as it is.
    pub fit: StillFits,
    /// Findings that came: indices into [`Judged::findings`] of the new answer.
    pub came: Vec<usize>,
    /// Findings that went.
    pub went: Vec<&'e EarlierFinding>,
}

impl Since<'_> {
    /// Tells whether anything changed at all.
    #[must_use]
    pub fn changed(&self) -> bool {
        let lists = self.added.is_empty() && self.removed.is_empty() && self.planned.is_empty();
        let findings = self.came.is_empty() && self.went.is_empty() && self.other_plus_minus.is_empty();
        !(lists && findings) || self.columns.iter().any(ColumnChange::changed)
    }
}

/// Gives the stack of an earlier column.
#[must_use]
pub fn stack_of(column: &EarlierColumn) -> Vec<StackPiece> {
    column.stack.iter().map(|&(thickness, count)| StackPiece { thickness, count }).collect()
}

/// Makes the plan of an earlier answer again, for the columns the job has now; nothing is planned at a new one.
///
/// `now` is the new plan: the earlier one is held to the same limits.
#[must_use]
pub fn plan_then(job: &Job, earlier: &Earlier, now: &Plan) -> Plan {
    let choice = |mark: &str| {
        let then = earlier.column(mark);
        Choice {
            action: then.map_or(Action::Unmeasured, |column| column.action),
            raise: then.and_then(|column| column.raise),
            stack: then.map(stack_of).unwrap_or_default(),
            held: false,
            seat_range: None,
            hurdle: None,
        }
    };
    Plan {
        choices: job.columns.iter().map(|column| choice(&column.mark)).collect(),
        aim: now.aim,
        to: now.to,
        guarded: now.guarded,
        optimum: None,
        firm: None,
        shortage: None,
    }
}

/// Compares a new answer with an earlier one; `then` is the earlier plan ([`plan_then`]) judged at the new measurement.
#[must_use]
pub fn since<'e>(now: &Judged<'_>, then: &Judged<'_>, earlier: &'e Earlier) -> Since<'e> {
    let job = now.case.job;
    let moves = moved::moves(&now.case, earlier);
    let fits = fit::fits(&then.case, earlier);
    let mut added = Vec::new();
    let mut columns = Vec::new();
    for (index, (moved, (fit, why))) in moves.each.into_iter().zip(fits).enumerate() {
        match earlier.column(&job.columns[index].mark) {
            Some(before) => columns.push(ColumnChange::new(&now.case, index, before, moved, (fit, why))),
            None => added.push(index),
        }
    }
    let known = |column: &&EarlierColumn| job.columns.iter().any(|it| it.mark == column.mark);
    let removed = earlier.columns.iter().filter(|column| !known(column)).collect();
    let worst = columns.iter().map(|column: &ColumnChange<'_>| column.fit).max().unwrap_or(StillFits::Yes);
    let new = if added.is_empty() { StillFits::Yes } else { StillFits::Unknown };
    // what is asked of the whole job is asked of what was planned then, too
    let asked = if then.is_clear() { StillFits::Yes } else { StillFits::Ask };
    let (came, went) = told::came_and_went(now, earlier);
    Since {
        earlier,
        other_job: earlier.job != job.name,
        from: moves.from,
        other_plus_minus: moves.other_plus_minus,
        added,
        removed,
        columns,
        planned: planned(job, now.case.plan, earlier),
        fit: worst.max(new).max(asked),
        came,
        went,
    }
}

fn planned(job: &Job, plan: &Plan, earlier: &Earlier) -> Vec<(&'static str, String, String)> {
    let aim = match plan.aim {
        Aim::Fewest => "fewest",
        Aim::Level => "level",
    };
    let to = match plan.to {
        To::Accept => "accept",
        To::Desired => "desired",
    };
    let by = |guarded: bool| if guarded { "value and +-" } else { "value" };
    let all = [
        ("limits", earlier.limits.as_str(), job.limits.name.as_str()),
        ("aim", &earlier.aim, aim),
        ("to", &earlier.to, to),
        ("limits kept by", by(earlier.guarded), by(plan.guarded)),
    ];
    let differ = all.into_iter().filter(|(_, then, now)| then != now);
    differ.map(|(what, then, now)| (what, then.to_owned(), now.to_owned())).collect()
}
