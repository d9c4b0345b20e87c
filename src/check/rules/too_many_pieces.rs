//! A stack of shims has more pieces than allowed.

use super::Rule;
use super::subjects::{KEPT, does_not_apply, each_column, mark};
use crate::catalog::Authority;
use crate::check::case::{Case, ColumnCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::text::count;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "too-many-pieces",
    about: "pieces of every shim stack",
    checks: "the pieces of a stack, counted, are no more than the job allows",
    why: "every joint between pieces can trap dirt, settle or slip",
    limit: |limits, _| {
        let pieces = limits.shim.as_ref()?.pieces.as_ref()?;
        Some((format!("no more than {}", count(pieces.value as usize, "piece")), pieces.authority.clone()))
    },
    judge,
};

/// Judges one stack by the number of its pieces.
fn outcome(pieces: u64, most: u32) -> Outcome {
    match pieces {
        0 => does_not_apply("no shims are planned"),
        pieces if pieces > u64::from(most) => Outcome::Fail(Level::Ask),
        _ => KEPT,
    }
}

/// Gives on whose word the number stands: the limit set's, unless the job has another.
fn authority(case: &Case<'_>) -> Authority {
    let set = case.job.limits.tables.shim.as_ref().and_then(|shim| shim.pieces.as_ref());
    set.filter(|set| set.value == case.job.shims.most_pieces)
        .map_or_else(Authority::this_job, |set| set.authority.clone())
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_column(case, |case, column| {
        let stack = &case.choice(column.index).stack;
        let pieces: u64 = stack.iter().map(|piece| u64::from(piece.count)).sum();
        let outcome = outcome(pieces, case.job.shims.most_pieces);
        Finding::said(
            Subject::column(column.index),
            sentence(case, column, &outcome, pieces),
            outcome,
            authority(case),
        )
    })
}

fn sentence(case: &Case<'_>, column: &ColumnCase, outcome: &Outcome, pieces: u64) -> String {
    let mark = mark(case, column);
    let most = case.job.shims.most_pieces;
    let pieces = count(usize::try_from(pieces).unwrap_or(usize::MAX), "piece");
    match outcome {
        Outcome::NotApplicable(why) => format!("{mark}: {why}"),
        Outcome::Fail(_) => format!("{mark}: {pieces} in the stack, {most} at most; ask the engineer"),
        _ => format!("{mark}: {pieces} in the stack, {most} at most"),
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, clean_job, findings_under, nm, the_table};
    use super::*;
    use crate::model::Job;
    use crate::plan::StackPiece;

    fn judged(job: &Job, count: u32) -> Finding {
        let piece = StackPiece { thickness: nm(SIXTEENTH), count };
        findings_under(job, &RULE, |plan| plan.choices[0].stack = vec![piece, piece]).swap_remove(0)
    }

    #[test]
    fn pieces_are_counted_afresh() {
        let mut job = clean_job();
        assert_eq!(judged(&job, 1).outcome, KEPT);
        assert_eq!(judged(&job, 2).outcome, Outcome::Fail(Level::Ask));
        assert_eq!(judged(&job, 2).text, "A1: 4 pieces in the stack, 3 at most; ask the engineer");
        assert_eq!(judged(&job, u32::MAX).outcome, Outcome::Fail(Level::Ask), "no overflow");
        assert!(matches!(judged(&job, 0).outcome, Outcome::NotApplicable(_)));
        job.shims.most_pieces = 4;
        assert_eq!(judged(&job, 2).outcome, KEPT);
    }

    #[test]
    fn the_limit_stands_on_the_set_unless_the_job_has_its_own() {
        let mut job = clean_job();
        assert_eq!(judged(&job, 2).authority, the_table());
        job.shims.most_pieces = 2;
        assert_eq!(judged(&job, 2).authority, Authority::this_job());
    }
}
