//! What a plan comes to over the whole job.

use super::json::decimal;
use crate::check::{Case, ColumnCase, Hold, distinct_neighbours};
use crate::length::Length;
use crate::levels::Datum;
use crate::order::{Mass, shim_mass};
use crate::plan::Action;
use serde::{Serialize, Serializer};

/// The totals of a plan as JSON has them.
#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
pub(super) struct Totals {
    pub(super) no_shim: usize,
    pub(super) shim: usize,
    pub(super) grout: usize,
    pub(super) grind: usize,
    pub(super) refer: usize,
    pub(super) unmeasured: usize,
    pub(super) held: usize,
    pub(super) pieces: u32,
    #[serde(rename = "thickness_nm")]
    pub(super) thickness: i64,
    #[serde(rename = "steps_nm")]
    pub(super) steps: i64,
    #[serde(rename = "shim_mass_kg", serialize_with = "kilograms")]
    pub(super) shim_mass: Option<Mass>,
}

impl Totals {
    /// Counts a plan over as it was worked out afresh.
    pub(super) fn of(case: &Case<'_>) -> Self {
        let count =
            |action: Action| case.plan.choices.iter().filter(|choice| choice.action == action).count();
        let held = |column: &&ColumnCase| {
            let held_by = |hold: &Hold| {
                matches!(
                    hold,
                    Hold::RodUnsure | Hold::RodScant | Hold::RodShort | Hold::RodRunsOut | Hold::TallStack
                )
            };
            column.raise.is_some() && column.hold.iter().any(held_by)
        };
        let departure = |index: usize| case.columns.get(index)?.seat_departure;
        let steps = distinct_neighbours(case.job);
        let steps = steps.iter().filter_map(|&(a, b)| Some((departure(a)? - departure(b)?).abs()));
        Self {
            no_shim: count(Action::NoShim),
            shim: count(Action::Shim),
            grout: count(Action::Grout),
            grind: count(Action::Grind),
            refer: count(Action::Refer),
            unmeasured: count(Action::Unmeasured),
            held: case.columns.iter().filter(held).count(),
            pieces: case.plan.choices.iter().flat_map(|choice| &choice.stack).map(|piece| piece.count).sum(),
            thickness: case.columns.iter().filter_map(|column| thickness(case, column)).sum::<Length>().nm(),
            steps: steps.sum::<Length>().nm(),
            shim_mass: shim_mass(case.job, case.plan),
        }
    }
}

/// Gives what a raise counts as: on a designed bed what the seat departs from its design, nothing in a relative job.
fn thickness(case: &Case<'_>, column: &ColumnCase) -> Option<Length> {
    let raise = column.raise?.nominal;
    match (case.base(column.index).has_bed(), case.levels.datum()) {
        (false, _) => Some(raise.abs()),
        (true, Datum::Relative) => None,
        (true, Datum::Absolute(_)) => column.seat_departure.map(Length::abs),
    }
}

/// Writes a mass in kilograms to the gram.
#[allow(clippy::ref_option, reason = "serde hands it so")]
pub(super) fn kilograms<S: Serializer>(mass: &Option<Mass>, serializer: S) -> Result<S::Ok, S::Error> {
    mass.map(|mass| decimal(i128::from(mass.grams()), 3)).serialize(serializer)
}
