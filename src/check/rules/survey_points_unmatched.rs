//! Points of a surveyor's file are no pad, no rod and no benchmark, and were not used.

use super::Rule;
use super::subjects::{KEPT, does_not_apply, house_rule};
use super::wording::{quoted, some_of};
use crate::catalog::Authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::model::{Readings, Unmatched};
use crate::text::count;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "survey-points-unmatched",
    about: "points of a surveyor's file that are nothing of this job",
    checks: "every point of the file is a pad, the top of a rod or a benchmark, by its name or its description",
    why: "a mistyped mark leaves a pad out, or leaves it with fewer readings than were taken",
    limit: |_, _| Some(("every point".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("a point is matched by its mark and never guessed from where it stands")
}

/// Judges the points that were left over.
fn outcome(readings: &Readings) -> Outcome {
    if !readings.unmatched.is_empty() {
        Outcome::Fail(Level::Note)
    } else if readings.elevations.is_empty() {
        does_not_apply("no elevations were measured elsewhere")
    } else {
        KEPT
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let readings = &case.job.readings;
    let outcome = outcome(readings);
    let text = match &outcome {
        Outcome::NotApplicable(why) => format!("surveyed points: {why}"),
        Outcome::Fail(_) => sentence(&readings.unmatched),
        _ => "surveyed points: every one is a pad, a rod or a benchmark of this job".to_owned(),
    };
    vec![Finding::said(Subject::default(), text, outcome, authority())]
}

/// Names the first, and sends on to where all are listed.
fn sentence(left: &[Unmatched]) -> String {
    let names: Vec<String> = left.iter().map(|it| short(&it.called())).collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    let verb = if left.len() == 1 { "is" } else { "are" };
    let told = format!("{} {verb} no pad or rod here and not used", count(left.len(), "surveyed point"));
    let with_names = format!("{told}: {}; rodreach level lists them", some_of(&names));
    if with_names.chars().count() <= MOST { with_names } else { format!("{told}; rodreach level lists them") }
}

/// Most characters of the sentence.
const MOST: usize = 160;

/// Most characters of one name.
const MOST_NAME: usize = 18;

fn short(name: &str) -> String {
    if name.chars().count() <= MOST_NAME {
        return name.to_owned();
    }
    quoted(&name.chars().take(MOST_NAME).collect::<String>()).trim_matches('"').to_owned() + "…"
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, make_relative, told};
    use super::*;

    fn left(job: &crate::model::Job, point: &str, description: &str) -> Unmatched {
        let place = job.readings.elevations[0].place;
        Unmatched { point: point.to_owned(), description: description.to_owned(), place }
    }

    #[test]
    fn points_that_nobody_could_match_are_noted_by_name() {
        let mut job = clean_job();
        assert_eq!(told(&findings(&job, &RULE)), [None]);
        job.readings.unmatched = vec![left(&job, "117", "edge of slab")];
        let found = findings(&job, &RULE);
        assert_eq!(told(&found), [Some(Level::Note)]);
        assert_eq!(
            found[0].text,
            "1 surveyed point is no pad or rod here and not used: 117 (edge of slab); rodreach level lists them"
        );
        let many = vec![left(&job, "117", "the edge of the slab at the north-east corner\u{7}"); 40];
        job.readings.unmatched = many;
        let text = &findings(&job, &RULE)[0].text;
        assert!(text.starts_with("40 surveyed points are no pad or rod here and not used"), "{text}");
        assert!(text.chars().count() <= 165 && !text.contains(char::is_control), "{text}");
    }

    #[test]
    fn it_does_not_apply_where_nothing_was_surveyed() {
        let mut job = clean_job();
        make_relative(&mut job);
        let found = findings(&job, &RULE);
        assert!(matches!(found[0].outcome, Outcome::NotApplicable(_)));
    }
}
