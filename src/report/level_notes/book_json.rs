//! What `level --book --format json` adds to the answer of `level`.

use super::book_names::{point, setup};
use crate::length::Length;
use crate::levels::{Book, CheckKind};
use crate::model::Job;
use serde::Serialize;
use serde_json::Value;

#[derive(Serialize)]
struct RowJson<'j> {
    setup: &'j str,
    point: &'j str,
    sight: &'static str,
    reading_nm: i64,
    line_nm: Option<i64>,
    elevation_nm: Option<i64>,
    correction_nm: Option<i64>,
    adjusted_nm: Option<i64>,
}

#[derive(Serialize)]
struct BookJson<'j> {
    datum: String,
    zero: Option<&'j str>,
    sections: Vec<SectionJson<'j>>,
    checks: Vec<CheckJson>,
    used_otherwise: Vec<UsedJson>,
    not_reached: Vec<&'j str>,
}

#[derive(Serialize)]
struct UsedJson {
    row: usize,
    marked: &'static str,
}

#[derive(Serialize)]
struct SectionJson<'j> {
    from: &'j str,
    to: Option<&'j str>,
    setups: Vec<&'j str>,
    closed: bool,
    known_nm: Option<i64>,
    misclosure_nm: Option<i64>,
    start_correction_nm: i64,
}

#[derive(Serialize)]
struct CheckJson {
    section: usize,
    check: &'static str,
    left_nm: i64,
    right_nm: i64,
    holds: bool,
}

/// Puts the rows and the book into the value of `level`.
pub(in crate::report) fn with_book(mut value: Value, job: &Job, book: &Book) -> Value {
    if let Value::Object(object) = &mut value {
        let put = |value: Result<Value, _>| value.unwrap_or(Value::Null);
        object.insert("rows".to_owned(), put(serde_json::to_value(rows(job, book))));
        object.insert("book".to_owned(), put(serde_json::to_value(about(job, book))));
    }
    value
}

fn rows<'j>(job: &'j Job, book: &Book) -> Vec<RowJson<'j>> {
    let rows = book.rows.iter();
    rows.map(|row| RowJson {
        setup: setup(job, row.setup),
        point: point(job, row.point),
        sight: row.sight.short(),
        reading_nm: row.reading.nm(),
        line_nm: row.booked.map(|it| it.line.nm()),
        elevation_nm: row.booked.map(|it| it.elevation.nm()),
        correction_nm: row.booked.map(|it| it.correction.nm()),
        adjusted_nm: row.booked.map(|it| it.adjusted().nm()),
    })
    .collect()
}

fn about<'j>(job: &'j Job, book: &Book) -> BookJson<'j> {
    let sections = book.sections.iter().map(|it| SectionJson {
        from: point(job, it.from),
        to: it.to.map(|to| point(job, to)),
        setups: it.setups.iter().map(|&it| setup(job, it)).collect(),
        closed: it.closed(),
        known_nm: it.known.map(Length::nm),
        misclosure_nm: it.misclosure.map(Length::nm),
        start_correction_nm: it.start_correction.nm(),
    });
    let checks = book.checks.iter().map(|it| CheckJson {
        section: it.section,
        check: name(it.kind),
        left_nm: it.left.nm(),
        right_nm: it.right.nm(),
        holds: it.holds,
    });
    let used = book.rows.iter().enumerate().filter(|(_, row)| row.sight != row.marked);
    BookJson {
        datum: datum(job),
        zero: book.zero.map(|it| point(job, it)),
        sections: sections.collect(),
        checks: checks.collect(),
        used_otherwise: used.map(|(row, it)| UsedJson { row, marked: it.marked.short() }).collect(),
        not_reached: book.not_reached.iter().map(|it| setup(job, *it)).collect(),
    }
}

/// Names the benchmarks; `relative` where there is none.
fn datum(job: &Job) -> String {
    let names: Vec<&str> = job.readings.benchmarks.iter().map(|it| point(job, it.point)).collect();
    if names.is_empty() { "relative".to_owned() } else { names.join(", ") }
}

/// Names a check.
const fn name(kind: CheckKind) -> &'static str {
    match kind {
        CheckKind::Sights => "sights",
        CheckKind::Rises => "rises-and-falls",
        CheckKind::Intermediate => "intermediate-sights",
        CheckKind::Closing => "closing",
    }
}
