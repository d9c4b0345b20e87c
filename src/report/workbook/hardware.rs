//! The hardware at each column: one row a column, so that a crate can be packed from it.

use super::super::check::sheet::action;
use super::super::figures::{kg, litres};
use super::super::hardware::screen::{grout_under, verdict};
use super::super::under::pieces;
use super::WorkSheet;
use super::layout::{Head, Item, figure, lay, length, long, may_set, said, text, whole, wholes, word, worth};
use crate::check::{Case, style};
use crate::length::Rounding;
use crate::order::HardwareRow;
use crate::text::Style;

/// The name of the sheet.
pub(super) const NAME: &str = "Hardware";

/// Makes the sheet.
pub(super) fn sheet(case: &Case<'_>, all: &[HardwareRow]) -> WorkSheet {
    let style = style(case.job);
    let mut heads = vec![
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
        figure("shim_mass", "kg", 9),
        figure("grout", "l", 11),
        word("verdict", 11),
        long("hold", 16),
    ];
    let is_said = all.iter().any(|row| row.seat_on.is_some());
    if is_said {
        heads.extend(setting_heads());
    }
    let rows = all.iter().map(|row| {
        // none where nothing is planned yet
        let extra = row.is_planned().then(|| row.extra.as_ref().map_or(0, |(_, number)| *number));
        let series = row.extra.as_ref().map(|(part, _)| part.name.clone()).unwrap_or_default();
        let mut items = vec![
            text(row.mark.clone()),
            may_set(row.may_set),
            text(row.base.clone()),
            whole(row.rods.0),
            text(row.rods.1.clone()),
            text(row.nuts.join(" + ")),
            text(row.washers.join(" + ")),
            wholes(extra),
            text(series),
            said(Some(row.plate), |it| style.exact(it)),
            text(action(row.action)),
            text(pieces(style, &row.stack)),
            said(row.raise, |it| style.write(it, Rounding::Nearest)),
            text(row.governs.map(|rod| rod.label.to_string()).unwrap_or_default()),
            said(row.governs.map(|rod| rod.spare), |it| style.signed(it, Rounding::Down)),
            worth(row.shim_mass, kg, |mass| style.mass(mass.milligrams())),
            worth(grout_under(row), litres, |volume| style.volume(volume, Rounding::Up)),
            text(verdict(row)),
            text(row.hold.iter().map(|hold| hold.name()).collect::<Vec<_>>().join(" ")),
        ];
        items.extend(setting(row, style).into_iter().filter(|_| is_said));
        items
    });
    lay(NAME, style.system(), &heads, rows.collect())
}

/// The heads of how plates are set, in a job that says it.
const fn setting_heads() -> [Head; 9] {
    [
        word("seat_on", 9),
        long("levelling_nut", 16),
        long("levelling_washer", 16),
        word("levelling_count", 10),
        word("packs", 7),
        length("pack_height", 12),
        long("pack_stack", 22),
        long("pack_pieces", 22),
        figure("pack_mass", "kg", 9),
    ]
}

/// Gives what stands under them.
fn setting(row: &HardwareRow, style: Style) -> [Item; 9] {
    let levelling = row.levelling.as_ref();
    let packs = row.packs.as_ref();
    let stack = packs.and_then(|packs| packs.each.exact.as_ref());
    [
        text(row.seat_on.unwrap_or_default()),
        text(levelling.map(|it| it.nut.clone()).unwrap_or_default()),
        text(levelling.and_then(|it| it.washer.clone()).unwrap_or_default()),
        wholes(levelling.map(|_| row.rods.0)),
        wholes(packs.and_then(|packs| packs.count)),
        said(packs.map(|packs| packs.height), |it| style.exact(it)),
        text(stack.map(|stack| pieces(style, &stack.pieces)).unwrap_or_default()),
        text(packs.and_then(|packs| packs.pieces()).map(|all| pieces(style, &all)).unwrap_or_default()),
        worth(packs.and_then(|packs| packs.mass()), kg, |mass| style.mass(mass.milligrams())),
    ]
}
