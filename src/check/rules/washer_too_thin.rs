//! The washer over an oversize hole is too thin.

use super::cover::{Cover, by_base, cover, covers_authority, third_authority};
use super::subjects::does_not_apply;
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::model::Base;
use crate::text::Relation;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "washer-too-thin",
    about: "washers over oversize holes",
    checks: "over a hole too wide for a plain washer, the washer that covers it is as thick as the hole table asks, \
             or a third of the rod where the table has no row",
    why: "a thin washer over a wide hole dishes, and the rod loses its grip on the plate",
    limit: |_, _| {
        Some((
            "the hole table's thickness, else a third of the rod, over oversize holes".to_owned(),
            third_authority(),
        ))
    },
    judge,
};

/// Judges the thickest washer of those that cover the hole.
fn outcome(base: &Base, cover: Option<&Cover>) -> Outcome {
    let Some(cover) = cover else {
        return does_not_apply("the holes in the plate are not given, see washer-too-small");
    };
    let Some((needed, _)) = &cover.thickness else {
        return does_not_apply("a plain washer may stand over the hole");
    };
    match (thickest(base, cover, Some(true)), thickest(base, cover, None)) {
        (Some(sure), _) if sure >= *needed => Outcome::Pass { margin: Some(sure - *needed) },
        (_, Some(open)) if open >= *needed => {
            Outcome::Unknown(Level::Ask, "the outer size of the washer".to_owned())
        }
        (None, None) => does_not_apply("no washer covers the hole, see washer-too-small"),
        _ => Outcome::Fail(Level::Ask),
    }
}

/// Gives the nominal thickness of the thickest washer that covers the hole, or of which nobody knows.
fn thickest(base: &Base, cover: &Cover, covered: Option<bool>) -> Option<Length> {
    let washers = base.washers.iter().filter(|washer| cover.covered_by(washer) == covered);
    washers.map(|washer| washer.thickness.nominal).max()
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    by_base(case, |columns, base| {
        let cover = cover(base);
        let outcome = outcome(base, cover.as_ref());
        let thickest = cover
            .as_ref()
            .and_then(|cover| thickest(base, cover, Some(true)).max(thickest(base, cover, None)));
        let needed = cover.as_ref().and_then(|cover| cover.thickness.as_ref()).map(|(needed, _)| *needed);
        Finding {
            subject: Subject { columns: columns.to_vec(), ..Subject::default() },
            text: sentence(case, &format!("base {}", base.mark), cover.as_ref(), &outcome, thickest),
            outcome,
            actual: needed.and(thickest),
            limit: needed,
            arithmetic: Vec::new(),
            authority: authority(base, cover),
        }
    })
}

fn authority(base: &Base, cover: Option<Cover>) -> Authority {
    match cover {
        None => covers_authority(),
        Some(Cover { thickness: Some((_, authority)), .. }) => authority,
        Some(_) => base.plain_washer.as_ref().map_or_else(covers_authority, |plain| plain.authority.clone()),
    }
}

