//! A setting plate takes so much of the bed that too little grout is left under it.

use super::set_on::{NO_BED, Said, bed, each_column, on_a_plate};
use super::subjects::{does_not_apply, house_rule};
use super::{Rule, style};
use crate::catalog::{Authority, Grout};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome};
use crate::length::Length;
use crate::text::{Relation, Style};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "setting-plate-bed-thin",
    about: "grout under setting plates",
    checks: "planned bed - setting plate is no less than the least bed of grout",
    why: "grout that is too thin does not flow under the whole plate",
    limit: |limits, style| {
        let least = &limits.grout.as_ref()?.least;
        Some((format!("{} at least", style.exact(least.value)), least.authority.clone()))
    },
    judge,
};

fn authority(grout: Option<&Grout>) -> Authority {
    grout.map_or_else(|| house_rule("no limits of grout are set"), |grout| grout.least.authority.clone())
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let style = style(case.job);
    let grout = case.job.limits.tables.grout.as_ref();
    each_column(case, on_a_plate, |column, plate| match (bed(case, column), plate.thickness, grout) {
        (Some(bed), Some(thick), Some(grout)) => said(bed, thick, grout, style),
        (None, ..) => Said::plainly(does_not_apply(NO_BED), NO_BED, authority(grout)),
        (_, _, None) => {
            let why = "no limits of grout are set";
            Said::plainly(does_not_apply(why), why, authority(grout))
        }
        (Some(_), None, _) => Said::plainly(
            Outcome::Unknown(Level::Ask, "the thickness of the setting plate".to_owned()),
            "how much grout is left under its setting plate is not known; ask the engineer",
            authority(grout),
        ),
    })
}

fn said(bed: Length, thick: Length, grout: &Grout, style: Style) -> Said {
    let (left, least) = (bed - thick, grout.least.value);
    let shown = style.pair(left, least, Relation::AtLeast);
    let text =
        format!("{} of grout is left under the setting plate, {} is the least", shown.value, shown.limit);
    let (outcome, text) = match left < least {
        true => (Outcome::Fail(Level::Ask), format!("{text}; ask the engineer")),
        false => (Outcome::Pass { margin: Some(left - least) }, text),
    };
    let arithmetic = vec![
        "bed - setting plate".to_owned(),
        format!("{} - {} = {}", style.exact(bed), style.exact(thick), style.exact(left)),
    ];
    Said { outcome, text, pair: Some((left, least)), arithmetic, authority: grout.least.authority.clone() }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, bedded, beds, findings_under, nm, the_table};
    use super::*;
    use crate::model::{Setting, SettingPlate};

    fn judged(bed: i64, thickness: Option<i64>) -> Finding {
        let plate = SettingPlate { size: None, thickness: thickness.map(nm) };
        findings_under(&bedded(Setting::Plate(plate)), &RULE, |plan| beds(plan, bed)).swap_remove(0)
    }

    /// The test job wants an inch of grout; the setting plate is 1/4 in.
    #[test]
    fn an_inch_left_passes_and_a_nanometre_less_is_asked_about() {
        let quarter = Some(4 * SIXTEENTH);
        assert_eq!(judged(20 * SIXTEENTH, quarter).outcome, Outcome::Pass { margin: Some(nm(0)) });
        let thin = judged(20 * SIXTEENTH - 1, quarter);
        assert_eq!((thin.level(), thin.actual), (Some(Level::Ask), Some(nm(16 * SIXTEENTH - 1))));
        assert_eq!(thin.authority, the_table());
        assert!(matches!(judged(20 * SIXTEENTH, None).outcome, Outcome::Unknown(Level::Ask, _)));
    }
}
