//! `[shims] stock`: how many pieces of each thickness are on hand.

use super::context::Context;
use super::job_toml::Head;
use crate::catalog::ShimPiece;
use crate::length::Length;
use crate::model::Units;
use crate::source::{Kind, Node, Place, Problem};
use crate::text::{Style, System, and, quoted};
use std::collections::BTreeMap;

/// Most pieces of one thickness.
const MOST_PIECES: i64 = 1_000_000;

/// Thicknesses that a fault lists.
const MOST_LISTED: usize = 12;

/// Reads how many pieces are on hand, by thickness; every thickness is one of the job's shims.
pub(super) fn read(
    context: Context<'_>,
    node: &Node,
    pieces: &[ShimPiece],
    head: &Head,
) -> Option<BTreeMap<Length, u32>> {
    let walk = context.walk;
    let table = walk.table(node, "[shims] stock")?;
    let mut first: BTreeMap<Length, Place> = BTreeMap::new();
    let mut stock = BTreeMap::new();
    let mut all = true;
    for (key, value) in table.all() {
        if matches!(value.kind, Kind::Table(_)) {
            // a bare key 0.125 is two keys to TOML
            let message = "expected a thickness in quotes with a whole number behind it, found a table";
            context.note(Problem::at(value.place, message).fix("write stock = { \"0.125\" = 20 }"));
            all = false;
            continue;
        }
        let thickness = walk.length_text(&key.name, key.place);
        let count = walk.whole(value, 0, MOST_PIECES).and_then(|count| u32::try_from(count).ok());
        let (Some(thickness), Some(count)) = (thickness, count) else {
            all = false;
            continue;
        };
        if let Some(first) = first.insert(thickness, key.place) {
            context.twice("this thickness", key.place, first);
            all = false;
        }
        if !pieces.iter().any(|piece| piece.thickness.nominal == thickness) {
            let message = format!("{} is not one of the job's shims", quoted(&key.name));
            context
                .note(Problem::at(key.place, message).fix(format!("its shims are {}", listed(pieces, head))));
            all = false;
        }
        stock.insert(thickness, count);
    }
    all.then_some(stock)
}

/// Lists the job's thicknesses, thickest first.
fn listed(pieces: &[ShimPiece], head: &Head) -> String {
    let system = match head.units {
        Units::Inch => System::Inch,
        Units::Millimetre => System::Metric,
    };
    let style = Style::new(system, head.fraction);
    let mut names: Vec<String> =
        pieces.iter().take(MOST_LISTED).map(|piece| style.exact(piece.thickness.nominal)).collect();
    if pieces.len() > MOST_LISTED {
        names.push(format!("{} more", pieces.len() - MOST_LISTED));
    }
    and(&names)
}
