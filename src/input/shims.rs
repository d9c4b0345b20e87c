//! `[shims]`: which shims can be had, and how many make a stack.

use super::context::{Context, known_names};
use super::job_toml::Head;
use super::limits;
use super::plate::{tolerance, with_tolerance};
use super::stock;
use crate::catalog::{Authority, Catalog, Extent, Limits, ShimPiece};
use crate::length::Length;
use crate::model::{ShimSupply, Units};
use crate::source::{Node, Place, Problem, Table, nearest};
use crate::text::quoted;

/// Most different stacks that are planned with.
const MOST_STACKS: u128 = 200_000;

/// Reads `[shims]`, or takes the series of the job's units.
pub(super) fn read(
    context: Context<'_>,
    root: &Table<'_>,
    head: &Head,
    catalog: &Catalog,
    limits: Option<&Limits>,
) -> Option<ShimSupply> {
    let walk = context.walk;
    let table = root.get("shims").and_then(|node| walk.table(node, "[shims]"));
    let get = |key: &'static str| table.as_ref().and_then(|table| table.get(key));
    let (series, list, own) = (get("catalog"), get("thicknesses"), get("tolerance"));
    let tolerance = own.map(|node| tolerance(walk, node));
    let pieces_own = get("pieces").map(|node| (walk.whole(node, 1, 8), node.place));
    let stock = get("stock");
    if let Some(table) = &table {
        table.close(walk);
    }
    let deviations = match tolerance {
        Some(own) => Some(own?),
        None => None,
    };
    let (series, mut pieces) = match (series, list) {
        (Some(_), Some(list)) => {
            context.note(
                Problem::at(list.place, "`catalog` and `thicknesses` cannot stand together")
                    .fix("use one of the two"),
            );
            return None;
        }
        (None, Some(list)) => (None, listed(context, list, deviations)?),
        (series, None) => {
            let name = match series {
                Some(node) => (walk.name(node)?, node.place),
                None => (default_series(head.units).to_owned(), head.place),
            };
            let pieces = from_series(context, &name, catalog, own.map(|node| node.place).zip(deviations))?;
            (Some(name.0), pieces)
        }
    };
    pieces.sort_by_key(|piece| std::cmp::Reverse(piece.thickness.nominal));
    // none where it is not limited; what is wrong in it is told beside what is wrong below
    let stock = stock.map_or(Some(None), |node| stock::read(context, node, &pieces, head).map(Some));
    let (most_pieces, place) = match (pieces_own, limits) {
        (Some((own, place)), _) => (u32::try_from(own?).ok()?, place),
        (None, Some(limits)) => {
            let place = table.as_ref().map_or_else(|| limits::place(head), Table::place);
            let Some(limit) = limits.shim.as_ref().and_then(|shim| shim.pieces.as_ref()) else {
                let message = "the limits in force do not say how many pieces make a stack";
                context.note(Problem::at(place, message).fix("add pieces = 3 to [shims]"));
                return None;
            };
            (limit.value, place)
        }
        (None, None) => return None,
    };
    if stacks(pieces.len(), most_pieces) > MOST_STACKS {
        let message = format!(
            "{} thicknesses in stacks of up to {most_pieces} pieces make more than {MOST_STACKS} stacks",
            pieces.len()
        );
        context.note(Problem::at(place, message).fix("list fewer thicknesses, or allow fewer pieces"));
        return None;
    }
    Some(ShimSupply { series, pieces, most_pieces, stock: stock? })
}

const fn default_series(units: Units) -> &'static str {
    match units {
        Units::Inch => "plate",
        Units::Millimetre => "plate-mm",
    }
}

fn from_series(
    context: Context<'_>,
    (name, place): &(String, Place),
    catalog: &Catalog,
    own: Option<(Place, [Length; 2])>,
) -> Option<Vec<ShimPiece>> {
    let Some(series) = catalog.shims.iter().find(|series| series.name == *name) else {
        let known = catalog.shims.iter().map(|series| series.name.as_str());
        let problem = Problem::at(*place, format!("{} is not a series of shims", quoted(name)));
        context.note(match nearest(name, known.clone()) {
            Some(name) => problem.fix(format!("did you mean `{name}`?")),
            None => problem.fix(known_names(known).unwrap_or_default()),
        });
        return None;
    };
    let Some((place, deviations)) = own else { return Some(series.pieces.clone()) };
    let replaced = series.pieces.iter().map(|piece| {
        let thickness = with_tolerance(context, piece.thickness.nominal, place, deviations)?;
        Some(ShimPiece { thickness, authority: Authority::this_job() })
    });
    replaced.collect()
}

fn listed(context: Context<'_>, list: &Node, own: Option<[Length; 2]>) -> Option<Vec<ShimPiece>> {
    let items = context.walk.list(list)?;
    if items.is_empty() {
        context.note(
            Problem::at(list.place, "at least one thickness is needed")
                .fix("write thicknesses = [\"1/8\", \"1/4\"]"),
        );
        return None;
    }
    let mut seen: Vec<(Length, Place)> = Vec::new();
    let mut pieces = Vec::new();
    let mut all = true;
    for item in items {
        let piece = context.walk.thickness(item).and_then(|nominal| {
            if let Some((_, first)) = seen.iter().find(|(thickness, _)| *thickness == nominal) {
                context.twice("this thickness", item.place, *first);
                return None;
            }
            // a long list is refused by its number of stacks, before it takes long
            if seen.len() < 1000 {
                seen.push((nominal, item.place));
            }
            match own {
                Some(deviations) => with_tolerance(context, nominal, item.place, deviations),
                None => Some(Extent::exact(nominal)),
            }
        });
        all &= piece.is_some();
        pieces.extend(piece.map(|thickness| ShimPiece { thickness, authority: Authority::this_job() }));
    }
    all.then_some(pieces)
}

/// Counts the stacks of up to so many pieces of so many thicknesses: C(T + K, K).
fn stacks(thicknesses: usize, pieces: u32) -> u128 {
    let thicknesses = thicknesses as u128;
    (1..=u128::from(pieces)).fold(1, |stacks: u128, k| stacks.saturating_mul(thicknesses + k) / k)
}

#[cfg(test)]
mod tests {
    use super::stacks;

    #[test]
    fn stacks_are_counted_with_repetition_and_the_empty_one() {
        // by hand: {} a b aa ab bb
        assert_eq!(stacks(2, 2), 6);
        assert_eq!(stacks(6, 3), 84);
        assert_eq!(stacks(1, 8), 9);
        assert!(stacks(usize::MAX, 8) > 200_000);
    }
}
