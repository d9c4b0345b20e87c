//! The records of a sheet of a workbook, each cell with its place.

use super::data_table::Cell;
use super::header::Spec;
use crate::source::{FileId, Place, Problem, Sheet, SheetCell};

/// Rows in which a header row is looked for, to say where it stands.
const LOOKED_AT: usize = 30;

/// The rows of a sheet, read one by one; those that are blank are left out of it already.
pub(super) struct SheetRecords<'t> {
    text: &'t str,
    file: FileId,
    rows: Box<dyn Iterator<Item = &'t [SheetCell]> + 't>,
}

impl<'t> SheetRecords<'t> {
    /// Starts on a sheet.
    pub(super) fn new(file: FileId, text: &'t str, sheet: &'t Sheet) -> Self {
        Self { text, file, rows: Box::new(sheet.rows()) }
    }

    /// Gives the next row; a cell that cannot be used is blank, and was noted.
    pub(super) fn next(&mut self) -> Option<(Place, Vec<Cell>)> {
        let row = self.rows.next()?;
        let cells = row.iter().map(|cell| Cell {
            text: self.text.get(cell.start..cell.end).filter(|_| cell.usable).unwrap_or_default().to_owned(),
            place: Place { file: self.file, start: cell.start, end: cell.end },
        });
        let (start, end) = (row.first()?.start, row.last()?.end);
        Some((Place { file: self.file, start, end }, cells.collect()))
    }
}

/// Gives the fault of a sheet whose header row stands further down, below a title.
pub(super) fn header_below(file: FileId, text: &str, sheet: &Sheet, spec: Spec) -> Option<Problem> {
    let named = |row: &[SheetCell]| {
        let has = |name: &str| {
            let cells = row.iter().filter_map(|cell| text.get(cell.start..cell.end));
            cells.filter(|cell| cell.eq_ignore_ascii_case(name)).count() > 0
        };
        spec.required.iter().all(|name| has(name))
    };
    let below = sheet.rows().take(LOOKED_AT).position(named).filter(|row| *row > 0)?;
    let cell = sheet.rows().nth(below)?.first()?;
    let place = Place { file, start: cell.start, end: cell.start };
    Some(
        Problem::at(place, "the names of the columns stand in this row, and other rows stand above it")
            .fix("take the rows above it out: the header row is the first that is not blank"),
    )
}