fn sentence(
    case: &Case<'_>,
    name: &str,
    cover: Option<&Cover>,
    outcome: &Outcome,
    thickest: Option<Length>,
) -> String {
    let style = style(case.job);
    let clearance = |cover: &Cover| style.write(cover.clearance, Rounding::Up);
    let needed = cover.and_then(|cover| cover.thickness.as_ref()).map(|(needed, _)| *needed);
    match (outcome, cover, thickest, needed) {
        (Outcome::NotApplicable(_), Some(cover), _, None) => {
            format!("{name}: the hole leaves only {}, a plain washer may stand there", clearance(cover))
        }
        (Outcome::NotApplicable(why), ..) => format!("{name}: {why}"),
        (Outcome::Unknown(..), _, _, Some(needed)) => format!(
            "{name}: nobody knows whether the washer {} thick covers the hole; measure its outer size",
            style.write(needed, Rounding::Up)
        ),
        (Outcome::Fail(_), _, Some(thickest), Some(needed)) => {
            let shown = style.pair(thickest, needed, Relation::AtLeast);
            format!(
                "{name}: the washer is {} thick, {} is needed over this hole; use a thicker one, ask the engineer",
                shown.value, shown.limit
            )
        }
        (_, _, Some(thickest), Some(needed)) => {
            let shown = style.pair(thickest, needed, Relation::AtLeast);
            format!("{name}: the washer is {} thick, {} needed", shown.value, shown.limit)
        }
        _ => format!("{name}: there is no washer to judge"),
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, clean_job, findings, nm};
    use super::*;
    use crate::catalog::Extent;
    use crate::model::Job;

    fn judged(job: &Job) -> Finding {
        findings(job, &RULE).swap_remove(0)
    }

    /// The clean job with 1-5/16 in holes and washers of so many nanometres, 2 in wide.
    fn oversize(thicknesses: &[i64]) -> Job {
        let mut job = clean_job();
        job.bases[0].plate.holes = Some(nm(21 * SIXTEENTH));
        let washer = job.bases[0].washers.remove(0);
        for thickness in thicknesses {
            job.bases[0].washers.push(washer.clone());
            job.bases[0].washers.last_mut().unwrap().thickness = Extent::exact(nm(*thickness));
        }
        job
    }

    #[test]
    fn a_small_clearance_takes_a_plain_washer() {
        let mut job = clean_job();
        let found = judged(&job);
        assert!(matches!(found.outcome, Outcome::NotApplicable(_)));
        assert_eq!(found.text, "base B1: the hole leaves only 3/16\", a plain washer may stand there");
        assert_eq!(found.authority.text, "the plain washer note");
        // rod 3/4 and clearance 5/16: the largest that is not oversize
        job.bases[0].plate.holes = Some(nm(17 * SIXTEENTH));
        assert!(matches!(judged(&job).outcome, Outcome::NotApplicable(_)));
        job.bases[0].plate.holes = Some(nm(17 * SIXTEENTH + 1));
        assert_eq!(judged(&job).outcome, Outcome::Fail(Level::Ask));
    }

    #[test]
    fn over_an_oversize_hole_the_table_sets_the_thickness() {
        let quarter = 4 * SIXTEENTH;
        assert_eq!(judged(&oversize(&[quarter])).outcome, Outcome::Pass { margin: Some(Length::ZERO) });
        let thin = judged(&oversize(&[quarter - 1]));
        assert_eq!((thin.level(), thin.limit), (Some(Level::Ask), Some(nm(quarter))));
        assert_eq!(thin.authority.text, "the hole table");
    }

    #[test]
    fn without_a_row_a_third_of_the_rod_does() {
        let third = 4 * SIXTEENTH;
        for (thickness, level) in [(third, None), (third - 1, Some(Level::Ask))] {
            let mut job = oversize(&[thickness]);
            job.bases[0].hole_table = None;
            assert_eq!(judged(&job).level(), level);
            assert_eq!(judged(&job).authority, third_authority());
        }
    }

    #[test]
    fn one_washer_must_be_wide_and_thick_enough_at_once() {
        let mut job = oversize(&[4 * SIXTEENTH, SIXTEENTH]);
        assert_eq!(judged(&job).level(), None);
        job.bases[0].washers[0].outer = Some(nm(16 * SIXTEENTH));
        assert_eq!(judged(&job).outcome, Outcome::Fail(Level::Ask), "the thick one does not cover the hole");
        job.bases[0].washers[0].outer = None;
        assert!(matches!(judged(&job).outcome, Outcome::Unknown(Level::Ask, _)));
        job.bases[0].washers.clear();
        assert!(matches!(judged(&job).outcome, Outcome::NotApplicable(_)), "the other rule asks");
    }

    #[test]
    fn where_no_exception_is_known_a_plate_washer_is_needed() {
        let mut job = clean_job();
        job.bases[0].plain_washer = None;
        assert_eq!(judged(&job).outcome, Outcome::Fail(Level::Ask));
    }
}
