//! A stack of shims is higher than without asking, or than at all.

use super::subjects::{does_not_apply, each_column, house_rule, mark};
use super::{Rule, style};
use crate::catalog::{Authority, Limit, ShimLimits};
use crate::check::case::{Case, ColumnCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::Length;
use crate::plan::StackPiece;
use crate::text::{Relation, Style};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "stack-too-high",
    about: "height of every shim stack",
    checks: "the pieces of a stack sum up to no more than may be set without asking, and no more than at all",
    why: "a high loose stack can shift or tip before the base is grouted or welded",
    limit: |limits, style| {
        let shim = limits.shim.as_ref()?;
        let words = [
            shim.most.as_ref().map(|most| format!("{} without asking", style.exact(most.value))),
            shim.tall.as_ref().map(|tall| format!("{} at all", style.exact(tall.value))),
        ];
        let words: Vec<String> = words.into_iter().flatten().collect();
        let authority = shim.most.as_ref().or(shim.tall.as_ref())?.authority.clone();
        Some((format!("up to {}", words.join(", ")), authority))
    },
    judge,
};

/// Judges one stack by its height; no height is no stack.
fn outcome(height: Option<Length>, most: Option<Length>, tall: Option<Length>) -> Outcome {
    let Some(height) = height else { return does_not_apply("no shims are planned") };
    if tall.is_some_and(|tall| height > tall) {
        return Outcome::Fail(Level::Stop);
    }
    if most.is_some_and(|most| height > most) {
        return Outcome::Fail(Level::Ask);
    }
    match most.or(tall) {
        Some(limit) => Outcome::Pass { margin: Some(limit - height) },
        None => does_not_apply("no highest stack is set"),
    }
}

/// Gives the limit a stack is compared with: the one it breaks, or the lower.
fn limit(shim: Option<&ShimLimits>, stop: bool) -> Option<&Limit<Length>> {
    let (most, tall) = (shim?.most.as_ref(), shim?.tall.as_ref());
    if stop { tall } else { most.or(tall) }
}

/// Sums a stack piece by piece; nothing is no stack.
fn height(stack: &[StackPiece]) -> Option<Length> {
    if stack.is_empty() {
        None
    } else {
        Some(stack.iter().map(|it| it.thickness * i64::from(it.count)).sum())
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let shim = case.job.limits.tables.shim.as_ref();
    let value = |limit: Option<&Limit<Length>>| limit.map(|limit| limit.value);
    let most = value(shim.and_then(|shim| shim.most.as_ref()));
    let tall = value(shim.and_then(|shim| shim.tall.as_ref()));
    each_column(case, |case, column| {
        let stack = &case.choice(column.index).stack;
        let height = height(stack);
        let outcome = outcome(height, most, tall);
        let limit = limit(shim, outcome == Outcome::Fail(Level::Stop));
        Finding {
            subject: Subject::column(column.index),
            text: sentence(case, column, &outcome, height, value(limit)),
            outcome,
            actual: height,
            limit: value(limit),
            arithmetic: arithmetic(stack, height, style(case.job)),
            authority: authority(limit),
        }
    })
}

fn authority(limit: Option<&Limit<Length>>) -> Authority {
    limit.map_or_else(|| house_rule("no highest stack is set"), |limit| limit.authority.clone())
}

fn sentence(
    case: &Case<'_>,
    column: &ColumnCase,
    outcome: &Outcome,
    height: Option<Length>,
    limit: Option<Length>,
) -> String {
    let mark = mark(case, column);
    let (Some(height), Some(limit)) = (height, limit) else {
        let why = if height.is_none() { "no shims are planned" } else { "no highest stack is set" };
        return format!("{mark}: {why}");
    };
    let shown = style(case.job).pair(height, limit, Relation::AtMost);
    let stack = format!("{mark}: shim stack {} high", shown.value);
    match outcome {
        Outcome::Fail(Level::Stop) => {
            format!("{stack}, {} is the most at all; do not set on it, ask the engineer", shown.limit)
        }
        Outcome::Fail(_) => format!("{stack}, {} goes without asking; ask the engineer", shown.limit),
        _ => format!("{stack}, up to {} goes without asking", shown.limit),
    }
}

fn arithmetic(stack: &[StackPiece], height: Option<Length>, style: Style) -> Vec<String> {
    let Some(height) = height else { return Vec::new() };
    let pieces: Vec<String> =
        stack.iter().map(|piece| format!("{} x {}", piece.count, style.exact(piece.thickness))).collect();
    vec![
        "pieces times their thickness".to_owned(),
        format!("{} = {}", pieces.join(" + "), style.exact(height)),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, clean_job, findings_under, nm, told};
    use super::*;

    /// Judges a stack of sixteenths under A1, whatever the planner wanted.
    fn judged(sixteenths: &[i64]) -> Finding {
        let found = findings_under(&clean_job(), &RULE, |plan| {
            plan.choices[0].stack =
                sixteenths.iter().map(|it| StackPiece { thickness: nm(it * SIXTEENTH), count: 1 }).collect();
        });
        assert_eq!(told(&found)[1], None, "A2 has no shims");
        found.into_iter().next().unwrap()
    }

    /// Common practice: shims to 1/2 in, beyond it ask; 3/4 in is a rule of the limit set.
    #[test]
    fn half_an_inch_goes_without_asking_and_three_quarters_at_all() {
        assert_eq!(judged(&[4, 4]).outcome, Outcome::Pass { margin: Some(Length::ZERO) });
        assert_eq!(judged(&[4, 4, 1]).outcome, Outcome::Fail(Level::Ask));
        assert_eq!(judged(&[4, 4, 4]).outcome, Outcome::Fail(Level::Ask));
        let tall = judged(&[4, 4, 4, 1]);
        assert_eq!(tall.outcome, Outcome::Fail(Level::Stop));
        assert_eq!((tall.actual, tall.limit), (Some(nm(13 * SIXTEENTH)), Some(nm(12 * SIXTEENTH))));
        assert_eq!(
            tall.text,
            "A1: shim stack 13/16\" high, 3/4\" is the most at all; do not set on it, ask the engineer"
        );
    }

    #[test]
    fn no_shims_and_no_limits_do_not_apply() {
        assert!(matches!(judged(&[]).outcome, Outcome::NotApplicable(_)));
        assert!(matches!(outcome(Some(nm(5)), None, None), Outcome::NotApplicable(_)));
    }

    #[test]
    fn one_nanometre_over_is_over_and_the_printed_pair_shows_it() {
        let mut job = clean_job();
        let most = nm(8 * SIXTEENTH);
        job.shims.most_pieces = 8;
        let found = findings_under(&job, &RULE, |plan| {
            plan.choices[0].stack = vec![StackPiece { thickness: most + nm(1), count: 1 }];
        });
        assert_eq!(found[0].outcome, Outcome::Fail(Level::Ask));
        assert!(found[0].text.contains("12.700001 mm high, 12.7 mm"), "{}", found[0].text);
    }
}
