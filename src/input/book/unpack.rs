//! The parts of a workbook, unpacked once to see that they are whole and not too large.

use std::io::{Cursor, Read};
use zip::ZipArchive;

/// Most bytes that the parts of a workbook come to, unpacked.
const MOST_BYTES: u64 = 64 * 1024 * 1024;

/// Most bytes of its formats, of which each becomes far larger in memory.
const MOST_STYLE_BYTES: u64 = 2 * 1024 * 1024;

/// Most parts of a workbook.
const MOST_PARTS: usize = 2_000;

/// Why a workbook cannot be used at all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Unusable {
    /// It is no zip file.
    NoWorkbook,
    /// It is a zip file that cannot be read to its end, or not a workbook inside.
    Damaged,
    /// It is protected by a password, or an old `.xls` under a new name.
    Locked,
    /// It is larger, unpacked, than is read.
    TooLarge,
    /// It has no sheet that is shown.
    NoSheet,
    /// It has no sheet of this name; its sheets.
    NotThere(String, Vec<String>),
}

impl Unusable {
    /// Says what is wrong, behind the name of the file.
    pub(super) fn words(&self) -> String {
        match self {
            Self::NoWorkbook => "is not a workbook, whatever its ending says".to_owned(),
            Self::Damaged => "is damaged: it cannot be read as a workbook".to_owned(),
            Self::Locked => "is protected by a password, or is an old .xls under a new name".to_owned(),
            Self::TooLarge => "is larger than any sheet of readings: it is not unpacked".to_owned(),
            Self::NoSheet => "has no sheet that is shown".to_owned(),
            Self::NotThere(name, _) if name.is_empty() => {
                "is named without its sheet behind the #".to_owned()
            }
            Self::NotThere(name, _) => format!("has no sheet {}", crate::text::quoted(name)),
        }
    }

    /// Says how to mend it.
    pub(super) fn fix(&self) -> String {
        match self {
            Self::NoWorkbook | Self::Damaged => {
                "open it in a spreadsheet program and save it again as .xlsx, or save the sheet as CSV UTF-8"
                    .to_owned()
            }
            Self::Locked => "save it without a password as .xlsx, or save the sheet as CSV UTF-8".to_owned(),
            Self::TooLarge => "copy the rows of the readings into a workbook of their own".to_owned(),
            Self::NoSheet => "name a sheet, as in book.xlsx#rods".to_owned(),
            Self::NotThere(name, sheets) => {
                let known = || sheets.iter().map(String::as_str);
                match crate::source::nearest(name, known()) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => crate::input::context::known_names(known()).unwrap_or_default(),
                }
            }
        }
    }
}

/// What the parts of a workbook say before its sheets are read.
pub(super) struct Unpacked {
    /// Whether its formulas are yet to be calculated by whoever opens it.
    pub(super) to_calculate: bool,
}

/// Unpacks every part of a workbook, to throw it away again.
pub(super) fn unpack(bytes: &[u8]) -> Result<Unpacked, Unusable> {
    if bytes.starts_with(&[0xd0, 0xcf, 0x11, 0xe0]) {
        return Err(Unusable::Locked);
    }
    if !bytes.starts_with(b"PK") {
        return Err(Unusable::NoWorkbook);
    }
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(|_| Unusable::Damaged)?;
    if archive.len() > MOST_PARTS {
        return Err(Unusable::TooLarge);
    }
    let (mut total, mut to_calculate) = (0, false);
    for index in 0..archive.len() {
        let part = archive.by_index(index).map_err(|_| Unusable::Damaged)?;
        let name = part.name().map_err(|_| Unusable::Damaged)?.to_ascii_lowercase();
        let most = if name.ends_with("styles.xml") { MOST_STYLE_BYTES } else { MOST_BYTES - total };
        // what the file says of its own size is not believed
        let mut rest = part.take(most + 1);
        let mut unpacked = Vec::new();
        let read = match name.ends_with("workbook.xml") {
            true => rest.read_to_end(&mut unpacked).map(|read| read as u64),
            false => std::io::copy(&mut rest, &mut std::io::sink()),
        };
        let read = read.map_err(|_| Unusable::Damaged)?;
        if read > most {
            return Err(Unusable::TooLarge);
        }
        total += read;
        to_calculate |= says_to_calculate(&unpacked);
    }
    Ok(Unpacked { to_calculate })
}

/// Tells whether a workbook asks to be calculated when it is opened: its formulas hold no values to rely on.
fn says_to_calculate(workbook: &[u8]) -> bool {
    let text = String::from_utf8_lossy(workbook);
    let said = text
        .split("fullCalcOnLoad")
        .nth(1)
        .map(|rest| rest.trim_start().trim_start_matches('=').trim_start());
    said.is_some_and(|value| ["\"1\"", "'1'", "\"true\"", "'true'"].iter().any(|yes| value.starts_with(yes)))
}
