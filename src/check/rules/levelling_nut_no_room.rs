//! A levelling nut and its washer are higher than the bed they stand in.
//!
//! It stops, and holds the column, where they do not go in at their nominal height by the readings: the plate cannot come
//! down to its seat. What only the limits of parts and readings decide is asked about: the crew sees it when the nuts are
//! turned to height, before a column hangs over them.

use super::set_on::{NO_BED, Said, bed, each_column, on_nuts};
use super::subjects::{does_not_apply, house_rule};
use super::{Rule, style};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome};
use crate::check::levelling::{Fit, Room, room};
use crate::text::{Relation, Style};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "levelling-nut-no-room",
    about: "room for levelling nuts in the bed",
    checks: "planned bed - highest place of the pad - its +- is no less than levelling nut and washer, each at its most",
    why: "nuts that do not go into the bed hold the plate above its seat, or the plate rests on the concrete",
    limit: |_, _| Some(("levelling nut and washer, each at its most".to_owned(), authority())),
    judge,
};

fn authority() -> crate::catalog::Authority {
    house_rule("the sum of the parts in the bed; held where they have no room at their nominal height")
}

fn outcome(room: Room) -> Outcome {
    match room.fit() {
        Fit::Yes => Outcome::Pass { margin: Some(room.least() - room.parts.most) },
        Fit::Close => Outcome::Fail(Level::Ask),
        Fit::No => Outcome::Fail(Level::Stop),
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let style = style(case.job);
    each_column(case, on_nuts, |column, _| match room(case.base(column.index), bed(case, column), column) {
        Some(room) => said(room, style),
        None => Said::plainly(does_not_apply(NO_BED), NO_BED, authority()),
    })
}

fn said(room: Room, style: Style) -> Said {
    let pair = match room.fit() {
        Fit::No => (room.bed - room.high, room.parts.nominal),
        Fit::Yes | Fit::Close => (room.least(), room.parts.most),
    };
    let shown = style.pair(pair.0, pair.1, Relation::AtLeast);
    let text = match room.fit() {
        Fit::Yes => format!(
            "the bed is {} at least, levelling nut and washer are {} at most",
            shown.value, shown.limit
        ),
        Fit::Close => format!(
            "the bed may be {}, levelling nut and washer may be {}; too close to call, ask the engineer",
            shown.value, shown.limit
        ),
        Fit::No => format!(
            "the bed is {}, levelling nut and washer are {}: no room for them; do not set, ask the engineer",
            shown.value, shown.limit
        ),
    };
    Said {
        outcome: outcome(room),
        text,
        pair: Some(pair),
        arithmetic: arithmetic(room, style),
        authority: authority(),
    }
}

fn arithmetic(room: Room, style: Style) -> Vec<String> {
    let exact = |it| style.exact(it);
    vec![
        "bed - highest place over the pad's reading - the pad's +- - levelling nut and washer at their most"
            .to_owned(),
        format!(
            "{} - {} - {} - {} = {}",
            exact(room.bed),
            exact(room.high),
            exact(room.plus_minus),
            exact(room.parts.most),
            exact(room.least() - room.parts.most)
        ),
        format!(
            "by the readings and the nominal parts: {} - {} - {} = {}",
            exact(room.bed),
            exact(room.high),
            exact(room.parts.nominal),
            exact(room.bed - room.high - room.parts.nominal)
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, add_spots, bedded, beds, findings_under, levelling, nm};
    use super::*;

    /// 3/4 in heavy hex, ASME B18.2.2: 0.710, 47/64 and 0.758 in; plate washer of 1/4 in, +0.03 in by ASTM A6.
    const MOST: i64 = 19_253_200 + 7_112_000;
    const NOMINAL: i64 = 18_653_125 + 6_350_000;
    /// What a pad of the test job is good to.
    const PAD: i64 = 500_000;

    fn judged(bed: i64) -> Finding {
        findings_under(&bedded(levelling()), &RULE, |plan| beds(plan, bed)).swap_remove(0)
    }

    #[test]
    fn room_that_is_exactly_enough_passes_and_a_nanometre_less_does_not() {
        let enough = judged(MOST + PAD);
        assert_eq!(enough.outcome, Outcome::Pass { margin: Some(nm(0)) });
        let less = judged(MOST + PAD - 1);
        assert_eq!(less.outcome, Outcome::Fail(Level::Ask));
        assert_eq!((less.actual, less.limit), (Some(nm(MOST - 1)), Some(nm(MOST))));
        assert_eq!(
            less.text,
            "A1: the bed may be 26.365199 mm, levelling nut and washer may be 26.3652 mm; too close to call, ask the engineer"
        );
    }

    #[test]
    fn what_has_no_room_at_its_nominal_height_stops() {
        assert_eq!(judged(NOMINAL).outcome, Outcome::Fail(Level::Ask));
        let none = judged(NOMINAL - 1);
        assert_eq!(none.outcome, Outcome::Fail(Level::Stop));
        assert!(none.text.contains("no room for them; do not set"), "{}", none.text);
    }

    #[test]
    fn the_highest_place_that_was_read_counts() {
        let mut job = bedded(levelling());
        add_spots(&mut job, 0, &[("N", -24 * SIXTEENTH + 1), ("S", -30 * SIXTEENTH)], 0);
        let found = findings_under(&job, &RULE, |plan| beds(plan, MOST + PAD));
        assert_eq!(found[0].actual, Some(nm(MOST - 1)), "a nanometre higher at its north side");
        assert_eq!(found[0].level(), Some(Level::Ask));
    }

    #[test]
    fn no_bed_is_no_pass_and_other_ways_are_not_spoken_of() {
        let found = findings_under(&bedded(levelling()), &RULE, super::super::fixture::leave);
        assert!(found.iter().all(|it| matches!(it.outcome, Outcome::NotApplicable(_))) && found.len() == 2);
        let mut job = bedded(levelling());
        job.bases[0].setting = None;
        assert!(findings_under(&job, &RULE, |plan| beds(plan, 1)).is_empty());
    }
}
