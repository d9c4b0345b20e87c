//! What the hardware of all columns comes to, under the hardware table.

use super::screen::plate_words;
use crate::length::{Length, Rounding};
use crate::order::{Fastener, FastenerKind, HardwareTotals};
use crate::report::document::{Document, Tone};
use crate::report::figures::{kg, litres};
use crate::text::{Style, and, count};
use serde::Serialize;
use serde_json::Number;

/// The totals as JSON has them.
#[derive(Serialize)]
pub(super) struct TotalsJson {
    columns_set: usize,
    columns_not_planned: usize,
    rods: Vec<RodsJson>,
    nuts: Vec<FastenerJson>,
    washers: Vec<FastenerJson>,
    extra_washers: u32,
    plates: Vec<PlateJson>,
    pieces: u32,
    shim_mass_kg: Option<Number>,
    columns_on_packs: usize,
    pack_pieces: Option<u32>,
    pack_mass_kg: Option<Number>,
    columns_on_grout: usize,
    grout_l: Option<Number>,
}

#[derive(Serialize)]
struct RodsJson {
    size: String,
    count: u32,
}

/// Nuts or washers that the drawings have, and washers added to them.
#[derive(Serialize)]
struct FastenerJson {
    series: String,
    size: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    measured_nm: Option<i64>,
    drawn: u32,
    /// Under the plates: levelling nuts and the washers on them, not among those drawn.
    levelling: u32,
    extra: u32,
}

#[derive(Serialize)]
struct PlateJson {
    thickness_nm: i64,
    size_nm: Option<[i64; 2]>,
    count: u32,
}

impl TotalsJson {
    /// Makes them of the totals.
    pub(super) fn of(totals: &HardwareTotals) -> Self {
        let fasteners = |kind: FastenerKind| {
            let all = fasteners(totals).into_iter().filter(move |(part, _)| part.kind == kind);
            let json = |(part, [drawn, levelling, extra]): (Fastener, [u32; 3])| FastenerJson {
                series: part.name,
                size: part.size,
                measured_nm: part.measured.map(Length::nm),
                drawn,
                levelling,
                extra,
            };
            all.map(json).collect()
        };
        Self {
            columns_set: totals.may_set,
            columns_not_planned: totals.not_planned,
            rods: totals
                .rods
                .iter()
                .map(|(size, count)| RodsJson { size: size.clone(), count: *count })
                .collect(),
            nuts: fasteners(FastenerKind::Nut),
            washers: fasteners(FastenerKind::Washer),
            extra_washers: totals.extra.iter().map(|(_, count)| count).sum(),
            plates: (totals.plates.iter())
                .map(|(plate, count)| PlateJson {
                    thickness_nm: plate.thickness.nm(),
                    size_nm: plate.size.map(|sides| sides.map(Length::nm)),
                    count: *count,
                })
                .collect(),
            pieces: totals.pieces,
            shim_mass_kg: totals.shim_mass.map(kg),
            columns_on_packs: totals.on_packs,
            pack_pieces: totals.pack_pieces,
            pack_mass_kg: totals.pack_mass.map(kg),
            columns_on_grout: totals.grouted,
            grout_l: totals.grout.map(litres),
        }
    }
}

/// Lists every nut and washer with how many the drawings have above the plates and under them, and how many are added.
fn fasteners(totals: &HardwareTotals) -> Vec<(Fastener, [u32; 3])> {
    let mut all: Vec<(Fastener, [u32; 3])> = Vec::new();
    for (at, list) in [&totals.drawn, &totals.under, &totals.extra].into_iter().enumerate() {
        for (part, count) in list {
            match all.iter_mut().find(|(known, _)| known == part) {
                Some((_, counts)) => counts[at] = *count,
                None => {
                    let mut counts = [0; 3];
                    counts[at] = *count;
                    all.push((part.clone(), counts));
                }
            }
        }
    }
    all
}

/// Writes what a nut or a washer is bought as.
pub(in crate::report) fn fastener_words(part: &Fastener, style: Style) -> String {
    match part.measured {
        Some(measured) => format!("{}, {}", part.name, style.exact(measured)),
        None => part.name.clone(),
    }
}

/// Adds the totals to a screen.
pub(super) fn totals_items(document: &mut Document, totals: &HardwareTotals, columns: usize, style: Style) {
    document.heading(Tone::Plain, "IN ALL");
    let mut item = |name: &str, words: String| document.item(Tone::Plain, name, words);
    let rods = totals.rods.iter().map(|(size, count)| format!("{count} of {size}"));
    item("rod", and(&rods.collect::<Vec<_>>()));
    for (name, kind) in [("nut", FastenerKind::Nut), ("washer", FastenerKind::Washer)] {
        let all = fasteners(totals).into_iter().filter(|(part, _)| part.kind == kind);
        let each = all.map(|(part, [drawn, under, extra])| {
            let below = if under > 0 { format!(" and {under} more under the plates") } else { String::new() };
            let more = if extra > 0 { format!(" and {extra} more under nuts") } else { String::new() };
            format!("{drawn} {} on {}{below}{more}", fastener_words(&part, style), part.size)
        });
        let each: Vec<String> = each.collect();
        if !each.is_empty() {
            item(name, each.join("; "));
        }
    }
    let plates = totals
        .plates
        .iter()
        .map(|(plate, count)| format!("{count} of {}", plate_words(style, plate.size, plate.thickness)));
    item("plate", and(&plates.collect::<Vec<_>>()));
    if totals.pieces > 0 {
        let mass = totals.shim_mass.map_or("mass not known".to_owned(), |mass| style.mass(mass.milligrams()));
        let pieces = count(usize::try_from(totals.pieces).unwrap_or(usize::MAX), "plate");
        item("shim", format!("{pieces}, {mass}"));
    }
    if totals.on_packs > 0 {
        let pieces = totals.pack_pieces.map_or("pieces not known".to_owned(), |pieces| {
            count(usize::try_from(pieces).unwrap_or(usize::MAX), "piece")
        });
        let mass = totals.pack_mass.map_or("mass not known".to_owned(), |mass| style.mass(mass.milligrams()));
        item("packs", format!("{pieces}, {mass}, under {}", count(totals.on_packs, "column")));
    }
    if totals.grouted > 0 {
        let volume =
            totals.grout.map_or("volume not known".to_owned(), |volume| style.volume(volume, Rounding::Up));
        item("grout", format!("{volume} under {}, waste not counted", count(totals.grouted, "column")));
    }
    let open = match totals.not_planned {
        0 => String::new(),
        open => format!("; nothing is planned yet at {open}"),
    };
    item("set", format!("{} of {} may be set{open}", totals.may_set, count(columns, "column")));
}
