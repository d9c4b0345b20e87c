//! What a plan aims at and how good it is known to be, in words.

use crate::length::{Length, Rounding};
use crate::plan::{Aim, Optimum, Plan, To};
use crate::text::Style;

/// Names the limits a plan keeps: `accepted` or `desired`.
pub(super) const fn limits(to: To) -> &'static str {
    match to {
        To::Accept => "accepted",
        To::Desired => "desired",
    }
}

/// Says what a plan aims at and how good it is known to be.
pub(super) fn aim(plan: &Plan, style: Style) -> String {
    let guarded = if plan.guarded { " by value and +-" } else { "" };
    let limits = limits(plan.to);
    match (plan.aim, plan.optimum) {
        (Aim::Level, _) => format!("Plan: every column up to one level, to {limits} limits{guarded}."),
        (Aim::Fewest, Some(optimum)) if optimum.is_proven() => {
            format!("Plan: fewest interventions, to {limits} limits{guarded}: proven, no plan needs less.")
        }
        (Aim::Fewest, Some(optimum)) => {
            format!(
                "Plan: fewest interventions, to {limits} limits{guarded}: the best found, {}",
                gap(&optimum, style)
            )
        }
        (Aim::Fewest, None) => {
            format!("Plan: fewest interventions, to {limits} limits{guarded}: not proven.")
        }
    }
}

/// Says which components are proven, and between which figures the first lies that is not.
///
/// What counts after that one is known only as far as it is planned.
fn gap(Optimum { cost, at_least }: &Optimum, style: Style) -> String {
    let (found, least) = (cost.components(), at_least.components());
    let names = ["for the engineer", "to grind", "on grout", "held", "shim pieces", "of thickness"];
    let write = |at: usize, number: i64| match at {
        5 => style.write(Length::from_nm(number), Rounding::Up),
        _ => number.to_string(),
    };
    let open = found.iter().zip(&least).position(|(found, least)| found != least).unwrap_or(names.len());
    let proven: Vec<String> = names
        .iter()
        .zip(found)
        .enumerate()
        .take(open)
        .map(|(at, (name, number))| format!("{} {name}", write(at, number)))
        .collect();
    let not_proven =
        names.get(open).zip(found.get(open)).zip(least.get(open)).map(|((name, found), least)| {
            format!("{} {name}, where no plan needs fewer than {}", write(open, *found), write(open, *least))
        });
    let proven = if proven.is_empty() { String::new() } else { format!("{}: proven; ", proven.join(", ")) };
    format!("not proven to need least. {proven}{}.", not_proven.unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::Cost;
    use crate::text::System;

    fn said(cost: Cost, at_least: Cost) -> String {
        let plan = Plan {
            choices: Vec::new(),
            aim: Aim::Fewest,
            to: To::Accept,
            guarded: false,
            optimum: Some(Optimum { cost, at_least }),
            firm: None,
            shortage: None,
        };
        aim(&plan, Style::new(System::Inch, 16))
    }

    #[test]
    fn a_gap_is_told_up_to_the_first_component_that_is_not_proven() {
        let cost = Cost { grind: 1, pieces: 58, thickness: Length::from_nm(25_400_000), ..Cost::default() };
        assert!(said(cost, cost).ends_with("proven, no plan needs less."));
        let least = Cost { pieces: 55, thickness: Length::ZERO, ..cost };
        assert!(
            said(cost, least).ends_with(
                "the best found, not proven to need least. 0 for the engineer, 1 to grind, 0 on grout, 0 held: proven; \
                 58 shim pieces, where no plan needs fewer than 55."
            ),
            "{}",
            said(cost, least)
        );
        let least = Cost { thickness: Length::from_nm(12_700_000), ..cost };
        assert!(said(cost, least).ends_with("1\" of thickness, where no plan needs fewer than 1/2\"."));
    }
}
