//! Rows of texts and lengths laid out as a sheet: in words first, then as numbers, then in nanometres.

use super::super::document::Tone;
use super::{WorkCell, WorkColumn, WorkSheet};
use crate::length::Length;
use crate::text::System;
use serde_json::Number;

/// Width of a column of numbers, in characters.
const NUMBER: u16 = 13;

/// Width of a column of whole nanometres.
const NANOMETRES: u16 = 15;

/// The head of what stands in one place of every row.
pub(super) struct Head {
    name: &'static str,
    width: u16,
    wraps: bool,
    kind: Kind,
}

/// What stands under a head.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Plain,
    Length,
    /// A mass, a volume or an area, with the unit of its number.
    Figure(&'static str),
}

/// Makes a head of texts on one line.
pub(super) const fn word(name: &'static str, width: u16) -> Head {
    Head { name, width, wraps: false, kind: Kind::Plain }
}

/// Makes a head of long texts.
pub(super) const fn long(name: &'static str, width: u16) -> Head {
    Head { name, width, wraps: true, kind: Kind::Plain }
}

/// Makes a head of lengths.
pub(super) const fn length(name: &'static str, width: u16) -> Head {
    Head { name, width, wraps: false, kind: Kind::Length }
}

/// Makes a head of masses (`kg`), volumes (`l`) or areas (`mm2`).
pub(super) const fn figure(name: &'static str, unit: &'static str, width: u16) -> Head {
    Head { name, width, wraps: false, kind: Kind::Figure(unit) }
}

/// What stands in one place of a row.
pub(super) enum Item {
    /// A cell.
    Cell(WorkCell),
    /// A length and how it is said; none is blank.
    Length(Option<(Length, String)>),
    /// A mass, a volume or an area, and how it is said; none is blank.
    Figure(Option<(Number, String)>),
}

/// Makes a text; blank where it is empty.
pub(super) fn text(text: impl Into<String>) -> Item {
    let text = text.into();
    Item::Cell(if text.is_empty() { WorkCell::Blank } else { WorkCell::Text(text) })
}

/// Makes a whole number.
pub(super) fn whole(number: u32) -> Item {
    Item::Cell(WorkCell::Whole(i64::from(number)))
}

/// Makes a whole number; none is blank.
pub(super) fn wholes(number: Option<u32>) -> Item {
    Item::Cell(number.map_or(WorkCell::Blank, |number| WorkCell::Whole(i64::from(number))))
}

/// Makes a verdict.
pub(super) const fn verdict(tone: Tone, word: &'static str) -> Item {
    Item::Cell(WorkCell::Verdict(tone, word))
}

/// Says whether a column may be set.
pub(super) const fn may_set(yes: bool) -> Item {
    if yes { verdict(Tone::Good, "yes") } else { verdict(Tone::Stop, "NO") }
}

/// Makes a length, said so.
pub(super) fn said(length: Option<Length>, say: impl FnOnce(Length) -> String) -> Item {
    Item::Length(length.map(|length| (length, say(length))))
}

/// Makes a mass, a volume or an area, said so.
pub(super) fn worth<T: Copy>(
    value: Option<T>,
    number: fn(T) -> Number,
    say: impl FnOnce(T) -> String,
) -> Item {
    Item::Figure(value.map(|value| (number(value), say(value))))
}

/// Lays out a sheet.
///
/// Every length stands three times: in words, printed; as a number of its unit (`raise_in`); in nanometres (`raise_nm`). Masses,
/// volumes and areas stand twice: in words, printed, and as the number that JSON has (`mass_kg`).
pub(super) fn lay(name: &'static str, system: System, heads: &[Head], rows: Vec<Vec<Item>>) -> WorkSheet {
    let unit = match system {
        System::Inch => "in",
        System::Metric => "mm",
    };
    let column = |head: String, width: u16, wraps: bool| WorkColumn { head, width, wraps };
    let lengths = || heads.iter().filter(|head| head.kind == Kind::Length);
    let mut columns: Vec<WorkColumn> =
        heads.iter().map(|head| column(head.name.to_owned(), head.width, head.wraps)).collect();
    columns.extend(lengths().map(|head| column(format!("{}_{unit}", head.name), NUMBER, false)));
    columns.extend(lengths().map(|head| column(format!("{}_nm", head.name), NANOMETRES, false)));
    columns.extend(heads.iter().filter_map(|head| match head.kind {
        Kind::Figure(unit) => Some(column(format!("{}_{unit}", head.name), NUMBER, false)),
        _ => None,
    }));
    let rows = rows.into_iter().map(|items| {
        let mut cells = Vec::with_capacity(columns.len());
        let (mut found, mut figures) = (Vec::new(), Vec::new());
        for item in items {
            match item {
                Item::Cell(cell) => cells.push(cell),
                Item::Length(None) => {
                    cells.push(WorkCell::Blank);
                    found.push(None);
                }
                Item::Length(Some((length, said))) => {
                    cells.push(WorkCell::Text(said));
                    found.push(Some(length));
                }
                Item::Figure(None) => {
                    cells.push(WorkCell::Blank);
                    figures.push(WorkCell::Blank);
                }
                Item::Figure(Some((number, said))) => {
                    cells.push(WorkCell::Text(said));
                    figures.push(WorkCell::Figure(number));
                }
            }
        }
        let cell = |of: fn(Length) -> WorkCell| move |it: &Option<Length>| it.map_or(WorkCell::Blank, of);
        cells.extend(found.iter().map(cell(WorkCell::Length)));
        cells.extend(found.iter().map(cell(|it| WorkCell::Whole(it.nm()))));
        cells.extend(figures);
        cells
    });
    let rows = rows.collect();
    WorkSheet { name, columns, rows, printed: heads.len(), is_table: true }
}
