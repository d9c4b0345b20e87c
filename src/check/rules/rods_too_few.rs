//! A column stands on too few anchor rods.

use super::Rule;
use super::subjects::{KEPT, does_not_apply, each_column, house_rule, mark};
use crate::catalog::{Authority, Limit};
use crate::check::case::{Case, ColumnCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::model::Duty;
use crate::text::count;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "rods-too-few",
    about: "rods under every column",
    checks: "the base of a column has the fewest rods allowed or more; posts are exempt",
    why: "a column on too few rods can topple before it is braced",
    limit: |limits, _| {
        let least = limits.rods.as_ref()?.least.as_ref()?;
        Some((
            format!("{} or more, posts exempt", count(least.value as usize, "rod")),
            least.authority.clone(),
        ))
    },
    judge,
};

/// Judges one column by the count of its base.
fn outcome(count: u32, duty: Duty, least: Option<u32>) -> Outcome {
    match (least, duty) {
        (None, _) => does_not_apply("no fewest number of rods is set"),
        (_, Duty::Post) => does_not_apply("it is a post under 29 CFR 1926.751"),
        (Some(least), Duty::Column) if count < least => Outcome::Fail(Level::Stop),
        (Some(_), Duty::Column) => KEPT,
    }
}

fn least<'a>(case: &Case<'a>) -> Option<&'a Limit<u32>> {
    case.job.limits.tables.rods.as_ref()?.least.as_ref()
}

fn authority(case: &Case<'_>) -> Authority {
    least(case).map_or_else(|| house_rule("no fewest number of rods is set"), |least| least.authority.clone())
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_column(case, |case, column| {
        let base = case.base(column.index);
        let outcome = outcome(base.rods.count, base.duty, least(case).map(|least| least.value));
        Finding::said(
            Subject::column(column.index),
            sentence(case, column, &outcome),
            outcome,
            authority(case),
        )
    })
}

fn sentence(case: &Case<'_>, column: &ColumnCase, outcome: &Outcome) -> String {
    let mark = mark(case, column);
    let rods = count(case.base(column.index).rods.count as usize, "rod");
    match (outcome, least(case)) {
        (Outcome::NotApplicable(why), _) => format!("{mark}: {rods}, {why}"),
        (Outcome::Fail(_), Some(least)) => {
            format!("{mark}: {rods}, at least {} required; do not set, ask the engineer", least.value)
        }
        _ => format!("{mark}: {rods}"),
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, the_table, told};
    use super::*;

    /// 29 CFR 1926.755(a)(1) and 1926.758(b): four anchor rods a column; 1926.751: a post is no column.
    #[test]
    fn three_rods_stop_a_column_and_not_a_post() {
        let mut job = clean_job();
        job.bases[0].rods.count = 3;
        let found = findings(&job, &RULE);
        assert_eq!(told(&found), [Some(Level::Stop), Some(Level::Stop)]);
        assert_eq!(found[0].text, "A1: 3 rods, at least 4 required; do not set, ask the engineer");
        assert_eq!(found[0].authority, the_table());
        job.bases[0].duty = Duty::Post;
        let found = findings(&job, &RULE);
        assert!(matches!(&found[0].outcome, Outcome::NotApplicable(why) if why.contains("29 CFR 1926.751")));
    }

    #[test]
    fn a_set_without_a_fewest_number_does_not_apply() {
        let mut job = clean_job();
        job.limits.tables.rods = None;
        job.bases[0].rods.count = 1;
        assert!(matches!(findings(&job, &RULE)[0].outcome, Outcome::NotApplicable(_)));
    }
}
