//! Nobody has measured how far the thread reaches down a rod.

use super::subjects::{KEPT, does_not_apply, each_rod, house_rule, rod_name};
use super::wording::term;
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::{Case, ColumnCase, RodCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::text::Style;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "run-out-not-checked",
    about: "thread measured on every rod",
    checks: "every measured rod has its full thread measured; where it has not, the drawing's thread tells only \
             how grave that is",
    why: "a long rod may run out of thread under the nut, and the drawing does not show the rod that was cast in",
    limit: |_, _| Some(("every rod; asked where the drawing's thread would run out".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("a design value never stands in for a measurement")
}

/// What is known of the thread of one rod.
#[derive(Clone, Copy, Debug)]
enum Thread {
    /// Nothing, for its projection was not measured.
    RodUnmeasured,
    /// It was measured.
    Measured,
    /// The drawing gives it, and this would be left under the nut.
    Drawn(Length),
    /// Neither was it measured, nor does the drawing give it.
    Unknown,
}

/// Judges one rod by what is known of its thread.
fn outcome(thread: Thread) -> Outcome {
    match thread {
        Thread::RodUnmeasured => does_not_apply("the rod is not measured"),
        Thread::Measured => KEPT,
        Thread::Drawn(left) if left < Length::ZERO => Outcome::Fail(Level::Ask),
        Thread::Drawn(_) => Outcome::Fail(Level::Note),
        Thread::Unknown => Outcome::Unknown(Level::Ask, "its thread, measured or drawn".to_owned()),
    }
}

/// Works out what would be left under the nut with the drawing's thread, parts at their least.
fn known(case: &Case<'_>, column: &ColumnCase, rod: &RodCase) -> Thread {
    let base = case.base(column.index);
    match (rod.projection, rod.thread, base.rods.thread) {
        (None, ..) => Thread::RodUnmeasured,
        (Some(_), Some(_), _) => Thread::Measured,
        (Some(_), None, None) => Thread::Unknown,
        (Some(projection), None, Some(drawn)) => {
            let raise = column.raise.map_or(Length::ZERO, |raise| raise.least);
            let under_nut = projection - raise - base.plate.thickness.least - base.washers_with(0).least;
            Thread::Drawn(drawn - base.clear.value - under_nut - rod.plus_minus)
        }
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_rod(case, |case, column, rod| {
        let thread = known(case, column, rod);
        let left = match thread {
            Thread::Drawn(left) => Some(left),
            Thread::RodUnmeasured | Thread::Measured | Thread::Unknown => None,
        };
        Finding {
            subject: Subject::rod(column.index, rod.label),
            outcome: outcome(thread),
            actual: left,
            limit: left.map(|_| Length::ZERO),
            text: sentence(&rod_name(case, column, rod), thread, style(case.job)),
            arithmetic: arithmetic(case, column, rod, left),
            authority: authority(),
        }
    })
}

fn sentence(name: &str, thread: Thread, style: Style) -> String {
    match thread {
        Thread::RodUnmeasured => format!("{name} is not measured"),
        Thread::Measured => format!("{name}: its thread is measured"),
        Thread::Drawn(left) if left < Length::ZERO => format!(
            "{name}: run-out was not measured, and the drawing's thread would run out {} too soon; measure the thread",
            style.write(-left, Rounding::Up)
        ),
        Thread::Drawn(_) => {
            format!("{name}: run-out was not measured; the drawing's thread would reach")
        }
        Thread::Unknown => format!(
            "{name}: run-out was not measured, and the drawing gives no thread; measure the thread from the rod's top"
        ),
    }
}

fn arithmetic(case: &Case<'_>, column: &ColumnCase, rod: &RodCase, left: Option<Length>) -> Vec<String> {
    let style = style(case.job);
    let base = case.base(column.index);
    let (Some(projection), Some(drawn), Some(left)) = (rod.projection, base.rods.thread, left) else {
        return Vec::new();
    };
    vec![
        "drawing's thread - clear - (rod - raise - plate - washers) - the rod's +-, raise, plate and washers at their least"
            .to_owned(),
        format!(
            "{} - {} - ({} - {} - {} - {}) - {} = {}",
            style.exact(drawn),
            style.exact(base.clear.value),
            style.exact(projection),
            term(column.raise.map_or(Length::ZERO, |raise| raise.least), style),
            style.exact(base.plate.thickness.least),
            style.exact(base.washers_with(0).least),
            style.exact(rod.plus_minus),
            style.exact(left),
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, nm};
    use super::*;

    /// Thread on the drawing that would just reach: pitch + tape + rod - plate - washer, parts at their least.
    const ENOUGH: i64 = 2_540_000 + 1_587_500 + 63_500_000 - 12_446_000 - 3_098_800;

    fn judged(drawn: Option<i64>) -> Finding {
        let mut job = clean_job();
        job.bases[0].rods.thread = drawn.map(nm);
        job.columns[0].rods[0].thread = None;
        findings(&job, &RULE).swap_remove(0)
    }

    #[test]
    fn the_drawing_only_tells_how_grave_it_is() {
        assert_eq!(judged(Some(ENOUGH)).outcome, Outcome::Fail(Level::Note));
        let short = judged(Some(ENOUGH - 1));
        assert_eq!((short.level(), short.actual), (Some(Level::Ask), Some(nm(-1))));
        assert!(matches!(judged(None).outcome, Outcome::Unknown(Level::Ask, _)));
    }

    #[test]
    fn no_washer_is_counted_on_for_a_thread_that_nobody_measured() {
        // two more washers would make it reach
        assert_eq!(judged(Some(ENOUGH - 3_000_000)).level(), Some(Level::Ask));
    }

    #[test]
    fn a_measured_thread_is_kept_and_an_unmeasured_rod_is_no_pass() {
        let mut job = clean_job();
        job.columns[0].rods[1].projection = None;
        let found = findings(&job, &RULE);
        assert_eq!(found[0].outcome, KEPT);
        assert!(matches!(found[1].outcome, Outcome::NotApplicable(_)));
    }
}
