//! Nobody has calculated whether what holds the plate bears the loads of erection.
//!
//! A job holds no loads, so this cannot be answered in it: it is a note wherever the job says what the plate stands on, and a
//! question on the engineer's page, and holds nothing.

use super::Rule;
use super::set_on::{Said, each_base};
use crate::catalog::{Authority, erection_authority, lightly_loaded_authority};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome};
use crate::model::Setting;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "support-not-checked",
    about: "what holds the plate while the steel goes up",
    checks: "the loads of erection are not part of a job, so neither shims, packs, levelling nuts, setting plate nor concrete are \
             checked for them",
    why: "shims, packs or nuts that give way drop the column, and more than the column may hang on it",
    limit: |_, _| Some(("adequate to transfer the construction loads".to_owned(), erection_authority())),
    judge,
};

/// Gives what is said of a way to set a plate, and on whose word; nothing of a plate on the concrete itself.
fn words(setting: &Setting) -> Option<(&'static str, Authority)> {
    Some(match setting {
        Setting::Pad => return None,
        Setting::Shims => (
            "whether its shims and the concrete under them bear the loads of erection is not checked here",
            erection_authority(),
        ),
        Setting::Packs(_) => (
            "until the grout is hard its packs alone hold the column; whether they and the concrete bear that is not checked here",
            erection_authority(),
        ),
        Setting::Nuts(_) => (
            "until the grout is hard its rods alone hold the column, for light loads only; whether they bear that is not checked here",
            lightly_loaded_authority(),
        ),
        Setting::Plate(_) => (
            "its setting plate is level and its grout hard before the column comes; whether it bears that is not checked here",
            erection_authority(),
        ),
    })
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_base(
        case,
        |base| base.setting.as_ref().and_then(words),
        |_, (text, authority)| Said::plainly(Outcome::Fail(Level::Note), text, authority),
    )
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{bedded, clean_job, findings, four_packs, levelling};
    use super::*;
    use crate::model::SettingPlate;

    #[test]
    fn every_way_but_the_pad_is_noted_once_a_base() {
        let ways = [
            levelling(),
            Setting::Packs(four_packs()),
            Setting::Plate(SettingPlate::default()),
            Setting::Shims,
        ];
        for way in ways {
            let found = findings(&bedded(way), &RULE);
            assert_eq!((found.len(), found[0].level()), (1, Some(Level::Note)));
            assert!(found[0].text.ends_with("is not checked here"), "{}", found[0].text);
        }
        assert!(findings(&bedded(Setting::Pad), &RULE).is_empty());
        assert!(findings(&clean_job(), &RULE).is_empty());
    }
}
