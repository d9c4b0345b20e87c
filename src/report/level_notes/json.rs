//! The values behind `level --format json`.

use super::more_json::{MoreJson, more};
use super::pad_shapes::{PadJson, pads_json};
use super::rod_tops::{RodTopJson, rods_json};
use super::unmatched::{UnmatchedJson, unmatched_values};
use crate::length::Length;
use crate::levels::{Levelled, Reliability};
use crate::model::{Job, SpotKind};
use crate::source::{Files, Place};
use serde::Serialize;
use serde_json::{Number, Value};
use std::collections::BTreeMap;
use std::str::FromStr;

#[derive(Serialize)]
struct LevelJson {
    format: u32,
    job: String,
    datum: String,
    points: Vec<PointJson>,
    closures: Vec<ClosureJson>,
    redundancy: usize,
    test: Option<TestJson>,
    suspects: Vec<SuspectJson>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pads: Vec<PadJson>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    rods: Vec<RodTopJson>,
    unmatched: Vec<UnmatchedJson>,
    #[serde(flatten)]
    more: MoreJson,
}

#[derive(Serialize)]
struct PointJson {
    point: String,
    elevation_nm: Option<i64>,
    plus_minus_nm: Option<i64>,
    readings: usize,
    seen_from_nm: Option<i64>,
}

#[derive(Serialize)]
struct ClosureJson {
    from: String,
    to: String,
    setups: usize,
    misclosure_nm: i64,
}

#[derive(Serialize)]
struct TestJson {
    statistic: Number,
    lower: Number,
    upper: Number,
    passed: bool,
}

#[derive(Serialize)]
struct SuspectJson {
    file: String,
    line: usize,
    point: String,
    size_nm: i64,
    tied_with: Vec<PlaceJson>,
    standardised: Number,
    too_high: bool,
}

/// A place in a file as JSON has it.
#[derive(Serialize)]
pub(in crate::report) struct PlaceJson {
    file: String,
    line: usize,
    /// The cell, where the file is a sheet of a workbook.
    #[serde(skip_serializing_if = "Option::is_none")]
    cell: Option<String>,
}

impl PlaceJson {
    /// Takes a place.
    pub(in crate::report) fn of(place: Place, files: &Files) -> Self {
        Self {
            file: files.name(place.file).to_owned(),
            line: files.line_and_column(place).0,
            cell: files.cell_address(place),
        }
    }
}

/// One point of a level answer: read, or a column whose pad nobody read.
pub(in crate::report) struct PointRow {
    pub(in crate::report) name: String,
    pub(in crate::report) elevation: Option<Length>,
    pub(in crate::report) plus_minus: Option<Length>,
    pub(in crate::report) readings: usize,
    /// Whether all its readings are checked by others.
    pub(in crate::report) checked: bool,
    /// A slip of this size in any of its readings would be seen; none where none is checked.
    pub(in crate::report) seen_from: Option<Length>,
}

/// Lists the points in the order of reading, then the columns and the spots that were not read.
pub(in crate::report) fn points(job: &Job, levels: &Levelled) -> Vec<PointRow> {
    let mut judged: BTreeMap<usize, Vec<&Reliability>> = BTreeMap::new();
    for reading in levels.reliabilities() {
        for point in [Some(reading.point), reading.from].into_iter().flatten() {
            judged.entry(point).or_default().push(reading);
        }
    }
    let read = job.readings.points.iter().enumerate().map(|(point, name)| {
        let height = levels.height(point);
        let own: Vec<&Reliability> = match judged.get(&point) {
            Some(own) => own.clone(),
            // a pad that was read at other places only is as good as those are
            None => places(job, point).filter_map(|place| judged.get(&place)).flatten().copied().collect(),
        };
        PointRow {
            name: name.clone(),
            elevation: height.map(|height| height.elevation),
            plus_minus: height.map(|height| height.plus_minus),
            readings: levels.readings(point),
            checked: !own.is_empty() && own.iter().all(|it| it.checked > 0),
            seen_from: own.iter().filter_map(|it| it.seen_from).max(),
        }
    });
    let unread = job.columns.iter().filter(|column| column.point.is_none()).map(|column| PointRow {
        name: column.mark.clone(),
        elevation: None,
        plus_minus: None,
        readings: 0,
        checked: false,
        seen_from: None,
    });
    let spots = job.readings.unread.iter().filter_map(|(column, what)| {
        let name = format!("{} {what}", job.columns.get(*column)?.mark);
        Some(PointRow {
            name,
            elevation: None,
            plus_minus: None,
            readings: 0,
            checked: false,
            seen_from: None,
        })
    });
    read.chain(unread).chain(spots).collect()
}

/// Lists the other places that were read on the pad that a point is.
fn places(job: &Job, point: usize) -> impl Iterator<Item = usize> {
    let column = job.columns.iter().position(|column| column.point == Some(point));
    let spots = job.readings.spots.iter().filter(move |spot| Some(spot.column) == column);
    spots.filter(|spot| matches!(spot.what, SpotKind::Place(_))).map(|spot| spot.point)
}

/// Gives the whole answer as a value.
pub(in crate::report) fn value(job: &Job, levels: &Levelled, files: &Files) -> Value {
    let name = |point: usize| job.readings.points.get(point).cloned().unwrap_or_default();
    let json = LevelJson {
        format: 1,
        job: job.name.clone(),
        datum: levels.datum_words(),
        points: points(job, levels)
            .into_iter()
            .map(|row| PointJson {
                point: row.name,
                elevation_nm: row.elevation.map(Length::nm),
                plus_minus_nm: row.plus_minus.map(Length::nm),
                readings: row.readings,
                seen_from_nm: row.seen_from.filter(|_| row.checked).map(Length::nm),
            })
            .collect(),
        closures: levels
            .closures()
            .iter()
            .map(|it| ClosureJson {
                from: name(it.from),
                to: name(it.to),
                setups: it.setups,
                misclosure_nm: it.misclosure.nm(),
            })
            .collect(),
        redundancy: levels.redundancy(),
        test: levels.test().map(|test| TestJson {
            statistic: rounded(&format!("{:.4}", test.statistic)),
            lower: rounded(&format!("{:.4}", test.lower)),
            upper: rounded(&format!("{:.4}", test.upper)),
            passed: test.passed,
        }),
        suspects: levels
            .suspects()
            .iter()
            .map(|it| {
                let place = PlaceJson::of(it.place, files);
                SuspectJson {
                    file: place.file,
                    line: place.line,
                    point: name(it.point),
                    size_nm: it.size.nm(),
                    tied_with: it.tied_with.iter().map(|place| PlaceJson::of(*place, files)).collect(),
                    standardised: parts(u64::from(it.standardised), 2),
                    too_high: it.too_high,
                }
            })
            .collect(),
        pads: pads_json(job, levels),
        rods: rods_json(job),
        more: more(job, levels, files),
        unmatched: unmatched_values(job, files),
    };
    serde_json::to_value(json).unwrap_or(Value::Null)
}

/// Writes a whole number of parts of ten as a number.
pub(in crate::report) fn parts(parts: u64, places: u32) -> Number {
    let whole = 10_u64.pow(places);
    rounded(&format!("{}.{:0width$}", parts / whole, parts % whole, width = places as usize))
}

fn rounded(text: &str) -> Number {
    Number::from_str(text).unwrap_or_else(|_| Number::from(0))
}
