//! The level notes contradict each other by more than readings do.

use super::subjects::{KEPT, does_not_apply, house_rule};
use super::wording::some_of;
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::levels::Levelled;
use crate::text::Style;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "level-notes-disagree",
    about: "level notes that check each other",
    checks: "what was read more than once agrees as well as readings of their stated +- do (a test of all at 5 %, and of each reading at 0.1 %)",
    why: "one misread height puts a wrong shim under a column, and the nut or the frame pays for it",
    limit: |_, _| Some(("the test is passed".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("the global test of the adjustment at 5 %, passed up to its upper bound")
}

/// What the notes say of themselves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Notes {
    /// Nothing was read twice.
    Unchecked,
    /// The test was made, and passed or not.
    Tested(bool),
    /// The test of all was passed, and a single reading does not fit all the same.
    OneDoesNotFit,
    /// The readings are said to be exact, so no test can be made; this is their largest misclosure.
    SaidExact(Length),
}

fn notes(levels: &Levelled) -> Notes {
    let misclosures = levels.closures().iter().map(|closure| closure.misclosure.abs());
    match (levels.test(), levels.redundancy()) {
        (Some(test), _) if test.passed && !levels.suspects().is_empty() => Notes::OneDoesNotFit,
        (Some(test), _) => Notes::Tested(test.passed),
        (None, 0) => Notes::Unchecked,
        (None, _) => Notes::SaidExact(misclosures.max().unwrap_or(Length::ZERO)),
    }
}

/// Judges the notes by their test; where it cannot be made, whatever is exact must agree.
fn outcome(notes: Notes) -> Outcome {
    match notes {
        Notes::Unchecked => does_not_apply("nothing was read twice"),
        Notes::Tested(true) | Notes::SaidExact(Length::ZERO) => KEPT,
        Notes::Tested(false) | Notes::OneDoesNotFit | Notes::SaidExact(_) => Outcome::Fail(Level::Ask),
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let notes = notes(case.levels);
    let outcome = outcome(notes);
    let read = case.columns.iter().filter(|column| case.column(column.index).point.is_some());
    vec![Finding::said(
        Subject { columns: read.map(|column| column.index).collect(), ..Subject::default() },
        sentence(notes, &outcome, &suspects(case), style(case.job)),
        outcome,
        authority(),
    )]
}

/// Names the points of the suspect readings, each once.
fn suspects<'a>(case: &Case<'a>) -> Vec<&'a str> {
    let mut names: Vec<&str> = Vec::new();
    for suspect in case.levels.suspects() {
        if let Some(name) = case.job.readings.points.get(suspect.point)
            && !names.contains(&name.as_str())
        {
            names.push(name);
        }
    }
    names
}

fn sentence(notes: Notes, outcome: &Outcome, suspects: &[&str], style: Style) -> String {
    if let (Notes::SaidExact(off), Outcome::Fail(_)) = (notes, outcome) {
        return format!(
            "level notes: the readings are said to be exact (+-0) and differ by {}; state what they are good to",
            style.write(off, Rounding::Up)
        );
    }
    if notes == Notes::OneDoesNotFit {
        return format!(
            "level notes: together they agree, but one reading does not fit; read again first: {}",
            some_of(suspects)
        );
    }
    match outcome {
        Outcome::NotApplicable(why) => format!("level notes: {why}, so they do not check each other"),
        Outcome::Fail(_) if suspects.is_empty() => {
            "level notes: they disagree by more than readings do; read the setups again before setting"
                .to_owned()
        }
        Outcome::Fail(_) => format!(
            "level notes: they disagree by more than readings do; read again first: {}",
            some_of(suspects)
        ),
        _ => "level notes: what was read twice agrees".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, make_relative, nm};
    use super::*;
    use crate::model::{Job, Setup};
    use crate::text::System;

    /// Both pads read from two setups, the second setup's A2 so much higher.
    fn read_twice(off: i64) -> Job {
        let mut job = clean_job();
        make_relative(&mut job);
        job.readings.setups.push(Setup::named("2"));
        for at in 0..2 {
            let mut sight = job.readings.sights[at].clone();
            sight.setup = 1;
            sight.reading = nm(if at == 1 { off } else { 0 });
            job.readings.sights.push(sight);
        }
        job
    }

    #[test]
    fn notes_that_contradict_each_other_are_asked_about() {
        assert_eq!(findings(&read_twice(1_000_000), &RULE)[0].outcome, KEPT);
        let found = findings(&read_twice(25_400_000), &RULE);
        assert_eq!(found[0].level(), Some(Level::Ask));
        assert_eq!(found[0].subject.columns, [0, 1]);
    }

    /// A2 read eleven times, once so far off that it alone does not fit: the test of all passes.
    #[test]
    fn one_reading_that_does_not_fit_is_asked_about_though_the_test_passes() {
        let read = |off: i64| {
            let mut job = read_twice(0);
            for _ in 0..8 {
                let again = job.readings.sights[1].clone();
                job.readings.sights.push(again);
            }
            job.readings.sights[1].reading = nm(off);
            findings(&job, &RULE).remove(0)
        };
        assert_eq!(read(1_000_000).outcome, KEPT);
        let found = read(2_850_000);
        assert_eq!(found.level(), Some(Level::Ask));
        assert_eq!(
            found.text,
            "level notes: together they agree, but one reading does not fit; read again first: A2"
        );
    }

    #[test]
    fn readings_said_to_be_exact_that_differ_are_asked_about() {
        let exact = |off: i64| {
            let mut job = read_twice(off);
            job.readings.plus_minus = Length::ZERO;
            findings(&job, &RULE).remove(0)
        };
        let agreed = read_twice(0).readings.sights;
        let off = agreed[1].reading - agreed[0].reading;
        assert_eq!(exact(off.nm()).outcome, KEPT);
        let found = exact(off.nm() + 1);
        assert_eq!(found.level(), Some(Level::Ask));
        assert!(found.text.contains("said to be exact"), "{}", found.text);
    }

    #[test]
    fn notes_that_check_nothing_are_no_pass() {
        let mut job = clean_job();
        make_relative(&mut job);
        assert!(matches!(findings(&job, &RULE)[0].outcome, Outcome::NotApplicable(_)));
    }

    #[test]
    fn suspects_are_named() {
        let fail = Outcome::Fail(Level::Ask);
        let text = sentence(Notes::Tested(false), &fail, &["A1", "A2"], Style::new(System::Inch, 16));
        assert_eq!(text, "level notes: they disagree by more than readings do; read again first: A1 and A2");
    }
}
