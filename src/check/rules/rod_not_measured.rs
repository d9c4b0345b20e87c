//! A rod of a column has not been measured.

use super::subjects::{KEPT, house_rule, mark, rod_name};
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::{Case, ColumnCase, RodCase, rods_missing};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::text::{Style, count};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "rod-not-measured",
    about: "every rod measured",
    checks: "every rod of every column has a measured projection; the drawing's never stands in for it",
    why: "nobody knows whether the nut of a rod that was not measured will be full",
    limit: |_, _| Some(("every rod".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("a design value never stands in for a measurement")
}

/// Judges one rod by its measurement.
fn outcome(projection: Option<Length>) -> Outcome {
    match projection {
        Some(_) => KEPT,
        None => Outcome::Unknown(Level::Stop, "its projection".to_owned()),
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for column in &case.columns {
        findings.extend(column.rods.iter().map(|rod| of_rod(case, column, rod)));
        findings.extend(of_column(case, column));
    }
    findings
}

fn of_rod(case: &Case<'_>, column: &ColumnCase, rod: &RodCase) -> Finding {
    let style = style(case.job);
    let name = rod_name(case, column, rod);
    let text = match rod.projection {
        Some(projection) => {
            format!("{name} stands {} above its pad", style.write(projection, Rounding::Down))
        }
        None => {
            format!("{name} is not measured: measure it before setting{}", must_stand("it", column, style))
        }
    };
    finding(Subject::rod(column.index, rod.label), outcome(rod.projection), rod.projection, text)
}

/// Judges a column whose rods are not all listed.
fn of_column(case: &Case<'_>, column: &ColumnCase) -> Option<Finding> {
    let missing = rods_missing(case.base(column.index), &column.rods);
    if missing == 0 {
        return None;
    }
    let text = format!(
        "{}: {} not listed: measure every rod before setting{}",
        mark(case, column),
        count(missing as usize, "rod"),
        must_stand("each", column, style(case.job)),
    );
    Some(finding(Subject::column(column.index), outcome(None), None, text))
}

fn finding(subject: Subject, outcome: Outcome, actual: Option<Length>, text: String) -> Finding {
    Finding { subject, outcome, actual, limit: None, text, arithmetic: Vec::new(), authority: authority() }
}

/// Says what every rod of a column must stand, where the plan gives it.
fn must_stand(who: &str, column: &ColumnCase, style: Style) -> String {
    column.needs_projection.map_or(String::new(), |needed| {
        format!("; {who} must stand {} above its pad", style.write(needed, Rounding::Up))
    })
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, nm, told};
    use super::*;
    use crate::model::RodLabel;

    #[test]
    fn a_rod_without_a_projection_stops_and_is_told_what_it_must_stand() {
        let mut job = clean_job();
        job.columns[0].rods[1].projection = None;
        let found = findings(&job, &RULE);
        assert_eq!(told(&found)[..4], [None, Some(Level::Stop), None, None]);
        // 38 798 500 nm is 1.5275 in, up to the next sixteenth
        assert_eq!(
            found[1].text,
            "A1 rod 2 is not measured: measure it before setting; it must stand ~1-9/16\" above its pad"
        );
    }

    #[test]
    fn a_rod_that_is_not_listed_stops_too() {
        let mut job = clean_job();
        job.columns[0].rods.truncate(2);
        job.columns[1].rods.clear();
        let found = findings(&job, &RULE);
        assert_eq!(told(&found), [None, None, Some(Level::Stop), Some(Level::Stop)]);
        assert!(found[2].text.starts_with("A1: 2 rods not listed: measure every rod"), "{}", found[2].text);
        assert!(found[3].text.starts_with("A2: 4 rods not listed"), "{}", found[3].text);
    }

    #[test]
    fn the_lowest_and_the_highest_stand_for_their_group() {
        let mut job = clean_job();
        job.columns[0].rods.truncate(2);
        job.columns[0].rods[0].label = RodLabel::Low;
        job.columns[0].rods[1].label = RodLabel::High;
        job.columns[1].rods.truncate(1);
        job.columns[1].rods[0].label = RodLabel::Low;
        job.columns[1].rods[0].projection = Some(nm(63_500_000));
        let found = findings(&job, &RULE);
        assert_eq!(told(&found), [None, None, None, Some(Level::Stop)]);
    }
}
