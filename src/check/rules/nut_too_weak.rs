//! A nut is weaker than the one recommended for the grade, size and finish of its rod.

use super::cover::by_base;
use super::subjects::does_not_apply;
use super::{Rule, style};
use crate::catalog::{Authority, Standing};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::model::{Base, NutPart, RodSteel, WantedNut};
use crate::text::Style;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "nut-too-weak",
    about: "grades of nuts, where that of the rods is given",
    checks: "every nut on a rod is the one recommended for the rod's grade, size and finish, one that may replace \
             any, or one of no lower style and proof stress",
    why: "a nut that is too weak or too low strips before its rod is at its strength, and nobody sees it beforehand",
    limit: |_, _| Some(("the recommended nut, or one no weaker".to_owned(), table_authority())),
    judge,
};

fn table_authority() -> Authority {
    Authority::new(
        Standing::Published,
        "ASTM F1554, table of recommended nuts, and ASTM A563, proof stress, as printed on public pages; of metric rods \
         ISO 898-1 and -2, most pairs of which are from memory (`rodreach catalog grades`); the standards themselves \
         were not opened",
    )
}

/// How a nut stands to what is recommended.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Stands {
    /// It will do, on whose word.
    Good(Authority),
    /// It is weaker or lower.
    Weak,
    /// Something is missing, and what.
    Unknown(&'static str),
}

/// Holds a nut against one recommended nut.
fn against(nut: &NutPart, wanted: &WantedNut, no_weaker: Option<&Authority>) -> Stands {
    let Some(style) = nut.style else { return Stands::Unknown("the style of the nut") };
    match style.is_no_lower_than(wanted.row.style) {
        Some(true) => {}
        Some(false) => return Stands::Weak,
        None => return Stands::Unknown("whether a nut of this style will do"),
    }
    let Some(steel) = &nut.steel else { return Stands::Unknown("the grade of the nut") };
    if steel.grade == wanted.row.nut && style == wanted.row.style {
        return Stands::Good(wanted.row.authority.clone());
    }
    if let Some(authority) = &steel.instead {
        return Stands::Good(authority.clone());
    }
    let Some(no_weaker) = no_weaker else { return Stands::Weak };
    let proof = steel.proof.as_ref().and_then(|proof| proof.proof(wanted.row.finish));
    match (proof, wanted.proof) {
        (Some(proof), Some(wanted)) if proof >= wanted => Stands::Good(no_weaker.clone()),
        (Some(_), Some(_)) => Stands::Weak,
        _ => Stands::Unknown("the proof stress of the nut"),
    }
}

/// Holds a nut against what is recommended for the finish of the rods, or for each where the finish is not known.
fn on_rods(nut: &NutPart, rods: &RodSteel) -> Stands {
    let each = rods.wanted.iter().map(|wanted| against(nut, wanted, rods.no_weaker.as_ref()));
    let each: Vec<Stands> = each.collect();
    let missing = each.iter().find(|stands| matches!(stands, Stands::Unknown(_)));
    let weak = each.iter().filter(|stands| **stands == Stands::Weak).count();
    match (each.first(), missing) {
        (None, _) => Stands::Unknown("a recommended nut for rods of this grade and size"),
        (Some(_), _) if weak == each.len() => Stands::Weak,
        (Some(_), Some(missing)) => missing.clone(),
        (Some(first), None) if weak == 0 => first.clone(),
        _ => Stands::Unknown("the finish of the rods"),
    }
}

/// Finds the nut of a base that stands worst, and how.
fn worst<'b>(base: &'b Base, rods: &RodSteel) -> Option<(&'b NutPart, Stands)> {
    let grave = |stands: &Stands| match stands {
        Stands::Weak => 0,
        Stands::Unknown(_) => 1,
        Stands::Good(_) => 2,
    };
    base.nuts.iter().map(|nut| (nut, on_rods(nut, rods))).min_by_key(|(_, stands)| grave(stands))
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    by_base(case, |columns, base| {
        let subject = Subject { columns: columns.to_vec(), ..Subject::default() };
        let name = format!("base {}", base.mark);
        let found = base.rods.steel.as_ref().and_then(|rods| Some((rods, worst(base, rods)?)));
        let Some((rods, (nut, stands))) = found else {
            let why = "the grade of the rods is not given, so no nut is held against it";
            return Finding::said(subject, format!("{name}: {why}"), does_not_apply(why), table_authority());
        };
        let (outcome, authority) = match &stands {
            Stands::Good(authority) => (Outcome::Pass { margin: None }, authority.clone()),
            Stands::Weak => (Outcome::Fail(Level::Ask), wanted_authority(rods)),
            Stands::Unknown(what) => {
                (Outcome::Unknown(Level::Ask, (*what).to_owned()), wanted_authority(rods))
            }
        };
        let text = sentence(&name, base, rods, nut, &stands);
        Finding {
            arithmetic: arithmetic(nut, rods, style(case.job)),
            ..Finding::said(subject, text, outcome, authority)
        }
    })
}

