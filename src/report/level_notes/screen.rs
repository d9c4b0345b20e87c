//! The screen of `level`: elevations, closure, what does not fit, and how good the readings are.

use super::agreement::{closure, verdict};
use super::json::{PointRow, points, value};
use super::pad_shapes;
use super::told::{blocks, extra, slopes, untold};
use super::unmatched::unmatched;
use crate::check::style;
use crate::length::Rounding;
use crate::levels::{Datum, Levelled};
use crate::model::Job;
use crate::report::check::screen::measured;
use crate::report::document::{Align, Answer, Document, Sheet, Tone, nm_cell};
use crate::source::Files;
use crate::text::{Style, and};

/// Makes the answer of `level`.
#[must_use]
pub fn level_answer(job: &Job, levels: &Levelled, files: &Files) -> Answer {
    let rows = points(job, levels);
    let connected = rows.iter().all(|row| row.elevation.is_some());
    let passed = levels.test().is_none_or(|test| test.passed);
    Answer {
        document: document(job, levels, files, &rows),
        sheet: sheet(&rows, style(job)),
        value: value(job, levels, files),
        clear: connected && passed,
    }
}

fn document(job: &Job, levels: &Levelled, files: &Files, rows: &[PointRow]) -> Document {
    let style = style(job);
    let mut document = Document::default();
    document.heading(Tone::Plain, format!("{}: pad elevations", job.name));
    document.text(Tone::Quiet, measured(job, style));
    document.text(
        Tone::Quiet,
        match levels.datum() {
            Datum::Relative => {
                "Relative: 0 is the highest column pad; each +- is against that pad.".to_owned()
            }
            Datum::Absolute(_) => format!("On the datum of {}.", levels.datum_words()),
        },
    );
    elevations(&mut document, levels, rows, style);
    pad_shapes::sections(&mut document, job, levels);
    closure(&mut document, job, levels, style);
    verdict(&mut document, job, levels, files, style);
    slopes(&mut document, job, levels, style);
    untold(&mut document, job, levels);
    extra(&mut document, job, levels, style);
    blocks(&mut document, job, levels);
    unmatched(&mut document, job, files);
    not_read(&mut document, rows);
    document
}

fn elevations(document: &mut Document, levels: &Levelled, rows: &[PointRow], style: Style) {
    let relative = *levels.datum() == Datum::Relative;
    let cells = rows.iter().map(|row| {
        vec![
            row.name.clone(),
            row.elevation.map_or("?".to_owned(), |it| match relative {
                true => style.signed(it, Rounding::Nearest),
                false => style.elevation(it),
            }),
            row.plus_minus.map_or("?".to_owned(), |it| style.write(it, Rounding::Up)),
            row.readings.to_string(),
            match (row.readings, row.checked, row.seen_from) {
                (0, ..) => String::new(),
                (_, true, Some(from)) => style.write(from, Rounding::Up),
                _ => "unchecked".to_owned(),
            },
        ]
    });
    document.grid(
        &[
            ("point", Align::Left),
            ("elevation", Align::Right),
            ("+- (95 %)", Align::Right),
            ("readings", Align::Right),
            ("a slip shows from", Align::Right),
        ],
        cells.collect(),
    );
}

fn not_read(document: &mut Document, rows: &[PointRow]) {
    let unread: Vec<&str> =
        rows.iter().filter(|row| row.readings == 0).map(|row| row.name.as_str()).collect();
    if !unread.is_empty() {
        document.heading(Tone::Stop, "NOT READ");
        document.text(Tone::Plain, and(&unread));
    }
}

fn sheet(rows: &[PointRow], style: Style) -> Sheet {
    let rows = rows.iter().map(|row| {
        vec![
            row.name.clone(),
            row.elevation.map(|it| style.elevation(it)).unwrap_or_default(),
            nm_cell(row.elevation),
            nm_cell(row.plus_minus),
            row.readings.to_string(),
            nm_cell(row.seen_from.filter(|_| row.checked)),
        ]
    });
    Sheet {
        heads: vec!["point", "elevation", "elevation_nm", "plus_minus_nm", "readings", "seen_from_nm"],
        rows: rows.collect(),
    }
}
