//! What a measurement is good to was not stated, and this program's figure stands in.

use super::subjects::{KEPT, does_not_apply, house_rule};
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::{Case, RodCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::model::Readings;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "plus-minus-assumed",
    about: "what readings and rods are good to",
    checks: "the job states levels_plus_minus where a level was read, and rods_plus_minus where rods were measured",
    why: "every verdict close to its limit hangs on these two figures",
    limit: |_, _| {
        Some((
            "both, if not stated: 1/16 in or 1.5 mm, or the catalog's for the kind of instrument".to_owned(),
            authority(),
        ))
    },
    judge,
};

fn authority() -> Authority {
    house_rule(
        "without a statement of the job a measurement is taken as good to 1/16 in or 1.5 mm, a level reading as the catalog says of its kind of instrument",
    )
}

/// Judges one of the two figures.
fn outcome(used: bool, assumed: bool) -> Outcome {
    match (used, assumed) {
        (false, _) => does_not_apply("nothing of the kind was measured"),
        (true, true) => Outcome::Fail(Level::Note),
        (true, false) => KEPT,
    }
}

/// Tells whether what the job says of one reading enters the elevations.
fn used(readings: &Readings) -> bool {
    let by_itself = |setup: usize| readings.setups.get(setup).is_none_or(|it| it.instrument.is_none());
    let alike = |good_to: Length| good_to == readings.plus_minus;
    readings.sights.iter().any(|it| by_itself(it.setup))
        || readings.elevations.iter().any(|it| alike(it.plus_minus))
        || readings.differences.iter().any(|it| alike(it.plus_minus))
}

/// Judges what the level readings are good to.
fn levels(case: &Case<'_>) -> Finding {
    let readings = &case.job.readings;
    let key = ("level readings", "levels_plus_minus");
    let by_kind = !readings.kinds_assumed.is_empty() && !readings.sights.is_empty();
    if by_kind {
        let text = format!("{}: {}", key.0, of_kinds(case, used(readings)));
        return Finding { text, ..finding(case, key, readings.plus_minus, Outcome::Fail(Level::Note)) };
    }
    let found = finding(case, key, readings.plus_minus, outcome(used(readings), readings.plus_minus_assumed));
    if matches!(found.outcome, Outcome::NotApplicable(_)) && !readings.is_empty() {
        let text = format!("{}: each is good to what its instrument or its own row states", key.0);
        return Finding { text, outcome: KEPT, ..found };
    }
    found
}

/// Says what the kinds of instrument are taken to be good to, and the rest where there is any.
fn of_kinds(case: &Case<'_>, rest: bool) -> String {
    let readings = &case.job.readings;
    let style = style(case.job);
    let each = readings.kinds_assumed.iter().map(|kind| {
        let found = readings.instruments.iter().find(|it| it.kind.as_ref() == Some(kind));
        let without = found.map_or(readings.plus_minus, |it| it.without_sight);
        format!("+-{} by {kind}", style.write(without, Rounding::Up))
    });
    let each: Vec<String> = each.collect();
    let told = match each.as_slice() {
        [one] => format!("good to {one}"),
        [first, ..] => format!("good to {first}, {} more kinds", each.len() - 1),
        [] => String::new(),
    };
    let rest = match rest && readings.plus_minus_assumed {
        true => format!(", other points to +-{}", style.write(readings.plus_minus, Rounding::Up)),
        false => String::new(),
    };
    format!("{told}{rest}: figures of the catalog (rodreach catalog instruments); state yours")
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let job = case.job;
    let by_tape = |rod: &RodCase| rod.by_level.map_or(rod.projection, |it| it.tape).is_some();
    let measured = case.columns.iter().flat_map(|column| &column.rods).any(by_tape);
    vec![
        levels(case),
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
        job.readings.kinds_assumed = vec!["rotary-laser".to_owned()];
        let text = findings(&job, &RULE)[0].text.clone();
        assert!(text.contains("by rotary-laser"), "{text}");
        for rod in job.columns.iter_mut().flat_map(|column| &mut column.rods) {
            rod.projection = None;
        }
        assert_eq!(told(&findings(&job, &RULE))[1], None);
    }
}
