//! What goes under a column, in words.

use crate::length::{Length, Rounding};
use crate::plan::{Action, StackPiece};
use crate::text::Style;

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

/// Writes a stack, thickest piece first, every digit.
pub(super) fn pieces(style: Style, stack: &[StackPiece]) -> String {
    let each = stack.iter().map(|piece| match piece.count {
        1 => style.exact(piece.thickness),
        count => format!("{count} x {}", style.exact(piece.thickness)),
    });
    each.collect::<Vec<_>>().join(" + ")
}
