//! The readings cannot tell heights from what an instrument did to all of them.

use super::Rule;
use super::subjects::{KEPT, does_not_apply, house_rule};
use crate::catalog::Authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::check::untold_words::{entangled_words, untold_words};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "readings-cannot-tell",
    about: "tilts and sloping lines of sight that are found from the readings",
    checks: "the readings tell them from the heights of the pads, and from each other",
    why: "a slab that slopes and an instrument that is tilted read the same; the shims would follow the instrument",
    limit: |_, _| {
        Some((
            "every tilt and slope asked for is told; none two go together above 0.95".to_owned(),
            authority(),
        ))
    },
    judge,
};

fn authority() -> Authority {
    house_rule("what the readings cannot tell has no height, and no shortest answer stands in for it")
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let levels = case.levels;
    let finding =
        |outcome: Outcome, text: String| Finding::said(Subject::default(), text, outcome, authority());
    let mut found: Vec<Finding> = untold_words(case.job, levels.untold())
        .into_iter()
        .map(|words| finding(Outcome::Unknown(Level::Ask, "what would tell them".to_owned()), words))
        .collect();
    let entangled = levels.entangled().iter();
    found.extend(entangled.map(|it| finding(Outcome::Fail(Level::Ask), entangled_words(case.job, it))));
    if found.is_empty() && levels.slopes().is_empty() {
        let none = does_not_apply("no tilt and no slope of a line of sight is looked for");
        found.push(finding(none, "level readings: instruments are taken as level".to_owned()));
    } else if found.is_empty() {
        found.push(finding(KEPT, "level readings: the slopes that were looked for are told".to_owned()));
    }
    found
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, make_relative, nm};
    use super::*;
    use crate::model::Tilt;

    #[test]
    fn a_tilt_that_nothing_tells_is_asked_about_with_what_would() {
        let mut job = clean_job();
        make_relative(&mut job);
        assert!(matches!(findings(&job, &RULE)[0].outcome, Outcome::NotApplicable(_)));
        job.columns[0].at = Some([nm(0), nm(0)]);
        job.columns[1].at = Some([nm(6_096_000_000), nm(0)]);
        job.readings.setups[0].tilt = Tilt::Free;
        let found = findings(&job, &RULE);
        assert_eq!(found[0].level(), Some(Level::Ask));
        assert!(found[0].text.contains("setup 1 cannot tell a sloping slab from a tilted instrument"));
    }
}
