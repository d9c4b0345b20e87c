//! The concrete was tested to less than three quarters of what it is to be.

use super::Rule;
use super::subjects::{KEPT, does_not_apply};
use crate::catalog::{Authority, Standing};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::check::rules::style;
use crate::model::{Concrete, PERCENT_BEFORE_ERECTION};
use crate::text::Style;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "concrete-not-strong-enough",
    about: "concrete before steel is erected on it, where its strength and a test of it are given",
    checks: "field-cured samples were tested to 75 percent of the specified strength or more",
    why: "bases are loaded on concrete that is days old; what bears the finished building may crush or split now",
    limit: |_, _| Some(("75 percent of the specified strength".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    Authority::new(
        Standing::Published,
        "29 CFR 1926.752(a)(1) and (b): 75 percent of the intended minimum compressive design strength by tests of \
         field-cured samples, or sufficient strength to support the loads imposed during steel erection; 1926.758 does \
         not leave it out",
    )
}

fn outcome(concrete: &Concrete) -> Outcome {
    match (concrete.strength, concrete.tested, concrete.is_strong_enough()) {
        (_, _, Some(true)) => KEPT,
        (_, _, Some(false)) => Outcome::Fail(Level::Stop),
        (None, Some(_), None) => Outcome::Unknown(Level::Ask, "the strength that is specified".to_owned()),
        (Some(_), None, _) => Outcome::Unknown(Level::Note, "a test of the concrete".to_owned()),
        _ => {
            does_not_apply("no test of the concrete is given: the written notice of 29 CFR 1926.752 tells it")
        }
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let concrete = &case.job.concrete;
    let style = style(case.job);
    let outcome = outcome(concrete);
    let subject = Subject { columns: (0..case.columns.len()).collect(), ..Subject::default() };
    let text = sentence(concrete, &outcome, style);
    vec![Finding {
        arithmetic: arithmetic(concrete, style),
        ..Finding::said(subject, text, outcome, authority())
    }]
}

fn sentence(concrete: &Concrete, outcome: &Outcome, style: Style) -> String {
    let told = |strength: Option<_>| strength.map_or("not given".to_owned(), |it| style.concrete(it));
    let (specified, tested) = (told(concrete.strength), told(concrete.tested));
    match outcome {
        Outcome::Fail(_) => format!(
            "concrete tested to {tested}, under 75 percent of {specified}; do not erect on it unless the engineer says in \
             writing that it bears the loads of erection"
        ),
        Outcome::Unknown(Level::Note, _) => format!(
            "concrete specified as {specified}, and no test of it is given; no steel goes up before written notice that it \
             has 75 percent of that, or enough for the loads of erection"
        ),
        Outcome::Unknown(..) => {
            format!("concrete tested to {tested}, and what is specified is not given; ask the engineer")
        }
        Outcome::Pass { .. } => format!("concrete tested to {tested} of {specified}"),
        Outcome::NotApplicable(why) => why.clone(),
    }
}

fn arithmetic(concrete: &Concrete, style: Style) -> Vec<String> {
    let lines = concrete.strength.zip(concrete.tested).map(|(strength, tested)| {
        let wanted = strength.hundredths_up(PERCENT_BEFORE_ERECTION);
        let sign = if tested >= wanted { ">=" } else { "<" };
        format!(
            "0.75 x {} = {}; tested {} {sign} {}",
            style.concrete(strength),
            style.concrete(wanted),
            style.concrete(tested),
            style.concrete(wanted)
        )
    });
    lines.into_iter().collect()
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings};
    use super::*;
    use crate::quantity::read_stress;

    fn told(strength: Option<&str>, tested: Option<&str>) -> Finding {
        let mut job = clean_job();
        let read = |text: Option<&str>| text.map(|text| read_stress(text).unwrap());
        job.concrete = Concrete { strength: read(strength), tested: read(tested) };
        findings(&job, &RULE).swap_remove(0)
    }

    /// 29 CFR 1926.752(a)(1): 75 percent of 3000 psi are 2250 psi.
    #[test]
    fn of_3000_psi_2250_are_enough_and_2249_are_not() {
        assert_eq!(told(Some("3000 psi"), Some("2250 psi")).outcome, KEPT);
        let weak = told(Some("3 ksi"), Some("2249 psi"));
        assert_eq!(weak.outcome, Outcome::Fail(Level::Stop));
        assert_eq!(weak.arithmetic, ["0.75 x 3000 psi = 2250 psi; tested 2249 psi < 2250 psi"]);
        assert_eq!(weak.subject.columns, [0, 1], "all of the job stand on it");
    }

    #[test]
    fn three_quarters_are_exact_in_every_unit() {
        assert_eq!(told(Some("28 MPa"), Some("21 N/mm2")).outcome, KEPT);
        assert_eq!(told(Some("28 MPa"), Some("20.999 MPa")).outcome, Outcome::Fail(Level::Stop));
        assert_eq!(told(Some("3500 psi"), Some("2625 psi")).outcome, KEPT);
    }

    #[test]
    fn what_is_not_given_is_no_pass() {
        assert!(matches!(told(None, None).outcome, Outcome::NotApplicable(_)));
        let untested = told(Some("3 ksi"), None);
        assert!(matches!(untested.outcome, Outcome::Unknown(Level::Note, _)), "{untested:?}");
        assert!(untested.text.contains("no steel goes up before written notice"), "{}", untested.text);
        let alone = told(None, Some("20 MPa"));
        assert!(matches!(alone.outcome, Outcome::Unknown(Level::Ask, _)), "{alone:?}");
    }
}
