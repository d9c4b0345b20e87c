//! A pack is narrower than packs are published to be.
//!
//! The figure is one of practice ("about"), and what a pack bears on the concrete is another question: asked, no hold.

use super::set_on::{Said, each_base, on_packs};
use super::subjects::does_not_apply;
use super::{Rule, style};
use crate::catalog::{PACK_WIDTH, pack_authority};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome};
use crate::length::Length;
use crate::text::Relation;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "pack-too-narrow",
    about: "how wide packs are",
    checks: "the smaller side of a pack is about 4 in or more, taken as 100 mm",
    why: "a high narrow pack shifts or tips, and presses the concrete under it harder",
    limit: |_, style| Some((format!("about {}", style.exact(PACK_WIDTH)), pack_authority())),
    judge,
};

fn outcome(width: Option<Length>) -> Outcome {
    match width {
        None => does_not_apply("the size of a pack is not given, see packs-do-not-fit"),
        Some(width) if width < PACK_WIDTH => Outcome::Fail(Level::Ask),
        Some(width) => Outcome::Pass { margin: Some(width - PACK_WIDTH) },
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let style = style(case.job);
    each_base(case, on_packs, |_, packs| {
        let width = packs.size.map(|[a, b]| a.min(b));
        let outcome = outcome(width);
        let text = match (&outcome, width) {
            (Outcome::NotApplicable(why), _) => why.clone(),
            (_, width) => {
                let shown = style.pair(width.unwrap_or_default(), PACK_WIDTH, Relation::AtLeast);
                let end = if matches!(outcome, Outcome::Fail(_)) { "; ask the engineer" } else { "" };
                format!("a pack is {} wide, about {} is published{end}", shown.value, shown.limit)
            }
        };
        let pair = width.map(|width| (width, PACK_WIDTH));
        Said { outcome, text, pair, arithmetic: Vec::new(), authority: pack_authority() }
    })
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{bedded, findings, four_packs, nm};
    use super::*;
    use crate::model::{Packs, Setting};

    /// AISC Design Guide 1, 2.9.3 (as quoted by second parties): about 4 in. (100 mm) wide.
    #[test]
    fn a_hundred_millimetres_pass_either_way_round_and_a_nanometre_less_is_asked_about() {
        let judged = |a: i64, b: i64| {
            let packs = Packs { size: Some([nm(a), nm(b)]), ..four_packs() };
            findings(&bedded(Setting::Packs(packs)), &RULE).swap_remove(0).outcome
        };
        assert_eq!(judged(100_000_000, 200_000_000), Outcome::Pass { margin: Some(nm(0)) });
        assert_eq!(judged(101_600_000, 101_600_000), Outcome::Pass { margin: Some(nm(1_600_000)) });
        assert_eq!(judged(200_000_000, 99_999_999), Outcome::Fail(Level::Ask));
        assert!(matches!(outcome(None), Outcome::NotApplicable(_)));
    }
}
