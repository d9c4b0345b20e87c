//! The cells that `--since` adds to the rows of `check --format csv`.

use super::super::check::sheet::action;
use super::super::document::{Sheet, nm_cell};
use super::super::under::pieces;
use super::Against;
use super::why::why;
use crate::check::{ColumnChange, Judged, StillFits, Why, stack_of, style};
use crate::model::EarlierColumn;
use crate::text::Style;

const HEADS: [&str; 9] = [
    "changed",
    "pad_then_nm",
    "moved_nm",
    "moved_plus_minus_nm",
    "action_then",
    "raise_then_nm",
    "stack_then",
    "then_fits",
    "then_fits_not",
];

/// Adds the cells to every row, and a row for every column that the job has no more.
pub(super) fn add(sheet: &mut Sheet, now: &Judged<'_>, against: &Against<'_>) {
    let since = against.since;
    let style = style(now.case.job);
    let wide = sheet.heads.len();
    sheet.heads.extend(HEADS);
    for (index, row) in sheet.rows.iter_mut().enumerate() {
        let change = since.columns.iter().find(|change| change.index == index);
        row.extend(match change {
            Some(change) => cells(against, change, style),
            None => new(against, index, style),
        });
    }
    for gone in &since.removed {
        let mut row = vec![String::new(); wide];
        for (cell, text) in row.iter_mut().zip([&gone.mark, &gone.base]) {
            cell.clone_from(text);
        }
        row.push("gone".to_owned());
        row.extend(then(gone, None, style));
        row.extend([String::new(), String::new()]);
        sheet.rows.push(row);
    }
}

fn cells(against: &Against<'_>, change: &ColumnChange<'_>, style: Style) -> Vec<String> {
    let case = &against.then.case;
    let mut cells = vec![if change.changed() { "yes" } else { "no" }.to_owned()];
    cells.extend(then(change.before, Some(change), style));
    let why: Vec<String> = change.why.iter().map(|it| why(case, change.index, *it, style)).collect();
    cells.extend([name(change.fit).to_owned(), why.join("; ")]);
    cells
}

fn new(against: &Against<'_>, index: usize, style: Style) -> Vec<String> {
    let mut cells = vec!["new".to_owned()];
    cells.resize(HEADS.len() - 2, String::new());
    cells.extend([name(StillFits::Unknown).to_owned(), why(&against.then.case, index, Why::New, style)]);
    cells
}

fn then(column: &EarlierColumn, change: Option<&ColumnChange<'_>>, style: Style) -> [String; 6] {
    let moved = change.and_then(|change| change.moved);
    [
        nm_cell(column.pad),
        nm_cell(moved.map(|moved| moved.by)),
        nm_cell(moved.and_then(|moved| moved.plus_minus)),
        action(column.action).to_owned(),
        nm_cell(column.raise),
        pieces(style, &stack_of(column)),
    ]
}

/// Gives whether it fits as JSON has it.
const fn name(fit: StillFits) -> &'static str {
    match fit {
        StillFits::Yes => "yes",
        StillFits::Ask => "ask",
        StillFits::Unknown => "unknown",
        StillFits::No => "no",
    }
}
