//! A line was found from positions and not given.

use super::Rule;
use super::subjects::{KEPT, house_rule};
use super::wording::some_of;
use crate::catalog::Authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "lines-found",
    about: "lines found from positions",
    checks: "every line is given by the job and not found from the positions of its columns",
    why: "a line that is not the drawing's compares columns that nothing joins, or leaves out some that are joined",
    limit: |_, _| Some(("every line".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("columns whose x or y lies within 1 ft (300 mm) of the group's first stand on one line")
}

/// Judges one line by whether it was found.
fn outcome(found: bool) -> Outcome {
    if found { Outcome::Fail(Level::Note) } else { KEPT }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let lines = case.job.lines.iter().map(|line| {
        let columns = some_of(&case.marks(&line.columns));
        let text = if line.found {
            format!(
                "line {}: found from positions, {columns}; give [[line]] if the drawing has it otherwise",
                line.name
            )
        } else {
            format!("line {}: given, {columns}", line.name)
        };
        Finding::said(
            Subject { columns: line.columns.clone(), rod: None, line: Some(line.name.clone()) },
            text,
            outcome(line.found),
            authority(),
        )
    });
    lines.collect()
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings};
    use super::*;

    #[test]
    fn a_found_line_is_noted_with_its_columns() {
        let mut job = clean_job();
        job.lines[0].found = true;
        job.lines[0].name = "x1".to_owned();
        let found = findings(&job, &RULE);
        assert_eq!(found[0].level(), Some(Level::Note));
        assert_eq!(found[0].subject.line.as_deref(), Some("x1"));
        assert!(found[0].text.contains("A1 and A2"), "{}", found[0].text);
    }
}
