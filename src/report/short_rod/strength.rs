//! Thread strength at the measured engagement, for the engineer.

use super::words::up;
use crate::check::ShortRod;
use crate::length::Rounding;
use crate::model::Share;
use crate::order::{Area, ThreadStrength};
use crate::report::document::{Align, Document, Tone};
use crate::report::rules::source;
use crate::text::Style;

/// Whose formulas these are.
pub(super) const FORMS: &str = "published: FED-STD-H28/2B (1991), Table II.B.1, form numbers as cited by one public \
     program; the standard itself was not opened";

/// Adds the areas of the engaged thread and the engagement at which the rod would break first.
pub(super) fn strength(
    document: &mut Document,
    strength: Option<&ThreadStrength>,
    rods: &[ShortRod],
    style: Style,
) {
    document.heading(Tone::Plain, "THREAD STRENGTH: for the engineer, no verdict");
    let Some(strength) = strength else {
        document.text(
            Tone::Plain,
            "The limits of this thread are not known, so no shear area can be worked out.",
        );
        return;
    };
    let area = |area: Area| style.area(area.square_micrometres());
    let row = |rod: &ShortRod, parts: &str, share: Share| {
        let at = strength.engaged(share.part);
        vec![
            rod.rod.to_string(),
            parts.to_owned(),
            style.write(at.length, Rounding::Down),
            area(at.rod_shear),
            area(at.nut_shear),
            area(at.rod_shear_simple),
            area(at.nut_shear_simple),
        ]
    };
    let rows = rods.iter().filter_map(|rod| rod.nuts.last().zip(rod.nuts_worst.last()).map(|it| (rod, it)));
    document.grid(
        &[
            ("rod", Align::Left),
            ("parts", Align::Left),
            ("engaged", Align::Right),
            ("rod 4a", Align::Right),
            ("nut 2a", Align::Right),
            ("rod 5", Align::Right),
            ("nut 3", Align::Right),
        ],
        rows.flat_map(|(rod, (nominal, worst))| [row(rod, "nominal", *nominal), row(rod, "worst", *worst)])
            .collect(),
    );
    document.text(
        Tone::Quiet,
        "engaged: of the outer nut. rod 4a and nut 2a: the least areas in which the rod's and the nut's thread shear; \
         rod 5 and nut 3: the same, simplified. The rod's point and the nut's countersinks are not taken off.",
    );
    document.text(
        Tone::Plain,
        format!(
            "Tensile stress area {}. By these forms the rod breaks before its own thread shears from an engagement of {} (form \
             14), before the thread of a nut of its own tensile strength shears from {} (form 16; of a nut so many times as \
             strong so many times less), before both shear together from {} (form 13). Thread of class {}; the grades of \
             rod and nut are not known here, and a galvanised nut is tapped wider and has less.",
            area(strength.stress_area),
            up(style, strength.rod_length),
            up(style, strength.nut_length),
            up(style, strength.both_length),
            strength.classes,
        ),
    );
    document.item(Tone::Quiet, "forms", FORMS);
    document.item(Tone::Quiet, "limits", source(&strength.limits.authority));
}
