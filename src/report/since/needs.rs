//! Pieces of the earlier plan against those of the new one: missing, left over.

use super::super::document::{Align, Document, Tone};
use crate::check::Case;
use crate::model::Earlier;
use crate::order::{
    Counts, FastenerKind, hardware, levelling_since, packs_not_known, packs_since, shims_since, washers_since,
};
use crate::text::{Style, and};

/// Adds the table of pieces; nothing where neither plan has any.
pub(super) fn tell(document: &mut Document, case: &Case<'_>, earlier: &Earlier, style: Style) {
    let rows = hardware(case);
    let shims = shims_since(&rows, earlier).into_iter();
    let shims = shims.map(|it| (it.base, style.exact(it.thickness), it.counts));
    let packs = packs_since(&rows, earlier).into_iter().map(|it| {
        let sides =
            it.size.map_or("?".to_owned(), |[a, b]| format!("{} x {}", style.exact(a), style.exact(b)));
        (it.base, format!("pack {sides}, {}", style.exact(it.thickness)), it.counts)
    });
    let washers = washers_since(case.job, &rows, earlier).into_iter();
    let washers = washers.map(|it| (it.base, "washer, added".to_owned(), it.counts));
    let levelling = levelling_since(&rows, earlier).into_iter().map(|it| {
        let what = if it.kind == FastenerKind::Nut { "nut" } else { "washer" };
        (it.base, format!("levelling {what} {}", it.series), it.counts)
    });
    let all: Vec<(String, String, Counts)> = shims.chain(packs).chain(washers).chain(levelling).collect();
    let open = packs_not_known(&rows, earlier);
    if all.is_empty() && open.is_empty() {
        return;
    }
    document.heading(Tone::Plain, "PIECES, of the earlier plan and of this one");
    let number = |number: u32| if number == 0 { String::new() } else { number.to_string() };
    let rows = all.iter().map(|(base, what, counts)| {
        let Counts { then, now } = counts;
        let (then, now) = (then.to_string(), now.to_string());
        vec![base.clone(), what.clone(), then, now, number(counts.missing()), number(counts.left())]
    });
    document.grid(
        &[
            ("base", Align::Wrap),
            ("piece", Align::Right),
            ("then", Align::Right),
            ("now", Align::Right),
            ("missing", Align::Right),
            ("left over", Align::Right),
        ],
        rows.collect(),
    );
    let missing: Vec<String> = (all.iter())
        .filter(|(_, _, counts)| counts.missing() > 0)
        .map(|(base, what, counts)| format!("{} x {what} for base {base}", counts.missing()))
        .collect();
    if !open.is_empty() {
        document.text(Tone::Stop, format!("Packs not known, then or now, and not counted: {}.", and(&open)));
    }
    let (tone, words) = match missing.is_empty() {
        true if !open.is_empty() => (Tone::Quiet, "Of what is known nothing is missing.".to_owned()),
        true => (Tone::Good, "Every piece of this plan was in the earlier one.".to_owned()),
        false => (Tone::Stop, format!("Not in the earlier plan: {}.", and(&missing))),
    };
    document.text(tone, words);
    document.text(
        Tone::Quiet,
        "Counted as planned, without spares; a shim or a pack for one base is not counted for another.",
    );
}
