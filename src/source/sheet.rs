//! A sheet of a workbook: laid out as text, with the address of every cell.

/// One cell of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SheetCell {
    /// The first byte of its text in the text of the file.
    pub start: usize,
    /// The byte behind the last.
    pub end: usize,
    /// Its row, counted from 0.
    pub row: u32,
    /// Its column, counted from 0.
    pub column: u32,
    /// Whether its text may be used; if not, that was noted.
    pub usable: bool,
}

/// Which sheet a file is, and where its cells stand in the text of the file.
#[derive(Clone, Debug)]
pub struct Sheet {
    book: String,
    name: String,
    cells: Vec<SheetCell>,
}

impl Sheet {
    /// Makes a sheet of a workbook; its cells in the order of the text, row by row.
    #[must_use]
    pub fn new(book: &str, name: &str, cells: Vec<SheetCell>) -> Self {
        let plain = |c: char| if c.is_control() { '?' } else { c };
        Self { book: book.to_owned(), name: name.chars().map(plain).collect(), cells }
    }

    /// Gives its rows, those that are blank left out.
    pub fn rows(&self) -> impl Iterator<Item = &[SheetCell]> {
        self.cells.chunk_by(|one, next| one.row == next.row)
    }

    /// Gives the cell at a byte of the text.
    #[must_use]
    pub fn cell_at(&self, byte: usize) -> Option<&SheetCell> {
        let behind = self.cells.partition_point(|cell| cell.start <= byte);
        self.cells.get(behind.checked_sub(1)?)
    }

    /// Gives the address of a byte of the text, as in `Sheet1!B3`.
    #[must_use]
    pub fn address(&self, byte: usize) -> String {
        // as a spreadsheet wants a name that is more than one word
        let plain = !self.name.is_empty() && self.name.chars().all(|c| c.is_alphanumeric() || c == '_');
        let name = if plain { self.name.clone() } else { format!("'{}'", self.name.replace('\'', "''")) };
        match self.cell_at(byte) {
            Some(cell) => format!("{name}!{}{}", letters(cell.column), u64::from(cell.row) + 1),
            None => name,
        }
    }

    /// Gives the workbook and the address of a byte, as in `book.xlsx: Sheet1!B3`.
    #[must_use]
    pub fn whereabouts(&self, byte: usize) -> String {
        format!("{}: {}", self.book, self.address(byte))
    }
}

/// Gives the letters of a column that is counted from 0: A, B, … Z, AA.
fn letters(column: u32) -> String {
    let mut left = u64::from(column) + 1;
    let mut letters = Vec::new();
    while left > 0 {
        let digit = u8::try_from((left - 1) % 26).unwrap_or_default();
        letters.push(char::from(b'A' + digit));
        left = (left - 1) / 26;
    }
    letters.into_iter().rev().collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_lettered_as_a_spreadsheet_does() {
        let lettered: Vec<String> = [0, 1, 25, 26, 51, 52, 701, 702, 16_383].map(letters).into();
        assert_eq!(lettered, ["A", "B", "Z", "AA", "AZ", "BA", "ZZ", "AAA", "XFD"]);
    }

    #[test]
    fn a_byte_is_told_by_the_cell_it_stands_in() {
        let cell = |start, row, column| SheetCell { start, end: start + 2, row, column, usable: true };
        let sheet = Sheet::new("b.xlsx", "Level notes", vec![cell(0, 1, 0), cell(3, 1, 1), cell(6, 4, 0)]);
        assert_eq!(sheet.whereabouts(0), "b.xlsx: 'Level notes'!A2");
        assert_eq!(sheet.address(4), "'Level notes'!B2");
        assert_eq!(sheet.address(99), "'Level notes'!A5");
        assert_eq!(sheet.rows().map(<[SheetCell]>::len).collect::<Vec<_>>(), [2, 1]);
        assert_eq!(Sheet::new("b.xlsx", "rods", Vec::new()).whereabouts(0), "b.xlsx: rods");
    }
}
