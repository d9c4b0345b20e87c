//! The cells of one sheet, each as what it is.

use super::quiet::quietly;
use super::unpack::{Unusable, unpack};
use calamine::{DataRef, Reader, SheetType, SheetVisible, Xlsx, XlsxCellReader};
use std::collections::{BTreeMap, BTreeSet};
use std::io::Cursor;

/// Most cells of a sheet that are kept, blank ones between them included.
pub(super) const MOST_CELLS: usize = 1_000_000;

/// Most bytes of text that are kept of a sheet.
const MOST_TEXT: usize = 32 * 1024 * 1024;

/// Row and column of a cell, counted from 0.
pub(super) type At = (u32, u32);

/// What a cell holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Content {
    /// A text.
    Text(String),
    /// A number, by the digits of its shortest decimal, and the format it is shown in.
    Number(String, String),
    /// A date or a time.
    Date(String),
    /// True or false.
    Truth(bool),
    /// An error of the spreadsheet.
    Error(String),
    /// A formula whose value nobody has calculated.
    NotCalculated,
}

/// One sheet.
#[derive(Debug)]
pub(super) struct Cells {
    /// Its name.
    pub(super) name: String,
    /// Its cells that are not blank.
    pub(super) cells: BTreeMap<At, Content>,
    /// Cells that stand in the file twice.
    pub(super) twice: BTreeSet<At>,
    /// First and last cell of every group that is merged into one.
    pub(super) merged: Vec<(At, At)>,
}

/// Reads a sheet by its name, or the first that is shown.
pub(super) fn read(bytes: Vec<u8>, wanted: Option<&str>) -> Result<Cells, Unusable> {
    let unpacked = unpack(&bytes)?;
    // a damaged sheet must not take the program down, wherever in the library it would
    quietly(|| sheet(bytes, wanted, unpacked.to_calculate)).unwrap_or(Err(Unusable::Damaged))
}

type Book = Xlsx<Cursor<Vec<u8>>>;

fn sheet(bytes: Vec<u8>, wanted: Option<&str>, to_calculate: bool) -> Result<Cells, Unusable> {
    let mut book: Book = Xlsx::new(Cursor::new(bytes)).map_err(|error| match error {
        calamine::XlsxError::Password => Unusable::Locked,
        _ => Unusable::Damaged,
    })?;
    let name = name(&book, wanted)?;
    let mut kept = Kept::default();
    values(&mut reader(&mut book, &name)?, &mut kept, to_calculate)?;
    formats(&mut reader(&mut book, &name)?, &mut kept)?;
    let merged = book.merge_cells_by_sheet_name(&name).map_err(|_| Unusable::Damaged)?;
    let merged = merged.into_iter().map(|it| (it.start, it.end)).collect();
    Ok(Cells { name, cells: kept.cells, twice: kept.twice, merged })
}

/// Finds the sheet that is wanted: as it is written, else the only one that differs in capitals alone.
fn name(book: &Book, wanted: Option<&str>) -> Result<String, Unusable> {
    let sheets = book.sheets_metadata().iter().filter(|sheet| sheet.typ == SheetType::WorkSheet);
    let Some(wanted) = wanted else {
        let mut shown = sheets.filter(|sheet| sheet.visible == SheetVisible::Visible);
        return shown.next().map(|sheet| sheet.name.clone()).ok_or(Unusable::NoSheet);
    };
    let names: Vec<String> = sheets.map(|sheet| sheet.name.clone()).collect();
    let alike = || names.iter().filter(|name| name.to_lowercase() == wanted.trim().to_lowercase());
    let exact = names.iter().find(|name| *name == wanted);
    match (exact, alike().count()) {
        (Some(name), _) => Ok(name.clone()),
        (None, 1) => alike().next().cloned().ok_or(Unusable::NoSheet),
        _ => Err(Unusable::NotThere(wanted.to_owned(), names)),
    }
}

type CellReader<'b> = XlsxCellReader<'b, Cursor<Vec<u8>>>;

fn reader<'b>(book: &'b mut Book, name: &str) -> Result<CellReader<'b>, Unusable> {
    book.worksheet_cells_reader(name).map_err(|_| Unusable::Damaged)
}

/// What is kept of a sheet so far.
#[derive(Default)]
struct Kept {
    cells: BTreeMap<At, Content>,
    twice: BTreeSet<At>,
    text: usize,
}

impl Kept {
    fn keep(&mut self, at: At, content: Content) -> Result<(), Unusable> {
        self.text += match &content {
            Content::Text(text) | Content::Number(text, _) | Content::Date(text) | Content::Error(text) => {
                text.len()
            }
            Content::Truth(_) | Content::NotCalculated => 0,
        };
        if self.cells.insert(at, content).is_some() {
            self.twice.insert(at);
        }
        if self.text > MOST_TEXT || self.cells.len() > MOST_CELLS { Err(Unusable::TooLarge) } else { Ok(()) }
    }
}

/// Takes the value of every cell that has one.
fn values(from: &mut CellReader<'_>, kept: &mut Kept, to_calculate: bool) -> Result<(), Unusable> {
    while let Some(cell) = from.next_cell_with_formula_metadata().map_err(|_| Unusable::Damaged)? {
        let content = match content(cell.value) {
            Some(_) if cell.formula.is_some() && to_calculate => Content::NotCalculated,
            Some(content) => content,
            None if cell.formula.is_some() => Content::NotCalculated,
            None => continue,
        };
        kept.keep(cell.pos, content)?;
    }
    Ok(())
}

/// Gives what a value is; none where there is none.
fn content(value: DataRef<'_>) -> Option<Content> {
    let text = |text: &str| Content::Text(text.trim().to_owned());
    let number = |digits: String| Content::Number(digits, String::new());
    Some(match value {
        DataRef::Empty => return None,
        DataRef::Int(whole) => number(whole.to_string()),
        // the shortest decimal that is this number: what was typed
        DataRef::Float(decimal) => number(decimal.to_string()),
        DataRef::String(it) => text(&it),
        DataRef::SharedString(it) => text(it),
        DataRef::Bool(truth) => Content::Truth(truth),
        DataRef::DateTime(date) if date.is_datetime() => {
            let (year, month, day, ..) = date.to_ymd_hms_milli();
            Content::Date(format!("{year}-{month:02}-{day:02}"))
        }
        DataRef::DateTime(time) => Content::Date(time.to_string()),
        DataRef::DateTimeIso(text) | DataRef::DurationIso(text) => Content::Date(text),
        DataRef::Error(error) => Content::Error(error.to_string()),
    })
}

/// Adds to every number the format it is shown in.
fn formats(from: &mut CellReader<'_>, kept: &mut Kept) -> Result<(), Unusable> {
    while let Some((cell, style)) = from.next_cell_with_style_id().map_err(|_| Unusable::Damaged)? {
        if let Some(Content::Number(_, format)) = kept.cells.get_mut(&cell.get_position()) {
            let code = from.styles().get(style).and_then(|style| style.number_format.as_ref());
            *format = code.map_or_else(String::new, |code| code.format_code.clone());
            kept.text += format.len();
            if kept.text > MOST_TEXT {
                return Err(Unusable::TooLarge);
            }
        }
    }
    Ok(())
}
