//! The files of a job, held as text, and places in them.

use super::Sheet;

/// Which file of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct FileId(usize);

/// A stretch of bytes in one file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// The file.
    pub file: FileId,
    /// The first byte.
    pub start: usize,
    /// The byte behind the last.
    pub end: usize,
}

/// The text of every file that was read, by the name it is called in messages.
#[derive(Debug, Default)]
pub struct Files {
    held: Vec<Held>,
}

/// One file.
#[derive(Debug)]
struct Held {
    name: String,
    text: String,
    /// The first byte of every line.
    lines: Vec<usize>,
    /// Its cells, where it is a sheet of a workbook.
    sheet: Option<Sheet>,
}

impl Files {
    /// Adds a file and gives its number.
    pub fn add(&mut self, name: &str, text: String) -> FileId {
        let behind = text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n').map(|(at, _)| at + 1);
        let lines = std::iter::once(0).chain(behind).collect();
        self.held.push(Held { name: name.to_owned(), text, lines, sheet: None });
        FileId(self.held.len() - 1)
    }

    /// Adds a sheet of a workbook, laid out as text, and gives its number.
    pub fn add_sheet(&mut self, name: &str, text: String, sheet: Sheet) -> FileId {
        self.held.push(Held { name: name.to_owned(), text, lines: vec![0], sheet: Some(sheet) });
        FileId(self.held.len() - 1)
    }

    /// Gives the cells of a file that is a sheet of a workbook.
    #[must_use]
    pub fn sheet(&self, file: FileId) -> Option<&Sheet> {
        self.held.get(file.0)?.sheet.as_ref()
    }

    /// Gives a file's name.
    #[must_use]
    pub fn name(&self, file: FileId) -> &str {
        self.held.get(file.0).map_or("", |held| &held.name)
    }

    /// Gives the names of all files, in the order they were added.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.held.iter().map(|held| held.name.as_str())
    }

    /// Gives a file's text.
    #[must_use]
    pub fn text(&self, file: FileId) -> &str {
        self.held.get(file.0).map_or("", |held| &held.text)
    }

    /// Gives the line and column of a place, both counted from 1, the column in characters.
    ///
    /// In a sheet of a workbook these are its row and its column.
    #[must_use]
    pub fn line_and_column(&self, place: Place) -> (usize, usize) {
        let Some(held) = self.held.get(place.file.0) else { return (1, 1) };
        if let Some(sheet) = &held.sheet {
            let counted = |from_0: u32| usize::try_from(from_0).unwrap_or(usize::MAX).saturating_add(1);
            return sheet
                .cell_at(place.start)
                .map_or((1, 1), |cell| (counted(cell.row), counted(cell.column)));
        }
        let end = if held.text.is_char_boundary(place.start) { place.start } else { held.text.len() };
        let line = held.lines.partition_point(|start| *start <= end);
        let line_start = line.checked_sub(1).and_then(|at| held.lines.get(at)).copied().unwrap_or(0);
        let column = held.text.get(line_start..end).unwrap_or("").chars().count() + 1;
        (line, column)
    }

    /// Writes a place as file, line and column, or as workbook, sheet and cell.
    #[must_use]
    pub fn whereabouts(&self, place: Place) -> String {
        if let Some(sheet) = self.sheet(place.file) {
            return sheet.whereabouts(place.start);
        }
        let (line, column) = self.line_and_column(place);
        format!("{}:{line}:{column}", self.name(place.file))
    }

    /// Writes a place as file and line, or as workbook, sheet and cell.
    #[must_use]
    pub fn row_words(&self, place: Place) -> String {
        match self.sheet(place.file) {
            Some(sheet) => sheet.whereabouts(place.start),
            None => format!("{} line {}", self.name(place.file), self.line_and_column(place).0),
        }
    }

    /// Gives the address of a place in a sheet, as in `Sheet1!B3`; none in a file of text.
    #[must_use]
    pub fn cell_address(&self, place: Place) -> Option<String> {
        Some(self.sheet(place.file)?.address(place.start))
    }
}
