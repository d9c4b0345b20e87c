//! Packs that stay in have too little grout over their sides, or nobody has said whether they stay.
//!
//! Packs that come out are noted: they carry nothing after that, so the grout must bear before they go.

use super::set_on::{Said, each_base, on_packs};
use super::{Rule, style};
use crate::catalog::{LEAST_COVER, cover_authority};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome};
use crate::model::Packs;
use crate::text::Relation;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "packs-cover-thin",
    about: "grout over packs that stay in",
    checks: "packs that are left in have 25 mm of grout over their sides at least; packs that are taken out carry nothing after",
    why: "steel near the face of the grout rusts and spalls it, and a pack that is taken out too soon drops the column",
    limit: |_, style| Some((format!("{} at least", style.exact(LEAST_COVER)), cover_authority())),
    judge,
};

fn outcome(packs: &Packs) -> Outcome {
    match (packs.left_in, packs.cover) {
        (None, _) => Outcome::Unknown(Level::Ask, "whether packs stay".to_owned()),
        (Some(false), _) => Outcome::Fail(Level::Note),
        (Some(true), None) => Outcome::Unknown(Level::Ask, "the cover".to_owned()),
        (Some(true), Some(cover)) if cover < LEAST_COVER => Outcome::Fail(Level::Ask),
        (Some(true), Some(cover)) => Outcome::Pass { margin: Some(cover - LEAST_COVER) },
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let style = style(case.job);
    each_base(case, on_packs, |_, packs| {
        let outcome = outcome(packs);
        let cover = packs.cover.filter(|_| packs.left_in == Some(true));
        let text = match (&outcome, cover) {
            (Outcome::Fail(Level::Note), _) => {
                "packs are taken out: they carry nothing after that; only once the grout bears, and their places are filled"
                    .to_owned()
            }
            (_, Some(cover)) => {
                let shown = style.pair(cover, LEAST_COVER, Relation::AtLeast);
                let end = if matches!(outcome, Outcome::Fail(_)) { "; ask the engineer" } else { "" };
                format!("{} of grout over packs that stay, {} is the least{end}", shown.value, shown.limit)
            }
            (Outcome::Unknown(_, what), None) if what == "the cover" => format!(
                "the grout over packs that stay is not given, {} is the least; give cover, or ask the engineer",
                style.exact(LEAST_COVER)
            ),
            _ => "whether packs stay in the grout is not given; give left_in, or ask the engineer".to_owned(),
        };
        let pair = cover.map(|cover| (cover, LEAST_COVER));
        Said { outcome, text, pair, arithmetic: Vec::new(), authority: cover_authority() }
    })
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{bedded, findings, four_packs, nm};
    use super::*;
    use crate::model::Setting;

    fn judged(left_in: Option<bool>, cover: Option<i64>) -> Finding {
        let packs = Packs { left_in, cover: cover.map(nm), ..four_packs() };
        findings(&bedded(Setting::Packs(packs)), &RULE).swap_remove(0)
    }

    /// EN 1090-2:2018, 9.5.4 (as quoted by a second party): 25 mm.
    #[test]
    fn twenty_five_millimetres_pass_and_a_nanometre_less_is_asked_about() {
        assert_eq!(judged(Some(true), Some(25_000_000)).outcome, Outcome::Pass { margin: Some(nm(0)) });
        let thin = judged(Some(true), Some(24_999_999));
        assert_eq!((thin.level(), thin.actual), (Some(Level::Ask), Some(nm(24_999_999))));
        assert!(thin.text.contains("24.999999 mm of grout"), "{}", thin.text);
    }

    #[test]
    fn what_is_not_said_is_asked_for_and_packs_that_come_out_are_noted() {
        assert!(matches!(judged(None, None).outcome, Outcome::Unknown(Level::Ask, _)));
        assert!(matches!(judged(None, Some(30_000_000)).outcome, Outcome::Unknown(Level::Ask, _)));
        assert!(matches!(judged(Some(true), None).outcome, Outcome::Unknown(Level::Ask, _)));
        let out = judged(Some(false), None);
        assert_eq!(out.outcome, Outcome::Fail(Level::Note));
        assert!(out.text.contains("they carry nothing after that"), "{}", out.text);
    }
}
