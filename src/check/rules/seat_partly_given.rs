//! Some columns have a design seat and others have none.

use super::Rule;
use super::subjects::{KEPT, does_not_apply, house_rule};
use super::wording::some_of;
use crate::catalog::Authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "seat-partly-given",
    about: "design seats of all columns or of none",
    checks: "every column has a design seat, its own or the job's, or none has",
    why: "a column without one counts from 0, and its differences from the others may be wrong by a whole step",
    limit: |_, _| Some(("all or none".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("differences compare departures from each column's own design seat")
}

/// Judges a job by how many of its columns have no design seat.
fn outcome(without: usize, columns: usize) -> Outcome {
    match without {
        0 => KEPT,
        without if without == columns => does_not_apply("no column has a design seat"),
        _ => Outcome::Fail(Level::Note),
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let seatless = |index: &usize| case.column(*index).seat.or(case.job.seat).is_none();
    let all: Vec<usize> = case.columns.iter().map(|column| column.index).collect();
    let without: Vec<usize> = all.iter().copied().filter(seatless).collect();
    let outcome = outcome(without.len(), all.len());
    let text = match &outcome {
        Outcome::NotApplicable(why) => why.clone(),
        Outcome::Fail(_) => {
            let verb = if without.len() == 1 {
                "has no design seat and counts"
            } else {
                "have no design seat and count"
            };
            format!(
                "{} {verb} from 0, the others have one; give seat for each, or for the job",
                some_of(&case.marks(&without))
            )
        }
        _ => "every column has a design seat".to_owned(),
    };
    let columns = if outcome == Outcome::Fail(Level::Note) { without } else { all };
    vec![Finding::said(Subject { columns, ..Subject::default() }, text, outcome, authority())]
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings};
    use super::*;

    #[test]
    fn a_column_without_a_seat_among_others_with_one_is_noted() {
        let mut job = clean_job();
        assert_eq!(findings(&job, &RULE)[0].outcome, KEPT);
        job.columns[0].seat = job.seat.take();
        let found = findings(&job, &RULE);
        assert_eq!((found[0].level(), found[0].subject.columns.clone()), (Some(Level::Note), vec![1]));
        assert!(found[0].text.starts_with("A2 has no design seat and counts from 0"), "{}", found[0].text);
        job.columns[0].seat = None;
        assert!(matches!(findings(&job, &RULE)[0].outcome, Outcome::NotApplicable(_)));
    }
}
