//! The base plate of a `[[base]]`, with its tolerance.

use super::base::sound;
use super::context::Context;
use super::parts::Size;
use crate::catalog::{Authority, Catalog, Extent, Limits};
use crate::length::Length;
use crate::model::Plate;
use crate::source::{Node, Place, Problem, Table, Walk};

/// Reads a plate; the rod tells how large its holes must be.
pub(super) fn read(
    context: Context<'_>,
    table: &Table<'_>,
    rod: Option<&Size>,
    catalog: &Catalog,
    limits: Option<&Limits>,
) -> Option<Plate> {
    let walk = context.walk;
    let size = table.get("size").map(|node| sides(walk, node));
    let thickness = table.need(walk, "thickness", "\"1/2\"");
    let thickness = thickness.and_then(|node| Some((walk.thickness(node)?, node.place)));
    let tolerance = table.get("tolerance").map(|node| tolerance(walk, node));
    let holes = table.get("holes").map(|node| holes(context, node, rod));
    table.close(walk);
    let (thickness, place) = thickness?;
    let (thickness, tolerance) = match tolerance {
        Some(own) => (with_tolerance(context, thickness, place, own?)?, Authority::this_job()),
        None => from_table(context, thickness, place, catalog, limits?)?,
    };
    Some(Plate { size: sound(size)?, thickness, tolerance, holes: sound(holes)? })
}

/// Reads two sides, both more than nothing.
pub(super) fn sides(walk: Walk<'_>, node: &Node) -> Option<[Length; 2]> {
    let sides: [Length; 2] = walk.lengths(node)?;
    if sides.iter().any(|side| *side <= Length::ZERO) {
        walk.problems.note(Problem::at(node.place, "both lengths must be more than 0"));
        return None;
    }
    Some(sides)
}

/// Reads a lower and an upper deviation.
pub(super) fn tolerance(walk: Walk<'_>, node: &Node) -> Option<[Length; 2]> {
    let [lower, upper] = walk.lengths(node)?;
    if lower > upper {
        walk.problems.note(
            Problem::at(node.place, "the lower deviation stands above the upper one")
                .fix("write [lower, upper], as in [\"-0.01\", \"0.03\"]"),
        );
        return None;
    }
    Some([lower, upper])
}

/// Puts deviations around a thickness, of which something must be left.
pub(super) fn with_tolerance(
    context: Context<'_>,
    nominal: Length,
    place: Place,
    [lower, upper]: [Length; 2],
) -> Option<Extent> {
    let extent = Extent { least: nominal + lower, nominal, most: nominal + upper };
    if extent.least <= Length::ZERO || extent.most <= Length::ZERO {
        context.note(Problem::at(place, "nothing is left of this thickness with its lower deviation"));
        return None;
    }
    Some(extent)
}

fn from_table(
    context: Context<'_>,
    nominal: Length,
    place: Place,
    catalog: &Catalog,
    limits: &Limits,
) -> Option<(Extent, Authority)> {
    let named = limits.plates.as_ref().map(|limit| limit.value.as_str());
    let table = named.and_then(|name| catalog.plates.iter().find(|table| table.name == name));
    let Some(row) = table.and_then(|table| table.row(nominal)) else {
        let message = match (named, table) {
            (Some(name), Some(_)) => format!("the plate table `{name}` has no tolerance for this thickness"),
            // the unknown name itself was noted where it stands
            (Some(_), None) => return None,
            (None, _) => "no plate table is in force that gives the tolerance of this thickness".to_owned(),
        };
        let fix = "add tolerance = [lower, upper] to the plate, as in [\"-0.01\", \"0.03\"]";
        context.note(Problem::at(place, message).fix(fix));
        return None;
    };
    let extent = with_tolerance(context, nominal, place, [-row.under, row.over])?;
    Some((extent, row.authority.clone()))
}

fn holes(context: Context<'_>, node: &Node, rod: Option<&Size>) -> Option<Length> {
    let hole = context.walk.thickness(node)?;
    if let Some(rod) = rod.filter(|rod| hole <= rod.diameter) {
        context.note(
            Problem::at(node.place, format!("a rod of {} does not pass through this hole", rod.called))
                .fix("check the diameters of the hole and of the rod"),
        );
        return None;
    }
    Some(hole)
}
