//! The list of what is cut: a row a kind of plate, those that are not drawn too.

use super::super::Told;
use super::Kind;
use crate::length::Length;
use crate::order::PlateUse;
use crate::report::document::Sheet;
use crate::report::figures::{cell, kg};
use crate::text::millimetres;

/// Gives all rows.
pub(super) fn sheet(told: &Told<'_>, kinds: &[Kind<'_>]) -> Sheet {
    let heads = vec![
        "plate",
        "dxf",
        "svg",
        "mark",
        "base",
        "thickness",
        "thickness_mm",
        "x_mm",
        "y_mm",
        "holes",
        "hole_mm",
        "pieces",
        "on_hold",
        "spares",
        "from_stock",
        "cut",
        "each_kg",
        "cut_kg",
        "not_drawn",
        "pack",
    ];
    Sheet { heads, rows: kinds.iter().map(|kind| row(told, kind)).collect() }
}

fn row(told: &Told<'_>, kind: &Kind<'_>) -> Vec<String> {
    let order = kind.order;
    let outline = &order.kind.outline;
    let mm = |length: Option<Length>| length.map(millimetres).unwrap_or_default();
    let drawn = kind.drawn.as_ref().ok();
    let why: Vec<String> = kind.missing().map(|(why, _)| why).collect();
    vec![
        kind.label.clone(),
        drawn.map(super::Drawn::dxf).unwrap_or_default(),
        drawn.map(super::Drawn::svg).unwrap_or_default(),
        kind.mark.clone(),
        order.bases.join(" "),
        told.style.exact(order.kind.thickness),
        millimetres(order.kind.thickness),
        mm(outline.size.map(|[x, _]| x)),
        mm(outline.size.map(|[_, y]| y)),
        outline.holes.count.to_string(),
        mm(outline.holes.diameter),
        order.pieces.to_string(),
        order.held.to_string(),
        order.spares.to_string(),
        order.from_stock.map(|count| count.to_string()).unwrap_or_default(),
        order.to_order.to_string(),
        cell(order.each.map(kg)),
        cell(order.order_mass().map(kg)),
        why.join("; "),
        if order.kind.purpose == PlateUse::Pack { "yes" } else { "no" }.to_owned(),
    ]
}
