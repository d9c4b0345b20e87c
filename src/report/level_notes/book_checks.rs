//! The checks of a level book on a screen: its sums, and both sides of every check.

use super::book_grid::Numbers;
use super::book_names::run;
use crate::levels::{Book, CheckKind};
use crate::model::{Job, Sense};
use crate::report::document::{Align, Document, Tone};

/// Adds the sums and the checks.
pub(in crate::report) fn checks(document: &mut Document, job: &Job, book: &Book, numbers: Numbers) {
    if book.checks.is_empty() {
        return;
    }
    document.heading(Tone::Plain, "CHECKS, both sides worked out apart");
    let several = book.sections.len() > 1;
    sums(document, job, book, numbers);
    let rows = book.checks.iter().map(|it| {
        let of = book.sections.get(it.section).filter(|_| several && it.kind == CheckKind::Sights);
        let write = |length| {
            if it.kind == CheckKind::Closing { numbers.share(length) } else { numbers.reading(length) }
        };
        vec![
            of.map_or(String::new(), |section| run(job, section)),
            formula(it.kind, job.readings.sense).to_owned(),
            write(it.left),
            write(it.right),
            if it.holds { "holds" } else { "FAILS" }.to_owned(),
        ]
    });
    let rows: Vec<Vec<String>> = rows.collect();
    let heads = [
        ("section", Align::Wrap),
        ("check", Align::Left),
        ("one side", Align::Right),
        ("the other", Align::Right),
        ("", Align::Left),
    ];
    named(document, several, &heads, rows);
    document.text(
        Tone::Quiet,
        "elev: the elevations of all points but the first, a turning point once. HI x points: the HI of each setup times \
         the points read from it, its backsight not counted.",
    );
}

/// Adds the sums that the checks start from.
fn sums(document: &mut Document, job: &Job, book: &Book, numbers: Numbers) {
    let rows = book.sections.iter().zip(&book.sums).map(|(section, it)| {
        let sums = [it.back, it.intermediate, it.fore, it.rises, it.falls];
        let sums = sums.into_iter().map(|it| numbers.reading(it));
        [run(job, section)].into_iter().chain(sums).collect()
    });
    let heads = [
        ("section", Align::Wrap),
        ("sum BS", Align::Right),
        ("sum IS", Align::Right),
        ("sum FS", Align::Right),
        ("rises", Align::Right),
        ("falls", Align::Right),
    ];
    named(document, book.sections.len() > 1, &heads, rows.collect());
}

/// Adds a table; its first column names the section, where there are several.
fn named(document: &mut Document, several: bool, heads: &[(&'static str, Align)], rows: Vec<Vec<String>>) {
    if several {
        return document.grid(heads, rows);
    }
    let rows = rows.into_iter().map(|row| row.into_iter().skip(1).collect());
    document.grid(heads.get(1..).unwrap_or_default(), rows.collect());
}

const fn formula(kind: CheckKind, sense: Sense) -> &'static str {
    match (kind, sense) {
        (CheckKind::Sights, Sense::Rod) => "BS - FS = last - first",
        (CheckKind::Sights, Sense::Height) => "FS - BS = last - first",
        (CheckKind::Rises, _) => "rises - falls = last - first",
        (CheckKind::Intermediate, Sense::Rod) => "IS + FS + elev = HI x points",
        (CheckKind::Intermediate, Sense::Height) => "elev - IS - FS = HI x points",
        (CheckKind::Closing, _) => "adjusted end = known end",
    }
}
