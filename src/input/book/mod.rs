//! A sheet of a workbook (`.xlsx`) into the text and cells that a CSV file gives, and what cannot be used of it.
//!
//! Nothing is converted: a number is read by the digits of its shortest decimal, and what a spreadsheet has turned
//! into something else (a date, a truth, an error, a formula that nobody calculated) is told with its cell.

#[cfg(feature = "xlsx")]
mod cells;
#[cfg(feature = "xlsx")]
mod lay;
#[cfg(feature = "xlsx")]
mod number;
#[cfg(feature = "xlsx")]
mod quiet;
#[cfg(feature = "xlsx")]
mod unpack;

use super::load::Wanted;
use crate::source::{FileId, Files, Problems};

/// Endings of workbooks that are read.
pub(super) const READ: [&str; 2] = ["xlsx", "xlsm"];

/// Endings of spreadsheets that are not.
pub(super) const NOT_READ: [&str; 3] = ["xlsb", "xls", "ods"];

/// Splits what a job names into the file and, behind `#`, the sheet of a workbook.
pub(super) fn split_name(name: &str) -> (&str, Option<&str>) {
    let lower = name.to_ascii_lowercase();
    let behind =
        READ.iter().filter_map(|ending| Some(lower.find(&format!(".{ending}#"))? + ending.len() + 1));
    match behind.min().and_then(|at| Some((name.get(..at)?, name.get(at + 1..)?))) {
        Some((file, sheet)) => (file, Some(sheet)),
        None => (name, None),
    }
}

/// Adds the sheet that is wanted of a workbook; what cannot be used is noted.
#[cfg(feature = "xlsx")]
pub(super) fn add(files: &mut Files, problems: &Problems, wanted: &Wanted, bytes: Vec<u8>) -> Option<FileId> {
    let fault = |why: unpack::Unusable| {
        let shown = crate::text::quoted(&wanted.path.display().to_string());
        problems.note(wanted.problem(&format!("{shown} {}", why.words())).fix(why.fix()));
    };
    match cells::read(bytes, wanted.sheet.as_deref()).and_then(lay::lay) {
        Ok(laid) => Some(laid.add(files, problems, wanted)),
        Err(why) => {
            fault(why);
            None
        }
    }
}

/// Refuses a workbook, since this build reads none.
#[cfg(not(feature = "xlsx"))]
pub(super) fn add(_: &mut Files, problems: &Problems, wanted: &Wanted, _: Vec<u8>) -> Option<FileId> {
    let shown = crate::text::quoted(&wanted.path.display().to_string());
    let sheet =
        wanted.sheet.as_deref().map_or(String::new(), |sheet| format!(" {}", crate::text::quoted(sheet)));
    problems.note(
        wanted
            .problem(&format!("{shown} is a workbook, and this build of rodreach reads none"))
            .fix(format!("save the sheet{sheet} as CSV UTF-8 and name that file")),
    );
    None
}

#[cfg(test)]
mod tests {
    use super::split_name;

    #[test]
    fn a_sheet_stands_behind_the_ending_of_its_workbook() {
        assert_eq!(split_name("book.xlsx"), ("book.xlsx", None));
        assert_eq!(split_name("book.xlsx#Level notes"), ("book.xlsx", Some("Level notes")));
        assert_eq!(split_name("a/B.XLSM#1#2"), ("a/B.XLSM", Some("1#2")));
        assert_eq!(split_name("walk#1.csv"), ("walk#1.csv", None));
        assert_eq!(split_name("walk#1.xlsx#"), ("walk#1.xlsx", Some("")));
    }
}
