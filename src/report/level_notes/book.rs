//! The screen and the sheet of `level --book`: a page of a level book, its sections and its checks.

use super::book_checks::checks;
use super::book_grid::{Numbers, page};
use super::book_json::with_book;
use super::book_names::{few, point, run, setup};
use super::book_notes::notes;
use super::screen::level_answer;
use crate::check::style;
use crate::length::Length;
use crate::levels::{Book, BookSection, Levelled};
use crate::model::{Job, Sense};
use crate::report::check::screen::measured;
use crate::report::document::{Align, Answer, Document, Sheet, Tone, nm_cell};
use crate::source::Files;
use crate::text::{and, count};

/// Makes the answer of `level --book`.
#[must_use]
pub fn level_book_answer(job: &Job, levels: &Levelled, book: &Book, files: &Files) -> Answer {
    let usual = level_answer(job, levels, files);
    let numbers = Numbers::of(job, book);
    let mut document = Document::default();
    head(&mut document, job, book, numbers);
    faults(&mut document, book);
    missing(&mut document, job, levels, book);
    page(&mut document, job, book, numbers);
    sections(&mut document, job, book, numbers);
    checks(&mut document, job, book, numbers);
    notes(&mut document, job, book, numbers);
    Answer {
        document,
        sheet: sheet(job, book, numbers),
        value: with_book(usual.value, job, book),
        clear: usual.clear && book.is_whole(),
    }
}

fn head(document: &mut Document, job: &Job, book: &Book, numbers: Numbers) {
    document.heading(Tone::Plain, format!("{}: level book", job.name));
    document.text(Tone::Quiet, measured(job, style(job)));
    let names: Vec<&str> = job.readings.benchmarks.iter().map(|it| point(job, it.point)).collect();
    let from = match (names.as_slice(), book.zero) {
        ([], Some(zero)) => format!("No benchmark: 0 is {}, where the book starts.", point(job, zero)),
        (names, _) => format!("On the datum of {}, held as given.", and(names)),
    };
    let counts = match job.readings.sense {
        Sense::Rod => "elevation = HI - reading",
        Sense::Height => "readings count as heights: elevation = HI + reading",
    };
    document.text(
        Tone::Quiet,
        format!("In {}; HI is the height of instrument, {counts}. {from}", numbers.unit()),
    );
}

/// Says at once when the book contradicts itself.
fn faults(document: &mut Document, book: &Book) {
    let failed = book.checks.iter().filter(|check| !check.holds).count();
    if failed > 0 {
        document.heading(Tone::Stop, "THIS BOOK IS WRONG");
        document.text(
            Tone::Stop,
            format!(
                "{failed} of {} FAILED, see below. That is a fault of this program, not of the readings: use nothing of this \
                 page.",
                count(book.checks.len(), "check")
            ),
        );
    }
}

/// Says what is missing or does not fit: why the answer is not clear.
fn missing(document: &mut Document, job: &Job, levels: &Levelled, book: &Book) {
    let mut said = Vec::new();
    if levels.test().is_some_and(|test| !test.passed) {
        said.push(
            "The readings do NOT agree within their +-: `rodreach level` without --book tells more; read again before you \
             rely on them."
                .to_owned(),
        );
    }
    if !book.not_reached.is_empty() {
        let names: Vec<String> = book.not_reached.iter().map(|it| setup(job, *it).to_owned()).collect();
        let setups = if names.len() == 1 { "Setup" } else { "Setups" };
        said.push(format!(
            "{setups} {} read no point that has an elevation by then. A book runs forward: put the setups in the order of \
             reading, or read a benchmark or a pad of an earlier setup from there.",
            few(&names)
        ));
    }
    let names =
        |points: &[usize]| few(&points.iter().map(|it| point(job, *it).to_owned()).collect::<Vec<_>>());
    let loose = levels.unconnected();
    if !loose.is_empty() {
        said.push(format!("Connected to the rest by no reading, in whatever order: {}.", names(&loose)));
    }
    let unread = job.columns.iter().filter(|column| column.point.is_none());
    let unread: Vec<String> = unread.map(|column| column.mark.clone()).collect();
    if !unread.is_empty() {
        said.push(format!("Not read: {}.", few(&unread)));
    }
    if said.is_empty() {
        return;
    }
    document.heading(Tone::Stop, "WHAT IS MISSING OR DOES NOT FIT");
    for text in said {
        document.item(Tone::Stop, "-", text);
    }
    document.heading(Tone::Plain, "ROWS");
}

fn sections(document: &mut Document, job: &Job, book: &Book, numbers: Numbers) {
    if book.sections.is_empty() {
        return;
    }
    document.heading(Tone::Plain, "SECTIONS, misclosure computed less known");
    let rows = book.sections.iter().map(|it| {
        let misclosure = it.misclosure.map_or("-".to_owned(), |it| numbers.correction(it));
        let state = if it.closed() { "closed" } else { "open: nothing to share" };
        vec![run(job, it), it.setups.len().to_string(), misclosure, state.to_owned()]
    });
    document.grid(
        &[
            ("section", Align::Wrap),
            ("setups", Align::Right),
            ("misclosure", Align::Right),
            ("", Align::Left),
        ],
        rows.collect(),
    );
    if book.sections.iter().any(BookSection::closed) {
        document.text(
            Tone::Quiet,
            "The correction is the misclosure with its sign turned, shared equally by setup: setup k of n takes k/n of it, \
             and so do all points read from there.",
        );
    }
    for it in book.sections.iter().filter(|it| it.start_correction != Length::ZERO) {
        let more = if it.closed() { " and shares what it misses from there" } else { "" };
        document.text(
            Tone::Quiet,
            format!(
                "{} starts from a corrected point: it keeps the correction of {} ({}){more}.",
                run(job, it),
                point(job, it.from),
                numbers.correction(it.start_correction)
            ),
        );
    }
}

fn sheet(job: &Job, book: &Book, numbers: Numbers) -> Sheet {
    let rows = book.rows.iter().map(|row| {
        let words = |length: Option<_>| length.map(|it| numbers.reading(it)).unwrap_or_default();
        let booked = row.booked;
        vec![
            setup(job, row.setup).to_owned(),
            point(job, row.point).to_owned(),
            row.sight.short().to_owned(),
            numbers.reading(row.reading),
            words(booked.map(|it| it.line)),
            words(booked.map(|it| it.elevation)),
            booked.map(|it| numbers.share(it.correction)).unwrap_or_default(),
            booked.map(|it| numbers.share(it.adjusted())).unwrap_or_default(),
            nm_cell(Some(row.reading)),
            nm_cell(booked.map(|it| it.line)),
            nm_cell(booked.map(|it| it.elevation)),
            nm_cell(booked.map(|it| it.correction)),
            nm_cell(booked.map(|it| it.adjusted())),
        ]
    });
    Sheet {
        heads: vec![
            "setup",
            "point",
            "sight",
            "reading",
            "line",
            "elevation",
            "correction",
            "adjusted",
            "reading_nm",
            "line_nm",
            "elevation_nm",
            "correction_nm",
            "adjusted_nm",
        ],
        rows: rows.collect(),
    }
}
