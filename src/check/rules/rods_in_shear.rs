//! Rods that may carry shear stand free of the concrete for more than half their diameter.

use super::subjects::{does_not_apply, each_column, mark};
use super::{Rule, style};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::model::{lever_arm_authority, without_lever_arm};
use crate::quantity::Force;
use crate::text::Style;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "rods-in-shear",
    about: "what is under the plate against the rods",
    checks: "shims, each piece at its most, or grout under a plate are no thicker than half a rod",
    why: "rods that carry shear bend where the plate stands clear of its concrete; whether they carry it, only `loads` of the job say",
    limit: |_, _| Some(("half the diameter of the rod".to_owned(), lever_arm_authority())),
    judge,
};

/// Judges what is under one plate by the diameter of its rods. Less than half a rod is no pass: whether it is mortar, and
/// how strong, is not known. Rods that the job says carry shear are asked about; where it does not say, it is noted.
fn outcome(raise: Option<Length>, diameter: Length, shear: Option<Force>) -> Outcome {
    match (raise, shear) {
        (_, Some(Force::ZERO)) => does_not_apply("the job says that these rods carry no shear"),
        (None, _) => does_not_apply("no raise is planned"),
        (Some(raise), _) if raise <= Length::ZERO => does_not_apply("nothing is under its plate"),
        (Some(raise), shear) if raise > without_lever_arm(diameter) => {
            Outcome::Fail(if shear.is_some() { Level::Ask } else { Level::Note })
        }
        (Some(_), _) => does_not_apply("what is under its plate is no thicker than half a rod"),
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_column(case, |case, column| {
        let base = case.base(column.index);
        let (diameter, shear) = (base.rods.diameter, base.loads.shear);
        let raise = column.raise.map(|raise| raise.most);
        let outcome = outcome(raise, diameter, shear);
        let plainly = column.raise.is_some_and(|raise| raise.nominal > without_lever_arm(diameter));
        let is = if plainly { "is" } else { "may be" };
        let text = sentence(mark(case, column), &outcome, is, (diameter, shear), style(case.job));
        Finding {
            subject: Subject::column(column.index),
            text,
            outcome,
            actual: raise,
            limit: raise.map(|_| without_lever_arm(diameter)),
            arithmetic: raise.map_or_else(Vec::new, |raise| arithmetic(raise, diameter, style(case.job))),
            authority: lever_arm_authority(),
        }
    })
}

fn sentence(
    mark: &str,
    outcome: &Outcome,
    is: &str,
    (diameter, shear): (Length, Option<Force>),
    style: Style,
) -> String {
    let half = style.write(without_lever_arm(diameter), Rounding::Down);
    match (outcome, shear) {
        (Outcome::Fail(_), Some(shear)) => format!(
            "{mark}: its rods carry {} of shear, and what is under the plate {is} thicker than half a rod, {half}; ask the \
             engineer",
            style.force_exact(shear)
        ),
        (Outcome::Fail(_), None) => format!(
            "{mark}: what is under the plate {is} thicker than half a rod, {half}; ask the engineer if these rods carry shear"
        ),
        (Outcome::NotApplicable(why) | Outcome::Unknown(_, why), _) => format!("{mark}: {why}"),
        (Outcome::Pass { .. }, _) => mark.to_owned(),
    }
}

fn arithmetic(raise: Length, diameter: Length, style: Style) -> Vec<String> {
    vec![format!(
        "under the plate {} at the most, rod {} / 2 = {}",
        style.exact(raise),
        style.exact(diameter),
        style.exact(without_lever_arm(diameter))
    )]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::read_force;

    /// EN 1992-4, 6.2.2.3(1), as quoted by two second parties: M20 takes 10 mm, M24 12 mm.
    #[test]
    fn m20_takes_10_mm_and_m24_takes_12_and_a_nanometre_more_is_noted() {
        for (diameter, most) in [(20, 10), (24, 12)].map(|(rod, most)| (mm(rod), mm(most))) {
            assert!(
                matches!(outcome(Some(most), diameter, None), Outcome::NotApplicable(_)),
                "not noted, and no pass"
            );
            let over = most + Length::from_nm(1);
            assert_eq!(outcome(Some(over), diameter, None), Outcome::Fail(Level::Note));
        }
    }

    #[test]
    fn rods_that_carry_shear_are_asked_about_and_rods_that_carry_none_are_not() {
        let told = |shear: &str| outcome(Some(mm(40)), mm(24), read_force(shear).ok());
        assert_eq!(told("12 kip"), Outcome::Fail(Level::Ask));
        assert!(matches!(told("0"), Outcome::NotApplicable(_)));
    }

    #[test]
    fn no_raise_is_no_pass() {
        assert!(matches!(outcome(None, mm(20), None), Outcome::NotApplicable(_)));
    }

    fn mm(mm: i64) -> Length {
        Length::from_nm(mm * 1_000_000)
    }
}
