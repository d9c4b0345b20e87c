//! What goes under each column: one row a column, in job order.

use super::super::check::held::reasons;
use super::super::check::sheet::action;
use super::super::under::under;
use super::WorkSheet;
use super::layout::{lay, length, long, may_set, said, text, word};
use crate::check::{Case, style};
use crate::length::Rounding;
use crate::order::HardwareRow;

/// The name of the sheet.
pub(super) const NAME: &str = "Columns";

/// Makes the sheet; `hardware` has a row a column, in job order.
pub(super) fn sheet(case: &Case<'_>, hardware: &[HardwareRow]) -> WorkSheet {
    let style = style(case.job);
    let heads = [
        word("mark", 9),
        word("may_set", 9),
        word("base", 8),
        word("action", 12),
        long("under the plate", 26),
        length("pad", 14),
        length("raise", 10),
        length("seat", 14),
        word("governing_rod", 9),
        length("spare", 10),
        length("needs_projection", 12),
        long("hold", 18),
        long("why", 44),
    ];
    let rows = case.columns.iter().map(|column| {
        let choice = case.choice(column.index);
        let row = &hardware[column.index];
        let names: Vec<&str> = column.hold.iter().map(|hold| hold.name()).collect();
        vec![
            text(row.mark.clone()),
            may_set(column.may_set()),
            text(row.base.clone()),
            text(action(choice.action)),
            text(under(style, choice.action, choice.raise, &choice.stack, row.bed)),
            said(column.pad.map(|pad| pad.elevation), |it| style.elevation(it)),
            said(column.raise.map(|raise| raise.nominal), |it| style.write(it, Rounding::Nearest)),
            said(column.seat, |it| style.elevation(it)),
            text(row.governs.map(|rod| rod.label.to_string()).unwrap_or_default()),
            said(row.governs.map(|rod| rod.spare), |it| style.signed(it, Rounding::Down)),
            said(column.needs_projection, |it| style.write(it, Rounding::Up)),
            text(names.join(" ")),
            text(reasons(case, column, style).join("; ")),
        ]
    });
    lay(NAME, style.system(), &heads, rows.collect())
}
