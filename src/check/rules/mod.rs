//! The rules, one file each, named after the fault.

mod between;
mod building_out;
mod column_in_no_line;
mod compare;
mod cover;
mod design_out;
#[cfg(test)]
mod fixture;
mod grind_planned;
mod grout_planned;
mod level_notes_disagree;
mod levelling_nut_no_room;
mod levelling_nut_off_thread;
mod levelling_nut_too_high;
mod levelling_nuts_too_few;
mod levelling_washer_too_small;
mod lines_found;
mod looks_like_a_slip;
mod neighbours_out;
mod not_enough_on_hand;
mod nut_not_full;
mod nut_too_weak;
mod one_value_for_all;
mod pack_leaves_nut_short;
mod pack_not_made;
mod pack_too_narrow;
mod packs_cover_thin;
mod packs_do_not_fit;
mod packs_not_around;
mod pad_not_measured;
mod pad_tilted;
mod pad_top_off;
mod plan_impossible;
mod plan_would_change;
mod plus_minus_assumed;
mod readings_cannot_tell;
mod readings_unchecked;
mod referred;
mod rod_condition;
mod rod_not_measured;
mod rod_top_off;
mod rods_in_shear;
mod rods_too_few;
mod run_out_not_checked;
mod seat_partly_given;
mod set_on;
mod setting_plate_bed_thin;
mod setting_plate_off;
mod shims_not_drawn;
mod stack_too_high;
mod subjects;
mod support_not_checked;
mod survey_points_unmatched;
mod tape_and_level_disagree;
mod thread_beyond_missing;
mod thread_runs_out;
mod too_many_pieces;
mod wall_out;
mod washer_too_small;
mod washer_too_thin;
mod wording;

pub use wording::in_pitches;

pub(super) use cover::{Cover, cover};
pub(super) use rod_top_off::top_of_rod;

use compare::differences_judged;

use super::case::{Case, ColumnCase};
use super::finding::{Finding, Level};
use crate::catalog::{Authority, Limits};
use crate::levels::Levelled;
use crate::model::{Job, Units};
use crate::plan::Plan;
use crate::text::{Style, System};

/// What a rule is, for `rodreach rules` and for `explain`.
pub struct Rule {
    /// Its name: the file's, with hyphens.
    pub name: &'static str,
    /// What it is about, in a few words.
    pub about: &'static str,
    /// What it checks, as a formula or a sentence.
    pub checks: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// The limit in words and on whose word it stands, under a limit set; none where it does not apply.
    pub limit: fn(&Limits, Style) -> Option<(String, Authority)>,
    /// Judges every subject of a case.
    pub judge: fn(&Case<'_>) -> Vec<Finding>,
}

/// Every rule, gravest first.
pub const RULES: &[Rule] = &[
    plan_impossible::RULE,
    nut_not_full::RULE,
    thread_runs_out::RULE,
    rod_not_measured::RULE,
    pad_not_measured::RULE,
    rods_too_few::RULE,
    stack_too_high::RULE,
    levelling_nut_no_room::RULE,
    levelling_nut_off_thread::RULE,
    thread_beyond_missing::RULE,
    rod_condition::RULE,
    run_out_not_checked::RULE,
    referred::RULE,
    neighbours_out::RULE,
    wall_out::RULE,
    building_out::RULE,
    design_out::RULE,
    pad_tilted::RULE,
    pad_top_off::RULE,
    tape_and_level_disagree::RULE,
    rod_top_off::RULE,
    nut_too_weak::RULE,
    washer_too_small::RULE,
    washer_too_thin::RULE,
    levelling_washer_too_small::RULE,
    levelling_nuts_too_few::RULE,
    levelling_nut_too_high::RULE,
    packs_not_around::RULE,
    packs_do_not_fit::RULE,
    pack_too_narrow::RULE,
    packs_cover_thin::RULE,
    pack_not_made::RULE,
    pack_leaves_nut_short::RULE,
    setting_plate_off::RULE,
    setting_plate_bed_thin::RULE,
    shims_not_drawn::RULE,
    too_many_pieces::RULE,
    not_enough_on_hand::RULE,
    grout_planned::RULE,
    grind_planned::RULE,
    level_notes_disagree::RULE,
    readings_cannot_tell::RULE,
    looks_like_a_slip::RULE,
    column_in_no_line::RULE,
    seat_partly_given::RULE,
    rods_in_shear::RULE,
    support_not_checked::RULE,
    plan_would_change::RULE,
    one_value_for_all::RULE,
    readings_unchecked::RULE,
    lines_found::RULE,
    survey_points_unmatched::RULE,
    plus_minus_assumed::RULE,
];

/// A case and what every rule said of it.
#[derive(Debug)]
pub struct Judged<'a> {
    /// The case.
    pub case: Case<'a>,
    /// The judgements, by rule and then by subject: passes too.
    pub findings: Vec<(&'static str, Finding)>,
}

impl Judged<'_> {
    /// Tells whether every column may be set and no finding asks or stops.
    #[must_use]
    pub fn is_clear(&self) -> bool {
        let grave = |finding: &Finding| finding.level().is_some_and(|level| level != Level::Note);
        self.case.columns.iter().all(ColumnCase::may_set) && !self.findings.iter().any(|(_, it)| grave(it))
    }
}

