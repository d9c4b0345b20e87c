//! The shim plates of an order, on a screen.

use super::Told;
use crate::length::Length;
use crate::order::{Mass, Outline, PlateOrder, sum_of_masses};
use crate::report::document::{Align, Document, Tone};
use crate::report::rules::source;
use crate::text::{Style, and, count};

/// Gives what a kind of plates is called in one order: S1, S2 and so on.
pub(super) fn label(at: usize) -> String {
    format!("S{}", at + 1)
}

/// Adds the section.
pub(super) fn add(document: &mut Document, told: &Told<'_>) {
    document.heading(Tone::Plain, "SHIM PLATES, full bearing");
    let plates = &told.list.plates;
    if plates.is_empty() {
        document.text(Tone::Plain, "No shims are planned.");
        return;
    }
    outlines(document, told);
    grid(document, told);
    let planned: u32 = plates.iter().map(|it| it.pieces).sum();
    let ordered: u32 = plates.iter().map(|it| it.to_order).sum();
    document.text(
        Tone::Plain,
        format!(
            "In the plan {}, {}. To order {}, {}.",
            pieces(planned),
            in_all(told.style, sum_of_masses(plates.iter().map(PlateOrder::mass))),
            pieces(ordered),
            in_all(told.style, sum_of_masses(plates.iter().map(PlateOrder::order_mass))),
        ),
    );
    if plates.iter().any(|it| it.held > 0) {
        document.text(Tone::Quiet, "held: those of the pieces that are for columns on hold.");
    }
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

/// Lists every outline once, with the plates that have it, and what is missing to cut them.
fn outlines(document: &mut Document, told: &Told<'_>) {
    let plates = &told.list.plates;
    let mut seen: Vec<usize> = Vec::new();
    for (at, it) in plates.iter().enumerate() {
        let alike = |other: &PlateOrder| {
            other.kind.outline == it.kind.outline && other.kind.only_for == it.kind.only_for
        };
        if seen.iter().any(|&known| alike(&plates[known])) {
            continue;
        }
        seen.push(at);
        let same = plates.iter().enumerate().filter(|(_, other)| alike(other));
        let labels: Vec<String> = same.clone().map(|(at, _)| label(at)).collect();
        let mut bases: Vec<&str> = Vec::new();
        for base in same.flat_map(|(_, other)| &other.bases) {
            if !bases.contains(&base.as_str()) {
                bases.push(base);
            }
        }
        let words = outline_words(told.style, &it.kind.outline);
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

/// Writes an outline and its holes, and what of them is not known.
pub(super) fn outline_words(style: Style, outline: &Outline) -> String {
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

fn grid(document: &mut Document, told: &Told<'_>) {
    let plates = &told.list.plates;
    let holds = plates.iter().any(|it| it.held > 0);
    let stock = plates.iter().any(|it| it.from_stock.is_some());
    let mut heads = vec![("plate", Align::Left), ("thick", Align::Right), ("pieces", Align::Right)];
    heads.extend(holds.then_some(("held", Align::Right)));
    heads.push(("spares", Align::Right));
    heads.extend(stock.then_some(("stock", Align::Right)));
    heads.extend([("order", Align::Right), ("each", Align::Right), ("in all", Align::Right)]);
    let rows = plates.iter().enumerate().map(|(at, it)| {
        let mut cells = vec![label(at), told.style.exact(it.kind.thickness), it.pieces.to_string()];
        cells.extend(holds.then(|| it.held.to_string()));
        cells.push(it.spares.to_string());
        cells.extend(stock.then(|| it.from_stock.unwrap_or(0).to_string()));
        cells.extend([it.to_order.to_string(), mass(told.style, it.each), mass(told.style, it.order_mass())]);
        cells
    });
    document.grid(&heads, rows.collect());
}

fn pieces(number: u32) -> String {
    count(usize::try_from(number).unwrap_or(usize::MAX), "plate")
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
