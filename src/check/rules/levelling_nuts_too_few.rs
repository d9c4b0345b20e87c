//! A base is set on fewer than four levelling nuts.

use super::Rule;
use super::set_on::{Said, each_base, on_nuts};
use super::subjects::KEPT;
use crate::catalog::{RODS_FOR_NUTS, rods_for_nuts_authority};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "levelling-nuts-too-few",
    about: "how many rods carry levelling nuts",
    checks: "a base on levelling nuts has four rods or more, a post too",
    why: "on two or three nuts a column tips over a line or a corner while it is set",
    limit: |_, _| Some((format!("{RODS_FOR_NUTS} rods or more"), rods_for_nuts_authority())),
    judge,
};

/// Judges a count of rods: from memory, so it is asked about and holds nothing.
fn outcome(rods: u32) -> Outcome {
    if rods < RODS_FOR_NUTS { Outcome::Fail(Level::Ask) } else { KEPT }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_base(case, on_nuts, |base, _| {
        let rods = base.rods.count;
        let outcome = outcome(rods);
        let text = match outcome {
            Outcome::Fail(_) => format!(
                "levelling nuts on {rods} rods, they are discouraged with fewer than {RODS_FOR_NUTS}; ask the engineer"
            ),
            _ => format!("levelling nuts on {rods} rods"),
        };
        Said::plainly(outcome, text, rods_for_nuts_authority())
    })
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{bedded, findings, levelling};
    use super::*;
    use crate::model::Duty;

    /// AISC 303, commentary to 7.6 (from memory): fewer than four rods are discouraged.
    #[test]
    fn four_rods_pass_and_three_are_asked_about_under_a_post_too() {
        let mut job = bedded(levelling());
        assert_eq!(findings(&job, &RULE)[0].outcome, KEPT);
        job.bases[0].rods.count = 3;
        for duty in [Duty::Column, Duty::Post] {
            job.bases[0].duty = duty;
            let found = findings(&job, &RULE);
            assert_eq!((found.len(), found[0].level()), (1, Some(Level::Ask)));
            assert_eq!(found[0].subject.columns, [0, 1]);
        }
    }
}
