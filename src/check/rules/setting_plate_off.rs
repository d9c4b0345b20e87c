//! A setting plate is larger or thinner than published, or not known.
//!
//! Both figures are practice ("about", "discouraged"), so nothing is held: beyond what is published the engineer is asked,
//! what only memory discourages is noted.

use super::set_on::{Said, each_base, on_a_plate};
use super::{Rule, style};
use crate::catalog::{
    SETTING_PLATE_SIDE, SETTING_PLATE_SIDE_LIKED, SETTING_PLATE_THICKNESS, setting_plate_authority,
    setting_plate_liked_authority,
};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome};
use crate::length::Length;
use crate::model::SettingPlate;
use crate::text::{Relation, Style, and};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "setting-plate-off",
    about: "size and thickness of setting plates",
    checks: "no side is over 24 in (over 22 in is noted), and it is about 1/4 in thick or more",
    why: "a large thin plate bends while it is levelled and grouted, and the column stands on what is hollow under it",
    limit: |_, style| {
        let words = format!(
            "a side of {} at most, {} thick or more",
            style.exact(SETTING_PLATE_SIDE),
            style.exact(SETTING_PLATE_THICKNESS)
        );
        Some((words, setting_plate_authority()))
    },
    judge,
};

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let style = style(case.job);
    each_base(case, on_a_plate, |_, plate| said(plate, style))
}

fn said(plate: &SettingPlate, style: Style) -> Said {
    let side = plate.size.map(|[a, b]| a.max(b));
    let ask = |value: Length, limit: Length, relation: Relation, words: [&str; 2]| {
        let shown = style.pair(value, limit, relation);
        let text = format!("the setting plate is {} {}, {} {}", shown.value, words[0], shown.limit, words[1]);
        let (outcome, authority) = match limit == SETTING_PLATE_SIDE_LIKED {
            true => (Outcome::Fail(Level::Note), setting_plate_liked_authority()),
            false => (Outcome::Fail(Level::Ask), setting_plate_authority()),
        };
        Said { outcome, text, pair: Some((value, limit)), arithmetic: Vec::new(), authority }
    };
    match (side, plate.thickness) {
        (Some(side), _) if side > SETTING_PLATE_SIDE => ask(
            side,
            SETTING_PLATE_SIDE,
            Relation::AtMost,
            ["long", "is the most published; ask the engineer for another way to set it"],
        ),
        (_, Some(thick)) if thick < SETTING_PLATE_THICKNESS => ask(
            thick,
            SETTING_PLATE_THICKNESS,
            Relation::AtLeast,
            ["thick", "is about what is published; ask the engineer"],
        ),
        (Some(side), Some(_)) if side > SETTING_PLATE_SIDE_LIKED => {
            ask(side, SETTING_PLATE_SIDE_LIKED, Relation::AtMost, ["long", "and more are discouraged"])
        }
        (Some(side), Some(thick)) => {
            let margin = (SETTING_PLATE_SIDE_LIKED - side).min(thick - SETTING_PLATE_THICKNESS);
            let text =
                format!("the setting plate is {} long and {} thick", style.exact(side), style.exact(thick));
            Said::plainly(Outcome::Pass { margin: Some(margin) }, text, setting_plate_authority())
        }
        (side, thickness) => {
            let missing = [(side.is_none(), "its size"), (thickness.is_none(), "its thickness")];
            let missing: Vec<&str> =
                missing.iter().filter(|(gone, _)| *gone).map(|(_, what)| *what).collect();
            let text = "not all is given of the setting plate; give setting_plate, or ask the engineer";
            Said::plainly(Outcome::Unknown(Level::Ask, and(&missing)), text, setting_plate_authority())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{bedded, findings, nm};
    use super::*;
    use crate::model::Setting;

    const INCH: i64 = 25_400_000;

    fn judged(side: Option<i64>, thickness: Option<i64>) -> Finding {
        let plate =
            SettingPlate { size: side.map(|side| [nm(INCH), nm(side)]), thickness: thickness.map(nm) };
        findings(&bedded(Setting::Plate(plate)), &RULE).swap_remove(0)
    }

    /// AISC Design Guide 1, 2.9.2 (as quoted by a second party): about 1/4 in. thick, 24 in. at most.
    #[test]
    fn twenty_four_inches_pass_with_a_note_and_a_nanometre_more_is_asked_about() {
        let thick = Some(INCH / 4);
        assert_eq!(judged(Some(22 * INCH), thick).outcome, Outcome::Pass { margin: Some(nm(0)) });
        // AISC 303, commentary to 7.6, from memory: over 22 in. is discouraged
        let noted = judged(Some(22 * INCH + 1), thick);
        assert_eq!((noted.level(), noted.authority), (Some(Level::Note), setting_plate_liked_authority()));
        assert_eq!(judged(Some(24 * INCH), thick).level(), Some(Level::Note));
        let over = judged(Some(24 * INCH + 1), thick);
        assert_eq!((over.level(), over.authority), (Some(Level::Ask), setting_plate_authority()));
    }

    #[test]
    fn a_quarter_of_an_inch_is_thick_enough_and_a_nanometre_less_is_asked_about() {
        assert_eq!(judged(Some(INCH), Some(INCH / 4 - 1)).level(), Some(Level::Ask));
        assert_eq!(judged(None, Some(INCH / 4 - 1)).level(), Some(Level::Ask));
        assert_eq!(judged(Some(INCH), Some(INCH)).level(), None);
    }

    #[test]
    fn what_is_not_given_is_asked_for() {
        for (side, thickness) in
            [(None, None), (Some(INCH), None), (None, Some(INCH)), (Some(23 * INCH), None)]
        {
            assert!(matches!(judged(side, thickness).outcome, Outcome::Unknown(Level::Ask, _)));
        }
    }
}