fn wanted_authority(rods: &RodSteel) -> Authority {
    rods.wanted.first().map_or_else(table_authority, |wanted| wanted.row.authority.clone())
}

fn sentence(name: &str, base: &Base, rods: &RodSteel, nut: &NutPart, stands: &Stands) -> String {
    let (grade, nut) = (&rods.grade, nut_words(nut));
    if rods.wanted.is_empty() {
        let size = &base.rods.size;
        return format!("{name}: no nut is recommended for {grade} rods of {size}; ask the engineer");
    }
    let wanted = wanted_words(rods);
    match stands {
        Stands::Good(_) => format!("{name}: {nut} on {grade} rods, {wanted} recommended"),
        Stands::Weak => format!("{name}: {nut} on {grade} rods, {wanted} is recommended; ask the engineer"),
        Stands::Unknown(what) => {
            format!(
                "{name}: {what} is not known; {wanted} is recommended on {grade} rods: look, or ask the engineer"
            )
        }
    }
}

fn nut_words(nut: &NutPart) -> String {
    let style = nut.style.map_or(nut.series.as_str(), |style| style.words());
    match &nut.steel {
        Some(steel) => format!("nut {} {style}", steel.grade),
        None => format!("nut {style}"),
    }
}

/// Names the recommended nut; one for each finish where they differ.
fn wanted_words(rods: &RodSteel) -> String {
    let words = |wanted: &WantedNut| format!("{} {}", wanted.row.nut, wanted.row.style.words());
    let mut each: Vec<String> = rods.wanted.iter().map(words).collect();
    each.dedup();
    if let [one] = each.as_slice() {
        return one.clone();
    }
    let each = rods.wanted.iter().map(|wanted| format!("{} ({})", words(wanted), wanted.row.finish.words()));
    each.collect::<Vec<_>>().join(" or ")
}

