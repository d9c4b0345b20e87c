//! A nut does not stand full on its thread, or it is too close to call.

use super::subjects::{does_not_apply, each_rod, left_on_its_pad, rod_name};
use super::wording::term;
use super::{Rule, style};
use crate::catalog::{Authority, Standing};
use crate::check::case::{Case, ColumnCase, RodCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::text::Relation;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "nut-not-full",
    about: "every nut full on its rod",
    checks: "projection - raise - plate - washers - nuts - reading tolerance is 0 or more, every part at its most",
    why: "a nut that is not full of thread may strip before the rod carries its load",
    limit: |_, _| Some(("rod end flush with the outer nut or beyond".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    Authority::new(
        Standing::Published,
        "RCSC Specification for Structural Joints, glossary and 2.3.2 (sufficient thread engagement: end of the \
         bolt flush with the outer face of the nut or beyond), as quoted by several second parties; published for \
         structural bolts, used here for anchor rods. AISC Design Guide 1, 2nd ed., 2.11.3, leaves a rod that is \
         short to the engineer",
    )
}

/// Judges one rod: what is left beyond the outer nut at the worst of parts and reading.
fn outcome(left: Option<Length>) -> Outcome {
    match left {
        None => does_not_apply("the rod is not measured"),
        Some(left) if left < Length::ZERO => Outcome::Fail(Level::Stop),
        Some(left) => Outcome::Pass { margin: Some(left) },
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_rod(case, |case, column, rod| {
        let left = rod.result.beyond_worst.map(|worst| worst - rod.plus_minus);
        Finding {
            subject: Subject::rod(column.index, rod.label),
            outcome: outcome(left),
            actual: left,
            limit: Some(Length::ZERO),
            text: sentence(case, column, rod),
            arithmetic: arithmetic(case, column, rod),
            authority: authority(),
        }
    })
}

fn sentence(case: &Case<'_>, column: &ColumnCase, rod: &RodCase) -> String {
    let style = style(case.job);
    let name = rod_name(case, column, rod);
    let (Some(beyond), Some(worst)) = (rod.result.beyond, rod.result.beyond_worst) else {
        return format!("{name} is not measured");
    };
    let share = rod.result.engaged.last().map_or(String::new(), |share| {
        // a share is written rounded down, so that it is never rounded up to the whole nut
        let percent = share.part.nm().saturating_mul(100).div_euclid(share.whole.nm().max(1));
        format!(", {percent} % of the outer nut on thread at nominal parts")
    });
    let (plus_minus, on_pad) = (rod.plus_minus, left_on_its_pad(column));
    if worst - plus_minus >= Length::ZERO {
        format!("{name}: {on_pad}nut full, {} beyond it", style.write(beyond, Rounding::Down))
    } else if beyond + plus_minus < Length::ZERO {
        let below = style.write(-beyond, Rounding::Up);
        format!(
            "{name}: {on_pad}the rod ends {below} below the top of the nut{share}; do not set, ask the engineer"
        )
    } else {
        format!(
            "{name}: {on_pad}too close to call within the parts and the measurement{share}; measure again, then ask the engineer"
        )
    }
}

fn arithmetic(case: &Case<'_>, column: &ColumnCase, rod: &RodCase) -> Vec<String> {
    let style = style(case.job);
    let base = case.base(column.index);
    let (Some(projection), Some(worst)) = (rod.projection, rod.result.beyond_worst) else {
        return Vec::new();
    };
    let raise = column.raise.map_or(Length::ZERO, |raise| raise.most);
    let washers = base.washers_with(rod.result.extra_washers).most;
    let left = worst - rod.plus_minus;
    let shown = style.pair(left, Length::ZERO, Relation::AtLeast);
    vec![
        "rod - raise - plate - washers - nuts - the rod's +-, every part at its most".to_owned(),
        format!(
            "{} - {} - {} - {} - {} - {} = {}",
            style.exact(projection),
            term(raise, style),
            style.exact(base.plate.thickness.most),
            style.exact(washers),
            style.exact(base.nuts_sum().most),
            style.exact(rod.plus_minus),
            style.exact(left),
        ),
        format!("{} against {}", shown.value, shown.limit),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, nm, told};
    use super::*;

    #[test]
    fn a_nut_is_full_to_the_nanometre_at_the_worst_of_parts_and_tape() {
        // 0.530 plate + 0.177 washer + 0.758 nut + 1/16 tape, in inches, is 38 798 500 nm
        let mut job = clean_job();
        job.columns[0].rods[0].projection = Some(nm(38_798_500));
        job.columns[0].rods[1].projection = Some(nm(38_798_499));
        let found = findings(&job, &RULE);
        assert_eq!(told(&found)[..4], [None, Some(Level::Stop), None, None]);
        assert_eq!(found[0].outcome, Outcome::Pass { margin: Some(Length::ZERO) });
        assert_eq!((found[1].actual, found[1].limit), (Some(nm(-1)), Some(nm(0))));
    }

    #[test]
    fn a_short_rod_is_told_how_far_it_ends_below_the_nut() {
        // 1/2 plate + 0.148 washer + 47/64 nut is 35 112 325 nm; the rod ends 1 587 501 nm below it
        let mut job = clean_job();
        job.columns[1].rods[3].projection = Some(nm(35_112_325 - 1_587_501));
        let found = findings(&job, &RULE);
        let short = found.last().unwrap();
        assert_eq!(short.level(), Some(Level::Stop));
        assert_eq!(
            short.text,
            "A2 rod 4: the rod ends ~1/8\" below the top of the nut, 91 % of the outer nut on thread at nominal parts; \
             do not set, ask the engineer"
        );
        job.columns[1].rods[3].projection = Some(nm(35_112_325 - 1_587_500));
        assert!(findings(&job, &RULE).last().unwrap().text.contains("too close to call"));
    }

    #[test]
    fn a_nut_that_is_not_full_is_said_so_where_the_thread_runs_out_too() {
        let mut job = clean_job();
        job.columns[0].rods[0].projection = Some(nm(30_000_000));
        job.columns[0].rods[0].thread = Some(nm(1_000_000));
        let found = findings(&job, &RULE);
        assert_eq!(found[0].level(), Some(Level::Stop));
        assert!(found[0].text.contains("below the top of the nut"), "{}", found[0].text);
    }

    #[test]
    fn a_rod_that_is_not_measured_is_no_pass() {
        let mut job = clean_job();
        job.columns[0].rods[0].projection = None;
        assert_eq!(findings(&job, &RULE)[0].outcome, does_not_apply("the rod is not measured"));
    }
}
