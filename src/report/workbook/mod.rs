//! The workbook: typed cells, sheet by sheet, before any format.

mod columns;
mod findings;
mod first;
mod hardware;
mod layout;
mod order;
mod readings;
mod rods;

use super::document::Tone;
use crate::check::{Judged, style};
use crate::length::Length;
use crate::source::Files;
use crate::text::System;
use serde_json::Number;

/// A workbook.
#[derive(Clone, Debug)]
pub struct Workbook {
    /// The name of the job.
    pub title: String,
    /// Inches or millimetres: the numbers of lengths, and the paper.
    pub system: System,
    /// What stands under every printed page.
    pub foot: &'static str,
    /// Its sheets.
    pub sheets: Vec<WorkSheet>,
    /// The sheet it opens at, an index into [`Workbook::sheets`].
    pub opens_at: usize,
}

/// A sheet of it.
#[derive(Clone, Debug)]
pub struct WorkSheet {
    /// Its name.
    pub name: &'static str,
    /// Its columns.
    pub columns: Vec<WorkColumn>,
    /// Its rows, as wide as the columns are many.
    pub rows: Vec<Vec<WorkCell>>,
    /// How many columns are printed, from the first; the others are for other programs.
    pub printed: usize,
    /// Whether the rows can be sorted and picked from.
    pub is_table: bool,
}

/// A column of a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkColumn {
    /// Its head.
    pub head: String,
    /// Its width in characters.
    pub width: u16,
    /// Whether its texts go on in the next line.
    pub wraps: bool,
}

/// A cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WorkCell {
    /// Nothing: what is unknown is blank, never 0.
    Blank,
    /// A text, whatever it looks like.
    Text(String),
    /// A verdict in a word; a colour goes with it, never instead of it.
    Verdict(Tone, &'static str),
    /// A whole number.
    Whole(i64),
    /// A length as a number, in inches or millimetres.
    Length(Length),
    /// A mass, a volume or an area as a number, with no more than six decimals.
    Figure(Number),
}

/// The sheet a workbook opens at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OpensAt {
    /// What goes under each column.
    Columns,
    /// The hardware.
    Hardware,
    /// What to order.
    Order,
}

/// Makes the workbook of a job that was planned and judged; `tried` says what the plan was made to take on.
#[must_use]
pub fn workbook(judged: &Judged<'_>, files: &Files, tried: Option<String>, opens_at: OpensAt) -> Workbook {
    let case = &judged.case;
    let rows = crate::order::hardware(case);
    let sheets = vec![
        first::sheet(judged, tried),
        columns::sheet(case, &rows),
        hardware::sheet(case, &rows),
        order::sheet(judged),
        rods::sheet(case, files),
        readings::sheet(case, files),
        findings::sheet(judged),
    ];
    let name = match opens_at {
        OpensAt::Columns => columns::NAME,
        OpensAt::Hardware => hardware::NAME,
        OpensAt::Order => order::NAME,
    };
    Workbook {
        title: case.job.name.clone(),
        system: style(case.job).system(),
        foot: FOOT,
        opens_at: sheets.iter().position(|sheet| sheet.name == name).unwrap_or(0),
        sheets,
    }
}

/// What stands under every printed page.
const FOOT: &str = "Arithmetic, not a design: the engineer of record, the drawings and local codes decide. Do not set at NO.";
