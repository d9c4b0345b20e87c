//! The records of a CSV file, each cell with its place.

use super::csv_lines::{QuoteFault, split};
use super::data_table::{Cell, MOST_FAULTS};
use crate::source::{FileId, Place, Problem, Problems};
use csv::{Reader, ReaderBuilder, StringRecord};
use std::borrow::Cow;
use std::io::Cursor;

/// The records of a CSV file, read one by one.
pub(super) struct CsvRecords<'t> {
    text: &'t str,
    file: FileId,
    reader: Reader<Cursor<Cow<'t, [u8]>>>,
}

/// The rest of the file is no CSV.
pub(super) struct Unreadable;

impl<'t> CsvRecords<'t> {
    /// Starts on a file, and tells whether all of its lines can be read; those that cannot were noted.
    pub(super) fn new(file: FileId, text: &'t str, problems: &Problems) -> (Self, bool) {
        let (readable, whole) = without_broken_lines(file, text, problems);
        let reader =
            ReaderBuilder::new().has_headers(false).flexible(true).from_reader(Cursor::new(readable));
        (Self { text, file, reader }, whole)
    }

    /// Gives the next record that is not blank.
    pub(super) fn next(&mut self) -> Result<Option<(Place, Vec<Cell>)>, Unreadable> {
        let mut record = StringRecord::new();
        loop {
            match self.reader.read_record(&mut record) {
                Ok(true) => {}
                Ok(false) => return Ok(None),
                Err(_) => return Err(Unreadable),
            }
            if record.iter().any(|cell| !cell.trim().is_empty()) {
                break;
            }
        }
        Ok(self.placed(&record))
    }

    /// Finds the place of a record and of each of its cells.
    fn placed(&self, record: &StringRecord) -> Option<(Place, Vec<Cell>)> {
        let from = record.position().and_then(|position| usize::try_from(position.byte()).ok())?;
        let rest = self.text.get(from..)?;
        let start = from + (rest.len() - rest.trim_start_matches(['\r', '\n']).len());
        let rest = self.text.get(start..)?;
        let line = rest.split(['\r', '\n']).next().unwrap_or(rest);
        let cells = record.iter().zip(split(line).cells).map(|(text, (from, to))| {
            let raw = line.get(from..to).unwrap_or_default();
            let inner = raw.trim();
            let blanks = if inner.is_empty() { 0 } else { raw.len() - raw.trim_start().len() };
            let at = start + from + blanks;
            Cell {
                text: text.trim().to_owned(),
                place: Place { file: self.file, start: at, end: at + inner.len() },
            }
        });
        let place = Place { file: self.file, start, end: start + line.trim_end().len() };
        Some((place, cells.collect()))
    }
}

/// Notes the lines with a broken quote and blanks them out, byte for byte.
fn without_broken_lines<'t>(file: FileId, text: &'t str, problems: &Problems) -> (Cow<'t, [u8]>, bool) {
    let mut readable = Cow::Borrowed(text.as_bytes());
    let (mut start, mut faults) = (0, 0);
    for line in text.split('\n') {
        // without a quote nothing can be wrong with one
        let fault = if line.contains('"') { split(line).fault } else { None };
        if let Some((at, fault)) = fault {
            faults += 1;
            if faults <= MOST_FAULTS {
                problems.note(broken(Place { file, start: start + at, end: start + at + 1 }, fault));
            }
            if let Some(bytes) = readable.to_mut().get_mut(start..start + line.len()) {
                bytes.fill(b' ');
            }
        }
        start += line.len() + 1;
    }
    (readable, faults == 0)
}

fn broken(place: Place, fault: QuoteFault) -> Problem {
    match fault {
        QuoteFault::Unclosed => Problem::at(place, "this quote is not closed on its line").fix(
            "close it: a cell does not go on in the next line, and an inch mark inside quotes is written \"\"",
        ),
        QuoteFault::Behind => Problem::at(place, "text stands behind the closing quote of this cell")
            .fix("put quotes around the whole cell or leave them out; an inch mark inside quotes is written \"\""),
    }
}

/// Tells whether the first line that is not blank has a broken quote.
pub(super) fn first_line_is_broken(text: &str) -> bool {
    let blank = |line: &&str| line.chars().all(|c| c == ',' || c.is_whitespace());
    text.split('\n').find(|line| !blank(line)).is_some_and(|line| split(line).fault.is_some())
}
