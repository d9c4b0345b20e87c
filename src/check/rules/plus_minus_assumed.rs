//! What a measurement is good to was not stated, and this program's figure stands in.

use super::subjects::{KEPT, does_not_apply, house_rule};
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::model::Readings;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "plus-minus-assumed",
    about: "what readings and rods are good to",
    checks: "the job states levels_plus_minus where a level was read, and rods_plus_minus where rods were measured",
    why: "every verdict close to its limit hangs on these two figures",
    limit: |_, _| Some(("both, if not stated: 1/16 in or 1.5 mm".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("without a statement of the job a measurement is taken as good to 1/16 in, or 1.5 mm")
}

/// Judges one of the two figures.
fn outcome(used: bool, assumed: bool) -> Outcome {
    match (used, assumed) {
        (false, _) => does_not_apply("nothing of the kind was measured"),
        (true, true) => Outcome::Fail(Level::Note),
        (true, false) => KEPT,
    }
}

/// Tells whether the figure of one reading enters the elevations.
fn used(readings: &Readings) -> bool {
    let falls_back = readings.elevations.iter().any(|it| it.plus_minus == readings.plus_minus);
    !readings.sights.is_empty() || falls_back
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let job = case.job;
    let measured = case.columns.iter().flat_map(|column| &column.rods).any(|rod| rod.projection.is_some());
    vec![
        finding(
            case,
            ("level readings", "levels_plus_minus"),
            job.readings.plus_minus,
            outcome(used(&job.readings), job.readings.plus_minus_assumed),
        ),
        finding(
            case,
            ("rod projections", "rods_plus_minus"),
            job.rods_plus_minus,
            outcome(measured, job.rods_plus_minus_assumed),
        ),
    ]
}

fn finding(case: &Case<'_>, (what, key): (&str, &str), plus_minus: Length, outcome: Outcome) -> Finding {
    let good_to = format!("{what}: each is good to +-{}", style(case.job).write(plus_minus, Rounding::Up));
    let text = match &outcome {
        Outcome::NotApplicable(_) => format!("{what}: none were taken"),
        Outcome::Fail(_) => {
            format!("{good_to}, which is this program's figure; state {key} if yours is another")
        }
        _ => format!("{good_to}, as the job states"),
    };
    Finding {
        subject: Subject::default(),
        outcome,
        actual: None,
        limit: None,
        text,
        arithmetic: Vec::new(),
        authority: authority(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, make_relative, told};
    use super::*;

    #[test]
    fn a_figure_of_this_program_is_noted_where_it_is_used() {
        let mut job = clean_job();
        assert_eq!(told(&findings(&job, &RULE)), [None, None]);
        job.readings.plus_minus_assumed = true;
        job.rods_plus_minus_assumed = true;
        assert_eq!(told(&findings(&job, &RULE)), [None, Some(Level::Note)], "elevations bring their own +-");
        job.readings.elevations[0].plus_minus = job.readings.plus_minus;
        assert_eq!(told(&findings(&job, &RULE)), [Some(Level::Note); 2]);
        make_relative(&mut job);
        let found = findings(&job, &RULE);
        assert_eq!(told(&found), [Some(Level::Note); 2]);
        assert!(found[0].text.contains("+-1/16\""), "{}", found[0].text);
        for rod in job.columns.iter_mut().flat_map(|column| &mut column.rods) {
            rod.projection = None;
        }
        assert_eq!(told(&findings(&job, &RULE))[1], None);
    }
}
