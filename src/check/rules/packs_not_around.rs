//! The packs under a plate do not stand round its edges.
//!
//! It is asked about and holds nothing: one published note has a single central pack after all, and where packs really stand
//! the job does not say.

use super::Rule;
use super::set_on::{Said, each_base, on_packs};
use super::subjects::KEPT;
use crate::catalog::perimeter_authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "packs-not-around",
    about: "how many packs stand under a plate",
    checks: "four packs or more, an even number, so that they can stand symmetric at the four edges of the plate",
    why: "over one pack in the middle, or a line of two, the column tips before its grout is hard",
    limit: |_, _| Some(("four or more, an even number; never one alone".to_owned(), perimeter_authority())),
    judge,
};

/// Judges a number of packs, and says what is wrong with it.
fn outcome(count: Option<u32>) -> (Outcome, String) {
    let ask = Outcome::Fail(Level::Ask);
    match count {
        None => (
            Outcome::Unknown(Level::Ask, "the number of packs".to_owned()),
            "how many packs hold the plate is not given; give count, or ask the engineer".to_owned(),
        ),
        Some(1) => {
            (ask, "one pack alone, the plate tips on it; ask the engineer for packs at the edges".to_owned())
        }
        Some(2) => (
            ask,
            "two packs, the plate tips over the line of them; ask the engineer for packs at all edges"
                .to_owned(),
        ),
        Some(count) if count % 2 == 1 => (
            ask,
            format!("{count} packs cannot stand symmetric at four edges; ask the engineer where they stand"),
        ),
        Some(count) => (KEPT, format!("{count} packs, to be put symmetric at the four edges of the plate")),
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_base(case, on_packs, |_, packs| {
        let (outcome, text) = outcome(packs.count);
        Said::plainly(outcome, text, perimeter_authority())
    })
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{bedded, findings, four_packs};
    use super::*;
    use crate::model::{Packs, Setting};

    fn judged(count: Option<u32>) -> Outcome {
        let job = bedded(Setting::Packs(Packs { count, ..four_packs() }));
        let found = findings(&job, &RULE);
        assert_eq!((found.len(), found[0].subject.columns.as_slice()), (1, [0, 1].as_slice()));
        found[0].outcome.clone()
    }

    /// NBS 440: symmetric round the perimeter, no single central pack; Design Guide 1, 2.9.3: at the four edges.
    #[test]
    fn four_and_more_even_numbers_pass_and_one_alone_two_and_odd_ones_are_asked_about() {
        assert_eq!([4, 6, 8].map(|count| judged(Some(count))), [KEPT, KEPT, KEPT]);
        for count in [1, 2, 3, 5] {
            assert_eq!(judged(Some(count)), Outcome::Fail(Level::Ask), "{count}");
        }
        assert!(matches!(judged(None), Outcome::Unknown(Level::Ask, _)));
    }
}
