//! The plan does what cannot be done, or not what it says: a fault of the plan, whoever made it.

use super::subjects::{KEPT, does_not_apply, each_column, house_rule, mark};
use super::{Rule, style};
use crate::catalog::{Authority, Limits};
use crate::check::case::{Case, ColumnCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::Length;
use crate::plan::{Action, Choice};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "plan-impossible",
    about: "what the plan does at each column, whoever made the plan",
    checks: "the stack makes the raise and is of the job's shims; grout and grinding lie on the steps of their limits; on a \
             designed bed there is grout and nothing else; a column without a plan has no raise",
    why: "a plan that says one thing and does another is set wrong",
    limit: |_, _| Some(("every column".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("what the plan says is what is done")
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_column(case, |case, column| {
        let mark = mark(case, column);
        let fault = fault(case, column);
        let (outcome, text) = match (&fault, case.choice(column.index).action) {
            (Some(fault), _) => (
                Outcome::Fail(Level::Stop),
                format!("{mark}: the plan cannot be meant so, {fault}; do not set, plan it again"),
            ),
            (None, Action::Unmeasured) => {
                let why = "its pad is not measured";
                (does_not_apply(why), format!("{mark}: {why}"))
            }
            (None, _) => (KEPT, format!("{mark}: what the plan says can be done")),
        };
        Finding::said(Subject::column(column.index), text, outcome, authority())
    })
}

/// Finds what is wrong with the choice at a column.
fn fault(case: &Case<'_>, column: &ColumnCase) -> Option<String> {
    let choice = case.choice(column.index);
    let style = style(case.job);
    if choice.action != Action::Shim && !choice.stack.is_empty() {
        return Some("it lists shims where it takes none".to_owned());
    }
    let raise = match (choice.action, choice.raise) {
        (Action::Refer | Action::Unmeasured, Some(_)) => {
            return Some("it raises a column it does not plan".to_owned());
        }
        (Action::Refer, None) => return None,
        (Action::Unmeasured, None) if column.pad.is_some() => {
            return Some("its pad is measured and it is planned as if it were not".to_owned());
        }
        (Action::Unmeasured, None) => return None,
        (_, None) => return Some("it does not say how far the plate is raised".to_owned()),
        (_, Some(raise)) => raise,
    };
    let limits = &case.job.limits.tables;
    let bed = case.base(column.index).bed;
    if bed > Length::ZERO && choice.action != Action::Grout {
        return Some(format!("the drawings have a bed of {} and it is set without grout", style.exact(bed)));
    }
    let told = match choice.action {
        Action::NoShim if raise != Length::ZERO => "nothing lies under the plate and yet it is raised",
        Action::Shim => return stack_fault(case, choice, raise),
        Action::Grout if !is_bed(limits, raise) => "there is no grout bed of this height in the limits",
        Action::Grind if !is_depth(limits, -raise) => "there is no grinding of this depth in the limits",
        _ => return None,
    };
    Some(format!("{told} ({})", style.exact(raise)))
}

fn stack_fault(case: &Case<'_>, choice: &Choice, raise: Length) -> Option<String> {
    let style = style(case.job);
    let sum: Length = choice.stack.iter().map(|piece| piece.thickness * i64::from(piece.count)).sum();
    if choice.stack.is_empty() || choice.stack.iter().any(|piece| piece.count == 0) {
        return Some("it takes shims and lists none".to_owned());
    }
    if sum != raise {
        return Some(format!("its shims make {} and the raise is {}", style.exact(sum), style.exact(raise)));
    }
    let known =
        |thickness: Length| case.job.shims.pieces.iter().any(|shim| shim.thickness.nominal == thickness);
    let unknown = choice.stack.iter().find(|piece| !known(piece.thickness))?;
    Some(format!("the job has no shims of {}", style.exact(unknown.thickness)))
}

fn is_bed(limits: &Limits, bed: Length) -> bool {
    let Some(grout) = &limits.grout else { return false };
    let above = bed - grout.least.value;
    above >= Length::ZERO && bed <= grout.most.value && is_whole(above, grout.step.value)
}

fn is_depth(limits: &Limits, depth: Length) -> bool {
    let Some(grind) = &limits.grind else { return false };
    depth > Length::ZERO && depth <= grind.most.value && is_whole(depth, grind.step.value)
}

fn is_whole(length: Length, step: Length) -> bool {
    length.nm() % step.nm().max(1) == 0
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, clean_job, findings, findings_under, nm};
    use super::*;
    use crate::plan::StackPiece;

    fn told(spoil: impl Fn(&mut Choice)) -> String {
        let found = findings_under(&clean_job(), &RULE, |plan| spoil(&mut plan.choices[0])).swap_remove(0);
        assert_eq!(found.level(), Some(Level::Stop), "{}", found.text);
        found.text
    }

    fn shims(choice: &mut Choice, raise: i64, pieces: &[(i64, u32)]) {
        choice.action = Action::Shim;
        choice.raise = Some(nm(raise));
        let each = pieces.iter().map(|&(thickness, count)| StackPiece { thickness: nm(thickness), count });
        choice.stack = each.collect();
    }

    #[test]
    fn a_plan_of_the_planner_can_be_done() {
        assert!(findings(&clean_job(), &RULE).iter().all(|it| it.outcome == KEPT));
    }

    #[test]
    fn a_stack_that_does_not_make_the_raise_is_stopped() {
        let s = SIXTEENTH;
        assert!(
            told(|it| shims(it, 4 * s, &[(2 * s, 1)]))
                .contains("its shims make 1/8\" and the raise is 1/4\"")
        );
        assert!(told(|it| shims(it, 2 * s, &[])).contains("lists none"));
        assert!(told(|it| shims(it, 2 * s, &[(2 * s, 1), (s, 0)])).contains("lists none"));
        assert!(told(|it| shims(it, 1, &[(1, 1)])).contains("the job has no shims of"));
    }

    #[test]
    fn a_raise_that_nothing_makes_is_stopped() {
        assert!(told(|it| it.raise = Some(nm(SIXTEENTH))).contains("and yet it is raised"));
        let of = |action: Action, raise: i64| {
            told(move |it| {
                it.action = action;
                it.raise = Some(nm(raise));
            })
        };
        assert!(of(Action::Grout, 1).contains("no grout bed"));
        assert!(of(Action::Grind, 2 * SIXTEENTH).contains("no grinding"), "upward");
        assert!(of(Action::Grind, -1).contains("no grinding"), "off the step");
        assert!(of(Action::Grind, -400 * SIXTEENTH).contains("no grinding"), "too deep");
    }

    #[test]
    fn on_a_designed_bed_nothing_but_grout_can_be_done() {
        let mut job = clean_job();
        job.bases[0].bed = nm(24 * SIXTEENTH);
        let of = |action: Action, raise: i64| {
            let found = findings_under(&job, &RULE, |plan| {
                plan.choices[0] = Choice { raise: Some(nm(raise)), ..Choice::without(action) };
            });
            found.into_iter().next().unwrap()
        };
        assert_eq!(of(Action::Grout, 24 * SIXTEENTH).outcome, KEPT);
        for action in [Action::NoShim, Action::Shim, Action::Grind] {
            let found = of(action, 0);
            assert_eq!(found.level(), Some(Level::Stop));
            assert!(found.text.contains("a bed of 1-1/2\" and it is set without grout"), "{}", found.text);
        }
    }

    #[test]
    fn a_column_that_is_not_planned_has_no_raise_and_a_measured_pad_is_planned() {
        assert!(told(|it| it.action = Action::Refer).contains("raises a column it does not plan"));
        assert!(told(|it| *it = Choice::without(Action::Unmeasured)).contains("its pad is measured"));
        assert!(told(|it| it.raise = None).contains("does not say how far"));
        assert!(told(|it| it.stack = vec![StackPiece { thickness: nm(1), count: 1 }]).contains("takes none"));
    }
}
