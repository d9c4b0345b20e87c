//! What was measured at a column: by whom, with what, every reading and every rod, with its place in the files.

use super::super::check::screen::measured;
use super::super::document::{Align, Document, Tone};
use crate::check::{Judged, style};
use crate::length::{Length, Rounding};
use crate::levels::sights_good_to;
use crate::model::{Condition, Job};
use crate::source::{Files, Place};
use crate::text::{AsRead, Style, and};
use serde::Serialize;

/// One reading of the level.
#[derive(Serialize)]
pub(super) struct Reading {
    /// `sight`, `elevation` or `difference`.
    kind: &'static str,
    /// What was read: the pad, a place on it, a rod's top.
    on: String,
    /// The setup of a sight; the other point of a difference.
    from: Option<String>,
    #[serde(rename = "reading_nm", serialize_with = "nm")]
    reading: Length,
    #[serde(rename = "plus_minus_nm", serialize_with = "nm_or_null")]
    plus_minus: Option<Length>,
    #[serde(rename = "sight_nm", serialize_with = "nm_or_null")]
    sight: Option<Length>,
    #[serde(flatten)]
    at: At,
}

/// Where something was read.
#[derive(Serialize)]
struct At {
    file: String,
    line: usize,
    /// The cell, where the file is a sheet of a workbook.
    #[serde(skip_serializing_if = "Option::is_none")]
    cell: Option<String>,
    /// The same as a page says it.
    #[serde(skip)]
    words: String,
}

