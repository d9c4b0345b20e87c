//! The thread runs out under the nut: it cannot be drawn down on the plate.

use super::subjects::{does_not_apply, each_rod, left_on_its_pad, rod_name};
use super::wording::{in_pitches, term};
use super::{Rule, style};
use crate::check::case::{Case, ColumnCase, RodCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::text::{Relation, count};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "thread-runs-out",
    about: "thread left under every nut",
    checks: "thread - clear thread - (projection - raise - plate - washers) - reading tolerance is 0 or more, \
             every part at its least, with the fewest washers added that do",
    why: "a nut that meets the end of the thread feels tight and does not hold the plate",
    limit: |limits, style| {
        let clear = &limits.engagement.as_ref()?.clear;
        Some((format!("{} clear under the nut", in_pitches(clear.value, style)), clear.authority.clone()))
    },
    judge,
};

/// Judges one rod: what thread is left under its nut, the clear thread and the tape taken off.
fn outcome(measured: bool, left: Option<Length>) -> Outcome {
    match left {
        None if !measured => does_not_apply("the rod is not measured"),
        None => does_not_apply("its thread is not measured, see run-out-not-checked"),
        Some(left) if left < Length::ZERO => Outcome::Fail(Level::Stop),
        Some(left) => Outcome::Pass { margin: Some(left) },
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_rod(case, |case, column, rod| {
        let left = rod.result.thread_left.map(|left| left - rod.plus_minus);
        Finding {
            subject: Subject::rod(column.index, rod.label),
            outcome: outcome(rod.projection.is_some(), left),
            actual: left,
            limit: Some(Length::ZERO),
            text: sentence(case, column, rod, left),
            arithmetic: arithmetic(case, column, rod),
            authority: case.base(column.index).clear.authority.clone(),
        }
    })
}

fn sentence(case: &Case<'_>, column: &ColumnCase, rod: &RodCase, left: Option<Length>) -> String {
    let style = style(case.job);
    let name = rod_name(case, column, rod);
    let Some(left) = left else {
        let what = if rod.projection.is_some() { ": its thread" } else { "" };
        return format!("{name}{what} is not measured");
    };
    let extra = rod.result.extra_washers;
    let added = match extra {
        0 => String::new(),
        _ => format!(" with {} added", count(extra as usize, "washer")),
    };
    if left.is_negative() {
        let short = style.write(-left, Rounding::Up);
        let tried =
            if extra == 0 { ", and no washer may be added".to_owned() } else { format!(", even{added}") };
        format!(
            "{name}: {}the thread runs out {short} too soon under the nut{tried}; do not set, ask the engineer",
            left_on_its_pad(column)
        )
    } else {
        let left = style.write(left, Rounding::Down);
        format!("{name}: {}{left} of thread to spare under the nut{added}", left_on_its_pad(column))
    }
}

fn arithmetic(case: &Case<'_>, column: &ColumnCase, rod: &RodCase) -> Vec<String> {
    let style = style(case.job);
    let base = case.base(column.index);
    let (Some(projection), Some(thread), Some(left)) = (rod.projection, rod.thread, rod.result.thread_left)
    else {
        return Vec::new();
    };
    let left = left - rod.plus_minus;
    let shown = style.pair(left, Length::ZERO, Relation::AtLeast);
    vec![
        "thread - clear - (rod - raise - plate - washers) - the rod's +-, raise, plate and washers at their least"
            .to_owned(),
        format!(
            "{} - {} - ({} - {} - {} - {}) - {} = {}",
            style.exact(thread),
            style.exact(base.clear.value),
            style.exact(projection),
            term(column.raise.map_or(Length::ZERO, |raise| raise.least), style),
            style.exact(base.plate.thickness.least),
            style.exact(base.washers_with(rod.result.extra_washers).least),
            style.exact(rod.plus_minus),
            style.exact(left),
        ),
        format!("{} against {}", shown.value, shown.limit),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, nm, the_table, told};
    use super::*;

    /// Thread that is just enough with no washer added: 2.54 mm pitch + 1/16 in tape + 63.5 mm rod less
    /// 0.490 in plate and 0.122 in washer.
    const ENOUGH: i64 = 2_540_000 + 1_587_500 + 63_500_000 - 12_446_000 - 3_098_800;
    /// The least of a washer.
    const WASHER: i64 = 3_098_800;

    #[test]
    fn washers_are_added_before_the_thread_is_said_to_run_out() {
        let mut job = clean_job();
        for (rod, thread) in
            [ENOUGH, ENOUGH - 1, ENOUGH - 2 * WASHER, ENOUGH - 2 * WASHER - 1].iter().enumerate()
        {
            job.columns[0].rods[rod].thread = Some(nm(*thread));
        }
        let found = findings(&job, &RULE);
        assert_eq!(told(&found)[..4], [None, None, None, Some(Level::Stop)]);
        let actual: Vec<Option<Length>> = found.iter().take(4).map(|finding| finding.actual).collect();
        assert_eq!(actual, [0, WASHER - 1, 0, -1].map(|left| Some(nm(left))));
        assert_eq!(found[1].text, "A1 rod 2: ~1/16\" of thread to spare under the nut with 1 washer added");
        assert_eq!(
            found[3].text,
            "A1 rod 4: the thread runs out ~1/16\" too soon under the nut, even with 2 washers added; \
             do not set, ask the engineer"
        );
        assert_eq!(found[3].authority, the_table());
    }

    #[test]
    fn without_washers_to_add_the_sentence_says_so() {
        let mut job = clean_job();
        job.bases[0].extra = None;
        job.columns[0].rods[0].thread = Some(nm(ENOUGH - 1));
        let found = findings(&job, &RULE);
        assert_eq!(found[0].level(), Some(Level::Stop));
        assert!(found[0].text.contains("no washer may be added"), "{}", found[0].text);
    }

    #[test]
    fn a_thread_that_is_not_measured_is_no_pass() {
        let mut job = clean_job();
        job.columns[0].rods[0].thread = None;
        job.columns[0].rods[1].projection = None;
        for finding in findings(&job, &RULE).iter().take(2) {
            assert!(matches!(finding.outcome, Outcome::NotApplicable(_)), "{finding:?}");
        }
    }
}
