//! What a plan aims at and how good it is known to be, in words.

use crate::length::{Length, Rounding};
use crate::plan::{Aim, Cost, Optimum, Plan, To};
use crate::text::Style;

/// Names the limits a plan keeps: `accepted` or `desired`.
pub(in crate::report) const fn limits(to: To) -> &'static str {
    match to {
        To::Accept => "accepted",
        To::Desired => "desired",
    }
}

/// Says what a plan aims at and how good it is known to be.
pub(in crate::report) fn aim(plan: &Plan, style: Style) -> String {
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
    let (found, least) = (each(cost, style), each(at_least, style));
    let open = cost.components().iter().zip(at_least.components()).position(|(found, least)| *found != least);
    let open = open.unwrap_or(found.len());
    let proven: Vec<String> =
        found.iter().take(open).map(|(number, name)| format!("{number} {name}")).collect();
    let not_proven = found
        .get(open)
        .zip(least.get(open))
        .map(|((found, name), (least, _))| format!("{found} {name}, where no plan needs fewer than {least}"));
    let proven = if proven.is_empty() { String::new() } else { format!("{}: proven; ", proven.join(", ")) };
    format!("not proven to need least. {proven}{}.", not_proven.unwrap_or_default())
}

/// Writes what a plan costs, what it does not need left out: `2 to grind, 52 shim pieces, 4-1/2" of thickness`.
pub(in crate::report) fn cost_words(cost: &Cost, style: Style) -> String {
    let named = each(cost, style).into_iter().zip(cost.components()).filter(|(_, number)| *number != 0);
    let words: Vec<String> = named.map(|((number, name), _)| format!("{number} {name}")).collect();
    if words.is_empty() { "nothing at all".to_owned() } else { words.join(", ") }
}

/// Writes every component with its name.
fn each(cost: &Cost, style: Style) -> Vec<(String, &'static str)> {
    let names = ["for the engineer", "to grind", "on grout", "held", "shim pieces", "of thickness"];
    let write = |(at, number): (usize, i64)| match at {
        5 => style.write(Length::from_nm(number), Rounding::Up),
        _ => number.to_string(),
    };
    let name = |(at, number): (usize, i64)| if (at, number) == (4, 1) { "shim piece" } else { names[at] };
    cost.components().into_iter().enumerate().map(|it| (write(it), name(it))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
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
