//! A rod is bent, cut or damaged.

use super::Rule;
use super::subjects::{KEPT, rod_name};
use super::wording::quoted;
use crate::catalog::{Authority, Standing};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::model::Condition;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "rod-condition",
    about: "every rod sound",
    checks: "nothing is noted of a rod's condition",
    why: "a rod that was straightened, cut or welded in the field may fail under the first load",
    limit: |_, _| Some(("nothing noted".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    Authority::new(
        Standing::Published,
        "29 CFR 1926.755(b)(1) (anchor rods shall not be repaired, replaced or field-modified without the approval \
         of the project structural engineer of record); 29 CFR 1926.752(a)(2)",
    )
}

/// Judges one rod by what was noted of it.
fn outcome(condition: &Condition) -> Outcome {
    match condition {
        Condition::Sound => KEPT,
        Condition::Noted(_) => Outcome::Fail(Level::Ask),
    }
}

fn sentence(name: &str, condition: &Condition) -> String {
    match condition {
        Condition::Sound => format!("{name}: nothing noted"),
        Condition::Noted(note) => format!(
            "{name}: noted {}; do not straighten, cut, weld or replace it, ask the engineer",
            quoted(note)
        ),
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for column in &case.columns {
        // the rods of a case stand in the order of the column's
        for (rod, noted) in column.rods.iter().zip(&case.column(column.index).rods) {
            findings.push(Finding::said(
                Subject::rod(column.index, rod.label),
                sentence(&rod_name(case, column, rod), &noted.condition),
                outcome(&noted.condition),
                authority(),
            ));
        }
    }
    findings
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, told};
    use super::*;
    use crate::catalog::Standing;

    #[test]
    fn a_noted_rod_is_asked_about_in_the_crews_own_words() {
        let mut job = clean_job();
        job.columns[0].rods[3].condition = Condition::Noted("bent 10 deg".to_owned());
        let found = findings(&job, &RULE);
        assert_eq!(told(&found)[..4], [None, None, None, Some(Level::Ask)]);
        assert!(found[3].text.starts_with("A1 rod 4: noted \"bent 10 deg\""), "{}", found[3].text);
        assert_eq!(found[3].authority.kind, Standing::Published);
    }
}
