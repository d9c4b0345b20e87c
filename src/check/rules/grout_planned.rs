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

/// Finds where a designed bed comes out thinner or thicker than its limits, on a pad that falls more than a flat one may.
fn uneven<'c>(case: &Case<'_>, column: &'c ColumnCase) -> Option<(Length, &'c str)> {
    let tables = &case.job.limits.tables;
    let (grout, shape, pad) = (tables.grout.as_ref()?, column.shape.as_ref()?, column.pad?);
    let bed = case.choice(column.index).raise?;
    let flat = tables.pad.as_ref().and_then(|pad| pad.tilt.as_ref()).map_or(Length::ZERO, |tilt| tilt.value);
    if shape.counts().value <= flat {
        return None;
    }
    let at = |place: usize| {
        let place = shape.places.get(place)?;
        Some((bed - (place.elevation - pad.elevation), place.word.as_str()))
    };
    let thin = at(shape.high).filter(|(bed, _)| *bed < grout.least.value);
    thin.or_else(|| at(shape.low).filter(|(bed, _)| *bed > grout.most.value))
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
            Outcome::Pass { .. } if uneven(case, column).is_some() => Outcome::Fail(Level::Ask),
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
        _ => match uneven(case, column).filter(|_| inside) {
            Some((there, word)) => {
                let there = style.exact(there);
                format!("{bed}, but it is {there} at {word}, outside the limits of grout; ask the engineer")
            }
            None => format!("{bed}{outside}; ask the engineer before setting"),
        },
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
    use super::super::fixture::{SIXTEENTH, add_spots, clean_job, findings_under, nm, the_table};
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

    /// Judges a bed of so many sixteenths, 24 designed, on a pad whose north side stands so many above its middle.
    fn on_an_uneven_pad(bed: i64, north: i64) -> Finding {
        let mut job = clean_job();
        job.bases[0].bed = nm(24 * SIXTEENTH);
        add_spots(&mut job, 0, &[("N", north * SIXTEENTH), ("S", -north * SIXTEENTH)], 0);
        findings_under(&job, &RULE, |plan| {
            plan.choices[0].action = Action::Grout;
            plan.choices[0].raise = Some(nm(bed * SIXTEENTH));
        })
        .swap_remove(0)
    }

    #[test]
    fn a_designed_bed_that_comes_out_too_thin_or_thick_at_one_side_is_asked_about() {
        assert!(matches!(on_an_uneven_pad(24, 4).outcome, Outcome::Pass { .. }));
        let thin = on_an_uneven_pad(18, 4);
        assert_eq!(thin.outcome, Outcome::Fail(Level::Ask));
        assert!(thin.text.contains("but it is 7/8\" at N, outside the limits of grout"), "{}", thin.text);
        let thick = on_an_uneven_pad(30, 4);
        assert!(thick.text.contains("but it is 2-1/8\" at S, outside the limits of grout"), "{}", thick.text);
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
