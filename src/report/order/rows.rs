//! The rows of an order, typed: one a kind of plate, a fastener, a bed of grout, a pad to grind, and a packet. The sheet of
//! rows and the workbook are both written from them.

use super::packets::{is_empty, levelling_words, plate_words, washer_words};
use super::plates::{kind_words, label, why_packs_open};
use super::{Told, why_not_counted};
use crate::check::Hold;
use crate::length::{Length, Volume};
use crate::order::{
    Bags, FastenerKind, FastenerOrder, HardwareRow, Mass, PlateOrder, PlateUse, sum_of_masses,
};

/// One row; what it does not have is none.
#[derive(Default)]
pub(in crate::report) struct OrderRow {
    /// Which list it stands in.
    pub(in crate::report) list: &'static str,
    /// What it is called: the label of a plate, a series, the mark of a column.
    pub(in crate::report) item: String,
    /// Its base, or its bases.
    pub(in crate::report) base: String,
    /// What it is, in words.
    pub(in crate::report) what: String,
    /// The thickness of a plate, of a bed, of a part of no series.
    pub(in crate::report) thickness: Option<Length>,
    /// The two sides of a plate, of the form of a bed, of the plate over a pad to grind.
    pub(in crate::report) sides: Option<[Length; 2]>,
    /// The pieces of the plan, those of them on hold, and the spares.
    pub(in crate::report) counts: Option<[u32; 3]>,
    /// What of them is on hand.
    pub(in crate::report) from_stock: Option<u32>,
    /// What is to be ordered.
    pub(in crate::report) to_order: Option<u32>,
    /// The mass of one.
    pub(in crate::report) each: Option<Mass>,
    /// The mass of the pieces of the plan, or of a packet.
    pub(in crate::report) mass: Option<Mass>,
    /// The mass of what is to be ordered.
    pub(in crate::report) order_mass: Option<Mass>,
    /// The grout, without waste.
    pub(in crate::report) volume: Option<Volume>,
    /// The bags for it, with the waste.
    pub(in crate::report) bags: Option<u64>,
    /// How deep a pad is ground.
    pub(in crate::report) depth: Option<Length>,
    /// The sides of the least that is ground.
    pub(in crate::report) ground: Option<[Length; 2]>,
    /// Whether its column may be set, and why not; none where it is about no column.
    pub(in crate::report) set: Option<(bool, Vec<Hold>)>,
}

/// Gives all rows.
pub(super) fn rows(told: &Told<'_>) -> Vec<OrderRow> {
    let mut rows: Vec<OrderRow> = Vec::new();
    rows.extend(told.list.plates.iter().enumerate().map(|(at, it)| plate(told, at, it)));
    rows.extend(told.list.packs_open.iter().map(|&row| {
        let row = &told.rows[row];
        OrderRow { what: format!("not counted: {}", why_packs_open(row)), ..of_row("pack", row) }
    }));
    for (list, kind) in [("washer", FastenerKind::Washer), ("nut", FastenerKind::Nut)] {
        rows.extend(told.list.of_kind(kind).map(|it| OrderRow {
            list,
            item: it.fastener.name.clone(),
            what: fastener_words(list, it),
            thickness: it.fastener.measured,
            counts: Some([it.more, it.held, it.spares]),
            to_order: Some(it.to_order),
            ..OrderRow::default()
        }));
    }
    rows.extend(grout(told));
    rows.extend(told.list.grind.iter().map(|it| OrderRow {
        depth: Some(it.depth),
        sides: it.size,
        ground: it.size,
        ..of_row("grind", &told.rows[it.row])
    }));
    rows.extend(told.rows.iter().map(|row| packet(told, row)));
    rows
}

fn plate(told: &Told<'_>, at: usize, it: &PlateOrder) -> OrderRow {
    OrderRow {
        list: list_of(it),
        item: label(told.list, at),
        base: it.bases.join(" "),
        what: kind_words(told.style, &it.kind),
        thickness: Some(it.kind.thickness),
        sides: it.kind.outline.size,
        counts: Some([it.pieces, it.held, it.spares]),
        from_stock: it.from_stock,
        to_order: Some(it.to_order),
        each: it.each,
        mass: it.mass(),
        order_mass: it.order_mass(),
        ..OrderRow::default()
    }
}

/// Gives the list that plates of a kind stand in.
const fn list_of(it: &PlateOrder) -> &'static str {
    match it.kind.purpose {
        PlateUse::Shim => "plate",
        PlateUse::Pack => "pack",
    }
}

/// Says what a fastener is and how many of it the drawings have.
fn fastener_words(list: &str, it: &FastenerOrder) -> String {
    let part = &it.fastener;
    let under = if it.under > 0 { format!(" and {} for levelling", it.under) } else { String::new() };
    format!("{list} {} on {}, beside {} as drawn{under}", part.name, part.size, it.drawn)
}

/// Says what is in a packet, or why there is none.
fn packet_words(told: &Told<'_>, row: &HardwareRow) -> String {
    if !row.is_planned() {
        return format!("not counted: {}", why_not_counted(row.action));
    }
    if is_empty(row) {
        return "nothing".to_owned();
    }
    let grout = row.grout.as_ref().map_or(String::new(), |_| "grout".to_owned());
    let levelling = match levelling_words(row) {
        words if words.is_empty() => words,
        words => format!("levelling {words}"),
    };
    let parts = [plate_words(told, row), levelling, washer_words(row), grout];
    let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join("; ")
}

/// Gives the mass of the plates in a packet, those of packs too, where known.
fn packet_mass(row: &HardwareRow) -> Option<Mass> {
    sum_of_masses([row.shim_mass, row.pack_mass()])
}

/// Starts a row about a column.
fn of_row(list: &'static str, row: &HardwareRow) -> OrderRow {
    OrderRow {
        list,
        item: row.mark.clone(),
        base: row.base.clone(),
        set: Some((row.may_set, row.hold.clone())),
        ..OrderRow::default()
    }
}

fn grout(told: &Told<'_>) -> impl Iterator<Item = OrderRow> {
    let grout = &told.list.grout;
    let beds = grout.beds.iter().filter_map(move |&(row, of_bed)| {
        let row = &told.rows[row];
        let bed = row.grout.as_ref()?;
        let bags = of_bed.map(|bags: Bags| bags.whole);
        let (thickness, sides, volume) = (Some(bed.bed), bed.form, bed.volume);
        Some(OrderRow { thickness, sides, volume, bags, ..of_row("grout", row) })
    });
    let all = (!grout.beds.is_empty()).then(|| OrderRow {
        list: "grout",
        what: "all together, bags with waste".to_owned(),
        volume: grout.volume,
        bags: grout.bags.map(|bags| bags.whole),
        ..OrderRow::default()
    });
    beds.chain(all)
}

fn packet(told: &Told<'_>, row: &HardwareRow) -> OrderRow {
    let planned = row.is_planned();
    OrderRow {
        what: packet_words(told, row),
        mass: packet_mass(row).filter(|_| planned),
        volume: row.grout.as_ref().and_then(|bed| bed.volume),
        ..of_row("packet", row)
    }
}
