//! No washer of a base covers the hole with the rod at its edge.

use super::cover::{Cover, by_base, cover, covers_authority};
use super::{Rule, style};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::model::Base;
use crate::text::Relation;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "washer-too-small",
    about: "washers over the holes of the base plates",
    checks: "one washer of a base is 2 x hole - rod wide or more, and as wide as the hole table asks over an \
             oversize hole",
    why: "a washer that does not cover the hole bends or pulls into it, and the nut follows",
    limit: |_, _| {
        Some(("2 x hole - rod, and the hole table over oversize holes".to_owned(), covers_authority()))
    },
    judge,
};

/// Judges the widest washer of a base.
fn outcome(base: &Base, cover: Option<&Cover>) -> Outcome {
    let Some(cover) = cover else {
        return Outcome::Unknown(Level::Ask, "the holes in the plate".to_owned());
    };
    let widest = base.washers.iter().filter_map(|washer| washer.outer).max();
    match widest {
        Some(widest) if widest >= cover.outer.0 => Outcome::Pass { margin: Some(widest - cover.outer.0) },
        _ if base.washers.iter().any(|washer| washer.outer.is_none()) => {
            Outcome::Unknown(Level::Ask, "the outer size of the washer".to_owned())
        }
        _ => Outcome::Fail(Level::Ask),
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    by_base(case, |columns, base| {
        let cover = cover(base);
        let outcome = outcome(base, cover.as_ref());
        Finding {
            subject: Subject { columns: columns.to_vec(), ..Subject::default() },
            text: sentence(case, base, cover.as_ref(), &outcome),
            outcome,
            actual: base.washers.iter().filter_map(|washer| washer.outer).max(),
            limit: cover.as_ref().map(|cover| cover.outer.0),
            arithmetic: arithmetic(case, base, cover.as_ref()),
            authority: cover.map_or_else(covers_authority, |cover| cover.outer.1),
        }
    })
}

fn sentence(case: &Case<'_>, base: &Base, cover: Option<&Cover>, outcome: &Outcome) -> String {
    let style = style(case.job);
    let name = format!("base {}", base.mark);
    let Some(cover) = cover else {
        return format!(
            "{name}: the holes in the plate are not given; give holes, or ask the engineer about washers"
        );
    };
    let needed = cover.outer.0;
    let widest: Option<Length> = base.washers.iter().filter_map(|washer| washer.outer).max();
    match (outcome, widest) {
        (Outcome::Unknown(..), _) => format!(
            "{name}: the outer size of the washer is not known; measure it, {} covers the hole",
            style.write(needed, Rounding::Up)
        ),
        (Outcome::Fail(_), None) => format!(
            "{name}: there is no washer over the hole; one of {} is needed, ask the engineer",
            style.write(needed, Rounding::Up)
        ),
        (Outcome::Fail(_), Some(widest)) => {
            let shown = style.pair(widest, needed, Relation::AtLeast);
            format!(
                "{name}: the washer is {} wide, {} is needed over the hole; use a wider one, ask the engineer",
                shown.value, shown.limit
            )
        }
        (_, widest) => {
            let shown = style.pair(widest.unwrap_or(needed), needed, Relation::AtLeast);
            format!("{name}: the washer is {} wide, {} needed", shown.value, shown.limit)
        }
    }
}

fn arithmetic(case: &Case<'_>, base: &Base, cover: Option<&Cover>) -> Vec<String> {
    let style = style(case.job);
    let (Some(cover), Some(hole)) = (cover, base.plate.holes) else { return Vec::new() };
    let rod = base.rods.diameter;
    let covers = hole * 2 - rod;
    let mut lines = vec![
        "2 x hole - rod".to_owned(),
        format!("2 x {} - {} = {}", style.exact(hole), style.exact(rod), style.exact(covers)),
    ];
    if cover.outer.0 != covers {
        lines.push(format!("the hole table asks for {}", style.exact(cover.outer.0)));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, clean_job, findings, nm, the_table};
    use super::*;
    use crate::model::Job;

    fn judged(job: &Job) -> Finding {
        findings(job, &RULE).swap_remove(0)
    }

    #[test]
    fn a_washer_must_cover_the_hole_with_the_rod_at_its_edge() {
        // hole 15/16, rod 3/4: 1-1/8 covers it
        let mut job = clean_job();
        job.bases[0].washers[0].outer = Some(nm(18 * SIXTEENTH));
        assert_eq!(judged(&job).outcome, Outcome::Pass { margin: Some(Length::ZERO) });
        job.bases[0].washers[0].outer = Some(nm(18 * SIXTEENTH - 1));
        let found = judged(&job);
        assert_eq!(found.outcome, Outcome::Fail(Level::Ask));
        assert_eq!(found.limit, Some(nm(18 * SIXTEENTH)));
        assert_eq!(found.authority, covers_authority());
        assert_eq!(found.subject.columns, [0, 1]);
        assert!(found.text.starts_with("base B1: the washer is"), "{}", found.text);
    }

    #[test]
    fn over_an_oversize_hole_the_table_governs_where_it_asks_for_more() {
        // hole 1-5/16, rod 3/4: 1-7/8 covers it, the table asks for 2
        let mut job = clean_job();
        job.bases[0].plate.holes = Some(nm(21 * SIXTEENTH));
        job.bases[0].washers[0].outer = Some(nm(31 * SIXTEENTH));
        let found = judged(&job);
        assert_eq!((found.level(), found.limit), (Some(Level::Ask), Some(nm(32 * SIXTEENTH))));
        assert_eq!(found.authority.text, "the hole table");
        job.bases[0].hole_table = None;
        assert_eq!((judged(&job).level(), judged(&job).limit), (None, Some(nm(30 * SIXTEENTH))));
    }

    #[test]
    fn what_is_not_known_is_asked_for() {
        let mut job = clean_job();
        job.bases[0].washers[0].outer = None;
        assert!(matches!(judged(&job).outcome, Outcome::Unknown(Level::Ask, _)));
        job.bases[0].plate.holes = None;
        assert!(matches!(judged(&job).outcome, Outcome::Unknown(Level::Ask, _)));
        job = clean_job();
        job.bases[0].washers.clear();
        assert_eq!(judged(&job).outcome, Outcome::Fail(Level::Ask));
    }

    #[test]
    fn one_washer_that_covers_the_hole_is_enough() {
        let mut job = clean_job();
        let mut narrow = job.bases[0].washers[0].clone();
        narrow.outer = Some(nm(SIXTEENTH));
        job.bases[0].washers.push(narrow);
        assert!(matches!(judged(&job).outcome, Outcome::Pass { .. }));
        assert_ne!(judged(&job).authority, the_table());
    }
}
