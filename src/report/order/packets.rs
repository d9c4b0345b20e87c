//! One packet a column, for whoever sorts the crate.

use super::{Told, plates};
use crate::length::Rounding;
use crate::model::RodLabel;
use crate::order::{HardwareRow, PlateKind};
use crate::report::document::{Align, Document, Tone};
use crate::text::and;

/// Gives the kinds of plates in a column's packet, by their place in the order, and how many of each.
pub(super) fn plates_of(told: &Told<'_>, row: &HardwareRow) -> Vec<(usize, u32)> {
    let kind_at = |kind: &PlateKind| told.list.plates.iter().position(|it| it.kind == *kind);
    let packs = row.pack_plates().unwrap_or_default();
    row.shims.iter().chain(&packs).filter_map(|(kind, count)| Some((kind_at(kind)?, *count))).collect()
}

/// Says which plates are in a packet, pieces of packs too: `1 S1 (1/2"), 2 S3 (1/8")`.
pub(super) fn plate_words(told: &Told<'_>, row: &HardwareRow) -> String {
    let each = plates_of(told, row).into_iter().map(|(at, count)| {
        let thickness = told.style.exact(told.list.plates[at].kind.thickness);
        format!("{count} {} ({thickness})", plates::label(told.list, at))
    });
    let open = row.pack_plates().is_none().then(|| "packs ?".to_owned());
    each.chain(open).collect::<Vec<_>>().join(", ")
}

/// Says what goes on the rods under the plate, as drawn: `4 iso-4032, 4 iso-7089`.
pub(super) fn levelling_words(row: &HardwareRow) -> String {
    let each = row.under.iter().map(|(part, count)| format!("{count} {}", part.name));
    each.collect::<Vec<_>>().join(", ")
}

/// Says which washers are in a packet, and which rods they go on.
pub(super) fn washer_words(row: &HardwareRow) -> String {
    let Some((part, total)) = &row.extra else { return String::new() };
    let rods: Vec<String> = row.extra_rods.iter().map(|(rod, number)| format!("{number} on {rod}")).collect();
    format!("{total} {} ({})", part.name, and(&rods))
}

/// Tells whether there is anything to pack for a column.
pub(super) fn is_empty(row: &HardwareRow) -> bool {
    let plates = row.shims.is_empty() && row.packs.is_none();
    plates && row.under.is_empty() && row.extra.is_none() && row.grout.is_none()
}

/// Adds the section.
pub(super) fn add(document: &mut Document, told: &Told<'_>) {
    document.heading(Tone::Plain, "PACKETS, one a column");
    let planned = || told.rows.iter().enumerate().filter(|(_, row)| row.is_planned());
    let packed = || planned().filter(|(_, row)| !is_empty(row));
    let nothing: Vec<&str> =
        planned().filter(|(_, row)| is_empty(row)).map(|(_, row)| row.mark.as_str()).collect();
    if packed().count() > 0 {
        let some = |any: fn(&HardwareRow) -> bool| packed().any(|(_, row)| any(row));
        let (shims, levelling, washers, grout) = (
            some(|row| !row.shims.is_empty() || row.packs.is_some()),
            some(|row| !row.under.is_empty()),
            some(|row| row.extra.is_some()),
            some(|row| row.grout.is_some()),
        );
        let mut heads = vec![("column", Align::Left), ("base", Align::Left)];
        heads.extend(shims.then_some(("plates", Align::Wrap)));
        heads.extend(levelling.then_some(("levelling, as drawn", Align::Wrap)));
        heads.extend(washers.then_some(("more washers", Align::Wrap)));
        heads.extend(grout.then_some(("grout", Align::Right)));
        heads.push(("set", Align::Left));
        let or_dash = |words: String| if words.is_empty() { "-".to_owned() } else { words };
        let rows = packed().map(|(index, row)| {
            let mut cells = vec![row.mark.clone(), row.base.clone()];
            cells.extend(shims.then(|| or_dash(plate_words(told, row))));
            cells.extend(levelling.then(|| or_dash(levelling_words(row))));
            cells.extend(washers.then(|| or_dash(washer_words(row))));
            cells.extend(grout.then(|| grout_words(told, row)));
            cells.push(told.set(index));
            cells
        });
        document.grid(&heads, rows.collect());
    }
    if !nothing.is_empty() {
        document.text(Tone::Plain, format!("Nothing to pack: {}.", and(&nothing)));
    }
    if packed().any(|(_, row)| !row.may_set) {
        document.text(Tone::Quiet, "A packet marked NO is kept apart until its column is no longer on hold.");
    }
    let group = |row: &HardwareRow| row.extra_rods.iter().any(|(rod, _)| !matches!(rod, RodLabel::Number(_)));
    if packed().any(|(_, row)| row.extra.is_some() && group(row)) {
        let said = "low, high: the lowest and highest of a group stand for all of its rods, so each rod gets as many.";
        document.text(Tone::Quiet, said);
    }
}

fn grout_words(told: &Told<'_>, row: &HardwareRow) -> String {
    match &row.grout {
        None => "-".to_owned(),
        Some(bed) => bed.volume.map_or("?".to_owned(), |volume| told.style.volume(volume, Rounding::Up)),
    }
}
