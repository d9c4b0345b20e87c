//! A levelling nut stands higher over the concrete than one rod diameter.
//!
//! The figure is published of double-nut bases that are never grouted, where the rods bend between concrete and nut. Before
//! its grout this base stands just so, with nothing but the load of erection on it: so it is asked about and holds nothing.

use super::set_on::{NO_BED, Said, bed, each_column, on_nuts};
use super::subjects::does_not_apply;
use super::{Rule, style};
use crate::catalog::stand_off_authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome};
use crate::check::levelling::{Room, room};
use crate::length::Length;
use crate::text::{Relation, Style};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "levelling-nut-too-high",
    about: "rod between the concrete and the levelling nut",
    checks: "planned bed + lowest place of the pad + its +- - levelling nut and washer, each at its least, is no more than one \
             rod diameter",
    why: "until the grout is hard the rods alone hold the column up, and a longer free length bends more easily",
    limit: |_, _| Some(("one rod diameter, of double-nut bases".to_owned(), stand_off_authority())),
    judge,
};

fn outcome(stand_off: Length, diameter: Length) -> Outcome {
    if stand_off > diameter {
        return Outcome::Fail(Level::Ask);
    }
    Outcome::Pass { margin: Some(diameter - stand_off) }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let style = style(case.job);
    each_column(case, on_nuts, |column, _| {
        let base = case.base(column.index);
        match room(base, bed(case, column), column) {
            Some(room) => said(room, base.rods.diameter, style),
            None => Said::plainly(does_not_apply(NO_BED), NO_BED, stand_off_authority()),
        }
    })
}

fn said(room: Room, diameter: Length, style: Style) -> Said {
    let off = room.stand_off();
    let shown = style.pair(off, diameter, Relation::AtMost);
    let outcome = outcome(off, diameter);
    let text =
        format!("up to {} of rod between concrete and levelling nut, a rod is {}", shown.value, shown.limit);
    let text = match outcome {
        Outcome::Fail(_) => format!("{text}; ask the engineer if the rods hold the column so"),
        _ => text,
    };
    let arithmetic = vec![
        "bed + lowest place under the pad's reading + the pad's +- - levelling nut and washer at their least"
            .to_owned(),
        format!(
            "{} + {} + {} - {} = {}",
            style.exact(room.bed),
            style.exact(room.low),
            style.exact(room.plus_minus),
            style.exact(room.parts.least),
            style.exact(off)
        ),
    ];
    Said { outcome, text, pair: Some((off, diameter)), arithmetic, authority: stand_off_authority() }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, add_spots, bedded, beds, findings_under, levelling, nm};
    use super::*;

    /// Nut and washer at their least, 0.710 and 0.24 in, and a rod of 3/4 in over them; the pad is good to 0.5 mm.
    const MOST: i64 = 18_034_000 + 6_096_000 + 12 * SIXTEENTH - 500_000;

    #[test]
    fn one_diameter_passes_and_a_nanometre_more_is_asked_about() {
        let judged = |bed| findings_under(&bedded(levelling()), &RULE, |plan| beds(plan, bed)).swap_remove(0);
        assert_eq!(judged(MOST).outcome, Outcome::Pass { margin: Some(nm(0)) });
        let more = judged(MOST + 1);
        assert_eq!((more.level(), more.limit), (Some(Level::Ask), Some(nm(12 * SIXTEENTH))));
        assert!(more.authority.text.contains("double-nut bases"));
    }

    #[test]
    fn the_lowest_place_that_was_read_counts() {
        let mut job = bedded(levelling());
        add_spots(&mut job, 0, &[("N", -24 * SIXTEENTH), ("S", -24 * SIXTEENTH - 1)], 0);
        let found = findings_under(&job, &RULE, |plan| beds(plan, MOST));
        assert_eq!(found[0].level(), Some(Level::Ask));
    }
}
