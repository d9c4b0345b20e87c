//! A sheet laid out as text, row by row, and the faults of its cells.

use super::cells::{At, Cells, Content, MOST_CELLS};
use super::number::{Odd, written};
use super::unpack::Unusable;
use crate::input::data_table::MOST_FAULTS;
use crate::input::load::Wanted;
use crate::source::{FileId, Files, Place, Problem, Problems, Sheet, SheetCell};
use crate::text::quoted;
use std::collections::{BTreeMap, BTreeSet};

/// A sheet that is ready to be added to the files of a job.
#[derive(Debug)]
pub(super) struct Laid {
    name: String,
    text: String,
    cells: Vec<SheetCell>,
    /// What is wrong with cells, by their place in the text.
    faults: Vec<((usize, usize), Fault)>,
    /// Cells of which all is said.
    closed: Vec<(usize, usize)>,
}

/// What is wrong with a cell.
#[derive(Debug)]
enum Fault {
    Date(String),
    Truth,
    Error(String),
    NotCalculated,
    Number(String, Odd),
    Twice,
    Merged(String),
}

/// Lays out a sheet: rows that are blank left out, all others from its first column to its last.
pub(super) fn lay(sheet: Cells) -> Result<Laid, Unusable> {
    let mut laid = Laid {
        name: sheet.name,
        text: String::new(),
        cells: Vec::new(),
        faults: Vec::new(),
        closed: Vec::new(),
    };
    // a text of blanks is a blank cell
    let filled = |content: &Content| !matches!(content, Content::Text(text) if text.is_empty());
    let used = || sheet.cells.iter().filter(|(_, content)| filled(content)).map(|(at, _)| *at);
    let rows: BTreeSet<u32> = used().map(|(row, _)| row).collect();
    let (first, last) = used().fold((u32::MAX, 0), |(first, last), (_, at)| (first.min(at), last.max(at)));
    let width = usize::try_from(last.saturating_sub(first)).unwrap_or(usize::MAX).saturating_add(1);
    if rows.len().saturating_mul(width) > MOST_CELLS {
        return Err(Unusable::TooLarge);
    }
    let mut places: BTreeMap<At, (usize, usize)> = BTreeMap::new();
    for row in &rows {
        for column in first..=last {
            let (row, at) = (*row, (*row, column));
            let start = laid.text.len();
            let fault = sheet.cells.get(&at).and_then(|content| write(content, &mut laid.text));
            let fault = if sheet.twice.contains(&at) { Some(Fault::Twice) } else { fault };
            let end = laid.text.len();
            laid.cells.push(SheetCell { start, end, row, column, usable: fault.is_none() });
            laid.faults.extend(fault.map(|fault| ((start, end), fault)));
            places.insert(at, (start, end));
            laid.text.push('\t');
        }
        laid.text.pop();
        laid.text.push('\n');
    }
    for (from, to) in sheet.merged {
        let columns = from.1.max(first)..=to.1.min(last);
        if columns.is_empty() || from.0 > to.0 {
            continue;
        }
        let mut inside = Vec::new();
        for row in rows.range(from.0..=to.0) {
            let cells = places.range((*row, *columns.start())..=(*row, *columns.end()));
            inside.extend(cells.map(|(_, place)| *place));
            if inside.len() + laid.closed.len() > MOST_CELLS {
                return Err(Unusable::TooLarge);
            }
        }
        if let [place, _, ..] = inside.as_slice() {
            let range = format!("{} to {}", cell_name(from), cell_name(to));
            laid.faults.push((*place, Fault::Merged(range)));
            laid.closed.extend(inside);
        }
    }
    Ok(laid)
}

fn cell_name((row, column): At) -> String {
    let cell = SheetCell { start: 0, end: 0, row, column, usable: true };
    let address = Sheet::new("", "s", vec![cell]).address(0);
    address.split('!').next_back().unwrap_or_default().to_owned()
}

