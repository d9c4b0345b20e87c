//! What `level` tells of the rows of a surveyor's file that nobody could match.

use crate::model::Job;
use crate::report::document::{Document, Tone};
use crate::source::Files;
use serde::Serialize;

/// Most rows that are shown on a screen.
const SHOWN: usize = 12;

/// One such row in JSON.
#[derive(Serialize)]
pub(in crate::report) struct UnmatchedJson {
    point: String,
    description: String,
    file: String,
    line: usize,
    /// The cell, where the file is a sheet of a workbook.
    #[serde(skip_serializing_if = "Option::is_none")]
    cell: Option<String>,
}

/// Lists them for JSON.
pub(in crate::report) fn unmatched_values(job: &Job, files: &Files) -> Vec<UnmatchedJson> {
    let rows = job.readings.unmatched.iter();
    rows.map(|row| UnmatchedJson {
        point: row.point.clone(),
        description: row.description.clone(),
        file: files.name(row.place.file).to_owned(),
        line: files.line_and_column(row.place).0,
        cell: files.cell_address(row.place),
    })
    .collect()
}

/// Lists them on a screen, the first of many.
pub(in crate::report) fn unmatched(document: &mut Document, job: &Job, files: &Files) {
    let rows = &job.readings.unmatched;
    if rows.is_empty() {
        return;
    }
    document.heading(Tone::Plain, "NOT USED, no pad, no rod and no benchmark of this job");
    for row in rows.iter().take(SHOWN) {
        let (line, _) = files.line_and_column(row.place);
        let place = files.cell_address(row.place).unwrap_or_else(|| format!("line {line}"));
        document.item(Tone::Plain, place, row.called());
    }
    let more = rows.len().saturating_sub(SHOWN);
    if more > 0 {
        document.text(Tone::Quiet, format!("And {more} more; --format json lists all."));
    }
}
