//! A column is planned on grout.

use super::subjects::{does_not_apply, each_column, house_rule, mark};
use super::{Rule, style};
use crate::catalog::{Authority, Grout};
use crate::check::case::{Case, ColumnCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::plan::Action;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "grout-planned",
    about: "columns planned on grout",
    checks: "no column is set on grout that the drawings do not have, unless the engineer agrees",
    why: "grout carries the column: its strength, its forms and what holds the base meanwhile are designed",
    limit: |limits, style| {
        let grout = limits.grout.as_ref()?;
        let words = format!(
            "asked for, {} to {} thick",
            style.exact(grout.least.value),
            style.exact(grout.most.value)
        );
        Some((words, grout.most.authority.clone()))
    },
    judge,
};

/// Judges one column by what the plan does at it.
fn outcome(action: Action) -> Outcome {
    match action {
        Action::Grout => Outcome::Fail(Level::Ask),
        _ => does_not_apply("no grout is planned"),
    }
}

/// Gives the limit of a bed: the one it breaks, else the thickest.
fn limit(grout: Option<&Grout>, thickness: Option<Length>) -> Option<Length> {
    let grout = grout?;
    let thin = thickness.is_some_and(|thickness| thickness < grout.least.value);
    Some(if thin { grout.least.value } else { grout.most.value })
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let grout = case.job.limits.tables.grout.as_ref();
    each_column(case, |case, column| {
        let choice = case.choice(column.index);
        let outcome = outcome(choice.action);
        let thickness = choice.raise.filter(|_| choice.action == Action::Grout);
        Finding {
            subject: Subject::column(column.index),
            text: sentence(case, column, &outcome, thickness, grout),
            outcome,
            actual: thickness,
            limit: thickness.and_then(|_| limit(grout, thickness)),
            arithmetic: Vec::new(),
            authority: authority(grout),
        }
    })
}

fn authority(grout: Option<&Grout>) -> Authority {
    grout.map_or_else(|| house_rule("no limits of grout are set"), |grout| grout.most.authority.clone())
}

fn sentence(
    case: &Case<'_>,
    column: &ColumnCase,
    outcome: &Outcome,
    thickness: Option<Length>,
    grout: Option<&Grout>,
) -> String {
    let style = style(case.job);
    let mark = mark(case, column);
    if let Outcome::NotApplicable(why) = outcome {
        return format!("{mark}: {why}");
    }
    let thickness = thickness.unwrap_or(Length::ZERO);
    let inside = grout.is_some_and(|grout| grout.least.value <= thickness && thickness <= grout.most.value);
    let outside = if inside { "" } else { ", outside the limits of grout" };
    format!(
        "{mark}: {} of grout under the plate is planned{outside}; ask the engineer before setting",
        style.write(thickness, Rounding::Up)
    )
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, clean_job, findings_under, nm, the_table};
    use super::*;

    fn grouted(sixteenths: i64) -> Finding {
        findings_under(&clean_job(), &RULE, |plan| {
            plan.choices[0].action = Action::Grout;
            plan.choices[0].raise = Some(nm(sixteenths * SIXTEENTH));
        })
        .swap_remove(0)
    }

    #[test]
    fn grout_is_asked_about_with_its_thickness() {
        let found = grouted(20);
        assert_eq!((found.level(), found.actual), (Some(Level::Ask), Some(nm(20 * SIXTEENTH))));
        assert_eq!(found.authority, the_table());
        assert_eq!(
            found.text,
            "A1: 1-1/4\" of grout under the plate is planned; ask the engineer before setting"
        );
    }

    #[test]
    fn a_bed_outside_its_limits_is_said_so() {
        assert!(!grouted(16).text.contains("outside") && !grouted(32).text.contains("outside"));
        assert_eq!(
            (grouted(15).limit, grouted(33).limit),
            (Some(nm(16 * SIXTEENTH)), Some(nm(32 * SIXTEENTH)))
        );
        assert!(grouted(15).text.contains("outside") && grouted(33).text.contains("outside"));
    }
}
