//! The files of a job, held as text, and places in them.

use super::Sheet;
use sha2::{Digest, Sha256};

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

/// What tells a file from every other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fingerprint {
    /// Its size in bytes.
    pub bytes: usize,
    /// The SHA-256 of its bytes, in small hexadecimal digits.
    pub sha256: String,
}

impl Fingerprint {
    /// Takes the fingerprint of bytes.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        let digest = Sha256::digest(bytes);
        Self { bytes: bytes.len(), sha256: digest.iter().map(|byte| format!("{byte:02x}")).collect() }
    }
}

/// A file as it was read.
#[derive(Clone, Copy, Debug)]
pub struct FileRead<'a> {
    /// The name it is called in messages.
    pub name: &'a str,
    /// Its text; of a sheet of a workbook its cells, laid out.
    pub text: &'a str,
    /// The fingerprint of what was read from a disk, where it was.
    pub mark: Option<&'a Fingerprint>,
    /// Whether it is a sheet of a workbook.
    pub is_sheet: bool,
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
    /// What it was before it became text.
    mark: Option<Fingerprint>,
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
        self.held.push(Held { name: name.to_owned(), text, mark: None, lines, sheet: None });
        FileId(self.held.len() - 1)
    }

    /// Adds a sheet of a workbook, laid out as text, and gives its number.
    pub fn add_sheet(&mut self, name: &str, text: String, sheet: Sheet) -> FileId {
        self.held.push(Held { name: name.to_owned(), text, mark: None, lines: vec![0], sheet: Some(sheet) });
        FileId(self.held.len() - 1)
    }

    /// Gives the cells of a file that is a sheet of a workbook.
    #[must_use]
    pub fn sheet(&self, file: FileId) -> Option<&Sheet> {
        self.held.get(file.0)?.sheet.as_ref()
    }

    /// Keeps the fingerprint of what a file was read from.
    pub fn mark(&mut self, file: FileId, mark: Fingerprint) {
        if let Some(held) = self.held.get_mut(file.0) {
            held.mark = Some(mark);
        }
    }

    /// Gives every file as it was read, in the order they were added.
    pub fn all(&self) -> impl Iterator<Item = FileRead<'_>> {
        self.held.iter().map(|held| FileRead {
            name: &held.name,
            text: &held.text,
            mark: held.mark.as_ref(),
            is_sheet: held.sheet.is_some(),
        })
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

#[cfg(test)]
mod tests {
    use super::Fingerprint;

    /// FIPS 180-4, the example "abc" of its appendix, from memory, and the digest of nothing.
    #[test]
    fn a_fingerprint_is_the_published_digest() {
        let of = |bytes: &[u8]| Fingerprint::of(bytes).sha256;
        assert_eq!(of(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assert_eq!(of(b""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    }
}
