//! The pad of a column has no elevation.

use super::subjects::{KEPT, each_column, house_rule, mark};
use super::wording::all_raises;
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::{Case, ColumnCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::Length;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "pad-not-measured",
    about: "every pad read and tied to the rest",
    checks: "the level notes carry an elevation to every column's pad",
    why: "what goes under a column cannot be told without the height of its pad",
    limit: |_, _| Some(("every pad".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("what is not measured is not set")
}

/// Judges one column by its pad's elevation.
fn outcome(elevation: Option<Length>, read: bool) -> Outcome {
    match (elevation, read) {
        (Some(_), _) => KEPT,
        (None, true) => Outcome::Unknown(Level::Stop, "a setup that ties its pad to the rest".to_owned()),
        (None, false) => Outcome::Unknown(Level::Stop, "a level reading on its pad".to_owned()),
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_column(case, |case, column| {
        let elevation = column.pad.map(|pad| pad.elevation);
        let read = case.column(column.index).point.is_some();
        Finding {
            subject: Subject::column(column.index),
            outcome: outcome(elevation, read),
            actual: elevation,
            limit: None,
            text: sentence(case, column, read),
            arithmetic: Vec::new(),
            authority: authority(),
        }
    })
}

fn sentence(case: &Case<'_>, column: &ColumnCase, read: bool) -> String {
    let style = style(case.job);
    let mark = mark(case, column);
    if let Some(pad) = column.pad {
        return format!("{mark}: its pad stands at {}", style.elevation(pad.elevation));
    }
    let rods = match &column.allowed {
        None => String::new(),
        Some(allowed) => match all_raises(allowed, style) {
            None => "; its measured rods allow no height".to_owned(),
            Some(raises) => format!("; its measured rods allow it {raises}"),
        },
    };
    if read {
        format!(
            "{mark}: its pad is not tied to the datum; read it again from a setup that shares a point with the rest{rods}"
        )
    } else {
        format!("{mark}: its pad is not read; read it with the level before setting{rods}")
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{blank_pad, clean_job, findings, told};
    use super::*;

    #[test]
    fn a_pad_that_was_not_read_stops_and_is_told_what_its_rods_allow() {
        let mut job = clean_job();
        blank_pad(&mut job, 1);
        let found = findings(&job, &RULE);
        assert_eq!(told(&found), [None, Some(Level::Stop)]);
        // 63.5 mm rod less 38 798 500 nm of parts and tape is 0.97 in, down to the sixteenth
        assert!(found[1].text.starts_with("A2: its pad is not read; read it with the level before setting"));
        assert!(found[1].text.contains(" to ~15/16\" above its pad"), "{}", found[1].text);
    }

    #[test]
    fn a_pad_that_is_not_tied_to_the_rest_is_told_apart() {
        let mut job = clean_job();
        job.readings.elevations.pop();
        let found = findings(&job, &RULE);
        assert_eq!(told(&found), [None, Some(Level::Stop)]);
        assert!(found[1].text.contains("from a setup that shares a point"), "{}", found[1].text);
    }
}
