//! One projection stands for all rods of a column.

use super::subjects::{KEPT, does_not_apply, each_column, house_rule, mark};
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::{Case, ColumnCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::model::Rod;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "one-value-for-all",
    about: "rods measured one by one",
    checks: "no rod of a column takes its projection from one value that stands for all",
    why: "the lowest rod of a group decides over the nut and the highest over the thread",
    limit: |_, _| Some(("every column".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("the lowest and the highest rod of a group are measured at least")
}

/// Judges the rods of one column.
fn outcome(rods: &[Rod]) -> Outcome {
    if rods.iter().any(|rod| rod.one_for_all) {
        Outcome::Fail(Level::Note)
    } else if rods.iter().all(|rod| rod.projection.is_none()) {
        does_not_apply("no rod is measured")
    } else {
        KEPT
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_column(case, |case, column| {
        let outcome = outcome(&case.column(column.index).rods);
        Finding::said(Subject::column(column.index), sentence(case, column, &outcome), outcome, authority())
    })
}

fn sentence(case: &Case<'_>, column: &ColumnCase, outcome: &Outcome) -> String {
    let mark = mark(case, column);
    let rods = &case.column(column.index).rods;
    match outcome {
        Outcome::NotApplicable(why) => format!("{mark}: {why}"),
        Outcome::Fail(_) => {
            let taken: Vec<&Rod> = rods.iter().filter(|rod| rod.one_for_all).collect();
            let value: Option<Length> = taken.first().and_then(|rod| rod.projection);
            let value = value.map_or(String::new(), |value| {
                format!(", {},", style(case.job).write(value, Rounding::Down))
            });
            let which = if taken.len() == rods.len() { "all its rods" } else { "all other rods" };
            format!(
                "{mark}: one projection{value} stands for {which}; measure at least the lowest and the highest"
            )
        }
        _ => format!("{mark}: its rods are measured one by one"),
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, told};
    use super::*;

    #[test]
    fn one_value_for_all_rods_is_noted_with_the_value() {
        let mut job = clean_job();
        for rod in &mut job.columns[0].rods {
            rod.one_for_all = true;
        }
        let found = findings(&job, &RULE);
        assert_eq!(told(&found), [Some(Level::Note), None]);
        assert_eq!(
            found[0].text,
            "A1: one projection, 2-1/2\", stands for all its rods; measure at least the lowest and the highest"
        );
        job.columns[0].rods[2].one_for_all = false;
        assert!(findings(&job, &RULE)[0].text.contains("stands for all other rods"));
    }
}
