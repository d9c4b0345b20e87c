//! The note ready for a drawing: three lines in the units of the job.

use crate::detail::{Kind, Origin, Specification, Terms};
use crate::length::{Length, Rounding};
use crate::text::Style;

/// Writes the note of a kind; none where nothing can be specified.
pub(super) fn note(kind: &Kind<'_>, style: Style) -> Option<Vec<String>> {
    let (Ok(terms), Some(worst)) = (&kind.terms, &kind.worst) else { return None };
    let base = kind.members.first()?.base;
    let from = match terms.plane.origin {
        Origin::Design => "DESIGN TOP OF CONCRETE",
        Origin::Pad => "TOP OF CONCRETE AS CAST AT EACH COLUMN",
    };
    let [low, high] = terms.rod_top;
    Some(vec![
        format!(
            "ANCHOR RODS {}: TOP OF ROD {} ABOVE {from}, SET WITHIN {} AND {}.",
            base.rods.size,
            style.exact(worst.projection),
            signed(low, style),
            signed(high, style),
        ),
        format!(
            "FULL THREAD AT LEAST {} DOWN FROM TOP OF ROD{}.",
            style.exact(worst.thread),
            if terms.levelling.is_some() { ", TO BELOW THE LEVELLING NUT" } else { "" }
        ),
        plate(terms, worst, style),
    ])
}

/// Says where the plate may stand, rounded into the range, so that the note never allows more than the figures do.
fn plate(terms: &Terms, worst: &Specification, style: Style) -> String {
    let from = match terms.plane.origin {
        Origin::Design => terms.plane.design,
        Origin::Pad => Length::ZERO,
    };
    let [low, high] = worst.allowed.map(|height| height - from);
    let (low, high) = if style.has_a_step_in(low, high) {
        (low.to_step(style.step(), Rounding::Up), high.to_step(style.step(), Rounding::Down))
    } else {
        (low, high)
    };
    let (low, high) = match terms.plane.origin {
        Origin::Design => (signed(low, style), format!("{} FROM ITS DESIGN LEVEL", signed(high, style))),
        Origin::Pad => (style.exact(low), format!("{} ABOVE THE CONCRETE UNDER IT", style.exact(high))),
    };
    format!("UNDERSIDE OF PLATE {low} TO {high}; OUTSIDE OF THAT ASK THE ENGINEER OF RECORD.")
}

fn signed(length: Length, style: Style) -> String {
    let plus = if length > Length::ZERO { "+" } else { "" };
    format!("{plus}{}", style.exact(length))
}
