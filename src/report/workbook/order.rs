//! What to order: plates, packs, washers, nuts, grout, pads to grind and packets, a row each, to be sorted and picked from.

use super::super::figures::{kg, litres, mm2};
use super::super::order::{OrderRow, order_rows};
use super::WorkSheet;
use super::layout::{Item, figure, lay, length, long, may_set, said, text, wholes, word, worth};
use crate::check::{Judged, style};
use crate::length::Rounding;
use crate::order::Mass;
use crate::quantity::Area;
use crate::text::Style;

/// The name of the sheet.
pub(super) const NAME: &str = "Order";

/// Makes the sheet.
pub(super) fn sheet(judged: &Judged<'_>) -> WorkSheet {
    let style = style(judged.case.job);
    let heads = [
        word("item", 10),
        word("list", 8),
        word("may_set", 9),
        word("base", 9),
        long("what", 40),
        length("thickness", 10),
        length("side", 10),
        length("other_side", 10),
        word("pieces", 8),
        word("on_hold", 8),
        word("spares", 8),
        word("from_stock", 8),
        word("to_order", 8),
        figure("each", "kg", 9),
        figure("mass", "kg", 9),
        figure("order_mass", "kg", 9),
        figure("volume", "l", 11),
        word("bags", 7),
        length("depth", 9),
        figure("area", "mm2", 12),
        long("hold", 16),
    ];
    let rows = order_rows(judged);
    lay(NAME, style.system(), &heads, rows.into_iter().map(|row| items(row, style)).collect())
}

fn items(row: OrderRow, style: Style) -> Vec<Item> {
    let counts = |at: usize| wholes(row.counts.map(|counts| counts[at]));
    let mass = |mass: Option<Mass>| worth(mass, kg, |mass| style.mass(mass.milligrams()));
    let exact = |it| style.exact(it);
    let [side, other] = [0, 1].map(|at: usize| said(row.sides.map(|sides| sides[at]), exact));
    let hold =
        row.set.as_ref().map(|(_, hold)| hold.iter().map(|hold| hold.name()).collect::<Vec<_>>().join(" "));
    vec![
        text(row.item.clone()),
        text(row.list),
        row.set.as_ref().map_or_else(|| text(""), |(yes, _)| may_set(*yes)),
        text(row.base.clone()),
        text(row.what.clone()),
        said(row.thickness, exact),
        side,
        other,
        counts(0),
        counts(1),
        counts(2),
        wholes(row.from_stock),
        wholes(row.to_order),
        mass(row.each),
        mass(row.mass),
        mass(row.order_mass),
        worth(row.volume, litres, |volume| style.volume(volume, Rounding::Up)),
        wholes(row.bags.map(|bags| u32::try_from(bags).unwrap_or(u32::MAX))),
        said(row.depth, exact),
        worth(row.ground, mm2, |sides| style.area_of(Area::of(sides), Rounding::Up)),
        text(hold.unwrap_or_default()),
    ]
}
