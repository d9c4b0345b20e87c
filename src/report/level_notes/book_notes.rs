//! What must be said beside a level book: sights used otherwise than marked, what does not enter it.

use super::book_grid::Numbers;
use super::book_names::{at, few};
use crate::length::Length;
use crate::levels::Book;
use crate::model::{Job, SightKind};
use crate::report::document::{Document, Tone};
use crate::text::{and, count};

/// Adds the notes.
pub(in crate::report) fn notes(document: &mut Document, job: &Job, book: &Book, numbers: Numbers) {
    let mut said: Vec<String> = used_otherwise(job, book);
    said.extend(known_aside(job, book, numbers));
    let readings = &job.readings;
    let apart = [(readings.elevations.len(), "elevation"), (readings.differences.len(), "difference")];
    let apart: Vec<String> =
        apart.iter().filter(|it| it.0 > 0).map(|(number, what)| count(*number, what)).collect();
    if !apart.is_empty() {
        said.push(format!(
            "Not in this book, which holds the level notes alone: {} of other files.",
            and(&apart)
        ));
    }
    if readings.benchmarks.iter().any(|it| it.plus_minus.nm() > 0) {
        said.push("A benchmark with a +- of its own is held here all the same.".to_owned());
    }
    said.push(
        "The plan does not use these elevations: it uses least squares (`rodreach level` without --book)."
            .to_owned(),
    );
    document.heading(Tone::Plain, "NOTES");
    for text in said {
        document.item(Tone::Quiet, "-", text);
    }
}

/// Says which sights were used as another kind than they were marked as.
fn used_otherwise(job: &Job, book: &Book) -> Vec<String> {
    let kinds = [SightKind::Back, SightKind::Intermediate, SightKind::Fore];
    let pairs = kinds.into_iter().flat_map(|used| kinds.map(|marked| (used, marked)));
    let mut said = Vec::new();
    for (used, marked) in pairs.filter(|(used, marked)| used != marked) {
        let rows = book.rows.iter().filter(|row| row.sight == used && row.marked == marked);
        let names: Vec<String> = rows.map(|row| at(job, row)).collect();
        let why = match (used, marked) {
            (SightKind::Back, SightKind::Intermediate) => {
                "no marked backsight stands on a point with an elevation, so the first sight that does serves"
            }
            (SightKind::Back, _) => "no backsight stands on a point with an elevation, and it does",
            (SightKind::Fore, SightKind::Back) => {
                "the run goes on or ends there, and another sight serves as backsight"
            }
            (SightKind::Fore, _) => "the run goes on or ends there",
            (SightKind::Intermediate, SightKind::Back) => "another backsight of the setup serves",
            (SightKind::Intermediate, _) => "the run does not go on or end there",
        };
        if !names.is_empty() {
            said.push(format!(
                "Used as {}, marked {}: {} ({why}).",
                used.short(),
                marked.short(),
                few(&names)
            ));
        }
    }
    said
}

/// Says what sights on known points show that close nothing.
fn known_aside(job: &Job, book: &Book, numbers: Numbers) -> Vec<String> {
    let aside = book.rows.iter().filter(|row| row.sight == SightKind::Intermediate);
    let told = aside.filter_map(|row| {
        let benchmark = job.readings.benchmarks.iter().find(|it| it.point == row.point);
        let zero = (book.zero == Some(row.point)).then_some(Length::ZERO);
        let off = row.booked?.elevation - benchmark.map(|it| it.elevation).or(zero)?;
        Some(format!("{} {}", at(job, row), numbers.correction(off)))
    });
    let told: Vec<String> = told.collect();
    if told.is_empty() {
        return Vec::new();
    }
    vec![format!(
        "Known points read on the way, computed less known: {}. Only a foresight closes a section.",
        few(&told)
    )]
}
