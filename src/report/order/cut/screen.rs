//! What is said of the drawings on a screen.

use super::super::plates::why_packs_open;
use super::super::{Told, not_to_set};
use super::{Drawn, Kind};
use crate::order::{PlateUse, sum_of_masses};
use crate::report::caution::DEFER;
use crate::report::document::{Align, Document, Tone};
use crate::report::planned::aim::aim;
use crate::text::{and, count};

/// What whoever cuts must look at first.
const CUTTER: &str = "Whoever cuts checks each drawing first: outline and holes against the base plate as it was made, \
     and the unit, by measuring one side. The holes are those of the base plate, with nothing added; lines are finished \
     edges, and kerf is not in them. Shims are cut from sound, flat plate of the thickness that stands here.";

/// Makes the screen.
pub(super) fn document(told: &Told<'_>, kinds: &[Kind<'_>], folder: &str) -> Document {
    let mut document = Document::default();
    let case = &told.judged.case;
    document.heading(Tone::Plain, format!("{}: shim plates to cut", case.job.name));
    document.text(Tone::Quiet, aim(case.plan, told.style));
    not_to_set(&mut document, told);
    let drawn: Vec<(&Kind<'_>, &Drawn)> =
        kinds.iter().filter_map(|kind| Some((kind, kind.drawn.as_ref().ok()?))).collect();
    if kinds.is_empty() {
        document.heading(Tone::Plain, "NOTHING TO CUT");
        let what = if told.list.packs_open.is_empty() {
            "No shims or packs are planned"
        } else {
            "No shims are planned"
        };
        document.text(Tone::Plain, format!("{what}; no folder was written."));
    } else if drawn.is_empty() {
        document.heading(Tone::Stop, "NOTHING WAS DRAWN");
        document.text(Tone::Plain, "No folder was written.");
    } else {
        drawings(&mut document, told, &drawn, folder);
    }
    not_drawn(&mut document, kinds);
    if !told.list.packs_open.is_empty() {
        document.heading(Tone::Stop, "PACKS NOT COUNTED, and not drawn");
        for &row in &told.list.packs_open {
            document.item(Tone::Ask, told.rows[row].mark.clone(), why_packs_open(&told.rows[row]));
        }
    }
    document.heading(Tone::Ask, "CAUTION");
    document.text(Tone::Plain, CUTTER);
    document.text(Tone::Plain, DEFER);
    document
}

fn drawings(document: &mut Document, told: &Told<'_>, drawn: &[(&Kind<'_>, &Drawn)], folder: &str) {
    document.heading(Tone::Plain, format!("DRAWINGS, in {folder}"));
    let holds = drawn.iter().any(|(kind, _)| kind.order.held > 0);
    let mut heads = vec![("plate", Align::Left), ("drawing", Align::Wrap), ("to cut", Align::Right)];
    heads.extend(holds.then_some(("on hold", Align::Right)));
    heads.extend([("each", Align::Right), ("in all", Align::Right), ("mark", Align::Wrap)]);
    let mass = |mass: Option<crate::order::Mass>| {
        mass.map_or("?".to_owned(), |mass| told.style.mass(mass.milligrams()))
    };
    let rows = drawn.iter().map(|(kind, it)| {
        let order = kind.order;
        let mut cells = vec![kind.label.clone(), it.name.clone(), order.to_order.to_string()];
        cells.extend(holds.then(|| order.held.to_string()));
        cells.extend([mass(order.each), mass(order.order_mass()), kind.mark.clone()]);
        cells
    });
    document.grid(&heads, rows.collect());
    let stock = told.judged.case.job.shims.stock.is_some();
    let pieces: u32 = drawn.iter().map(|(kind, _)| kind.order.to_order).sum();
    document.text(
        Tone::Plain,
        format!(
            "To cut {}, {}, spares in it{}.",
            count(usize::try_from(pieces).unwrap_or(usize::MAX), "plate"),
            mass(sum_of_masses(drawn.iter().map(|(kind, _)| kind.order.order_mass()))),
            if stock { ", without what is in stock" } else { "" },
        ),
    );
    document.text(
        Tone::Quiet,
        "Each drawing is a .dxf and a .svg at full size, in millimetres, whatever the units of the job: layers CUT (the \
         outline), HOLES and ENGRAVE (the mark). cut-list.csv tells how many of each.",
    );
    if stock {
        let words = "What is in stock is counted by thickness: see that it has the outline that is drawn.";
        document.text(Tone::Quiet, words);
    }
    if drawn.iter().any(|(kind, _)| kind.order.kind.purpose == PlateUse::Pack) {
        document.text(
            Tone::Plain,
            "PK1, PK2 …: pieces of packs, plain rectangles marked PACK. They are no shims under a whole plate.",
        );
    }
    let unmarked = drawn.iter().filter(|(_, it)| it.drawing.engraving().is_none());
    let unmarked: Vec<&str> = unmarked.map(|(kind, _)| kind.label.as_str()).collect();
    if !unmarked.is_empty() {
        document.text(
            Tone::Ask,
            format!(
                "{}: no room beside the holes to engrave the mark; mark each piece by hand.",
                and(&unmarked)
            ),
        );
    }
}

/// Lists what could not be drawn, with what is missing and how to mend it.
fn not_drawn(document: &mut Document, kinds: &[Kind<'_>]) {
    let missing = kinds.iter().filter(|kind| kind.drawn.is_err());
    let mut first = true;
    for kind in missing {
        if std::mem::take(&mut first) {
            document.heading(Tone::Stop, "NOT DRAWN: to be cut all the same, once what is missing is known");
        }
        let each = kind.missing().map(|(why, fix)| format!("{why}: {fix}"));
        let words = format!(
            "{} of {}, base {}: {}",
            kind.order.to_order,
            kind.mark,
            and(&kind.order.bases),
            each.collect::<Vec<_>>().join("; ")
        );
        document.item(Tone::Ask, kind.label.clone(), words);
    }
}
