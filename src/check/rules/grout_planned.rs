//! A column is planned on grout.

use super::subjects::{does_not_apply, each_column, house_rule, mark};
use super::{Rule, style};
use crate::catalog::{Authority, Grout};
use crate::check::case::{Case, ColumnCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::levels::Datum;
use crate::plan::Action;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "grout-planned",
    about: "columns planned on grout",
    checks: "no column is set on grout that the drawings do not have, unless the engineer agrees; a designed bed is \
             within the limits of grout",
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

/// Judges one column by what the plan does at it: a bed that the drawings have is kept within its limits.
fn outcome(action: Action, thickness: Option<Length>, designed: bool, grout: Option<&Grout>) -> Outcome {
    match (action, thickness, grout) {
        (Action::Grout, Some(bed), Some(grout)) if designed => {
            let margin = (bed - grout.least.value).min(grout.most.value - bed);
            if margin.is_negative() {
                Outcome::Fail(Level::Ask)
            } else {
                Outcome::Pass { margin: Some(margin) }
            }
        }
        (Action::Grout, ..) => Outcome::Fail(Level::Ask),
        _ => does_not_apply("no grout is planned"),
    }
}

/// Tells whether a designed bed counts by elevation 0, since no design seat is given.
fn counts_from_zero(case: &Case<'_>, column: &ColumnCase) -> bool {
    let of_job = case.column(column.index);
    matches!(case.levels.datum(), Datum::Absolute(_)) && of_job.seat.or(case.job.seat).is_none()
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
        let thickness = choice.raise.filter(|_| choice.action == Action::Grout);
        let designed = case.base(column.index).has_bed();
        let outcome = match outcome(choice.action, thickness, designed, grout) {
            Outcome::Pass { .. } if counts_from_zero(case, column) => Outcome::Fail(Level::Note),
            outcome => outcome,
        };
        Finding {
            subject: Subject::column(column.index),
            text: sentence(case, column, &outcome, thickness, grout),
            outcome,
            actual: thickness,
            limit: thickness.and_then(|_| limit(grout, thickness)),
            arithmetic: arithmetic(case, column, thickness),
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
    let base = case.base(column.index);
    if !base.has_bed() {
        return format!(
            "{mark}: {} of grout under the plate is planned{outside}; ask the engineer before setting",
            style.write(thickness, Rounding::Up)
        );
    }
    let bed = format!(
        "{mark}: a grout bed of {} is planned, {} is designed",
        style.exact(thickness),
        style.exact(base.bed)
    );
    match (outcome, grout) {
        (Outcome::Fail(Level::Note), _) => {
            format!("{bed}; no design seat is given, so elevation 0 stands for it: say where the seat is")
        }
        (Outcome::Pass { .. }, Some(grout)) => format!(
            "{bed}, {} to {} is allowed",
            style.exact(grout.least.value),
            style.exact(grout.most.value)
        ),
        _ => format!("{bed}{outside}; ask the engineer before setting"),
    }
}

/// Tells how a planned bed compares with the one that is designed.
fn arithmetic(case: &Case<'_>, column: &ColumnCase, thickness: Option<Length>) -> Vec<String> {
    let base = case.base(column.index);
    let Some(bed) = thickness.filter(|_| base.has_bed()) else { return Vec::new() };
    let style = style(case.job);
    vec![
        "bed less designed bed".to_owned(),
        format!("{} - {} = {}", style.exact(bed), style.exact(base.bed), style.exact(bed - base.bed)),
    ]
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

    fn on_a_designed_bed(sixteenths: i64, seat: bool) -> Finding {
        let mut job = clean_job();
        job.bases[0].bed = nm(24 * SIXTEENTH);
        if !seat {
            job.seat = None;
        }
        findings_under(&job, &RULE, |plan| {
            plan.choices[0].action = Action::Grout;
            plan.choices[0].raise = Some(nm(sixteenths * SIXTEENTH));
        })
        .swap_remove(0)
    }

    #[test]
    fn a_designed_bed_is_kept_within_its_limits_and_nobody_is_asked() {
        let found = on_a_designed_bed(22, true);
        assert_eq!(found.outcome, Outcome::Pass { margin: Some(nm(6 * SIXTEENTH)) });
        assert_eq!(
            found.text,
            "A1: a grout bed of 1-3/8\" is planned, 1-1/2\" is designed, 1\" to 2\" is allowed"
        );
        assert_eq!(found.arithmetic[1], "1-3/8\" - 1-1/2\" = -1/8\"");
        for outside in [15, 33] {
            let found = on_a_designed_bed(outside, true);
            assert_eq!(found.outcome, Outcome::Fail(Level::Ask));
            assert!(found.text.contains("outside the limits of grout; ask"), "{}", found.text);
        }
    }

    #[test]
    fn a_designed_bed_without_a_design_seat_is_noted() {
        let found = on_a_designed_bed(24, false);
        assert_eq!(found.outcome, Outcome::Fail(Level::Note));
        assert!(found.text.contains("no design seat is given"), "{}", found.text);
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
