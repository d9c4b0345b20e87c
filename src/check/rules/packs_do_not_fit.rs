//! Packs do not go in at the edges of the plate, clear of its rod holes.
//!
//! Where the packs stand a job does not say; the middles of the edges are tried, either way round. What does not fit there may
//! well be drawn elsewhere, so it is asked about and holds nothing.

use super::set_on::{Said, each_base, on_packs};
use super::subjects::{KEPT, does_not_apply, house_rule};
use super::{Rule, style};
use crate::catalog::{Authority, LEAST_COVER};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome};
use crate::check::pack_places::Under;
use crate::length::Length;
use crate::model::{Base, Packs};
use crate::text::{Style, and};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "packs-do-not-fit",
    about: "room for packs under the plate",
    checks: "two or four packs go in at the middles of the plate's edges, their cover inside them, clear of the rod holes and of \
             each other",
    why: "a pack that does not go in where it is drawn is put where it fits, and nobody has looked whether it holds there",
    limit: |_, _| Some(("at the middles of the edges, its cover inside them".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule(
        "laid out as rectangles; at the four edges by AISC Design Guide 1, 2nd ed., 2.9.3, with the grout cover of packs that \
         stay inside the edges of the plate",
    )
}

/// Gives the grout that packs keep to the edges of the plate; none where that is not known.
fn cover(packs: &Packs) -> Option<Length> {
    match packs.left_in {
        Some(false) => Some(Length::ZERO),
        // never less than what is published, however little is drawn
        Some(true) => packs.cover.map(|cover| cover.max(LEAST_COVER)),
        None => None,
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let style = style(case.job);
    each_base(case, on_packs, |base, packs| said(base, packs, style))
}

fn said(base: &Base, packs: &Packs, style: Style) -> Said {
    let known = [
        (base.plate.size.is_none(), "the size of the plate"),
        (base.rods.pattern.is_none(), "the pattern of the rods"),
        (base.plate.holes.is_none(), "the holes in the plate"),
        (packs.size.is_none(), "the size of a pack"),
        (packs.count.is_none(), "the number of packs"),
        (cover(packs).is_none(), "whether packs stay, and their cover"),
    ];
    let missing: Vec<&str> = known.iter().filter(|(missing, _)| *missing).map(|(_, what)| *what).collect();
    let all = (base.plate.size, base.rods.pattern, base.plate.holes, packs.size, cover(packs), packs.count);
    let (Some(plate), Some(pattern), Some(hole), Some(pack), Some(cover), Some(count)) = all else {
        let text = "not all is given that tells whether the packs fit between the rods; ask the engineer where they stand";
        return Said::plainly(Outcome::Unknown(Level::Ask, and(&missing)), text, authority());
    };
    let under = Under { plate, pattern, hole, pack, cover };
    let fits = match (count, base.rods.count) {
        (1, _) => {
            let why = "one pack is asked about by itself, see packs-not-around";
            return Said::plainly(does_not_apply(why), why, authority());
        }
        (2, 4) => under.two_fit(),
        (4, 4) => under.four_fit(),
        _ => {
            let text = format!(
                "{count} packs and {} rods are not laid out here; ask the engineer where the packs stand",
                base.rods.count
            );
            return Said::plainly(
                Outcome::Unknown(Level::Ask, "where the packs stand".to_owned()),
                text,
                authority(),
            );
        }
    };
    let size = |[a, b]: [Length; 2]| format!("{} x {}", style.exact(a), style.exact(b));
    let what = format!("{count} packs of {}", size(pack));
    let (outcome, text) = match fits {
        true => (KEPT, format!("{what} go in at the middles of the edges, clear of the holes")),
        false => (
            Outcome::Fail(Level::Ask),
            format!(
                "{what} do not go in at the middles of the edges, clear of the holes; ask the engineer where they stand"
            ),
        ),
    };
    let arithmetic = vec![format!(
        "plate {}, rods {} apart, holes {}, cover {} inside the edges",
        size(plate),
        size(pattern),
        style.exact(hole),
        style.exact(cover)
    )];
    Said { outcome, text, pair: None, arithmetic, authority: authority() }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, bedded, findings, four_packs, nm};
    use super::*;
    use crate::model::Setting;

    fn judged(change: impl Fn(&mut Base), packs: Packs) -> Finding {
        let mut job = bedded(Setting::Packs(packs));
        change(&mut job.bases[0]);
        findings(&job, &RULE).swap_remove(0)
    }

    /// A plate of 16 x 16 in with holes of 15/16 in, packs of 4 x 4 in: they reach 2 in to each side, so rods 4-15/16 in apart
    /// just leave them room.
    #[test]
    fn packs_fit_to_the_nanometre_between_the_holes() {
        let apart =
            |pattern: i64| judged(|base| base.rods.pattern = Some([nm(pattern); 2]), four_packs()).outcome;
        assert_eq!(apart(79 * SIXTEENTH), KEPT);
        // rods nearer than that stand in the way from there on
        assert_eq!(apart(79 * SIXTEENTH - 1), Outcome::Fail(Level::Ask));
    }

    #[test]
    fn cover_is_kept_inside_the_plate_and_never_less_than_published() {
        let narrow = |side: i64| judged(|base| base.plate.size = Some([nm(side); 2]), four_packs()).outcome;
        // two packs deep, one pack wide, and 1 in of cover on both sides
        assert_eq!(narrow(12 * 16 * SIXTEENTH + 32 * SIXTEENTH), KEPT);
        assert_eq!(narrow(12 * 16 * SIXTEENTH + 32 * SIXTEENTH - 1), Outcome::Fail(Level::Ask));
        let none = judged(|_| {}, Packs { cover: Some(nm(0)), ..four_packs() });
        assert!(
            none.arithmetic[0].contains("cover 25 mm") || none.arithmetic[0].contains("63/64"),
            "{none:?}"
        );
    }

    #[test]
    fn what_is_not_known_is_named_and_asked_for() {
        let found = judged(
            |base| (base.plate.size, base.rods.pattern) = (None, None),
            Packs { size: None, ..four_packs() },
        );
        let Outcome::Unknown(Level::Ask, missing) = &found.outcome else { panic!("{found:?}") };
        assert_eq!(missing, "the size of the plate, the pattern of the rods and the size of a pack");
        for (count, rods) in [(6, 4), (4, 6)] {
            let found = judged(|base| base.rods.count = rods, Packs { count: Some(count), ..four_packs() });
            assert!(matches!(found.outcome, Outcome::Unknown(Level::Ask, _)), "{found:?}");
        }
        let one = judged(|_| {}, Packs { count: Some(1), ..four_packs() });
        assert!(matches!(one.outcome, Outcome::NotApplicable(_)));
    }
}