fn arithmetic(nut: &NutPart, rods: &RodSteel, style: Style) -> Vec<String> {
    let told = |proof: Option<_>| proof.map_or_else(|| "not known".to_owned(), |proof| style.steel(proof));
    let lines = rods.wanted.iter().map(|wanted| {
        let finish = wanted.row.finish;
        let own =
            nut.steel.as_ref().and_then(|steel| steel.proof.as_ref()).and_then(|proof| proof.proof(finish));
        format!("proof stress, {}: {}, recommended {}", finish.words(), told(own), told(wanted.proof))
    });
    lines.collect()
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, clean_job, findings, nm};
    use super::*;
    use crate::catalog::{Catalog, Finish, NutStyle, load};
    use crate::model::{Job, NutSteel};

    /// The clean job with rods of a grade and finish, so many sixteenths thick, and one nut.
    fn with(sixteenths: i64, rods: (&str, Option<Finish>), nut: (Option<NutStyle>, Option<&str>)) -> Job {
        let catalog: Catalog = load().unwrap();
        let diameter = nm(sixteenths * SIXTEENTH);
        let mut job = clean_job();
        let base = &mut job.bases[0];
        base.rods.diameter = diameter;
        base.rods.steel = Some(RodSteel::find(&catalog, rods.0, rods.1, diameter));
        base.nuts[0].style = nut.0;
        base.nuts[0].steel = nut.1.map(|grade| NutSteel::find(&catalog, grade, nut.0, diameter));
        job
    }

    fn told(sixteenths: i64, rods: (&str, Option<Finish>), nut: (Option<NutStyle>, Option<&str>)) -> Outcome {
        findings(&with(sixteenths, rods, nut), &RULE).swap_remove(0).outcome
    }

    const GOOD: Outcome = Outcome::Pass { margin: None };
    const WEAK: Outcome = Outcome::Fail(Level::Ask);
    const HEX: Option<NutStyle> = Some(NutStyle::Hex);
    const HEAVY: Option<NutStyle> = Some(NutStyle::HeavyHex);
    const PLAIN: Option<Finish> = Some(Finish::Plain);
    const ZINC: Option<Finish> = Some(Finish::Zinc);

    fn unknown(what: &str) -> Outcome {
        Outcome::Unknown(Level::Ask, what.to_owned())
    }

    #[test]
    fn without_any_grade_the_rule_says_what_is_missing_and_does_not_apply() {
        let found = findings(&clean_job(), &RULE).swap_remove(0);
        assert!(matches!(found.outcome, Outcome::NotApplicable(_)));
        assert_eq!(found.text, "base B1: the grade of the rods is not given, so no nut is held against it");
        assert_eq!(found.subject.columns, [0, 1]);
    }

    /// ASTM F1554, recommended nuts (two public pages): grade 36 A hex to 1-1/2, A heavy hex over; grade 55 the same,
    /// A heavy hex at every size where zinc-coated; grade 105 DH heavy hex. ASTM A563-15, Table 3, proof stress.
    #[test]
    fn the_recommended_nut_will_do_and_a_lower_or_weaker_one_is_asked_about() {
        assert_eq!(told(12, ("F1554-36", PLAIN), (HEX, Some("A"))), GOOD);
        assert_eq!(told(24, ("F1554-36", ZINC), (HEX, Some("A"))), GOOD, "1-1/2 is the last hex nut");
        assert_eq!(told(28, ("F1554-36", PLAIN), (HEX, Some("A"))), WEAK, "1-3/4 has a heavy hex nut");
        assert_eq!(told(28, ("F1554-36", PLAIN), (HEAVY, Some("A"))), GOOD);
        assert_eq!(told(12, ("F1554-55", PLAIN), (HEX, Some("A"))), GOOD);
        assert_eq!(told(12, ("F1554-55", ZINC), (HEX, Some("A"))), WEAK);
        assert_eq!(told(12, ("F1554-55", ZINC), (HEAVY, Some("A"))), GOOD);
        assert_eq!(told(12, ("F1554-105", PLAIN), (HEAVY, Some("DH"))), GOOD);
        assert_eq!(told(12, ("F1554-105", PLAIN), (HEAVY, Some("A"))), WEAK, "100 ksi for 175");
        assert_eq!(told(12, ("F1554-105", PLAIN), (HEAVY, Some("C"))), WEAK, "144 ksi for 175");
        assert_eq!(
            told(12, ("F1554-105", PLAIN), (HEAVY, Some("D"))),
            WEAK,
            "the sources disagree: the stronger"
        );
        assert_eq!(told(12, ("F1554-105", PLAIN), (HEX, Some("DH"))), WEAK, "the style is too low");
    }

    #[test]
    fn dh_and_2h_replace_any_and_others_by_their_proof_stress() {
        for grade in ["DH", "2H"] {
            assert_eq!(told(12, ("F1554-36", PLAIN), (HEX, Some(grade))), GOOD, "{grade}");
            assert_eq!(told(28, ("F1554-105", ZINC), (HEAVY, Some(grade))), GOOD, "{grade}");
        }
        let found = |job: &Job| findings(job, &RULE).swap_remove(0);
        let higher = found(&with(12, ("F1554-36", PLAIN), (HEAVY, Some("A"))));
        assert_eq!((higher.outcome, higher.authority.kind), (GOOD, Standing::FromMemory), "100 ksi for 90");
        assert_eq!(higher.arithmetic, ["proof stress, plain: 100 ksi, recommended 90 ksi"]);
        assert_eq!(higher.text, "base B1: nut A heavy hex on F1554-36 rods, A hex recommended");
    }

    #[test]
    fn what_is_not_known_of_a_nut_or_a_rod_is_asked_and_never_a_pass() {
        assert_eq!(told(12, ("F1554-36", PLAIN), (HEX, None)), unknown("the grade of the nut"));
        assert_eq!(told(12, ("F1554-36", PLAIN), (None, Some("DH"))), unknown("the style of the nut"));
        assert_eq!(told(12, ("F1554-105", PLAIN), (HEX, None)), WEAK, "too low, whatever its grade");
        assert_eq!(told(12, ("F1554-36", PLAIN), (HEX, Some("D"))), unknown("the proof stress of the nut"));
        // A hex on grade 55: recommended where plain, too low where zinc-coated
        assert_eq!(told(12, ("F1554-55", None), (HEX, Some("A"))), unknown("the finish of the rods"));
        assert_eq!(told(12, ("F1554-55", None), (HEAVY, Some("A"))), GOOD, "whatever the finish");
        let none = unknown("a recommended nut for rods of this grade and size");
        assert_eq!(
            told(56, ("F1554-105", PLAIN), (HEAVY, Some("DH"))),
            none,
            "3-1/2 is no size of grade 105"
        );
    }

    #[test]
    fn every_nut_on_the_rod_counts() {
        let mut job = with(12, ("F1554-36", PLAIN), (HEAVY, Some("DH")));
        let mut other = job.bases[0].nuts[0].clone();
        other.steel = None;
        job.bases[0].nuts.push(other);
        let found = findings(&job, &RULE).swap_remove(0);
        assert_eq!(found.outcome, unknown("the grade of the nut"));
        assert!(found.text.contains("the grade of the nut is not known"), "{}", found.text);
    }
}
