//! `[concrete]` of a job, `pier` and `loads` of a `[[base]]`: all optional, and what is not given stays unknown.

use super::base::sound;
use super::context::Context;
use super::plate::sides;
use crate::length::Length;
use crate::model::{Concrete, Loads};
use crate::quantity::{Stress, StressUnit};
use crate::source::{Node, Problem, Table};
use crate::text::quoted;

/// Concrete is of no less, in MPa: what is below was meant in another unit (house rule).
const LEAST_MPA: i64 = 5;

/// Concrete is of no more, in MPa: what is above was meant in another unit (house rule).
const MOST_MPA: i64 = 200;

/// Reads `[concrete]`; without it nothing is known of the concrete.
pub(super) fn concrete(context: Context<'_>, root: &Table<'_>) -> Option<Concrete> {
    let walk = context.walk;
    let Some(node) = root.get("concrete") else { return Some(Concrete::default()) };
    let table = walk.table(node, "[concrete]")?;
    let strength = table.get("strength").map(|node| specified(context, node));
    let tested = table.get("tested").map(|node| walk.strength(node));
    table.close(walk);
    Some(Concrete { strength: sound(strength)?, tested: sound(tested)? })
}

/// Reads a specified strength, which no concrete is far away from.
fn specified(context: Context<'_>, node: &Node) -> Option<Stress> {
    let strength = context.walk.strength(node)?;
    let mpa = |mpa| Stress::of(mpa, StressUnit::Megapascal);
    if (mpa(LEAST_MPA)..=mpa(MOST_MPA)).contains(&strength) {
        return Some(strength);
    }
    context.note(
        Problem::at(node.place, "no concrete is specified to this strength")
            .fix("check the unit: 3000 psi is 3 ksi or 20.7 MPa"),
    );
    None
}

/// Reads the top of the concrete under a plate, which the plate stands on whole.
#[expect(clippy::option_option, reason = "outside: whether it is sound; inside: whether it is there")]
pub(super) fn pier(
    context: Context<'_>,
    table: &Table<'_>,
    plate: Option<[Length; 2]>,
) -> Option<Option<[Length; 2]>> {
    let Some(node) = table.get("pier") else { return Some(None) };
    let pier = sides(context.walk, node)?;
    let overhangs = plate.is_some_and(|plate| plate.iter().zip(pier).any(|(plate, pier)| *plate > pier));
    if overhangs {
        let problem = Problem::at(node.place, "the plate stands out over this pier");
        context.note(
            problem.fix("give the sides of the pier in the order of those of the plate, and check both"),
        );
        return None;
    }
    Some(Some(pier))
}

/// Reads the loads of a base.
pub(super) fn loads(context: Context<'_>, table: &Table<'_>) -> Option<Loads> {
    let walk = context.walk;
    let Some(node) = table.get("loads") else { return Some(Loads::default()) };
    let table = walk.table(node, "loads")?;
    let read = |key| table.get(key).map(|node| walk.force(node));
    let (erection, factored, shear, tension) =
        (read("erection"), read("factored"), read("shear"), read("tension"));
    if table.all().is_empty() {
        let example = quoted("loads = { erection = \"12 kip\" }");
        context.note(
            Problem::at(node.place, "no load is given here")
                .fix(format!("give those that are known, as in {example}, or take the key out")),
        );
    }
    table.close(walk);
    Some(Loads {
        erection: sound(erection)?,
        factored: sound(factored)?,
        shear: sound(shear)?,
        tension: sound(tension)?,
    })
}
