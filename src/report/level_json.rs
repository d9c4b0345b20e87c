//! The values behind `level --format json`.

use crate::length::Length;
use crate::levels::Levelled;
use crate::model::Job;
use crate::source::{Files, Place};
use serde::Serialize;
use serde_json::{Number, Value};
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
}

#[derive(Serialize)]
struct PointJson {
    point: String,
    elevation_nm: Option<i64>,
    plus_minus_nm: Option<i64>,
    readings: usize,
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
}

#[derive(Serialize)]
struct PlaceJson {
    file: String,
    line: usize,
}

/// One point of a level answer: read, or a column whose pad nobody read.
pub(super) struct PointRow {
    pub(super) name: String,
    pub(super) elevation: Option<Length>,
    pub(super) plus_minus: Option<Length>,
    pub(super) readings: usize,
}

/// Lists the points in the order of reading, then the columns that were not read.
pub(super) fn points(job: &Job, levels: &Levelled) -> Vec<PointRow> {
    let sights = &job.readings.sights;
    let elevations = &job.readings.elevations;
    let read = job.readings.points.iter().enumerate().map(|(point, name)| {
        let height = levels.height(point);
        PointRow {
            name: name.clone(),
            elevation: height.map(|height| height.elevation),
            plus_minus: height.map(|height| height.plus_minus),
            readings: height.map_or_else(
                || {
                    sights.iter().filter(|it| it.point == point).count()
                        + elevations.iter().filter(|it| it.point == point).count()
                },
                |height| height.readings,
            ),
        }
    });
    let unread = job.columns.iter().filter(|column| column.point.is_none()).map(|column| PointRow {
        name: column.mark.clone(),
        elevation: None,
        plus_minus: None,
        readings: 0,
    });
    read.chain(unread).collect()
}

/// Gives the whole answer as a value.
pub(super) fn value(job: &Job, levels: &Levelled, files: &Files) -> Value {
    let name = |point: usize| job.readings.points.get(point).cloned().unwrap_or_default();
    let line = |place: Place| (files.name(place.file).to_owned(), files.line_and_column(place).0);
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
                let (file, line_number) = line(it.place);
                let tied = it.tied_with.iter().map(|place| line(*place));
                SuspectJson {
                    file,
                    line: line_number,
                    point: name(it.point),
                    size_nm: it.size.nm(),
                    tied_with: tied.map(|(file, line)| PlaceJson { file, line }).collect(),
                }
            })
            .collect(),
    };
    serde_json::to_value(json).unwrap_or(Value::Null)
}

fn rounded(text: &str) -> Number {
    Number::from_str(text).unwrap_or_else(|_| Number::from(0))
}
