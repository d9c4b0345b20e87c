//! The rows of `order --format csv`.

use super::Told;
use super::rows::{OrderRow, rows};
use crate::check::Hold;
use crate::length::Length;
use crate::report::document::{Sheet, nm_cell};
use crate::report::figures::{cell, kg, litres, mm2};

/// The heads, in their order.
const HEADS: [&str; 18] = [
    "list",
    "item",
    "base",
    "what",
    "thickness_nm",
    "pieces",
    "on_hold",
    "spares",
    "from_stock",
    "to_order",
    "each_kg",
    "mass_kg",
    "volume_l",
    "bags",
    "depth_nm",
    "area_mm2",
    "may_set",
    "hold",
];

/// Gives all rows.
pub(super) fn sheet(told: &Told<'_>) -> Sheet {
    Sheet { heads: HEADS.to_vec(), rows: rows(told).iter().map(line).collect() }
}

fn line(row: &OrderRow) -> Vec<String> {
    let whole = |number: Option<u32>| number.map(|number| number.to_string()).unwrap_or_default();
    let [pieces, held, spares] = [0, 1, 2].map(|at: usize| whole(row.counts.map(|counts| counts[at])));
    let (may_set, hold) = match &row.set {
        None => ("", String::new()),
        Some((may_set, hold)) => (
            if *may_set { "yes" } else { "no" },
            hold.iter().copied().map(Hold::name).collect::<Vec<_>>().join(" "),
        ),
    };
    vec![
        row.list.to_owned(),
        row.item.clone(),
        row.base.clone(),
        row.what.clone(),
        nm_cell(row.thickness),
        pieces,
        held,
        spares,
        whole(row.from_stock),
        whole(row.to_order),
        cell(row.each.map(kg)),
        cell(row.mass.map(kg)),
        cell(row.volume.map(litres)),
        row.bags.map(|bags| bags.to_string()).unwrap_or_default(),
        row.depth.map(Length::nm).map(|nm| nm.to_string()).unwrap_or_default(),
        cell(row.ground.map(mm2)),
        may_set.to_owned(),
        hold,
    ]
}
