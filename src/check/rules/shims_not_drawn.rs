//! Shims are planned under a plate that the drawings set on the concrete itself.

use super::set_on::{Said, each_column};
use super::subjects::{KEPT, does_not_apply, house_rule};
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome};
use crate::length::Length;
use crate::model::Setting;
use crate::plan::Action;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "shims-not-drawn",
    about: "shims under plates that are drawn on the concrete itself",
    checks: "nothing is planned under a plate whose base has seat_on = \"pad\"",
    why: "a plate that was to bear on all of its concrete bears on its shims alone, and nobody has agreed to that",
    limit: |_, _| Some(("nothing under the plate".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("what departs from the drawings is the engineer's question")
}

/// Judges what is planned; grout and grinding are asked about by rules of their own.
fn outcome(action: Action) -> Outcome {
    match action {
        Action::NoShim => KEPT,
        Action::Shim => Outcome::Fail(Level::Ask),
        Action::Grout => does_not_apply("grout is planned, see grout-planned"),
        Action::Grind => does_not_apply("grinding is planned, see grind-planned"),
        Action::Refer | Action::Unmeasured => does_not_apply("nothing is planned"),
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let style = style(case.job);
    let on_the_pad = |base: &crate::model::Base| matches!(base.setting, Some(Setting::Pad)).then_some(());
    each_column(case, on_the_pad, |column, ()| {
        let choice = case.choice(column.index);
        let outcome = outcome(choice.action);
        let height = choice.raise.unwrap_or(Length::ZERO);
        let text = match &outcome {
            Outcome::Fail(_) => format!(
                "{} of shims is planned, the drawings set the plate on the concrete itself; ask the engineer before setting",
                style.exact(height)
            ),
            Outcome::NotApplicable(why) => why.clone(),
            _ => "nothing is planned under the plate, as drawn".to_owned(),
        };
        let pair = matches!(outcome, Outcome::Fail(_)).then_some((height, Length::ZERO));
        Said { outcome, text, pair, arithmetic: Vec::new(), authority: authority() }
    })
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, clean_job, findings_under, nm};
    use super::*;
    use crate::plan::StackPiece;

    fn judged(setting: Option<Setting>, action: Action) -> Option<Finding> {
        let mut job = clean_job();
        job.bases[0].setting = setting;
        let mut found = findings_under(&job, &RULE, |plan| {
            plan.choices[0].action = action;
            plan.choices[0].raise = Some(nm(2 * SIXTEENTH));
            plan.choices[0].stack = vec![StackPiece { thickness: nm(2 * SIXTEENTH), count: 1 }];
        });
        (!found.is_empty()).then(|| found.swap_remove(0))
    }

    #[test]
    fn shims_under_a_plate_that_is_drawn_on_the_pad_are_asked_about() {
        let found = judged(Some(Setting::Pad), Action::Shim).unwrap();
        assert_eq!((found.level(), found.actual), (Some(Level::Ask), Some(nm(2 * SIXTEENTH))));
        assert!(found.text.starts_with("A1: 1/8\" of shims is planned, the drawings set"), "{}", found.text);
        assert_eq!(judged(Some(Setting::Pad), Action::NoShim).unwrap().outcome, KEPT);
        for action in [Action::Grout, Action::Grind, Action::Refer, Action::Unmeasured] {
            let found = judged(Some(Setting::Pad), action).unwrap();
            assert!(matches!(found.outcome, Outcome::NotApplicable(_)), "{action:?}");
        }
    }

    #[test]
    fn of_shims_that_are_drawn_and_of_what_is_not_said_nothing_is_said() {
        assert!(judged(Some(Setting::Shims), Action::Shim).is_none());
        assert!(judged(None, Action::Shim).is_none());
    }
}
