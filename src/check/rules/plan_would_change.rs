//! A pad that is off by as much as its reading may be changes the plan.

use super::subjects::{KEPT, does_not_apply, each_column, house_rule, mark};
use super::wording::some_of;
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::{Case, ColumnCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::plan::Loose;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "plan-would-change",
    about: "pads that change the plan where they are off by their own +-",
    checks: "the plan stays the same with any one pad higher or lower by its own +-",
    why: "a reading near the edge between two plans is worth reading again before shims are cut",
    limit: |_, _| Some(("its own +-, either way".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("each pad by itself, its +- at 95 %")
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_column(case, |case, column| {
        let loose = loose(case, column);
        let outcome = match (&case.plan.firm, column.pad) {
            (_, None) => does_not_apply("its pad is not measured"),
            (None, _) => does_not_apply("it was not tried"),
            _ if loose.is_empty() => KEPT,
            _ => Outcome::Fail(Level::Note),
        };
        let plus_minus = column.pad.map(|pad| pad.plus_minus);
        Finding {
            subject: Subject::column(column.index),
            text: sentence(case, column, &outcome),
            actual: loose.iter().map(|it| it.off.abs()).next(),
            limit: plus_minus.filter(|_| case.plan.firm.is_some()),
            arithmetic: loose.iter().map(|it| told(case, it)).collect(),
            outcome,
            authority: authority(),
        }
    })
}

fn loose<'a>(case: &Case<'a>, column: &ColumnCase) -> Vec<&'a Loose> {
    let all = case.plan.firm.iter().flat_map(|firm| &firm.loose);
    all.filter(|loose| loose.column == column.index).collect()
}

fn sentence(case: &Case<'_>, column: &ColumnCase, outcome: &Outcome) -> String {
    let mark = mark(case, column);
    let anew = case.plan.firm.as_ref().is_some_and(|firm| firm.planned_anew);
    match (outcome, anew) {
        (Outcome::NotApplicable(why), _) => format!("{mark}: {why}"),
        (Outcome::Fail(_), true) => {
            format!(
                "{mark}: the plan would change if this pad were off by its own +-; read it again to be sure"
            )
        }
        (Outcome::Fail(_), false) => format!(
            "{mark}: the plan would leave its limits if this pad were off by its own +-; read it again to be sure"
        ),
        (_, true) => format!("{mark}: the plan stays if this pad is off by its own +-"),
        (_, false) => format!(
            "{mark}: the plan keeps its limits if this pad is off by its own +- (whether it stays the best was not tried)"
        ),
    }
}

/// Tells one way of being off: `1/16" lower: something else at A3 and A4`.
fn told(case: &Case<'_>, loose: &Loose) -> String {
    let off = style(case.job).write(loose.off.abs(), Rounding::Up);
    let way = if loose.off < Length::ZERO { "lower" } else { "higher" };
    if loose.changed.is_empty() {
        return format!("{off} {way}: a limit is not kept");
    }
    format!("{off} {way}: something else at {}", some_of(&case.marks(&loose.changed)))
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, findings_under};
    use super::*;
    use crate::plan::Firmness;

    #[test]
    fn a_pad_that_changes_the_plan_is_noted_with_the_columns() {
        let off = Length::from_nm(1_587_500);
        let found = findings_under(&clean_job(), &RULE, |plan| {
            let loose = vec![Loose { column: 1, off: -off, changed: vec![0, 1] }];
            plan.firm = Some(Firmness { loose, planned_anew: true });
        });
        assert_eq!(found[0].outcome, KEPT);
        assert_eq!(found[1].level(), Some(Level::Note));
        assert_eq!(found[1].arithmetic, ["1/16\" lower: something else at A1 and A2"]);
    }

    #[test]
    fn what_was_not_tried_is_not_said_to_be_firm() {
        let found = findings(&clean_job(), &RULE);
        assert!(matches!(found[0].outcome, Outcome::NotApplicable(_)), "{:?}", found[0]);
        let found = findings_under(&clean_job(), &RULE, |plan| {
            plan.firm = Some(Firmness { loose: Vec::new(), planned_anew: false });
        });
        assert!(found[0].text.ends_with("(whether it stays the best was not tried)"), "{}", found[0].text);
    }
}
