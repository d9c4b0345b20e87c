//! The shim plates of an order, on a screen.

use super::Told;
use crate::length::Length;
use crate::order::{HardwareRow, Mass, OrderList, Outline, PlateKind, PlateOrder, PlateUse};
use crate::report::document::{Align, Document, Tone};
use crate::report::rules::source;
use crate::text::{Style, and, count};

/// Gives what a kind of plates is called in one order: shims S1, S2 and so on, pieces of packs PK1, PK2: columns are often called P1.
pub(super) fn label(list: &OrderList, at: usize) -> String {
    let (letter, before) = match list.plates.get(at).map(|it| it.kind.purpose) {
        Some(PlateUse::Pack) => ("PK", list.plates_for(PlateUse::Shim).count()),
        _ => ("S", 0),
    };
    format!("{letter}{}", at + 1 - before)
}

/// Adds the section.
pub(super) fn add(document: &mut Document, told: &Told<'_>) {
    document.heading(Tone::Plain, "SHIM PLATES, full bearing");
    if of(told, PlateUse::Shim).next().is_none() {
        document.text(Tone::Plain, "No shims are planned.");
        return;
    }
    listed(document, told, PlateUse::Shim);
    how(document, told);
    if told.judged.case.job.shims.stock.is_some() {
        document.text(
            Tone::Quiet,
            "stock: what the pieces on hand cover. They are counted by thickness: see that they have this outline.",
        );
    }
    if told.judged.case.plan.shortage.is_some() {
        document.text(
            Tone::Quiet,
            "With more on hand another plan would need less: rodreach check lists what is missing.",
        );
    }
}

/// Adds the packs, where a column is set on them.
pub(super) fn packs(document: &mut Document, told: &Told<'_>) {
    let kinds = of(told, PlateUse::Pack).next().is_some();
    if !kinds && told.list.packs_open.is_empty() {
        return;
    }
    document.heading(Tone::Plain, "PACKS, pieces of plate without holes");
    if kinds {
        listed(document, told, PlateUse::Pack);
    }
    for &row in &told.list.packs_open {
        let words = format!("not counted: {}", why_packs_open(&told.rows[row]));
        document.item(Tone::Stop, told.rows[row].mark.clone(), words);
    }
    if of(told, PlateUse::Shim).next().is_none() {
        how(document, told);
    }
    let stock = told.judged.case.job.shims.stock.is_some();
    let stock = if stock { " Nothing of them is taken from what is on hand." } else { "" };
    document.text(
        Tone::Quiet,
        format!("Counted for the planned beds; wedges come out and are not counted.{stock}"),
    );
}

/// Says why the packs of a column are not counted.
pub(super) fn why_packs_open(row: &HardwareRow) -> &'static str {
    match &row.packs {
        Some(packs) if packs.count.is_none() => "how many packs stand there is not given",
        _ => "no stack of the job's shims makes the height of its packs",
    }
}

/// Gives the plates of one use with their places in the order.
fn of<'t>(told: &'t Told<'_>, purpose: PlateUse) -> impl Iterator<Item = (usize, &'t PlateOrder)> + Clone {
    told.list.plates.iter().enumerate().filter(move |(_, it)| it.kind.purpose == purpose)
}

/// Lists the plates of one use, and what they come to.
fn listed(document: &mut Document, told: &Told<'_>, purpose: PlateUse) {
    outlines(document, told, purpose);
    grid(document, told, purpose);
    let noun = if purpose == PlateUse::Shim { "plate" } else { "piece" };
    let pieces = |number: fn(&PlateOrder) -> u32| {
        let sum: u32 = of(told, purpose).map(|(_, it)| number(it)).sum();
        count(usize::try_from(sum).unwrap_or(usize::MAX), noun)
    };
    let open = purpose == PlateUse::Pack && !told.list.packs_open.is_empty();
    let open = if open { " and those not counted" } else { "" };
    let mass = |mass: fn(&PlateOrder) -> Option<Mass>| in_all(told.style, told.list.mass_of(purpose, mass));
    document.text(
        Tone::Plain,
        format!(
            "In the plan {}{open}, {}. To order {}{open}, {}.",
            pieces(|it| it.pieces),
            mass(PlateOrder::mass),
            pieces(|it| it.to_order),
            mass(PlateOrder::order_mass),
        ),
    );
    if of(told, purpose).any(|(_, it)| it.held > 0) {
        document.text(Tone::Quiet, "held: those of the pieces that are for columns on hold.");
    }
}

/// Says how spares and masses are worked out.
fn how(document: &mut Document, told: &Told<'_>) {
    let spares = &told.judged.case.job.supplies.spares;
    document.text(
        Tone::Quiet,
        format!(
            "Spares: {} % of each kind, up to the next piece ({}). Steel of 7850 kg/m3 (490 lb/ft3), holes taken out, \
             masses rounded up.",
            spares.value,
            source(&spares.authority)
        ),
    );
}