/// One rod as it was measured.
#[derive(Serialize)]
pub(super) struct RodMeasured {
    rod: String,
    #[serde(rename = "projection_nm", serialize_with = "nm_or_null")]
    projection: Option<Length>,
    #[serde(rename = "plus_minus_nm", serialize_with = "nm_or_null")]
    plus_minus: Option<Length>,
    #[serde(rename = "thread_nm", serialize_with = "nm_or_null")]
    thread: Option<Length>,
    condition: Option<String>,
    /// Whether one value stands for all rods of the column.
    one_for_all: bool,
    file: Option<String>,
    line: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cell: Option<String>,
    /// The place as a page says it.
    #[serde(skip)]
    words: String,
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde asks for it")]
fn nm<S: serde::Serializer>(length: &Length, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_i64(length.nm())
}

fn nm_or_null<S: serde::Serializer>(length: &Option<Length>, to: S) -> Result<S::Ok, S::Error> {
    length.map(Length::nm).serialize(to)
}

fn at(files: &Files, place: Place) -> At {
    At {
        file: files.name(place.file).to_owned(),
        line: files.line_and_column(place).0,
        cell: files.cell_address(place),
        words: files.row_words(place),
    }
}

/// Lists the readings at a column, in the order of the files.
pub(super) fn readings(job: &Job, files: &Files, column: usize) -> Vec<Reading> {
    let read = &job.readings;
    let pad = job.columns[column].point.map(|point| (point, "pad".to_owned()));
    let spots = read.spots.iter().filter(|spot| spot.column == column);
    let points: Vec<(usize, String)> =
        pad.into_iter().chain(spots.map(|spot| (spot.point, spot.what.to_string()))).collect();
    let on = |point: usize| points.iter().find(|(known, _)| *known == point).map(|(_, on)| on.clone());
    let name = |point: usize| read.points.get(point).cloned().unwrap_or_default();
    let mut found = Vec::new();
    for (sight, good_to) in read.sights.iter().zip(sights_good_to(job)) {
        let Some(on) = on(sight.point) else { continue };
        let at = at(files, sight.place);
        let setup = read.setups.get(sight.setup).map(|setup| setup.name.clone());
        let (kind, sight_length) = ("sight", sight.distance);
        let (reading, plus_minus) = (sight.reading, Some(good_to));
        found.push(Reading { kind, on, from: setup, reading, plus_minus, sight: sight_length, at });
    }
    for it in &read.elevations {
        let Some(on) = on(it.point) else { continue };
        let at = at(files, it.place);
        let (kind, reading, plus_minus) = ("elevation", it.elevation, Some(it.plus_minus));
        found.push(Reading { kind, on, from: None, reading, plus_minus, sight: None, at });
    }
    for it in &read.differences {
        // counted to this column; the other way round with its sign turned
        let (on, from, reading) = match (on(it.to), on(it.from)) {
            (Some(on), _) => (on, it.from, it.difference),
            (None, Some(on)) => (on, it.to, -it.difference),
            (None, None) => continue,
        };
        let at = at(files, it.place);
        let (kind, from, plus_minus) = ("difference", Some(name(from)), Some(it.plus_minus));
        found.push(Reading { kind, on, from, reading, plus_minus, sight: None, at });
    }
    found
}

/// Lists the rods of a column as they were measured.
pub(super) fn rods(judged: &Judged<'_>, files: &Files, column: usize) -> Vec<RodMeasured> {
    let case = &judged.case;
    let of_job = case.column(column).rods.iter();
    let of_case = case.columns[column].rods.iter();
    of_job
        .zip(of_case)
        .map(|(rod, worked)| {
            let at = rod.place.map(|place| at(files, place));
            RodMeasured {
                rod: rod.label.to_string(),
                projection: rod.projection,
                plus_minus: rod.projection.map(|_| worked.plus_minus),
                thread: rod.thread,
                condition: match &rod.condition {
                    Condition::Sound => None,
                    Condition::Noted(note) => Some(note.clone()),
                },
                one_for_all: rod.one_for_all,
                line: at.as_ref().map(|at| at.line),
                cell: at.as_ref().and_then(|at| at.cell.clone()),
                words: at.as_ref().map_or(String::new(), |at| at.words.clone()),
                file: at.map(|at| at.file),
            }
        })
        .collect()
}

/// Adds who measured, when and with what, and the files.
pub(in crate::report) fn by_whom(document: &mut Document, job: &Job, files: &Files) {
    document.heading(Tone::Plain, "MEASURED");
    document.text(Tone::Plain, measured(job, style(job)));
    if job.measured.is_empty() {
        document.text(Tone::Plain, "By whom, when and with what: not given.");
    }
    let assumed = [
        (job.readings.plus_minus_assumed, "of the level readings"),
        (job.rods_plus_minus_assumed, "of the rods"),
    ];
    let assumed: Vec<&str> = assumed.into_iter().filter(|(it, _)| *it).map(|(_, what)| what).collect();
    if !assumed.is_empty() {
        let what = and(&assumed);
        let kinds = &job.readings.kinds_assumed;
        let kinds = match kinds.is_empty() {
            true => String::new(),
            false => format!(", for readings with {}", and(kinds)),
        };
        let words = format!("Nobody stated the +- {what}: it is a figure of this program{kinds}.");
        document.text(Tone::Plain, words);
    }
    for instrument in &job.readings.instruments {
        let kind = instrument.kind.as_ref().filter(|kind| **kind != instrument.name);
        let kind = kind.map_or(String::new(), |kind| format!("{kind}, "));
        let good = style(job).write(instrument.reading, Rounding::Up);
        document.item(
            Tone::Plain,
            instrument.name.clone(),
            format!("{kind}a reading at no distance is good to +-{good}"),
        );
    }
    let names: Vec<&str> = files.names().collect();
    document.item(Tone::Plain, "files", names.join(", "));
}

/// Adds the readings of the level.
pub(super) fn table(document: &mut Document, job: &Job, readings: &[Reading]) {
    document.heading(Tone::Plain, "READ WITH THE LEVEL");
    if readings.is_empty() {
        document.text(Tone::Stop, "Nothing was read here.");
        return;
    }
    let style = style(job);
    let sights: Vec<Length> = readings.iter().filter(|it| it.kind == "sight").map(|it| it.reading).collect();
    let read = AsRead::of(job.readings.unit, style, &sights);
    let rows = readings.iter().map(|it| {
        vec![
            it.on.clone(),
            it.from.clone().map_or("-".to_owned(), |from| match it.kind {
                "sight" => format!("setup {from}"),
                _ => format!("from {from}"),
            }),
            match it.kind {
                "sight" => read.write(it.reading),
                "elevation" => style.elevation(it.reading),
                _ => style.exact(it.reading),
            },
            it.plus_minus.map_or("-".to_owned(), |it| style.write(it, Rounding::Up)),
            it.sight.map_or("-".to_owned(), |it| style.elevation(it)),
            it.at.words.clone(),
        ]
    });
    document.grid(
        &[
            ("on", Align::Wrap),
            ("from", Align::Wrap),
            ("reading", Align::Right),
            ("+-", Align::Right),
            ("sight", Align::Right),
            ("where", Align::Wrap),
        ],
        rows.collect(),
    );
    if !sights.is_empty() {
        document.text(Tone::Quiet, format!("Sights are in {}, as they were read.", read.unit_words()));
    }
}

/// Adds the rods as they were measured.
pub(super) fn rod_table(document: &mut Document, style: Style, rods: &[RodMeasured]) {
    document.heading(Tone::Plain, "RODS AS MEASURED, above the pad");
    if rods.is_empty() {
        document.text(Tone::Stop, "No rod was measured.");
        return;
    }
    let up = |it: Length| style.write(it, Rounding::Up);
    let rows = rods.iter().map(|rod| {
        let all = if rod.one_for_all { "; one value for all rods" } else { "" };
        let condition = rod.condition.as_deref().unwrap_or("nothing noted");
        vec![
            rod.rod.clone(),
            rod.projection.map_or("not measured".to_owned(), |it| style.exact(it)),
            rod.plus_minus.map_or("?".to_owned(), up),
            rod.thread.map_or("not measured".to_owned(), |it| style.exact(it)),
            format!("{condition}{all}"),
            rod.words.clone(),
        ]
    });
    document.grid(
        &[
            ("rod", Align::Left),
            ("stands", Align::Left),
            ("+-", Align::Right),
            ("full thread", Align::Left),
            ("condition", Align::Wrap),
            ("where", Align::Wrap),
        ],
        rows.collect(),
    );
}
