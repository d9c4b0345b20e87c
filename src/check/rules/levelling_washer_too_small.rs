//! The washer under a plate on levelling nuts does not cover the hole.

use super::cover::cover;
use super::set_on::{Said, each_base, on_nuts};
use super::subjects::house_rule;
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome};
use crate::length::Rounding;
use crate::model::{Base, Levelling};
use crate::text::{Relation, Style};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "levelling-washer-too-small",
    about: "washers between levelling nuts and plates",
    checks: "the washer on a levelling nut is as wide as the one over the plate must be: 2 x hole - rod, and the hole table over \
             an oversize hole",
    why: "the plate comes down over a nut that the hole lets through, and the column drops or leans",
    limit: |_, _| Some(("2 x hole - rod, and the hole table over oversize holes".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule(
        "what covers the hole from above covers it from below: AISC Design Guide 1, 2nd ed., 2.6 and Table 2.3, of washers over \
         the plate",
    )
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let style = style(case.job);
    each_base(case, on_nuts, |base, levelling| said(base, levelling, style))
}

fn said(base: &Base, levelling: &Levelling, style: Style) -> Said {
    let unknown = |what: &str| Outcome::Unknown(Level::Ask, what.to_owned());
    let Some(cover) = cover(base) else {
        let text = "the holes in the plate are not given; give holes, or ask the engineer about the levelling washers";
        return Said::plainly(unknown("the holes in the plate"), text, authority());
    };
    let needed = cover.outer.0;
    let wanted = style.write(needed, Rounding::Up);
    let hole = base.plate.holes.unwrap_or_default();
    let arithmetic = vec![format!(
        "2 x {} - {} = {}, and what the hole table asks for: {}",
        style.exact(hole),
        style.exact(base.rods.diameter),
        style.exact(hole * 2 - base.rods.diameter),
        style.exact(needed)
    )];
    let outer = levelling.washer.as_ref().and_then(|washer| washer.outer);
    let (outcome, text) = match (&levelling.washer, outer) {
        (None, _) => (
            Outcome::Fail(Level::Ask),
            format!(
                "no washer is given between levelling nut and plate; one of {wanted} is needed, ask the engineer"
            ),
        ),
        (Some(_), None) => (
            unknown("the outer size of the levelling washer"),
            format!(
                "the outer size of the levelling washer is not known; measure it, {wanted} covers the hole"
            ),
        ),
        (Some(_), Some(outer)) => {
            let shown = style.pair(outer, needed, Relation::AtLeast);
            let text =
                format!("the levelling washer is {} wide, {} covers the hole", shown.value, shown.limit);
            match outer >= needed {
                true => (Outcome::Pass { margin: Some(outer - needed) }, text),
                false => (Outcome::Fail(Level::Ask), format!("{text}; use a wider one, ask the engineer")),
            }
        }
    };
    Said { outcome, text, pair: outer.map(|outer| (outer, needed)), arithmetic, authority: authority() }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, bedded, findings, levelling, nm};
    use super::*;
    use crate::model::Setting;

    fn judged(change: impl Fn(&mut Levelling)) -> Finding {
        let Setting::Nuts(mut nuts) = levelling() else { panic!("no nuts") };
        change(&mut nuts);
        findings(&bedded(Setting::Nuts(nuts)), &RULE).swap_remove(0)
    }

    /// Hole 15/16, rod 3/4: 1-1/8 covers it.
    #[test]
    fn the_washer_covers_the_hole_or_is_asked_about() {
        let wide = |outer: i64| {
            judged(|nuts| nuts.washer.iter_mut().for_each(|washer| washer.outer = Some(nm(outer))))
        };
        assert_eq!(wide(18 * SIXTEENTH).outcome, Outcome::Pass { margin: Some(nm(0)) });
        let small = wide(18 * SIXTEENTH - 1);
        assert_eq!((small.level(), small.limit), (Some(Level::Ask), Some(nm(18 * SIXTEENTH))));
    }

    #[test]
    fn no_washer_and_no_size_of_it_are_no_pass() {
        let none = judged(|nuts| nuts.washer = None);
        assert_eq!(none.outcome, Outcome::Fail(Level::Ask));
        let unknown = judged(|nuts| nuts.washer.iter_mut().for_each(|washer| washer.outer = None));
        assert!(matches!(unknown.outcome, Outcome::Unknown(Level::Ask, _)));
        let mut job = bedded(levelling());
        job.bases[0].plate.holes = None;
        assert!(matches!(findings(&job, &RULE)[0].outcome, Outcome::Unknown(Level::Ask, _)));
    }
}
