//! A CSV file as rows of named cells, each with its place.

use super::csv_header::{Column, Spec, columns};
use super::csv_lines::{QuoteFault, split};
use crate::source::{FileId, Files, Place, Problem, Problems};
use crate::text::quoted;
use csv::{Reader, ReaderBuilder, StringRecord};
use std::borrow::Cow;
use std::io::Cursor;

/// Faults of one file after which the rest of it is not read.
pub(super) const MOST_FAULTS: usize = 200;

/// One cell: its text without the blanks around it, and where that stands.
#[derive(Clone, Debug)]
pub(super) struct Cell {
    /// The text.
    pub(super) text: String,
    /// Where it stands; where it would stand, if it is blank.
    pub(super) place: Place,
}

impl Cell {
    /// Tells whether nothing is written here.
    pub(super) const fn is_blank(&self) -> bool {
        self.text.is_empty()
    }
}

/// One row that is not blank.
pub(super) struct Row {
    /// Where it stands.
    pub(super) place: Place,
    cells: Vec<(Column, Cell)>,
}

impl Row {
    /// Gives the cell of a column, blank where the file does not have the column.
    pub(super) fn cell(&self, column: &'static str) -> Cell {
        let found = self.cells.iter().find(|(name, _)| *name == Column::Known(column));
        let nowhere = || Cell { text: String::new(), place: Place { end: self.place.start, ..self.place } };
        found.map_or_else(nowhere, |(_, cell)| cell.clone())
    }
}

/// A CSV file whose rows are read one by one.
pub(super) struct CsvTable<'t> {
    text: &'t str,
    file: FileId,
    problems: &'t Problems,
    faults_before: usize,
    columns: Vec<Column>,
    reader: Reader<Cursor<Cow<'t, [u8]>>>,
    whole: bool,
    done: bool,
    /// Whether the columns come from a header row.
    header: bool,
}

impl<'t> CsvTable<'t> {
    /// Starts on a file, of which nothing is read yet.
    fn start(file: FileId, files: &'t Files, problems: &'t Problems) -> Self {
        let faults_before = problems.count();
        let text = files.text(file);
        let (readable, whole) = without_broken_lines(file, text, problems);
        let reader =
            ReaderBuilder::new().has_headers(false).flexible(true).from_reader(Cursor::new(readable));
        let columns = Vec::new();
        Self { text, file, problems, faults_before, columns, reader, whole, done: false, header: true }
    }

    /// Takes a file without a header row, its columns in this order.
    pub(super) fn without_header(
        file: FileId,
        files: &'t Files,
        problems: &'t Problems,
        names: &[&'static str],
    ) -> Self {
        let columns = names.iter().map(|name| Column::Known(name)).collect();
        Self { columns, header: false, ..Self::start(file, files, problems) }
    }

    /// Reads the header row; none if the rows cannot be read by it, which was noted.
    pub(super) fn open(file: FileId, files: &'t Files, problems: &'t Problems, spec: Spec) -> Option<Self> {
        let mut table = Self::start(file, files, problems);
        let text = table.text;
        if first_line_is_broken(text) {
            return None;
        }
        let Some((place, header)) = table.record() else {
            let names: Vec<&str> = spec.names().collect();
            problems.note(
                Problem::at(
                    Place { file, start: 0, end: 0 },
                    if text.trim().is_empty() {
                        "this file is empty: it has no header row"
                    } else {
                        "this file has no header row"
                    },
                )
                .fix(format!("write the names of the columns into its first row: {}", names.join(","))),
            );
            return None;
        };
        table.columns = columns(problems, spec, place, &header)?;
        Some(table)
    }

    /// Tells whether the file has a column.
    pub(super) fn has(&self, column: &'static str) -> bool {
        self.columns.contains(&Column::Known(column))
    }

    /// Tells whether every row so far could be read.
    pub(super) const fn is_whole(&self) -> bool {
        self.whole
    }

    /// Gives the next record that is not blank.
    fn record(&mut self) -> Option<(Place, Vec<Cell>)> {
        let mut record = StringRecord::new();
        loop {
            match self.reader.read_record(&mut record) {
                Ok(true) => {}
                Ok(false) => return None,
                Err(_) => {
                    self.problems.note(Problem::in_file(self.file, "this file cannot be read as CSV"));
                    self.whole = false;
                    return None;
                }
            }
            if record.iter().any(|cell| !cell.trim().is_empty()) {
                break;
            }
        }
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

    /// Notes a row that has more or fewer cells than the header.
    fn miscounted(&mut self, place: Place, cells: &[Cell]) {
        let (count, wanted) = (cells.len(), self.columns.len());
        let message = match self.header {
            true => format!("this row has {count} cells, the header has {wanted}"),
            false => format!("this row has {count} cells, and without a header row it needs {wanted}"),
        };
        let problem = match cells.get(wanted) {
            Some(surplus) => Problem::at(surplus.place, message)
                .fix("write decimals with a point, and put quotes around a cell that holds a comma"),
            None => {
                Problem::at(place, message).fix("write a comma for every cell, also where it is left blank")
            }
        };
        self.problems.note(problem);
        self.whole = false;
    }

    /// Notes what stands in a column that the header row does not name.
    fn nameless(&self, cells: &[Cell]) {
        let named = self.columns.iter().zip(cells);
        for (_, cell) in named.filter(|(column, cell)| **column == Column::Nameless && !cell.is_blank()) {
            self.problems.note(
                Problem::at(cell.place, format!("{} stands in a column without a name", quoted(&cell.text)))
                    .fix("name the column in the header row, or take the cell out"),
            );
        }
    }
}

impl Iterator for CsvTable<'_> {
    type Item = Row;

    fn next(&mut self) -> Option<Row> {
        while !self.done {
            if self.problems.count() - self.faults_before >= MOST_FAULTS {
                let message = format!("after {MOST_FAULTS} faults the rest of this file was not read");
                self.problems.note(Problem::in_file(self.file, message));
                self.whole = false;
                self.done = true;
                return None;
            }
            let (place, cells) = self.record()?;
            if cells.len() == self.columns.len() {
                self.nameless(&cells);
                return Some(Row { place, cells: self.columns.iter().copied().zip(cells).collect() });
            }
            self.miscounted(place, &cells);
        }
        None
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
fn first_line_is_broken(text: &str) -> bool {
    let blank = |line: &&str| line.chars().all(|c| c == ',' || c.is_whitespace());
    text.split('\n').find(|line| !blank(line)).is_some_and(|line| split(line).fault.is_some())
}
