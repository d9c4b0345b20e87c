//! A pad is planned to be ground down.

use super::subjects::{does_not_apply, each_column, mark};
use super::{Rule, style};
use crate::catalog::{Authority, Standing};
use crate::check::case::{Case, ColumnCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::plan::Action;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "grind-planned",
    about: "pads planned to be ground",
    checks: "no pad is ground unless the engineer agrees: cover and reinforcement are the engineer's decision",
    why: "grinding takes cover off the bars and raises silica dust that scars lungs",
    limit: |limits, style| {
        let most = &limits.grind.as_ref()?.most;
        Some((format!("asked for, {} deep at most", style.exact(most.value)), most.authority.clone()))
    },
    judge,
};

fn authority() -> Authority {
    Authority::new(
        Standing::Published,
        "29 CFR 1926.1153 (respirable crystalline silica: no more than 50 micrograms per cubic metre over 8 h); \
         cover and reinforcement are the engineer's decision",
    )
}

/// Judges one column by what the plan does at it.
fn outcome(action: Action) -> Outcome {
    match action {
        Action::Grind => Outcome::Fail(Level::Ask),
        _ => does_not_apply("no grinding is planned"),
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let most = case.job.limits.tables.grind.as_ref().map(|grind| grind.most.value);
    each_column(case, |case, column| {
        let choice = case.choice(column.index);
        let outcome = outcome(choice.action);
        let depth = choice.raise.filter(|_| choice.action == Action::Grind).map(|raise| -raise);
        Finding {
            subject: Subject::column(column.index),
            text: sentence(case, column, &outcome, depth, most),
            outcome,
            actual: depth,
            limit: depth.and(most),
            arithmetic: Vec::new(),
            authority: authority(),
        }
    })
}

fn sentence(
    case: &Case<'_>,
    column: &ColumnCase,
    outcome: &Outcome,
    depth: Option<Length>,
    most: Option<Length>,
) -> String {
    let mark = mark(case, column);
    if let Outcome::NotApplicable(why) = outcome {
        return format!("{mark}: {why}");
    }
    let depth = depth.unwrap_or(Length::ZERO);
    let outside = if most.is_some_and(|most| depth <= most) { "" } else { ", deeper than the limit" };
    format!(
        "{mark}: grind the pad {} down{outside} only if the engineer agrees (cover, bars); keep silica dust down, wet or by vacuum",
        style(case.job).write(depth, Rounding::Up)
    )
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, clean_job, findings_under, nm};
    use super::*;

    fn ground(sixteenths: i64) -> Finding {
        findings_under(&clean_job(), &RULE, |plan| {
            plan.choices[0].action = Action::Grind;
            plan.choices[0].raise = Some(nm(-sixteenths * SIXTEENTH));
        })
        .swap_remove(0)
    }

    #[test]
    fn grinding_is_asked_about_with_its_depth_and_its_dust() {
        let found = ground(1);
        assert_eq!((found.level(), found.actual), (Some(Level::Ask), Some(nm(SIXTEENTH))));
        assert!(found.text.starts_with("A1: grind the pad 1/16\" down only if the engineer agrees"));
        assert!(found.text.contains("silica") && found.authority.text.contains("1926.1153"));
        assert!(ground(3).text.contains("deeper than the limit"));
    }
}
