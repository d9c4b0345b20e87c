//! A CSV file or a sheet as rows of named cells, each with its place.

use super::csv_records::{CsvRecords, Unreadable, first_line_is_broken};
use super::header::{Column, Spec, columns};
use super::sheet_records::{SheetRecords, header_below};
use crate::source::{FileId, Files, Place, Problem, Problems};
use crate::text::quoted;

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

/// A CSV file or a sheet whose rows are read one by one.
pub(super) struct DataTable<'t> {
    file: FileId,
    problems: &'t Problems,
    faults_before: usize,
    columns: Vec<Column>,
    records: Records<'t>,
    whole: bool,
    done: bool,
    /// Whether the columns come from a header row.
    header: bool,
}

/// Where the rows come from.
enum Records<'t> {
    /// A CSV file.
    Csv(CsvRecords<'t>),
    /// A sheet of a workbook.
    Sheet(SheetRecords<'t>),
}

impl<'t> DataTable<'t> {
    /// Starts on a file, of which nothing is read yet.
    fn start(file: FileId, files: &'t Files, problems: &'t Problems) -> Self {
        let faults_before = problems.count();
        let (records, whole) = match files.sheet(file) {
            Some(sheet) => (Records::Sheet(SheetRecords::new(file, files.text(file), sheet)), true),
            None => {
                let (records, whole) = CsvRecords::new(file, files.text(file), problems);
                (Records::Csv(records), whole)
            }
        };
        Self { file, problems, faults_before, columns: Vec::new(), records, whole, done: false, header: true }
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
        let text = files.text(file);
        if matches!(table.records, Records::Csv(_)) && first_line_is_broken(text) {
            return None;
        }
        if let Some(problem) = files.sheet(file).and_then(|sheet| header_below(file, text, sheet, spec)) {
            problems.note(problem);
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
        match &mut self.records {
            Records::Sheet(records) => records.next(),
            Records::Csv(records) => match records.next() {
                Ok(record) => record,
                Err(Unreadable) => {
                    self.problems.note(Problem::in_file(self.file, "this file cannot be read as CSV"));
                    self.whole = false;
                    None
                }
            },
        }
    }

    /// Brings a row of a sheet, and the columns, to the same width: what is not there is blank.
    fn fit(&mut self, cells: &mut Vec<Cell>, end: usize) {
        if matches!(self.records, Records::Sheet(_)) {
            let width = cells.len().max(self.columns.len());
            let blank = Cell { text: String::new(), place: Place { file: self.file, start: end, end } };
            cells.resize(width, blank);
            self.columns.resize(width, Column::Nameless);
        }
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

impl Iterator for DataTable<'_> {
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
            let (place, mut cells) = self.record()?;
            self.fit(&mut cells, place.end);
            if cells.len() == self.columns.len() {
                self.nameless(&cells);
                return Some(Row { place, cells: self.columns.iter().copied().zip(cells).collect() });
            }
            self.miscounted(place, &cells);
        }
        None
    }
}
