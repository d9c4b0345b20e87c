//! Shims on hand: what the plan takes of them, and what is missing for the plan that all thicknesses allow.

use super::json::{PieceJson, stack};
use crate::check::{Case, style};
use crate::length::Length;
use crate::report::document::{Align, Document, Tone};
use crate::report::planned::aim::cost_words;
use crate::report::planned::cost_json::CostJson;
use crate::text::and;
use serde::Serialize;

/// One thickness: on hand, planned, missing.
struct Shelf {
    thickness: Length,
    on_hand: u32,
    used: u32,
}

/// Lists every thickness of the job and any other that is planned, thickest first; none without a stock.
fn shelves(case: &Case<'_>) -> Option<Vec<Shelf>> {
    let stock = case.job.shims.stock.as_ref()?;
    let pieces = || case.plan.choices.iter().flat_map(|choice| &choice.stack);
    let mut all: Vec<Length> = stock.keys().copied().chain(pieces().map(|piece| piece.thickness)).collect();
    all.extend(case.job.shims.pieces.iter().map(|shim| shim.thickness.nominal));
    all.sort_unstable();
    all.dedup();
    let shelf = |thickness: Length| Shelf {
        thickness,
        on_hand: stock.get(&thickness).copied().unwrap_or(0),
        used: pieces().filter(|piece| piece.thickness == thickness).map(|piece| piece.count).sum(),
    };
    Some(all.into_iter().rev().map(shelf).collect())
}

/// Adds the section, where the job has a stock.
pub(in crate::report) fn on_hand(document: &mut Document, case: &Case<'_>) {
    let Some(shelves) = shelves(case) else { return };
    let style = style(case.job);
    document.heading(Tone::Plain, "SHIMS ON HAND");
    let rows = shelves.iter().filter(|shelf| shelf.on_hand > 0 || shelf.used > 0).map(|shelf| {
        let missing = shelf.used.saturating_sub(shelf.on_hand);
        let missing = if missing > 0 { missing.to_string() } else { String::new() };
        vec![style.exact(shelf.thickness), shelf.on_hand.to_string(), shelf.used.to_string(), missing]
    });
    let heads = [
        ("thickness", Align::Right),
        ("on hand", Align::Right),
        ("used", Align::Right),
        ("missing", Align::Right),
    ];
    document.grid(&heads, rows.collect());
    if let Some(shortage) = &case.plan.shortage {
        let pieces: Vec<String> = (shortage.pieces.iter())
            .map(|piece| format!("{} more of {}", piece.count, style.exact(piece.thickness)))
            .collect();
        document.text(
            Tone::Plain,
            format!("With {} the plan would need only: {}.", and(&pieces), cost_words(&shortage.cost, style)),
        );
    }
}

/// What is on hand, as JSON has it.
#[derive(Serialize)]
pub(super) struct OnHandJson {
    pieces: Vec<ShelfJson>,
    shortage: Option<ShortageJson>,
}

#[derive(Serialize)]
struct ShelfJson {
    thickness_nm: i64,
    on_hand: u32,
    used: u32,
    missing: u32,
}

/// What would have to be bought for the plan that all thicknesses allow, and what that plan costs.
#[derive(Serialize)]
struct ShortageJson {
    pieces: Vec<PieceJson>,
    cost: CostJson,
}

/// Gives what is on hand; none without a stock.
pub(super) fn value(case: &Case<'_>) -> Option<OnHandJson> {
    let pieces = shelves(case)?.into_iter().map(|shelf| ShelfJson {
        thickness_nm: shelf.thickness.nm(),
        on_hand: shelf.on_hand,
        used: shelf.used,
        missing: shelf.used.saturating_sub(shelf.on_hand),
    });
    let shortage = case.plan.shortage.as_ref().map(|shortage| ShortageJson {
        pieces: stack(&shortage.pieces),
        cost: CostJson::from(shortage.cost),
    });
    Some(OnHandJson { pieces: pieces.collect(), shortage })
}