/// Lists every outline once, with the plates that have it, and what is missing to cut them.
fn outlines(document: &mut Document, told: &Told<'_>, purpose: PlateUse) {
    let plates = &told.list.plates;
    let mut seen: Vec<usize> = Vec::new();
    for (at, it) in of(told, purpose) {
        let alike = |other: &PlateOrder| {
            let (one, other) = (&it.kind, &other.kind);
            (one.purpose, &one.outline, &one.only_for) == (other.purpose, &other.outline, &other.only_for)
        };
        if seen.iter().any(|&known| alike(&plates[known])) {
            continue;
        }
        seen.push(at);
        let same = plates.iter().enumerate().filter(|(_, other)| alike(other));
        let labels: Vec<String> = same.clone().map(|(at, _)| label(told.list, at)).collect();
        let mut bases: Vec<&str> = Vec::new();
        for base in same.flat_map(|(_, other)| &other.bases) {
            if !bases.contains(&base.as_str()) {
                bases.push(base);
            }
        }
        let words = kind_words(told.style, &it.kind);
        document.item(Tone::Plain, labels.join(", "), format!("{words}; under base {}", and(&bases)));
        if it.kind.outline.holes_fit() == Some(false) {
            let said = "these holes do not lie clear within the plate and of each other: check the drawing";
            document.item(Tone::Ask, " ", said);
        }
        if !it.kind.outline.can_be_cut() {
            document.item(
                Tone::Ask,
                " ",
                "cannot be cut from this list alone: take what is missing from the drawing",
            );
        }
    }
}

/// Writes what a plate is cut to: a shim with its holes, a piece of a pack as one.
pub(super) fn kind_words(style: Style, kind: &PlateKind) -> String {
    match kind.purpose {
        PlateUse::Shim => outline_words(style, &kind.outline),
        PlateUse::Pack => format!("piece of a pack, {}", outline_words(style, &kind.outline)),
    }
}

/// Writes an outline and its holes, and what of them is not known.
fn outline_words(style: Style, outline: &Outline) -> String {
    let apart = |[a, b]: [Length; 2]| format!("{} x {}", style.exact(a), style.exact(b));
    let plate = match outline.size {
        Some(size) => apart(size),
        None => "size not given".to_owned(),
    };
    let holes = &outline.holes;
    if holes.count == 0 {
        return format!("{plate}, no holes");
    }
    let number = count(usize::try_from(holes.count).unwrap_or(0), "hole");
    let each = match holes.diameter {
        Some(diameter) => format!("{number} {}", style.exact(diameter)),
        None => format!("{number} of a size not given"),
    };
    let place = match (holes.pattern, holes.at()) {
        (Some(pattern), Some(_)) => format!("in the corners of {} about its middle", apart(pattern)),
        (Some(pattern), None) => format!("spaced {}, where each is not known", apart(pattern)),
        (None, _) => "where they are is not given".to_owned(),
    };
    format!("{plate}, {each}, {place}")
}

fn grid(document: &mut Document, told: &Told<'_>, purpose: PlateUse) {
    let plates = of(told, purpose);
    let holds = plates.clone().any(|(_, it)| it.held > 0);
    let stock = plates.clone().any(|(_, it)| it.from_stock.is_some());
    let first = if purpose == PlateUse::Shim { "plate" } else { "piece" };
    let mut heads = vec![(first, Align::Left), ("thick", Align::Right), ("pieces", Align::Right)];
    heads.extend(holds.then_some(("held", Align::Right)));
    heads.push(("spares", Align::Right));
    heads.extend(stock.then_some(("stock", Align::Right)));
    heads.extend([("order", Align::Right), ("each", Align::Right), ("in all", Align::Right)]);
    let rows = plates.map(|(at, it)| {
        let mut cells =
            vec![label(told.list, at), told.style.exact(it.kind.thickness), it.pieces.to_string()];
        cells.extend(holds.then(|| it.held.to_string()));
        cells.push(it.spares.to_string());
        cells.extend(stock.then(|| it.from_stock.unwrap_or(0).to_string()));
        cells.extend([it.to_order.to_string(), mass(told.style, it.each), mass(told.style, it.order_mass())]);
        cells
    });
    document.grid(&heads, rows.collect());
}

fn mass(style: Style, mass: Option<Mass>) -> String {
    mass.map_or("?".to_owned(), |mass| style.mass(mass.milligrams()))
}

fn in_all(style: Style, all: Option<Mass>) -> String {
    match all {
        Some(_) => mass(style, all),
        None => "mass not known".to_owned(),
    }
}
