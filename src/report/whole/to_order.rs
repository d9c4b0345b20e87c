//! What is to be ordered, in short: `order` has every kind with its outline and a packet for each column.

use super::super::document::{Document, Tone};
use crate::check::Case;
use crate::length::{Length, Rounding};
use crate::order::{FastenerKind, GroutOrder, OrderList, hardware, order_list};
use crate::text::{Style, and, count};
use std::collections::BTreeMap;

/// Gives the order of a plan.
pub(super) fn order_of(case: &Case<'_>) -> OrderList {
    order_list(case.job, &hardware(case))
}

/// Adds the list.
pub(super) fn section(document: &mut Document, case: &Case<'_>, list: &OrderList, style: Style) {
    document.heading(Tone::Plain, "TO ORDER, in short");
    document.item(Tone::Plain, "shims", shims(list, style));
    for (kind, name) in [(FastenerKind::Washer, "washers"), (FastenerKind::Nut, "nuts")] {
        let many: u32 = list.of_kind(kind).map(|it| it.to_order).sum();
        if many > 0 {
            document.item(Tone::Plain, name, format!("{many} beside those of the drawings, spares counted"));
        }
    }
    if let Some(words) = grout(&list.grout, case, style) {
        document.item(Tone::Plain, "grout", words);
    }
    if !list.grind.is_empty() {
        let pads = count(list.grind.len(), "pad");
        document.item(Tone::Ask, "to grind", format!("{pads}, once the engineer agrees"));
    }
    let mut words =
        "rodreach order lists each kind with its outline and its spares, and a packet for each column."
            .to_owned();
    if !list.held.is_empty() {
        let columns = count(list.held.len(), "column");
        words.push_str(&format!(" {columns} on hold: counted as planned, which the answer may change."));
    }
    if !list.not_counted.is_empty() {
        let columns = count(list.not_counted.len(), "column");
        words.push_str(&format!(" {columns} not counted: nothing is planned there yet."));
    }
    document.text(Tone::Quiet, words);
}

/// Says how many shim plates of each thickness, the thickest first.
fn shims(list: &OrderList, style: Style) -> String {
    let mut counted: BTreeMap<Length, u32> = BTreeMap::new();
    for plate in &list.plates {
        *counted.entry(plate.kind.thickness).or_default() += plate.to_order;
    }
    let planned: u32 = list.plates.iter().map(|it| it.pieces).sum();
    if planned == 0 {
        return "none is planned".to_owned();
    }
    let each: Vec<String> = counted
        .iter()
        .rev()
        .filter(|(_, many)| **many > 0)
        .map(|(thickness, many)| format!("{many} x {}", style.exact(*thickness)))
        .collect();
    let order = if each.is_empty() { "nothing, all are on hand".to_owned() } else { and(&each) };
    format!("{planned} in the plan; to order with spares, less what is on hand: {order}")
}

/// Says how much grout, and how many bags; nothing where no column stands on grout.
pub(super) fn grout(grout: &GroutOrder, case: &Case<'_>, style: Style) -> Option<String> {
    if grout.beds.is_empty() {
        return None;
    }
    let bases = count(grout.beds.len(), "base");
    let (Some(volume), Some(mixed)) = (grout.volume, grout.mixed) else {
        return Some(format!("under {bases}: how much is not known, since the size of a plate is not given"));
    };
    let waste = case.job.supplies.grout.waste.value;
    let bags = grout.bags.map_or("bags not known, none is named in the job".to_owned(), |bags| {
        format!("{} {}", bags.whole, if bags.whole == 1 { "bag" } else { "bags" })
    });
    Some(format!(
        "under {bases} {}, with {waste} % waste {}: {bags}",
        style.volume(volume, Rounding::Up),
        style.volume(mixed, Rounding::Up)
    ))
}
