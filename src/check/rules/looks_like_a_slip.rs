//! The readings look as if something was misread, swapped, or read with an instrument that moved.

use super::subjects::{KEPT, does_not_apply, house_rule};
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::check::slip_words::slip_words;
use crate::levels::{RoundAmount, Slip, SlipKind};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "looks-like-a-slip",
    about: "slips a crew makes with a level",
    checks: "no reading is a foot, an inch or a centimetre off, no two are swapped, none drift, every check shot comes back",
    why: "a slip costs a walk back to the pad now, or a crate of wrong shims later",
    limit: |_, _| {
        Some(("what others read, or what the neighbours are, is not contradicted".to_owned(), authority()))
    },
    judge,
};

fn authority() -> Authority {
    house_rule("patterns of slips that are common in field books; a question to the crew, never a correction")
}

/// Judges a slip: what nothing checks and is as large as a foot is asked about, all else is noted.
const fn outcome(kind: &SlipKind) -> Outcome {
    match kind {
        SlipKind::OffNeighbours(RoundAmount::Foot | RoundAmount::Metre)
        | SlipKind::OffTheOthers(_)
        | SlipKind::SeatsSwapped => Outcome::Fail(Level::Ask),
        _ => Outcome::Fail(Level::Note),
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let slips = case.levels.slips();
    if !slips.is_empty() {
        return slips.iter().map(|slip| finding(case, slip)).collect();
    }
    let readings = &case.job.readings;
    let (outcome, text) = if readings.sights.is_empty() && readings.differences.is_empty() {
        (does_not_apply("nothing was read with a level"), "level readings: none were taken")
    } else {
        (KEPT, "level readings: none looks like a slip")
    };
    vec![Finding::said(Subject::default(), text.to_owned(), outcome, authority())]
}

fn finding(case: &Case<'_>, slip: &Slip) -> Finding {
    let of_slip = |index: &usize| {
        let point = case.column(*index).point;
        let spot = |point: usize| {
            case.job.readings.spots.iter().any(|spot| spot.point == point && spot.column == *index)
        };
        slip.points.iter().any(|it| point == Some(*it) || spot(*it))
    };
    Finding {
        subject: Subject { columns: (0..case.columns.len()).filter(of_slip).collect(), ..Subject::default() },
        outcome: outcome(&slip.kind),
        actual: Some(slip.size),
        limit: None,
        text: slip_words(case.job, slip, style(case.job)),
        arithmetic: Vec::new(),
        authority: authority(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, make_relative, nm};
    use super::*;
    use crate::model::Setup;

    /// Both pads read from two setups, the second setup's A2 an inch off.
    #[test]
    fn an_inch_that_was_misread_is_noted_with_the_question() {
        let mut job = clean_job();
        make_relative(&mut job);
        job.readings.setups.push(Setup::named("2"));
        for at in 0..2 {
            let mut sight = job.readings.sights[at].clone();
            sight.setup = 1;
            sight.reading = nm(if at == 1 { 25_400_000 } else { 0 });
            sight.place.start = at + 1;
            job.readings.sights.push(sight);
        }
        let found = findings(&job, &RULE);
        assert_eq!(found[0].level(), Some(Level::Note));
        assert!(found[0].text.contains("off by about 1\"; was the inch read right?"), "{}", found[0].text);
    }

    #[test]
    fn clean_readings_look_like_nothing() {
        let mut job = clean_job();
        assert!(matches!(findings(&job, &RULE)[0].outcome, Outcome::NotApplicable(_)));
        make_relative(&mut job);
        assert_eq!(findings(&job, &RULE)[0].outcome, KEPT);
    }
}
