//! The rows of `check --format csv`: one a column, lengths in words and in nanometres.

use crate::check::{Case, style};
use crate::length::{Length, Rounding};
use crate::model::Base;
use crate::order::hardware;
use crate::plan::Action;
use crate::report::document::{Sheet, nm_cell};
use crate::report::under::pieces;

/// Gives one row a column.
pub(in crate::report) fn sheet(case: &Case<'_>) -> Sheet {
    let style = style(case.job);
    let hardware = hardware(case);
    let beds = case.job.bases.iter().any(Base::has_bed);
    let rows = case.columns.iter().map(|column| {
        let choice = case.choice(column.index);
        let row = &hardware[column.index];
        let raise = column.raise.map(|raise| raise.nominal);
        let mut cells = vec![
            row.mark.clone(),
            row.base.clone(),
            nm_cell(column.pad.map(|pad| pad.elevation)),
            action(choice.action).to_owned(),
            raise.map(|raise| style.write(raise, Rounding::Nearest)).unwrap_or_default(),
            nm_cell(raise),
            pieces(style, &choice.stack),
            nm_cell(column.seat),
            row.governs.map(|rod| rod.label.to_string()).unwrap_or_default(),
            nm_cell(row.governs.map(|rod| rod.spare)),
            nm_cell(column.needs_projection),
            column.hold.iter().map(|hold| hold.name()).collect::<Vec<_>>().join(" "),
            if column.may_set() { "yes" } else { "no" }.to_owned(),
        ];
        cells.extend(beds.then(|| nm_cell(Some(row.bed).filter(|bed| *bed > Length::ZERO))));
        cells
    });
    let mut heads = vec![
        "mark",
        "base",
        "pad_nm",
        "action",
        "raise",
        "raise_nm",
        "stack",
        "seat_nm",
        "governing_rod",
        "spare_nm",
        "needs_projection_nm",
        "hold",
        "may_set",
    ];
    // in a job without beds there is no such column
    heads.extend(beds.then_some("bed_design_nm"));
    Sheet { heads, rows: rows.collect() }
}

/// Gives an action as JSON has it.
pub(in crate::report) const fn action(action: Action) -> &'static str {
    match action {
        Action::NoShim => "no-shim",
        Action::Shim => "shim",
        Action::Grout => "grout",
        Action::Grind => "grind",
        Action::Refer => "refer",
        Action::Unmeasured => "unmeasured",
    }
}
