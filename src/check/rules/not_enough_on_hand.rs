//! The plan takes more shims of a thickness than there are on hand.

use super::subjects::{KEPT, does_not_apply, house_rule};
use super::wording::some_of;
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::Length;
use std::collections::BTreeMap;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "not-enough-on-hand",
    about: "shims of each thickness over the whole job, where a stock is given",
    checks: "pieces planned <= pieces on hand",
    why: "a column whose shims are not there is not set as planned, or gets what lies nearest",
    limit: |_, _| Some(("the stock of the job, where it gives one".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("a plan is made of what is there")
}

/// Judges how many pieces of one thickness are planned.
fn outcome(planned: u32, on_hand: u32) -> Outcome {
    if planned > on_hand { Outcome::Fail(Level::Ask) } else { KEPT }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let finding = |columns: Vec<usize>, outcome: Outcome, text: String, arithmetic: Vec<String>| Finding {
        subject: Subject { columns, ..Subject::default() },
        outcome,
        actual: None,
        limit: None,
        text,
        arithmetic,
        authority: authority(),
    };
    if case.job.shims.stock.is_none() {
        let why = "every thickness can be ordered";
        return vec![finding(Vec::new(), does_not_apply(why), format!("the shims: {why}"), Vec::new())];
    }
    let style = style(case.job);
    planned(case)
        .into_iter()
        .rev()
        .map(|(thickness, (planned, columns))| {
            let on_hand = case.job.shims.on_hand(thickness).unwrap_or(0);
            let outcome = outcome(planned, on_hand);
            let name = style.exact(thickness);
            let counts = format!("{planned} planned, {on_hand} on hand");
            let text = match planned.checked_sub(on_hand).filter(|missing| *missing > 0) {
                Some(missing) => format!(
                    "shims of {name}: {counts}, {missing} missing ({}); get them, or plan without them",
                    some_of(&case.marks(&columns))
                ),
                None => format!("shims of {name}: {counts}"),
            };
            finding(
                columns,
                outcome,
                text,
                vec!["pieces of all stacks, against the stock".to_owned(), counts],
            )
        })
        .collect()
}

/// Counts the pieces of each thickness, and the columns they are under.
fn planned(case: &Case<'_>) -> BTreeMap<Length, (u32, Vec<usize>)> {
    let mut planned: BTreeMap<Length, (u32, Vec<usize>)> = BTreeMap::new();
    for column in &case.columns {
        for piece in &case.choice(column.index).stack {
            let (count, columns) = planned.entry(piece.thickness).or_default();
            *count = count.saturating_add(piece.count);
            if columns.last() != Some(&column.index) {
                columns.push(column.index);
            }
        }
    }
    planned
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, clean_job, findings_under};
    use super::*;
    use crate::plan::{Action, StackPiece};

    fn under_a_stock_of(on_hand: u32) -> Vec<Finding> {
        let thickness = Length::from_nm(2 * SIXTEENTH);
        let mut job = clean_job();
        job.shims.stock = Some(BTreeMap::from([(thickness, on_hand)]));
        findings_under(&job, &RULE, |plan| {
            for choice in &mut plan.choices {
                choice.action = Action::Shim;
                choice.raise = Some(thickness * 2);
                choice.stack = vec![StackPiece { thickness, count: 2 }];
            }
        })
    }

    #[test]
    fn pieces_that_are_not_there_are_asked_for_and_counted_over_the_whole_job() {
        let found = under_a_stock_of(3);
        assert_eq!(found[0].level(), Some(Level::Ask));
        assert_eq!(
            found[0].text,
            "shims of 1/8\": 4 planned, 3 on hand, 1 missing (A1 and A2); get them, or plan without them"
        );
        assert_eq!(under_a_stock_of(4)[0].outcome, KEPT);
    }

    #[test]
    fn without_a_stock_it_does_not_apply() {
        let found = findings_under(&clean_job(), &RULE, |_| {});
        assert!(matches!(found[0].outcome, Outcome::NotApplicable(_)));
    }
}
