//! Level readings that nothing checks.

use super::Rule;
use super::subjects::{KEPT, does_not_apply, house_rule};
use super::wording::some_of;
use crate::catalog::Authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::levels::Reliability;
use crate::model::SpotKind;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "readings-unchecked",
    about: "level readings that nothing checks",
    checks: "the pads are read more than once, or the first pad is read again before the tripod is moved",
    why: "a reading that nothing checks may be a foot off and no test would tell",
    limit: |_, _| Some(("at least one reading more than is needed".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("what is read once is not checked: it is told, and it is not a fault")
}

/// Which pads nothing checks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Checked {
    /// No level was read.
    NotRead,
    /// All of them are checked.
    All,
    /// So many are not.
    Some,
    /// Nothing is checked at all.
    None,
}

const fn outcome(checked: Checked) -> Option<Outcome> {
    match checked {
        Checked::NotRead => None,
        Checked::All => Some(KEPT),
        Checked::Some | Checked::None => Some(Outcome::Fail(Level::Note)),
    }
}

/// Lists the other places on a pad that were read.
fn places(case: &Case<'_>, column: usize) -> Vec<usize> {
    let spots = case.job.readings.spots.iter().filter(|spot| spot.column == column);
    spots.filter(|spot| matches!(spot.what, SpotKind::Place(_))).map(|spot| spot.point).collect()
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let readings = &case.job.readings;
    let judged = case.levels.reliabilities();
    let unchecked: Vec<usize> = case
        .columns
        .iter()
        .map(|column| column.index)
        .filter(|index| {
            let point = case.column(*index).point;
            let own = |point: usize| {
                let read = move |it: &&Reliability| {
                    it.from == Some(point) || (it.point == point && (it.sight.or(it.from)).is_some())
                };
                judged.iter().filter(move |it| read(it))
            };
            match point {
                Some(point) if own(point).count() > 0 => own(point).all(|it| it.checked == 0),
                // a pad that was read at other places is as good as those are
                Some(_) => places(case, *index).iter().any(|place| own(*place).all(|it| it.checked == 0)),
                None => false,
            }
        })
        .collect();
    let nothing = readings.sights.is_empty() && readings.differences.is_empty();
    let checked = match (nothing, case.levels.redundancy(), unchecked.is_empty()) {
        (true, ..) => Checked::NotRead,
        (false, 0, _) => Checked::None,
        (false, _, true) => Checked::All,
        (false, _, false) => Checked::Some,
    };
    let text = match checked {
        Checked::NotRead => "level readings: none were taken".to_owned(),
        Checked::All => "level readings: every pad is checked by another reading".to_owned(),
        Checked::None => {
            "level readings: nothing was read twice, so none is checked; read the first pad again before the tripod moves"
                .to_owned()
        }
        Checked::Some => {
            format!("{}: read once, nothing checks it", some_of(&case.marks(&unchecked)))
        }
    };
    let columns = if checked == Checked::Some { unchecked } else { Vec::new() };
    vec![Finding::said(
        Subject { columns, ..Subject::default() },
        text,
        outcome(checked).unwrap_or_else(|| does_not_apply("nothing was read with a level")),
        authority(),
    )]
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, make_relative};
    use super::*;

    #[test]
    fn readings_that_nothing_checks_are_noted_until_one_is_read_again() {
        let mut job = clean_job();
        assert!(matches!(findings(&job, &RULE)[0].outcome, Outcome::NotApplicable(_)));
        make_relative(&mut job);
        let found = findings(&job, &RULE);
        assert_eq!(found[0].level(), Some(Level::Note));
        assert!(found[0].text.contains("nothing was read twice"), "{}", found[0].text);
        let again = job.readings.sights[0].clone();
        job.readings.sights.push(again);
        let found = findings(&job, &RULE);
        assert_eq!(found[0].subject.columns, [1]);
        assert_eq!(found[0].text, "A2: read once, nothing checks it");
        let again = job.readings.sights[1].clone();
        job.readings.sights.push(again);
        assert_eq!(findings(&job, &RULE)[0].outcome, KEPT);
    }
}