/// Writes what a cell holds and tells what is wrong with it.
fn write(content: &Content, text: &mut String) -> Option<Fault> {
    let (shown, fault) = match content {
        Content::Text(it) => (it.clone(), None),
        Content::Number(digits, format) => match written(digits, format) {
            Ok(it) => (it, None),
            Err(odd) => (digits.clone(), Some(Fault::Number(digits.clone(), odd))),
        },
        Content::Date(it) => (it.clone(), Some(Fault::Date(it.clone()))),
        Content::Truth(yes) => ((if *yes { "TRUE" } else { "FALSE" }).to_owned(), Some(Fault::Truth)),
        Content::Error(it) => (it.clone(), Some(Fault::Error(it.clone()))),
        Content::NotCalculated => (String::new(), Some(Fault::NotCalculated)),
    };
    text.push_str(&shown);
    fault
}

impl Laid {
    /// Adds the sheet to the files and notes its faults.
    pub(super) fn add(self, files: &mut Files, problems: &Problems, wanted: &Wanted) -> FileId {
        let book = wanted.path.display().to_string();
        let name = match &wanted.sheet {
            Some(_) => format!("{book}#{}", self.name),
            None => book.clone(),
        };
        let file = files.add_sheet(&name, self.text, Sheet::new(&book, &self.name, self.cells));
        let place = |(start, end): (usize, usize)| Place { file, start, end };
        for (number, (at, fault)) in self.faults.iter().enumerate() {
            if number == MOST_FAULTS {
                let message =
                    format!("after {MOST_FAULTS} faults the other cells of this sheet are not told");
                problems.note(Problem::in_file(file, message));
            }
            if number < MOST_FAULTS {
                problems.note(fault.problem(place(*at)));
            }
        }
        // one fault a cell: what is missing because of it is not told again
        for at in self.faults.iter().map(|(at, _)| at).chain(&self.closed) {
            problems.close(place(*at));
        }
        file
    }
}

impl Fault {
    fn problem(&self, place: Place) -> Problem {
        match self {
            Self::Date(date) => {
                Problem::at(place, format!("{}: this is a date, which a spreadsheet makes of a typed fraction", quoted(date)))
                    .fix("read it again from the field notes; format the column as text before typing 1/8, or write 0.125")
            }
            Self::Truth => Problem::at(place, "this is true or false, not a measurement and not a name")
                .fix("write the value, or leave the cell blank"),
            Self::Error(error) => {
                Problem::at(place, format!("this cell holds the error {}", quoted(error)))
                    .fix("mend the formula, or write the value itself")
            }
            Self::NotCalculated => Problem::at(place, "this formula has no value that a spreadsheet calculated")
                .fix("open the workbook in a spreadsheet program, let it calculate and save it; or write the value itself"),
            Self::Number(digits, Odd::TooFine) => Problem::at(
                place,
                format!("{}: this has more decimals than any measurement; a calculation left them", quoted(digits)),
            )
            .fix("round it in the sheet with ROUND, to 6 decimals at most, or write the value itself"),
            Self::Number(digits, Odd::NoFraction) => Problem::at(
                place,
                format!("{}: this is shown as a fraction, and is no whole number of 1/64", quoted(digits)),
            )
            .fix("show the cell as a number with decimals to see what it holds, and write the value again"),
            Self::Number(digits, Odd::Shown(format)) => Problem::at(
                place,
                format!("{}: the number format {} shows it as something else", quoted(digits), quoted(format)),
            )
            .fix("give the cell a plain number format, or format it as text and write the value with its unit"),
            Self::Twice => Problem::at(place, "this cell stands in the file twice")
                .fix("open the workbook in a spreadsheet program and save it again"),
            Self::Merged(range) => Problem::at(
                place,
                format!("the cells {range} are merged into one: only the first of them has a value"),
            )
            .fix("unmerge them, and write a value into every cell that needs one"),
        }
    }
}
