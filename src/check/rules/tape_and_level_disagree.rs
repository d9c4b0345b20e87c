//! The projection of a rod by tape and by level are too far apart, or its top was read below its pad.

use super::subjects::{does_not_apply, each_rod, house_rule, rod_name};
use super::wording::term;
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::{Case, RodCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::model::ByLevel;
use crate::text::{Relation, Style};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "tape-and-level-disagree",
    about: "rods that tape and level were put to",
    checks: "|tape - level| <= the root of both +- squared; the top of a rod is no lower than its pad",
    why: "two readings of one rod that differ by more than readings do: one of them is of something else",
    limit: |_, _| Some(("what both readings are good to".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("two readings of one height agree within the root of the sum of their +- squared, at 95 %")
}

/// Judges one rod by what the level says of it; `limit` is how far tape and level may be apart.
fn outcome(by_level: Option<ByLevel>, limit: Option<Length>) -> Outcome {
    let Some(by_level) = by_level else {
        return does_not_apply("its top was not read with the level");
    };
    if by_level.is_below_its_pad() {
        return Outcome::Fail(Level::Ask);
    }
    match (by_level.apart(), limit) {
        (Some(apart), Some(limit)) if apart > limit => Outcome::Fail(Level::Ask),
        (Some(apart), Some(limit)) => Outcome::Pass { margin: Some(limit - apart) },
        _ => does_not_apply("no tape was put to it by itself"),
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let tape_plus_minus = case.job.rods_plus_minus;
    each_rod(case, |case, column, rod| {
        let limit = rod.by_level.map(|by_level| by_level.may_be_apart(tape_plus_minus));
        let outcome = outcome(rod.by_level, limit);
        let compared = rod.by_level.filter(|by_level| !by_level.is_below_its_pad());
        let apart = compared.and_then(|by_level| by_level.apart());
        let style = style(case.job);
        Finding {
            subject: Subject::rod(column.index, rod.label),
            text: sentence(&rod_name(case, column, rod), rod, &outcome, (apart, limit), case),
            outcome,
            actual: apart,
            limit: apart.and(limit),
            arithmetic: rod
                .by_level
                .map_or_else(Vec::new, |it| arithmetic(&it, tape_plus_minus, limit, style)),
            authority: authority(),
        }
    })
}

fn sentence(
    name: &str,
    rod: &RodCase,
    outcome: &Outcome,
    (apart, limit): (Option<Length>, Option<Length>),
    case: &Case<'_>,
) -> String {
    let style = style(case.job);
    if let Outcome::NotApplicable(why) = outcome {
        return format!("{name}: {why}");
    }
    let level = rod.by_level.map_or(Length::ZERO, |it| it.level);
    let (Some(apart), Some(limit)) = (apart, limit) else {
        return format!(
            "{name}: by level its top is {} below its pad, so it counts as not measured; read again which point is which",
            style.write(-level, Rounding::Up)
        );
    };
    let tape = rod.by_level.and_then(|it| it.tape).unwrap_or(Length::ZERO);
    let shown = style.pair(apart, limit, Relation::AtMost);
    let readings = format!(
        "{name}: tape {} (+-{}), level {} (+-{}), {} apart",
        style.write(tape, Rounding::Nearest),
        style.write(case.job.rods_plus_minus, Rounding::Up),
        style.write(level, Rounding::Nearest),
        style.write(rod.by_level.map_or(Length::ZERO, |it| it.plus_minus), Rounding::Up),
        shown.value
    );
    match outcome {
        Outcome::Fail(_) => format!("{readings}, {} at most for one rod; measure both again", shown.limit),
        _ => format!("{readings}, up to {} they agree", shown.limit),
    }
}

fn arithmetic(
    by_level: &ByLevel,
    tape_plus_minus: Length,
    limit: Option<Length>,
    style: Style,
) -> Vec<String> {
    let (Some(tape), Some(apart), Some(limit)) = (by_level.tape, by_level.apart(), limit) else {
        return Vec::new();
    };
    let shown = style.pair(apart, limit, Relation::AtMost);
    vec![
        "tape - level, against the root of tape's +- squared and level's +- squared".to_owned(),
        format!(
            "{} - {} = {}",
            style.exact(tape),
            term(by_level.level, style),
            style.exact(tape - by_level.level)
        ),
        format!(
            "the root of {} squared and {} squared = {}",
            style.exact(tape_plus_minus),
            style.exact(by_level.plus_minus),
            style.exact(limit)
        ),
        format!("{} against {}", shown.value, shown.limit),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, clean_job, findings, nm};
    use super::*;

    /// Rod 1 of A1 in sixteenths by tape, if at all, and by level, each good to a sixteenth.
    fn found(tape: Option<i64>, level: i64) -> Finding {
        let mut job = clean_job();
        let tape = tape.map(|it| nm(it * SIXTEENTH));
        job.columns[0].rods[0].by_level = Some(ByLevel {
            tape,
            level: nm(level * SIXTEENTH),
            plus_minus: nm(SIXTEENTH),
            // the rule looks for itself
            agrees: true,
        });
        let found = findings(&job, &RULE);
        assert!(found[1..].iter().all(|it| matches!(it.outcome, Outcome::NotApplicable(_))));
        found.into_iter().next().unwrap()
    }

    /// The root of 2 is 1.41: a sixteenth apart agrees, two are too far.
    #[test]
    fn readings_agree_up_to_the_root_of_both_squares() {
        assert!(matches!(found(Some(40), 41).outcome, Outcome::Pass { .. }));
        let apart = found(Some(40), 42);
        assert_eq!(apart.outcome, Outcome::Fail(Level::Ask));
        assert_eq!((apart.actual, apart.limit), (Some(nm(2 * SIXTEENTH)), Some(nm(2_245_064))));
        assert_eq!(
            apart.text,
            "A1 rod 1: tape 2-1/2\" (+-1/16\"), level 2-5/8\" (+-1/16\"), 1/8\" apart, ~1/16\" at most for one \
             rod; measure both again"
        );
        assert_eq!(apart.arithmetic.len(), 4);
    }

    #[test]
    fn a_top_below_its_pad_is_asked_about() {
        for tape in [None, Some(40)] {
            let found = found(tape, -8);
            assert_eq!(found.outcome, Outcome::Fail(Level::Ask));
            assert!(found.text.contains("its top is 1/2\" below its pad"), "{}", found.text);
        }
    }

    #[test]
    fn without_a_tape_there_is_nothing_to_compare() {
        assert!(matches!(found(None, 40).outcome, Outcome::NotApplicable(_)));
    }
}
