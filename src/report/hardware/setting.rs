//! What the hardware table has of how plates are set: only where a job says it.

use crate::order::{HardwareRow, LevellingHardware};
use crate::report::figures::{cell, kg};
use crate::report::under::pieces;
use crate::text::Style;
use serde::Serialize;

/// The levelling nuts at a column as JSON has them.
#[derive(Serialize)]
pub(in crate::report) struct LevellingHardwareJson {
    nut: String,
    washer: Option<String>,
    /// How many of each: one a rod.
    count: u32,
}

impl LevellingHardwareJson {
    /// Gives the levelling nuts of a column with so many rods.
    pub(in crate::report) fn of(levelling: &LevellingHardware, rods: u32) -> Self {
        Self { nut: levelling.nut.clone(), washer: levelling.washer.clone(), count: rods }
    }
}

/// Writes the packs of a column: how many, and what each is made of.
pub(super) fn pack_cell(row: &HardwareRow, style: Style) -> String {
    let Some(packs) = &row.packs else { return "-".to_owned() };
    let number = packs.count.map_or("?".to_owned(), |number| number.to_string());
    let each = packs.each.exact.as_ref().map_or("?".to_owned(), |stack| pieces(style, &stack.pieces));
    format!("{number} of {each}")
}

/// Names the columns of a sheet that stand behind all others.
pub(super) const fn heads() -> [&'static str; 9] {
    [
        "seat_on",
        "levelling_nut",
        "levelling_washer",
        "levelling_count",
        "packs",
        "pack_height_nm",
        "pack_stack",
        "pack_pieces",
        "pack_mass_kg",
    ]
}

/// Gives what stands in them.
pub(super) fn cells(row: &HardwareRow, style: Style) -> [String; 9] {
    let levelling = row.levelling.as_ref();
    let packs = row.packs.as_ref();
    let stack = packs.and_then(|packs| packs.each.exact.as_ref());
    [
        row.seat_on.unwrap_or_default().to_owned(),
        levelling.map(|it| it.nut.clone()).unwrap_or_default(),
        levelling.and_then(|it| it.washer.clone()).unwrap_or_default(),
        levelling.map(|_| row.rods.0.to_string()).unwrap_or_default(),
        packs.and_then(|packs| packs.count).map(|number| number.to_string()).unwrap_or_default(),
        packs.map(|packs| packs.height.nm().to_string()).unwrap_or_default(),
        stack.map(|stack| pieces(style, &stack.pieces)).unwrap_or_default(),
        packs.and_then(|packs| packs.pieces()).map(|all| pieces(style, &all)).unwrap_or_default(),
        cell(packs.and_then(|packs| packs.mass()).map(kg)),
    ]
}
