//! A column stands in no line, so that no next column is compared with it.

use super::Rule;
use super::subjects::{KEPT, does_not_apply, each_column, house_rule, mark};
use crate::catalog::Authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "column-in-no-line",
    about: "every column on a wall or frame line",
    checks: "every column stands on a line with at least one other",
    why: "what joins two columns is only judged between next columns of a line",
    limit: |_, _| Some(("every column".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("next columns are compared along lines only")
}

/// Judges one column by whether it is on a line, in a job of so many columns.
fn outcome(on_line: bool, columns: usize) -> Outcome {
    match (on_line, columns) {
        (true, _) => KEPT,
        (false, 0 | 1) => does_not_apply("the job has no other column"),
        (false, _) => Outcome::Fail(Level::Ask),
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_column(case, |case, column| {
        let lines = case.job.lines.iter().filter(|line| line.columns.contains(&column.index));
        let on_line = lines.into_iter().any(|line| line.columns.len() > 1);
        let outcome = outcome(on_line, case.columns.len());
        let mark = mark(case, column);
        let text = match &outcome {
            Outcome::NotApplicable(why) => format!("{mark}: {why}"),
            Outcome::Fail(_) => format!(
                "{mark} stands in no line, so no next column is compared with it; add it to a [[line]], or ask the engineer"
            ),
            _ => format!("{mark} stands on a line"),
        };
        Finding::said(Subject::column(column.index), text, outcome, authority())
    })
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, told};
    use super::*;

    #[test]
    fn a_column_off_every_line_is_asked_about() {
        let mut job = clean_job();
        assert_eq!(told(&findings(&job, &RULE)), [None, None]);
        job.lines[0].columns.pop();
        assert_eq!(told(&findings(&job, &RULE)), [Some(Level::Ask); 2], "a line of one compares nothing");
        job.lines.clear();
        job.columns.pop();
        assert!(matches!(findings(&job, &RULE)[0].outcome, Outcome::NotApplicable(_)));
    }
}
