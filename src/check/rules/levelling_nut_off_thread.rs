//! The thread of a rod does not reach down to its levelling nut.
//!
//! It stops, and holds the column, where a measured thread ends above the nut at its nominal height by the readings: the
//! nut cannot be turned down to the height of the seat. Closer than that it is asked about. A thread that nobody measured
//! is asked for: the drawing's thread says nothing of the rod that was cast in.

use super::set_on::{NO_BED, Said, bed};
use super::subjects::{does_not_apply, house_rule, rod_name};
use super::wording::{in_pitches, term};
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::{Case, ColumnCase, RodCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::check::levelling::{Fit, Reach};
use crate::length::{Length, Rounding};
use crate::model::Levelling;
use crate::text::Style;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "levelling-nut-off-thread",
    about: "thread under every levelling nut",
    checks: "measured thread - clear thread - (projection - bed + washer + levelling nut, each at its most) - reading \
             tolerance is 0 or more",
    why: "a levelling nut cannot be turned down past the end of the thread, and one half on it holds less than it seems",
    limit: |limits, style| {
        let clear = &limits.engagement.as_ref()?.clear;
        Some((
            format!("{} clear below the levelling nut", in_pitches(clear.value, style)),
            clear.authority.clone(),
        ))
    },
    judge,
};

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let style = style(case.job);
    let on_nuts =
        case.columns.iter().filter_map(|column| Some((column, case.base(column.index).levelling()?)));
    let rods =
        on_nuts.flat_map(|(column, levelling)| column.rods.iter().map(move |rod| (column, levelling, rod)));
    let said = rods.map(|(column, levelling, rod)| {
        let said = said(case, column, levelling, rod, style);
        said.of(Subject::rod(column.index, rod.label), &rod_name(case, column, rod))
    });
    said.collect()
}

fn said(case: &Case<'_>, column: &ColumnCase, levelling: &Levelling, rod: &RodCase, style: Style) -> Said {
    let base = case.base(column.index);
    let bed = bed(case, column);
    let reach = |thread: Option<Length>| Reach::of(base, levelling, bed, rod, thread?);
    let authority: Authority = base.clear.authority.clone();
    if bed.is_none() {
        return Said::plainly(does_not_apply(NO_BED), NO_BED, authority);
    }
    if rod.projection.is_none() {
        let why = "the rod is not measured";
        return Said::plainly(does_not_apply(why), why, authority);
    }
    let Some(reach) = reach(rod.thread) else {
        return unknown(reach(base.rods.thread), style);
    };
    let left = reach.left();
    let (outcome, text) = match reach.fit() {
        Fit::Yes => (
            Outcome::Pass { margin: Some(left) },
            format!("{} of thread to spare below the levelling nut", style.write(left, Rounding::Down)),
        ),
        Fit::Close => (
            Outcome::Fail(Level::Ask),
            format!(
                "its thread may end {} too soon for the levelling nut; too close to call, ask the engineer",
                style.write(-left, Rounding::Up)
            ),
        ),
        Fit::No => (
            Outcome::Fail(Level::Stop),
            format!(
                "its thread ends {} too soon for the levelling nut; do not set, ask the engineer",
                style.write(-left, Rounding::Up)
            ),
        ),
    };
    let pair = Some((left, Length::ZERO));
    Said { outcome, text, pair, arithmetic: arithmetic("thread", reach, style), authority }
}

/// Asks for a thread that was not measured, and tells what the drawing's would do.
fn unknown(drawn: Option<Reach>, style: Style) -> Said {
    let told = match drawn.map(Reach::left) {
        None => "the drawing gives none".to_owned(),
        Some(left) if left.is_negative() => {
            format!("the drawing's would end {} too soon", style.write(-left, Rounding::Up))
        }
        Some(_) => "the drawing's would reach".to_owned(),
    };
    Said {
        outcome: Outcome::Unknown(Level::Ask, "its thread, measured".to_owned()),
        text: format!(
            "whether its thread reaches the levelling nut was not measured, {told}; do not guess, measure it"
        ),
        pair: None,
        arithmetic: drawn.map_or_else(Vec::new, |drawn| arithmetic("drawing's thread", drawn, style)),
        authority: house_rule("a design value never stands in for a measurement"),
    }
}

fn arithmetic(which: &str, reach: Reach, style: Style) -> Vec<String> {
    vec![
        format!(
            "{which} - clear - (rod above the plate's underside + washer and levelling nut at their most) - the rod's +-"
        ),
        format!(
            "{} - {} - ({} + {}) - {} = {}",
            style.exact(reach.thread),
            style.exact(reach.clear),
            term(reach.above, style),
            style.exact(reach.parts.most),
            style.exact(reach.plus_minus),
            style.exact(reach.left())
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, bedded, beds, findings_under, levelling, nm, the_table};
    use super::*;

    /// 4 in of rod less a bed of 1-1/2 in, washer and nut at their most (0.28 and 0.758 in), a pitch of 0.1 in, and the tape.
    const ENOUGH: i64 = 40 * SIXTEENTH + 7_112_000 + 19_253_200 + 2_540_000 + SIXTEENTH;
    /// The same with the nominal parts, the tape by its reading.
    const NOMINAL: i64 = 40 * SIXTEENTH + 6_350_000 + 18_653_125 + 2_540_000;

    fn judged(thread: Option<i64>, drawn: Option<i64>) -> Finding {
        let mut job = bedded(levelling());
        job.columns[0].rods[0].thread = thread.map(nm);
        job.bases[0].rods.thread = drawn.map(nm);
        findings_under(&job, &RULE, |plan| beds(plan, 24 * SIXTEENTH)).swap_remove(0)
    }

    #[test]
    fn thread_that_just_reaches_passes_and_a_nanometre_less_is_asked_about() {
        assert_eq!(judged(Some(ENOUGH), None).outcome, Outcome::Pass { margin: Some(nm(0)) });
        let less = judged(Some(ENOUGH - 1), None);
        assert_eq!((less.level(), less.actual), (Some(Level::Ask), Some(nm(-1))));
        assert_eq!(less.authority, the_table());
        assert_eq!(judged(Some(NOMINAL), None).level(), Some(Level::Ask));
        let none = judged(Some(NOMINAL - 1), None);
        assert_eq!(none.outcome, Outcome::Fail(Level::Stop));
        assert_eq!(
            none.text,
            "A1 rod 1: its thread ends ~1/8\" too soon for the levelling nut; do not set, ask the engineer"
        );
    }

    #[test]
    fn a_thread_that_nobody_measured_is_asked_for_whatever_the_drawing_says() {
        for (drawn, words) in [
            (Some(ENOUGH), "the drawing's would reach"),
            (Some(ENOUGH - 1), "the drawing's would end ~1/16\" too soon"),
            (None, "the drawing gives none"),
        ] {
            let found = judged(None, drawn);
            assert!(matches!(found.outcome, Outcome::Unknown(Level::Ask, _)), "{found:?}");
            assert!(found.text.contains(words), "{}", found.text);
        }
    }

    #[test]
    fn a_rod_that_was_not_measured_is_no_pass() {
        let mut job = bedded(levelling());
        job.columns[0].rods[0].projection = None;
        let found = findings_under(&job, &RULE, |plan| beds(plan, 24 * SIXTEENTH));
        assert!(matches!(found[0].outcome, Outcome::NotApplicable(_)));
        assert!(matches!(found[1].outcome, Outcome::Pass { .. }));
    }
}
