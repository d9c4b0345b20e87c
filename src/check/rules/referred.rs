//! No open option brings a column where it must be.

use super::subjects::{KEPT, does_not_apply, each_column, house_rule, mark};
use super::wording::{raises, term};
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::{Case, ColumnCase};
use crate::check::chain;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::Length;
use crate::plan::Action;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "referred",
    about: "columns that the plan refers to the engineer",
    checks: "an open option brings every column within the limits",
    why: "no shim, grout or grinding within the limits (on a designed bed: no grout) fits pad, neighbours and rods at once",
    limit: |_, _| Some(("no column".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("no open option brings it there")
}

/// Judges one column by what the plan does at it.
fn outcome(action: Action) -> Outcome {
    match action {
        Action::Refer => Outcome::Fail(Level::Ask),
        Action::Unmeasured => does_not_apply("its pad is not measured"),
        Action::NoShim | Action::Shim | Action::Grout | Action::Grind => KEPT,
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_column(case, |case, column| {
        let outcome = outcome(case.choice(column.index).action);
        Finding {
            subject: Subject::column(column.index),
            text: sentence(case, column, &outcome),
            outcome,
            actual: None,
            limit: None,
            arithmetic: arithmetic(case, column),
            authority: authority(),
        }
    })
}

fn sentence(case: &Case<'_>, column: &ColumnCase, outcome: &Outcome) -> String {
    let mark = mark(case, column);
    match outcome {
        Outcome::NotApplicable(why) => format!("{mark}: {why}"),
        Outcome::Fail(_) => {
            let must = case.raise_range(column).map_or(String::new(), |range| {
                format!(": its seat must come {}", raises(range, style(case.job)))
            });
            let way = in_the_way(case, column).join("; ");
            let way = if way.is_empty() { way } else { format!(". In the way: {way}") };
            let bed = case.base(column.index).has_bed();
            let open = if bed { "bed of grout" } else { "shim, grout or grinding" };
            format!("{mark}: no {open} within the limits fits; ask the engineer{must}{way}")
        }
        _ => format!("{mark}: an option within the limits is open"),
    }
}

/// Tells what stands in the way, a sentence for each column of the chain.
fn in_the_way(case: &Case<'_>, column: &ColumnCase) -> Vec<String> {
    let hurdle = case.choice(column.index).hurdle.as_ref();
    hurdle.map(|hurdle| chain(case.job, style(case.job), hurdle)).unwrap_or_default()
}

fn arithmetic(case: &Case<'_>, column: &ColumnCase) -> Vec<String> {
    let style = style(case.job);
    let (Some((low, high)), Some(pad)) = (case.choice(column.index).seat_range, column.pad) else {
        return Vec::new();
    };
    let from_pad = |end: Length| {
        let raise = style.exact(end - pad.elevation);
        format!("{} - {} = {raise}", style.exact(end), term(pad.elevation, style))
    };
    let (what, ends) = match (low, high) {
        (Some(low), Some(high)) => ("lowest and highest seat - pad", vec![low, high]),
        (Some(low), None) => ("lowest seat - pad", vec![low]),
        (None, Some(high)) => ("highest seat - pad", vec![high]),
        (None, None) => return Vec::new(),
    };
    vec![what.to_owned(), ends.into_iter().map(from_pad).collect::<Vec<_>>().join(", ")]
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, blank_pad, clean_job, findings, findings_under, set_pad};
    use super::*;

    fn referred(low: Option<i64>, high: i64) -> Finding {
        let mut job = clean_job();
        set_pad(&mut job, 0, -4 * SIXTEENTH);
        let seat =
            |sixteenths: i64| job.design_seat(&job.columns[0]) + Length::from_nm(sixteenths * SIXTEENTH);
        findings_under(&job, &RULE, |plan| {
            plan.choices[0].action = Action::Refer;
            plan.choices[0].raise = None;
            plan.choices[0].seat_range = Some((low.map(seat), Some(seat(high))));
        })
        .swap_remove(0)
    }

    #[test]
    fn a_referred_column_is_told_where_its_seat_must_come_from_its_pad() {
        let found = referred(Some(-2), 2);
        assert_eq!(found.level(), Some(Level::Ask));
        assert_eq!(
            found.text,
            "A1: no shim, grout or grinding within the limits fits; ask the engineer: \
             its seat must come from 1/8\" to 3/8\" above its pad"
        );
        assert!(referred(None, -6).text.ends_with("its seat must come 1/8\" or more below its pad"));
    }

    #[test]
    fn a_planned_column_is_kept_and_an_unmeasured_one_is_no_pass() {
        let mut job = clean_job();
        blank_pad(&mut job, 1);
        let found = findings(&job, &RULE);
        assert_eq!(found[0].outcome, KEPT);
        assert!(matches!(found[1].outcome, Outcome::NotApplicable(_)));
    }
}
