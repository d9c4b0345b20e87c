//! The hardware at each column: one row a column, so that a crate can be packed from it.

use super::super::check_sheet::action;
use super::super::under::pieces;
use super::WorkSheet;
use super::layout::{lay, length, long, may_set, said, text, whole, word};
use crate::check::{Case, style};
use crate::length::Rounding;
use crate::order::hardware;

/// The name of the sheet.
pub(super) const NAME: &str = "Hardware";

/// Makes the sheet.
pub(super) fn sheet(case: &Case<'_>) -> WorkSheet {
    let style = style(case.job);
    let heads = [
        word("mark", 9),
        word("may_set", 9),
        word("base", 8),
        word("rods", 6),
        word("rod_size", 9),
        long("nuts", 20),
        long("washers", 20),
        word("extra_washers", 9),
        word("extra_series", 12),
        length("plate", 10),
        word("action", 12),
        long("stack", 26),
        length("raise", 10),
        word("governing_rod", 9),
        length("spare", 10),
    ];
    let rows = hardware(case).into_iter().map(|row| {
        let (series, extra) = row.extra.clone().unwrap_or_default();
        vec![
            text(row.mark.clone()),
            may_set(row.may_set),
            text(row.base.clone()),
            whole(row.rods.0),
            text(row.rods.1.clone()),
            text(row.nuts.join(" + ")),
            text(row.washers.join(" + ")),
            whole(extra),
            text(series),
            said(Some(row.plate), |it| style.exact(it)),
            text(action(row.action)),
            text(pieces(style, &row.stack)),
            said(row.raise, |it| style.write(it, Rounding::Nearest)),
            text(row.governs.map(|rod| rod.label.to_string()).unwrap_or_default()),
            said(row.governs.map(|rod| rod.spare), |it| style.signed(it, Rounding::Down)),
        ]
    });
    lay(NAME, style.system(), &heads, rows.collect())
}
