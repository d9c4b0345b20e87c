//! The rows of `order --format csv`: one a kind of plate, a fastener, a bed of grout, a pad to grind, and a packet.

use super::packets::{is_empty, plate_words, washer_words};
use super::plates::{label, outline_words};
use super::{Told, why_not_counted};
use crate::check::Hold;
use crate::length::Length;
use crate::order::{FastenerKind, HardwareRow, PlateOrder};
use crate::report::document::Sheet;
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

/// One row: what it fills in, by head.
type Cells = Vec<(&'static str, String)>;

/// Gives all rows.
pub(super) fn sheet(told: &Told<'_>) -> Sheet {
    let mut rows: Vec<Cells> = Vec::new();
    rows.extend(told.list.plates.iter().enumerate().map(|(at, it)| plate(told, at, it)));
    for (list, kind) in [("washer", FastenerKind::Washer), ("nut", FastenerKind::Nut)] {
        rows.extend(told.list.of_kind(kind).map(|it| {
            let part = &it.fastener;
            vec![
                ("list", list.to_owned()),
                ("item", part.name.clone()),
                ("what", format!("{list} {} on {}, beside {} as drawn", part.name, part.size, it.drawn)),
                ("thickness_nm", nm(part.measured)),
                ("pieces", it.more.to_string()),
                ("on_hold", it.held.to_string()),
                ("spares", it.spares.to_string()),
                ("to_order", it.to_order.to_string()),
            ]
        }));
    }
    rows.extend(grout(told));
    rows.extend(told.list.grind.iter().map(|it| {
        let mut cells = of_row("grind", &told.rows[it.row]);
        cells.extend([("depth_nm", it.depth.nm().to_string()), ("area_mm2", cell(it.size.map(mm2)))]);
        cells
    }));
    rows.extend(told.rows.iter().map(|row| packet(told, row)));
    let full = |cells: &Cells| {
        let value = |head: &&str| cells.iter().find(|(name, _)| name == head).map(|(_, value)| value.clone());
        HEADS.iter().map(|head| value(head).unwrap_or_default()).collect()
    };
    Sheet { heads: HEADS.to_vec(), rows: rows.iter().map(full).collect() }
}

fn nm(length: Option<Length>) -> String {
    length.map(|length| length.nm().to_string()).unwrap_or_default()
}

fn plate(told: &Told<'_>, at: usize, it: &PlateOrder) -> Cells {
    vec![
        ("list", "plate".to_owned()),
        ("item", label(at)),
        ("base", it.bases.join(" ")),
        ("what", outline_words(told.style, &it.kind.outline)),
        ("thickness_nm", it.kind.thickness.nm().to_string()),
        ("pieces", it.pieces.to_string()),
        ("on_hold", it.held.to_string()),
        ("spares", it.spares.to_string()),
        ("from_stock", it.from_stock.map(|count| count.to_string()).unwrap_or_default()),
        ("to_order", it.to_order.to_string()),
        ("each_kg", cell(it.each.map(kg))),
        ("mass_kg", cell(it.mass().map(kg))),
    ]
}

/// Starts a row about a column.
fn of_row(list: &str, row: &HardwareRow) -> Cells {
    vec![
        ("list", list.to_owned()),
        ("item", row.mark.clone()),
        ("base", row.base.clone()),
        ("may_set", if row.may_set { "yes" } else { "no" }.to_owned()),
        ("hold", row.hold.iter().copied().map(Hold::name).collect::<Vec<_>>().join(" ")),
    ]
}

fn grout(told: &Told<'_>) -> impl Iterator<Item = Cells> {
    let grout = &told.list.grout;
    let bags = |whole: Option<u64>| whole.map(|bags| bags.to_string()).unwrap_or_default();
    let beds = grout.beds.iter().filter_map(move |&(row, of_bed)| {
        let bed = told.rows[row].grout.as_ref()?;
        let mut cells = of_row("grout", &told.rows[row]);
        cells.extend([
            ("thickness_nm", bed.bed.nm().to_string()),
            ("volume_l", cell(bed.volume.map(litres))),
            ("bags", bags(of_bed.map(|bags| bags.whole))),
        ]);
        Some(cells)
    });
    let all = (!grout.beds.is_empty()).then(|| {
        vec![
            ("list", "grout".to_owned()),
            ("what", "all together, bags with waste".to_owned()),
            ("volume_l", cell(grout.volume.map(litres))),
            ("bags", bags(grout.bags.map(|bags| bags.whole))),
        ]
    });
    beds.chain(all)
}

fn packet(told: &Told<'_>, row: &HardwareRow) -> Cells {
    let mut cells = of_row("packet", row);
    if !row.is_planned() {
        cells.push(("what", format!("not counted: {}", why_not_counted(row.action))));
        return cells;
    }
    let grout = row.grout.as_ref().map_or(String::new(), |_| "grout".to_owned());
    let parts = [plate_words(told, row), washer_words(row), grout];
    let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    cells.push(("what", if is_empty(row) { "nothing".to_owned() } else { parts.join("; ") }));
    cells.push(("mass_kg", cell(row.shim_mass.map(kg))));
    cells.push(("volume_l", cell(row.grout.as_ref().and_then(|bed| bed.volume).map(litres))));
    cells
}
