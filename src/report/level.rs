//! The screen of `level`: elevations, closure, and what does not fit.

use super::check_screen::measured;
use super::document::{Align, Answer, Document, Sheet, Tone, nm_cell};
use super::level_json::{PointRow, points, value};
use crate::check::style;
use crate::length::Rounding;
use crate::levels::{Datum, Levelled};
use crate::model::Job;
use crate::source::Files;
use crate::text::{Style, and, count};

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
        ]
    });
    document.grid(
        &[
            ("point", Align::Left),
            ("elevation", Align::Right),
            ("+- (95 %)", Align::Right),
            ("readings", Align::Right),
        ],
        cells.collect(),
    );
    closure(&mut document, job, levels, style);
    verdict(&mut document, job, levels, files, style);
    unconnected(&mut document, job, levels, rows);
    document
}

fn closure(document: &mut Document, job: &Job, levels: &Levelled, style: Style) {
    document.heading(Tone::Plain, "CLOSURE, computed less known");
    if levels.closures().is_empty() {
        document.text(
            Tone::Ask,
            "Unchecked: nothing was read twice and no run closes. Read one pad again from the last setup.",
        );
        return;
    }
    let name = |point: usize| job.readings.points.get(point).map_or("", String::as_str);
    let mut closures: Vec<_> = levels.closures().iter().collect();
    closures.sort_by_key(|it| std::cmp::Reverse(it.misclosure.abs()));
    let rows = closures.iter().take(SHOWN).map(|it| {
        let (from, to) = (name(it.from), name(it.to));
        let run = match (from == to, it.setups) {
            (true, 0) => format!("{from}, given twice"),
            (true, _) => format!("{from}, back to it"),
            (false, _) => format!("{from} to {to}"),
        };
        vec![run, it.setups.to_string(), style.signed(it.misclosure, Rounding::Nearest)]
    });
    document.grid(
        &[("run", Align::Left), ("setups", Align::Right), ("misclosure", Align::Right)],
        rows.collect(),
    );
    if closures.len() > SHOWN {
        document.text(Tone::Quiet, format!("The largest {SHOWN} of {}.", count(closures.len(), "check")));
    }
}

/// Most closures that are shown on a screen.
const SHOWN: usize = 12;

fn verdict(document: &mut Document, job: &Job, levels: &Levelled, files: &Files, style: Style) {
    let Some(test) = levels.test() else { return };
    if test.passed {
        document.text(
            Tone::Good,
            format!(
                "The readings agree within their +- ({:.2}, up to {:.2} passes at 5 %, {} over).",
                test.statistic,
                test.upper,
                count(levels.redundancy(), "reading")
            ),
        );
        return;
    }
    document.text(
        Tone::Stop,
        format!(
            "The readings do NOT agree within their +- ({:.2}, up to {:.2} passes at 5 %): read again before you rely on them.",
            test.statistic, test.upper
        ),
    );
    let name = |point: usize| job.readings.points.get(point).map_or("", String::as_str);
    for suspect in levels.suspects() {
        let line = |place| {
            let (line, _) = files.line_and_column(place);
            format!("{} line {line}", files.name(place.file))
        };
        let size = style.write(suspect.size.abs(), Rounding::Nearest);
        let tied: Vec<String> = suspect.tied_with.iter().map(|place| line(*place)).collect();
        let or = if tied.is_empty() {
            String::new()
        } else {
            format!(", or {}: they cannot be told apart", and(&tied))
        };
        document.item(
            Tone::Stop,
            name(suspect.point),
            format!("suspect reading, off by about {size}: {}{or}", line(suspect.place)),
        );
    }
}

fn unconnected(document: &mut Document, job: &Job, levels: &Levelled, rows: &[PointRow]) {
    let loose: Vec<&str> = levels
        .unconnected()
        .iter()
        .filter_map(|&it| job.readings.points.get(it))
        .map(String::as_str)
        .collect();
    let unread: Vec<&str> =
        rows.iter().filter(|row| row.readings == 0).map(|row| row.name.as_str()).collect();
    if !loose.is_empty() {
        document.heading(Tone::Stop, "NOT CONNECTED");
        document.text(
            Tone::Plain,
            format!(
                "{} share no point with the rest: read them again from a setup that also reads a pad of the rest.",
                and(&loose)
            ),
        );
    }
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
        ]
    });
    Sheet {
        heads: vec!["point", "elevation", "elevation_nm", "plus_minus_nm", "readings"],
        rows: rows.collect(),
    }
}
