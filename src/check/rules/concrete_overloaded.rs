//! A load is more than the least published figure for the concrete under it.

use super::Rule;
use super::cover::by_base;
use super::subjects::{does_not_apply, mark};
use crate::catalog::{Authority, Standing};
use crate::check::bearing::{Bearing, Seat, Stage};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::check::rules::style;
use crate::length::{Length, Rounding};
use crate::model::Base;
use crate::quantity::Force;
use crate::text::Style;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "concrete-overloaded",
    about: "what the concrete bears, where its strength and a load are given",
    checks: "the load of erection on what holds the plate before grout, and the factored load on the plate, are no more \
             than the least published figure",
    why: "concrete that is loaded on too small an area splits and lets the column down; nothing under it shows that before",
    limit: |_, _| Some(("the least of the published figures".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    Authority::new(
        Standing::Published,
        "ACI 318-19, 22.8.3.2, and AISC 360, J8, as seen through second parties: 0.85 f'c A1 sqrt(A2/A1), no more than twice \
         0.85 f'c A1, with the factors that `explain` shows side by side; figures for the engineer and no design",
    )
}

impl Stage {
    /// Names the load.
    const fn load(self) -> &'static str {
        match self {
            Self::Erection => "erection load",
            Self::Finished => "factored load",
        }
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let mut all: Vec<Finding> = by_base(case, |columns, base| of_base(case, columns, base));
    // the finished building is the same at every column of a base, what stands under a plate before is not
    for (at, base) in case.job.bases.iter().enumerate() {
        let on_it = case.columns.iter().filter(|column| case.column(column.index).base == at);
        let columns: Vec<usize> = on_it.map(|column| column.index).collect();
        if !columns.is_empty() {
            let subject = Subject { columns, ..Subject::default() };
            let name = format!("base {}", base.mark);
            all.extend(held_against(case, subject, &name, &Bearing::finished(case, base)));
        }
    }
    for column in &case.columns {
        let subject = Subject::column(column.index);
        all.extend(held_against(case, subject, mark(case, column), &Bearing::before(case, column)));
    }
    all
}

/// Says what is not known of a base.
fn of_base(case: &Case<'_>, columns: &[usize], base: &Base) -> Finding {
    let subject = Subject { columns: columns.to_vec(), ..Subject::default() };
    let name = format!("base {}", base.mark);
    let said =
        |outcome, words: &str| Finding::said(subject, format!("{name}: {words}"), outcome, authority());
    let loads = [(Stage::Erection, base.loads.erection), (Stage::Finished, base.loads.factored)];
    let given = |(_, load): &(Stage, Option<Force>)| load.is_some_and(|load| load > Force::ZERO);
    let strong = case.job.concrete.at_erection().is_some();
    let missing: Vec<&str> = loads.iter().filter(|it| it.1.is_none()).map(|it| it.0.load()).collect();
    match (strong, loads.iter().any(given), missing.as_slice()) {
        (false, false, _) => {
            let why = "neither the strength of the concrete nor a load on it is given";
            said(does_not_apply(why), why)
        }
        (false, true, _) => said(
            Outcome::Unknown(Level::Ask, "the strength of the concrete".to_owned()),
            "a load is given, and the strength of the concrete is not; ask the engineer",
        ),
        (true, _, []) => {
            let why = "both loads are given: each is held against its figures";
            said(does_not_apply(why), why)
        }
        (true, _, missing) => {
            let (missing, verb) = match missing {
                [one] => (format!("the {one}"), "is"),
                _ => ("the erection load and the factored load".to_owned(), "are"),
            };
            let words = format!("{missing} {verb} not given, and never taken for 0; ask the engineer for it");
            said(Outcome::Unknown(Level::Note, missing), &words)
        }
    }
}

/// Holds a load that is given against the least figure.
fn held_against(case: &Case<'_>, subject: Subject, name: &str, bearing: &Bearing) -> Option<Finding> {
    let load = bearing.load.filter(|load| *load > Force::ZERO)?;
    case.job.concrete.at_erection()?;
    let style = style(case.job);
    let lead = format!("{name}: {} {}", bearing.stage.load(), style.force_exact(load));
    let Some((share, (rule, least))) = bearing.share().zip(bearing.least()) else {
        let (missing, words) = missing(bearing);
        let text = format!("{lead}, and {words}; ask the engineer");
        let outcome = Outcome::Unknown(Level::Ask, missing.to_owned());
        return Some(Finding::said(subject, text, outcome, authority()));
    };
    let over = share > *least;
    let outcome = if over { Outcome::Fail(Level::Ask) } else { Outcome::Pass { margin: None } };
    let text = format!("{lead}{}", sentence(bearing, style, share, *least));
    Some(Finding {
        arithmetic: arithmetic(bearing, style, share, *least),
        ..Finding::said(subject, text, outcome, rule.authority.clone())
    })
}

/// Says what is missing for a figure.
fn missing(bearing: &Bearing) -> (&'static str, String) {
    match bearing.seat {
        Seat::Rods => {
            let what = "what the rods bear by their levelling nuts";
            (what, format!("{what} is not worked out here"))
        }
        Seat::Unknown(what) => (what, format!("it is not known {}", known(what))),
        _ if bearing.bears.is_none() => {
            let what = "the strength of the concrete";
            (what, format!("{what} is not given"))
        }
        _ => ("a published figure", "it is beyond all figures".to_owned()),
    }
}

/// Puts what is not known behind "it is not known".
fn known(what: &str) -> String {
    if what.starts_with("the ") { format!("what {what} is") } else { what.to_owned() }
}

fn sentence(bearing: &Bearing, style: Style, share: Force, least: Force) -> String {
    let shown = style.force_pair(share, least);
    let packs = match bearing.seat {
        Seat::Packs(_, count) => format!(", {} on each of {count} packs if shared equally", shown.value),
        _ => String::new(),
    };
    if share > least {
        format!("{packs}: over the least published figure, {}; ask the engineer", shown.limit)
    } else {
        format!("{packs}: no more than the least published figure, {}", shown.limit)
    }
}

fn arithmetic(bearing: &Bearing, style: Style, share: Force, least: Force) -> Vec<String> {
    let Some(bears) = &bearing.bears else { return Vec::new() };
    let sides = |both: [Length; 2]| both.map(|side| style.write(side, Rounding::Down)).join(" x ");
    let shown = style.force_pair(share, least);
    vec![format!(
        "A1 {}, A2 {}, f'c {}: the least of the figures {} against {}",
        sides(bears.sides),
        sides(bears.spread),
        style.concrete(bears.strength),
        shown.limit,
        shown.value
    )]
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, clean_job, findings, nm};
    use super::*;
    use crate::model::{Job, Packs, Setting};
    use crate::quantity::{read_force, read_stress};

    fn job(erection: Option<&str>, factored: Option<&str>) -> Job {
        let mut job = clean_job();
        job.concrete.strength = read_stress("3 ksi").ok();
        job.concrete.tested = read_stress("3 ksi").ok();
        let base = &mut job.bases[0];
        base.plate.size = Some([nm(160 * SIXTEENTH), nm(224 * SIXTEENTH)]);
        base.loads.erection = erection.map(|it| read_force(it).unwrap());
        base.loads.factored = factored.map(|it| read_force(it).unwrap());
        job
    }

    fn levels(job: &Job) -> Vec<Option<Level>> {
        findings(job, &RULE).iter().map(Finding::level).collect()
    }

    /// 0.85 x 3 ksi x 140 in2 = 357 kip: divided by 2.50 142.8 kip (AISC 360-05), times 0.60 214.2 kip.
    #[test]
    fn a_load_of_erection_is_held_against_every_figure_and_a_factored_one_against_those_of_phi() {
        assert_eq!(levels(&job(Some("142.8 kip"), Some("214.2 kip"))), [None; 4]);
        let over = job(Some("142.801 kip"), Some("214.201 kip"));
        let found = findings(&over, &RULE);
        assert_eq!(levels(&over), [None, Some(Level::Ask), Some(Level::Ask), Some(Level::Ask)]);
        assert_eq!(
            found[1].text,
            "base B1: factored load 214.201 kip: over the least published figure, 214.2 kip; ask the engineer"
        );
        assert_eq!(found[1].subject.columns, [0, 1]);
        assert_eq!(
            found[2].text,
            "A1: erection load 142.801 kip: over the least published figure, 142.8 kip; ask the engineer"
        );
    }

    #[test]
    fn concrete_that_was_tested_to_less_bears_less_while_steel_is_erected() {
        let mut job = job(Some("142.8 kip"), Some("214.2 kip"));
        job.concrete.tested = read_stress("2999 psi").ok();
        assert_eq!(levels(&job)[1..3], [None, Some(Level::Ask)]);
        job.concrete.tested = read_stress("4 ksi").ok();
        assert_eq!(levels(&job)[1..3], [None; 2], "what was tested beyond the specified strength");
        job.bases[0].loads.erection = read_force("142.801 kip").ok();
        assert_eq!(levels(&job)[2], Some(Level::Ask), "is not counted on");
        job.concrete.tested = None;
        job.bases[0].loads.erection = read_force("107.1 kip").ok();
        assert_eq!(levels(&job)[2], None, "three quarters of 142.8 where nothing was tested");
        job.bases[0].loads.erection = read_force("107.2 kip").ok();
        assert_eq!(levels(&job)[2], Some(Level::Ask));
    }

    #[test]
    fn what_is_not_given_is_asked_and_never_0() {
        assert_eq!(levels(&clean_job()), [None], "nothing is given, nothing is judged");
        let none = findings(&job(None, None), &RULE).swap_remove(0);
        assert_eq!(
            none.text,
            "base B1: the erection load and the factored load are not given, and never taken for 0; ask the engineer for it"
        );
        assert_eq!(
            none.outcome,
            Outcome::Unknown(Level::Note, "the erection load and the factored load".to_owned())
        );
        assert_eq!(levels(&job(Some("0"), Some("0"))), [None], "said to be none");
        let mut blank = job(Some("12 kip"), None);
        blank.concrete = crate::model::Concrete::default();
        assert_eq!(levels(&blank), [Some(Level::Ask)]);
        let mut blank = job(Some("12 kip"), Some("12 kip"));
        blank.bases[0].plate.size = None;
        assert_eq!(levels(&blank), [None, Some(Level::Ask), Some(Level::Ask), Some(Level::Ask)]);
        let said = &findings(&blank, &RULE)[2].text;
        assert_eq!(
            said,
            "A1: erection load 12 kip, and it is not known what the size of the base plate is; ask the engineer"
        );
    }

    /// What stands under a plate on grout.
    fn on_grout(setting: Option<Setting>) -> Vec<Finding> {
        on_grout_under("84.8 kip", setting)
    }

    fn on_grout_under(load: &str, setting: Option<Setting>) -> Vec<Finding> {
        use crate::check::rules::judge;
        use crate::levels::reduce;
        use crate::plan::{Action, Wish, plan_level};
        let mut job = job(Some(load), None);
        if matches!(setting, Some(Setting::Packs(_))) {
            // concrete far round the plate, of which packs get none
            job.bases[0].pier = Some([nm(640 * SIXTEENTH), nm(896 * SIXTEENTH)]);
        }
        job.bases[0].setting = setting;
        let levels = reduce(&job);
        let mut plan = plan_level(&job, &levels, &Wish::default());
        plan.choices[0].action = Action::Grout;
        plan.choices[0].raise = Some(nm(16 * SIXTEENTH));
        let judged = judge(&job, &levels, &plan);
        let found =
            judged.findings.into_iter().filter(|(name, it)| *name == RULE.name && it.subject.columns == [0]);
        found.map(|(_, finding)| finding).collect()
    }

    /// A pack of 4 x 4 in bears 0.85 x 3 ksi x 16 in2 / 2.50 = 16.32 kip by itself; five of them share 84.8 kip at 16.96.
    #[test]
    fn packs_share_the_load_and_each_is_held_against_its_own_figure() {
        let packs = |count| Packs { size: Some([nm(64 * SIXTEENTH); 2]), count, ..Packs::default() };
        let five = on_grout(Some(Setting::Packs(packs(Some(5))))).swap_remove(0);
        assert_eq!(five.outcome, Outcome::Fail(Level::Ask));
        assert_eq!(
            five.text,
            "A1: erection load 84.8 kip, ~17 kip on each of 5 packs if shared equally: over the least published figure, \
             ~16.3 kip; ask the engineer"
        );
        let six = on_grout(Some(Setting::Packs(packs(Some(6))))).swap_remove(0);
        assert_eq!(six.outcome, Outcome::Pass { margin: None });
        let some = on_grout(Some(Setting::Packs(packs(None)))).swap_remove(0);
        assert_eq!(some.outcome, Outcome::Unknown(Level::Ask, "how many packs there are".to_owned()));
    }

    #[test]
    fn a_plate_over_wet_grout_needs_something_that_holds_it() {
        let asked = |setting| on_grout(setting).swap_remove(0).outcome;
        let unknown = |what: &str| Outcome::Unknown(Level::Ask, what.to_owned());
        let nothing = unknown("what holds the plate until its grout is hard");
        assert_eq!((asked(None), asked(Some(Setting::Shims))), (nothing.clone(), nothing));
        let plate = crate::model::SettingPlate::default();
        assert_eq!(asked(Some(Setting::Plate(plate))), unknown("the size of the setting plate"));
    }

    /// 10 x 14 in of 3 ksi by 0.85 and 2.50 bear 142.8 kip, however large a thin plate lies under them; 10 x 10 in 102 kip.
    #[test]
    fn a_setting_plate_bears_no_further_than_the_base_plate_covers_it() {
        let on = |sides: [i64; 2], load| {
            let size = Some(sides.map(|inches| nm(16 * inches * SIXTEENTH)));
            let plate = crate::model::SettingPlate { size, ..crate::model::SettingPlate::default() };
            on_grout_under(load, Some(Setting::Plate(plate))).swap_remove(0).outcome
        };
        let (kept, over) = (Outcome::Pass { margin: None }, Outcome::Fail(Level::Ask));
        assert_eq!([on([24, 24], "142.8 kip"), on([24, 24], "142.801 kip")], [kept.clone(), over.clone()]);
        assert_eq!([on([24, 10], "102 kip"), on([24, 10], "102.001 kip")], [kept, over]);
    }
}