/// Judges a plan by every rule.
#[must_use]
pub fn judge<'a>(job: &'a Job, levels: &'a Levelled, plan: &'a Plan) -> Judged<'a> {
    let case = Case::new(job, levels, plan);
    let findings = RULES
        .iter()
        .flat_map(|rule| (rule.judge)(&case).into_iter().map(|finding| (rule.name, finding)))
        .collect();
    Judged { case, findings }
}

/// Gives how a job's answers are written.
#[must_use]
pub fn style(job: &Job) -> Style {
    let system = match job.units {
        Units::Inch => System::Inch,
        Units::Millimetre => System::Metric,
    };
    Style::new(system, job.fraction)
}

#[cfg(test)]
mod tests {
    use super::fixture::{
        bedded, blank_pad, clean_job, four_packs, levelling, make_relative, nm, setting_plate,
    };
    use super::*;
    use crate::check::finding::{Level, Outcome};
    use crate::levels::reduce;
    use crate::model::Setting;
    use crate::plan::{Action, Wish, plan_level};
    use std::collections::BTreeSet;

    /// Files of this folder that are no rules.
    const HELPERS: [&str; 8] =
        ["between", "compare", "cover", "fixture", "mod", "set_on", "subjects", "wording"];

    fn with_judged<T>(job: &Job, see: impl FnOnce(&Judged<'_>) -> T) -> T {
        let levels = reduce(job);
        let plan = plan_level(job, &levels, &Wish::default());
        see(&judge(job, &levels, &plan))
    }

    fn asks_or_stops(judged: &Judged<'_>) -> Vec<(&'static str, Level, String)> {
        let found = judged
            .findings
            .iter()
            .filter_map(|(rule, finding)| finding.level().map(|level| (*rule, level, finding.text.clone())));
        found.filter(|(_, level, _)| *level != Level::Note).collect()
    }

    #[test]
    fn every_rule_file_is_registered_under_its_own_name() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/check/rules");
        let files: BTreeSet<String> = std::fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().path().file_stem().unwrap().to_string_lossy().into_owned())
            .filter(|stem| !HELPERS.contains(&stem.as_str()))
            .map(|stem| stem.replace('_', "-"))
            .collect();
        let registered: BTreeSet<String> = RULES.iter().map(|rule| rule.name.to_owned()).collect();
        assert_eq!(registered.len(), RULES.len(), "a rule is registered twice");
        assert_eq!(files, registered);
    }

    /// Rules that speak of bases only whose job says what their plates are set on.
    const WHERE_SAID: [&str; 15] = [
        "levelling-nut-no-room",
        "levelling-nut-off-thread",
        "levelling-washer-too-small",
        "levelling-nuts-too-few",
        "levelling-nut-too-high",
        "packs-not-around",
        "packs-do-not-fit",
        "pack-too-narrow",
        "packs-cover-thin",
        "pack-not-made",
        "pack-leaves-nut-short",
        "setting-plate-off",
        "setting-plate-bed-thin",
        "shims-not-drawn",
        "support-not-checked",
    ];

    #[test]
    fn a_clean_job_that_says_what_its_plates_are_set_on_is_judged_of_every_column_and_only_noted() {
        let mut spoken: BTreeSet<&str> = BTreeSet::new();
        for setting in
            [levelling(), Setting::Packs(four_packs()), setting_plate(), Setting::Pad, Setting::Shims]
        {
            let mut job = match &setting {
                Setting::Pad | Setting::Shims => clean_job(),
                _ => bedded(setting.clone()),
            };
            job.bases[0].setting = Some(setting);
            with_judged(&job, |judged| {
                assert_eq!(asks_or_stops(judged), [], "nothing asks or stops");
                for rule in WHERE_SAID {
                    let of_rule = judged.findings.iter().filter(|(name, _)| *name == rule);
                    let columns: BTreeSet<usize> =
                        of_rule.flat_map(|(_, finding)| finding.subject.columns.clone()).collect();
                    assert!(columns.is_empty() || columns.len() == 2, "{rule} leaves a column out");
                    spoken.extend((columns.len() == 2).then_some(rule));
                }
            });
        }
        assert_eq!(spoken, BTreeSet::from(WHERE_SAID), "every one speaks somewhere");
    }

    #[test]
    fn a_clean_job_has_no_finding_and_every_rule_says_so_of_every_column() {
        let job = clean_job();
        with_judged(&job, |judged| {
            let found: Vec<_> = judged.findings.iter().filter(|(_, it)| it.level().is_some()).collect();
            assert!(found.is_empty(), "{found:#?}");
            assert!(!judged.findings.iter().any(|(name, _)| WHERE_SAID.contains(name)), "nothing was said");
            for rule in RULES.iter().filter(|rule| !WHERE_SAID.contains(&rule.name)) {
                let of_rule = || judged.findings.iter().filter(|(name, _)| *name == rule.name);
                assert!(of_rule().count() > 0, "{} says nothing", rule.name);
                let whole_job = of_rule().any(|(_, finding)| finding.subject.columns.is_empty());
                let columns: BTreeSet<usize> =
                    of_rule().flat_map(|(_, finding)| finding.subject.columns.clone()).collect();
                assert!(whole_job || columns.len() == 2, "{} leaves a column out", rule.name);
            }
        });
    }

    #[test]
    fn a_measurement_taken_away_is_never_a_pass() {
        let blanks: [fn(&mut Job); 6] = [
            |job| job.columns[0].rods[2].projection = None,
            |job| drop(job.columns[1].rods.pop()),
            |job| job.columns[1].rods.clear(),
            |job| blank_pad(job, 0),
            |job| job.bases[0].plate.holes = None,
            |job| job.bases[0].washers[0].outer = None,
        ];
        for (at, blank) in blanks.iter().enumerate() {
            let mut job = clean_job();
            blank(&mut job);
            with_judged(&job, |judged| assert!(!asks_or_stops(judged).is_empty(), "blank {at}"));
        }
    }

    #[test]
    fn a_column_that_may_not_be_set_has_a_finding_that_asks_or_stops() {
        let wrongs: [fn(&mut Job); 8] = [
            |job| job.columns[0].rods[0].projection = Some(nm(30_000_000)),
            |job| job.columns[0].rods[0].projection = Some(nm(37_500_000)),
            |job| job.columns[0].rods[0].thread = Some(nm(40_000_000)),
            |job| job.columns[0].rods[0].condition = crate::model::Condition::Noted("bent".to_owned()),
            |job| job.columns[0].rods.truncate(3),
            |job| job.bases[0].rods.count = 3,
            |job| job.bases[0].beyond.value = nm(30_000_000),
            |job| blank_pad(job, 0),
        ];
        for (at, wrong) in wrongs.iter().enumerate() {
            let mut job = clean_job();
            wrong(&mut job);
            with_judged(&job, |judged| {
                assert!(
                    judged.case.columns.iter().any(|column| !column.may_set()),
                    "wrong {at} holds nothing"
                );
                assert!(!asks_or_stops(judged).is_empty(), "wrong {at} is not told");
            });
        }
    }

    #[test]
    fn what_a_planner_gets_wrong_is_told() {
        let job = clean_job();
        let levels = reduce(&job);
        for action in [Action::Refer, Action::Grout, Action::Grind] {
            let mut plan = plan_level(&job, &levels, &Wish::default());
            plan.choices[0].action = action;
            let judged = judge(&job, &levels, &plan);
            assert!(!asks_or_stops(&judged).is_empty(), "{action:?}");
        }
    }

    #[test]
    fn sentences_are_short_lines_that_begin_with_their_subject() {
        let mut jobs = vec![clean_job(), clean_job(), clean_job(), clean_job()];
        make_relative(&mut jobs[1]);
        for rod in jobs.iter_mut().skip(2).flat_map(|job| &mut job.columns[0].rods) {
            rod.thread = None;
            rod.condition = crate::model::Condition::Noted("bent over by a truck, thread gone".to_owned());
        }
        blank_pad(&mut jobs[2], 1);
        jobs[3].bases[0].washers.clear();
        jobs[3].bases[0].rods.thread = None;
        jobs[3].columns[0].rods[0].projection = None;
        jobs[3].rods_plus_minus_assumed = true;
        jobs[3].lines[0].found = true;
        jobs[3].columns[1].rods[0].one_for_all = true;
        for job in &jobs {
            with_judged(job, |judged| {
                for (rule, finding) in &judged.findings {
                    let text = &finding.text;
                    assert!(text.chars().count() <= 165, "{rule}: {text}");
                    assert!(!text.contains(char::is_control) && !text.ends_with('.'), "{rule}: {text}");
                    assert!(!finding.authority.text.is_empty(), "{rule}");
                }
            });
        }
    }

    #[test]
    fn an_unknown_says_what_is_missing() {
        let mut job = clean_job();
        blank_pad(&mut job, 0);
        job.columns[0].rods.clear();
        with_judged(&job, |judged| {
            for (rule, finding) in &judged.findings {
                if let Outcome::Unknown(_, missing) = &finding.outcome {
                    assert!(!missing.is_empty(), "{rule}");
                }
            }
        });
    }

    #[test]
    fn every_rule_has_its_limit_in_words_under_the_limits_it_needs() {
        let style = style(&clean_job());
        let tables = clean_job().limits.tables;
        for rule in RULES {
            let (words, authority) = (rule.limit)(&tables, style).expect(rule.name);
            assert!(!words.is_empty() && !authority.text.is_empty(), "{}", rule.name);
            assert!(
                !rule.about.is_empty() && !rule.checks.is_empty() && !rule.why.is_empty(),
                "{}",
                rule.name
            );
        }
    }
}
