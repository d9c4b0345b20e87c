//! The nut is full, but less thread stands beyond it than is wanted.

use super::subjects::{does_not_apply, each_rod, rod_name};
use super::wording::{in_pitches, term};
use super::{Rule, style};
use crate::check::case::{Case, ColumnCase, RodCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::Length;
use crate::text::Relation;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "thread-beyond-missing",
    about: "thread beyond every nut",
    checks: "projection - raise - plate - washers - nuts - reading tolerance is the thread wanted or more, \
             every part at its most",
    why: "thread beyond the nut shows at a glance that the nut is full, and some specifications ask for it",
    limit: |limits, style| {
        let beyond = &limits.engagement.as_ref()?.beyond;
        Some((
            format!("{} or more beyond the nut", in_pitches(beyond.value, style)),
            beyond.authority.clone(),
        ))
    },
    judge,
};

/// Judges one rod: what is left beyond its outer nut at the worst, against what is wanted.
fn outcome(left: Option<Length>, wanted: Length) -> Outcome {
    match left {
        None => does_not_apply("the rod is not measured"),
        Some(left) if left < Length::ZERO => does_not_apply("its nut is not full, see nut-not-full"),
        Some(left) if left < wanted => Outcome::Fail(Level::Ask),
        Some(left) => Outcome::Pass { margin: Some(left - wanted) },
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_rod(case, |case, column, rod| {
        let beyond = &case.base(column.index).beyond;
        let left = rod.result.beyond_worst.map(|worst| worst - rod.plus_minus);
        let outcome = outcome(left, beyond.value);
        Finding {
            subject: Subject::rod(column.index, rod.label),
            text: sentence(case, column, rod, &outcome, left),
            arithmetic: arithmetic(case, column, rod, left),
            outcome,
            actual: left,
            limit: Some(beyond.value),
            authority: beyond.authority.clone(),
        }
    })
}

fn sentence(
    case: &Case<'_>,
    column: &ColumnCase,
    rod: &RodCase,
    outcome: &Outcome,
    left: Option<Length>,
) -> String {
    let name = rod_name(case, column, rod);
    let wanted = case.base(column.index).beyond.value;
    match (outcome, left) {
        (Outcome::NotApplicable(why), _) => format!("{name}: {why}"),
        (Outcome::Fail(_), Some(left)) => {
            let shown = style(case.job).pair(left, wanted, Relation::AtLeast);
            format!(
                "{name}: nut full, {} of thread beyond it at the worst, {} wanted; ask the engineer",
                shown.value, shown.limit
            )
        }
        (_, Some(left)) => {
            let shown = style(case.job).pair(left, wanted, Relation::AtLeast);
            format!("{name}: {} of thread beyond the nut at the worst, {} wanted", shown.value, shown.limit)
        }
        (_, None) => format!("{name} is not measured"),
    }
}

fn arithmetic(case: &Case<'_>, column: &ColumnCase, rod: &RodCase, left: Option<Length>) -> Vec<String> {
    let style = style(case.job);
    let (Some(worst), Some(left)) = (rod.result.beyond_worst, left) else { return Vec::new() };
    let wanted = case.base(column.index).beyond.value;
    let shown = style.pair(left, wanted, Relation::AtLeast);
    vec![
        "left beyond the nut, every part at its most - the rod's +-, against the thread wanted".to_owned(),
        format!("{} - {} = {}", term(worst, style), style.exact(rod.plus_minus), style.exact(left)),
        format!("{} against {}", shown.value, shown.limit),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, limit, nm, the_table, told};
    use super::*;

    #[test]
    fn less_thread_than_wanted_is_asked_about_to_the_nanometre() {
        // 63.5 mm rod less 38 798 500 nm of parts and tape
        let mut job = clean_job();
        job.bases[0].beyond = limit(nm(63_500_000 - 38_798_500));
        job.columns[0].rods[2].projection = Some(nm(63_499_999));
        let found = findings(&job, &RULE);
        assert_eq!(told(&found)[..4], [None, None, Some(Level::Ask), None]);
        assert_eq!(found[2].actual, Some(nm(24_701_499)));
        assert_eq!(found[2].limit, Some(nm(24_701_500)));
        assert_eq!(found[2].authority, the_table());
        assert_eq!(
            found[2].text,
            "A1 rod 3: nut full, ~0.972\" of thread beyond it at the worst, ~0.973\" wanted; ask the engineer"
        );
    }

    #[test]
    fn a_nut_that_is_not_full_is_left_to_its_own_rule() {
        let mut job = clean_job();
        job.bases[0].beyond = limit(nm(1));
        job.columns[0].rods[0].projection = Some(nm(30_000_000));
        assert!(matches!(findings(&job, &RULE)[0].outcome, Outcome::NotApplicable(_)));
    }

    /// EN 1090-2:2008, 8.2.2: one thread pitch or more beyond the nut; M20 has a pitch of 2.5 mm.
    #[test]
    fn one_pitch_beyond_an_m20_nut_is_2_5_mm() {
        let pitch = nm(2_500_000);
        assert_eq!(outcome(Some(nm(2_400_000)), pitch), Outcome::Fail(Level::Ask));
        assert_eq!(outcome(Some(nm(2_500_000)), pitch), Outcome::Pass { margin: Some(Length::ZERO) });
    }
}
