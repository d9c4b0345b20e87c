//! What goes under a column, in words.

use crate::length::{Length, Rounding};
use crate::model::Job;
use crate::order::HardwareRow;
use crate::plan::{Action, StackPiece};
use crate::text::{Style, and};

/// Says what goes under a plate: `1/2" + 2 x 1/8"`, `grout 1-1/4"`, `nothing`.
///
/// A bed that the drawings have is told beside the one that is planned: `grout bed 1-3/8" (designed 1-1/2")`.
pub(super) fn under(
    style: Style,
    action: Action,
    raise: Option<Length>,
    stack: &[StackPiece],
    designed: Length,
) -> String {
    match (action, raise) {
        (Action::NoShim, _) => "nothing".to_owned(),
        (Action::Shim, _) => pieces(style, stack),
        (Action::Grout, Some(raise)) if designed > Length::ZERO => {
            let bed = style.write(raise, Rounding::Nearest);
            format!("grout bed {bed} (designed {})", style.write(designed, Rounding::Nearest))
        }
        (Action::Grout, Some(raise)) => format!("grout {}", style.write(raise, Rounding::Nearest)),
        (Action::Grind, Some(raise)) => format!("grind {} off", style.write(-raise, Rounding::Nearest)),
        (Action::Refer | Action::Grout | Action::Grind, _) => "ask the engineer".to_owned(),
        (Action::Unmeasured, _) => "read the pad first".to_owned(),
    }
}

/// Says the same in a row of a table: what the drawings have is told once under it, by [`designed_beds`].
pub(super) fn under_in_row(style: Style, row: &HardwareRow) -> String {
    match (row.action, row.raise) {
        (Action::Grout, Some(raise)) if row.bed > Length::ZERO => {
            format!("grout bed {}", style.write(raise, Rounding::Nearest))
        }
        _ => under(style, row.action, row.raise, &row.stack, row.bed),
    }
}

/// Says which beds of grout the drawings have, by base; nothing where no column stands on one.
pub(super) fn designed_beds(job: &Job, style: Style) -> Option<String> {
    let used = |index: usize| job.columns.iter().any(|column| column.base == index);
    let bases = job.bases.iter().enumerate().filter(|(index, base)| base.has_bed() && used(*index));
    let each: Vec<String> =
        bases.map(|(_, base)| format!("{} under {}", style.exact(base.bed), base.mark)).collect();
    (!each.is_empty()).then(|| format!("Beds of grout on the drawings: {}.", and(&each)))
}

/// Writes a stack, thickest piece first, every digit.
pub(super) fn pieces(style: Style, stack: &[StackPiece]) -> String {
    let each = stack.iter().map(|piece| match piece.count {
        1 => style.exact(piece.thickness),
        count => format!("{count} x {}", style.exact(piece.thickness)),
    });
    each.collect::<Vec<_>>().join(" + ")
}
