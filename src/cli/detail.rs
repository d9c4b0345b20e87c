//! `rodreach detail`.

use super::Refusal;
use super::args::{DetailArgs, SpreadArg};
use super::print;
use crate::detail::{Asked, Percent, Spread, Spreads, Studied, detail};
use crate::input::{Loaded, Override, load_bases};
use crate::length::{Length, Unit, read};
use crate::levels::{Levelled, reduce, with_rods_by_level};
use crate::model::{Job, Units};
use crate::report::detail_answer;
use crate::source::{Files, Problem, render};
use crate::text::{quoted, why_unreadable};
use std::path::{Path, PathBuf};

/// Runs the command and tells whether every base has a specification, with nothing unknown, that its drawing meets.
pub(super) fn run(args: &DetailArgs) -> Result<bool, Refusal> {
    let jobs = jobs(args)?;
    let studied: Vec<Studied<'_>> = jobs.iter().map(|(job, levels)| Studied { job, levels }).collect();
    let asked = asked(args, &jobs)?;
    print::answer(&detail_answer(&detail(&studied, &asked)), &args.out)
}

/// Reads every job and reduces its levels; the faults of all of them are told in one run.
fn jobs(args: &DetailArgs) -> Result<Vec<(Job, Levelled)>, Refusal> {
    let mut refused = Vec::new();
    let mut jobs = Vec::new();
    for (at, path) in args.jobs.iter().enumerate() {
        if args.jobs.iter().take(at).any(|before| same(before, path)) {
            refused
                .push(format!("error: the job {} stands here twice\n", quoted(&path.display().to_string())));
            continue;
        }
        let with = Override { limits: args.limits.clone(), ..Override::default() };
        match load_bases(path, &with) {
            Ok(Loaded { mut job, files, .. }) => {
                print::spare_inputs(&args.out, &files)?;
                if job.bases.is_empty() {
                    let shown = quoted(&path.display().to_string());
                    refused.push(format!(
                        "error: the job {shown} has no [[base]]: there is nothing to specify\n"
                    ));
                    continue;
                }
                let levels = reduce(&job);
                with_rods_by_level(&mut job, &levels);
                jobs.push((job, levels));
            }
            Err(found) => {
                let told = render(&found.problems, &found.files);
                let one = args.jobs.len() == 1;
                let shown = quoted(&path.display().to_string());
                refused.push(if one { told } else { format!("error: in the job {shown}:\n\n{told}") });
            }
        }
    }
    if refused.is_empty() { Ok(jobs) } else { Err(Refusal(refused.join("\n"))) }
}

/// Tells whether two paths name one job file.
fn same(one: &Path, other: &Path) -> bool {
    let file = |path: &Path| {
        let file: PathBuf = if path.is_dir() { path.join("job.toml") } else { path.to_path_buf() };
        file.canonicalize().ok()
    };
    file(one).is_some_and(|one| Some(one) == file(other))
}

/// Reads what is asked for; all faults are told in one run.
fn asked(args: &DetailArgs, jobs: &[(Job, Levelled)]) -> Result<Asked, Refusal> {
    let units = jobs.first().map_or(Units::Inch, |(job, _)| job.units);
    let mut problems = Vec::new();
    let step = step(args.step.as_deref(), units, &mut problems);
    let probability = percent("--probability", &args.probability, 50, &mut problems);
    let share = percent("--share", &args.share, 0, &mut problems);
    let confidence = percent("--confidence", &args.confidence, 50, &mut problems);
    match (step, probability, share, confidence) {
        (Some(step), Some(probability), Some(share), Some(confidence)) => {
            let spreads = Spreads {
                rod_tops: spread(args.rod_tops),
                parts: spread(args.parts),
                bearing: spread(args.bearing),
            };
            Ok(Asked { step, probability, share, confidence, spreads })
        }
        _ => Err(Refusal(render(&problems, &Files::default()))),
    }
}

const fn spread(arg: SpreadArg) -> Spread {
    match arg {
        SpreadArg::Uniform => Spread::Uniform,
        SpreadArg::Normal => Spread::Normal,
        SpreadArg::Worst => Spread::Worst,
    }
}

/// Reads the step: 1/4 in or 5 mm where none is given.
fn step(text: Option<&str>, units: Units, problems: &mut Vec<Problem>) -> Option<Length> {
    let Some(text) = text else {
        return Some(match units {
            Units::Inch => Length::from_nm(Unit::Inch.nm() / 4),
            Units::Millimetre => Length::from_nm(5 * Unit::Millimetre.nm()),
        });
    };
    let mut fault = |message: &str, fix: &str| {
        problems.push(Problem::general(format!("--step {}: {message}", quoted(text))).fix(fix));
        None
    };
    match read(text, units.bare()) {
        Ok(step) if (LEAST_STEP..=MOST_STEP).contains(&step) => Some(step),
        Ok(_) => fault("a step is from 0.1 mm to 1 m", "write a step such as 1/4 or 5 mm"),
        Err(why) => {
            let (message, fix) = why_unreadable(why);
            fault(message, fix)
        }
    }
}

const LEAST_STEP: Length = Length::from_nm(100_000);
const MOST_STEP: Length = Length::from_nm(1_000_000_000);

/// Reads a percentage that is at least so many percent.
fn percent(flag: &str, text: &str, least: u32, problems: &mut Vec<Problem>) -> Option<Percent> {
    let read = Percent::read(text).filter(|percent| percent.millionths() >= least * 10_000);
    if read.is_none() {
        let from = if least == 0 { "above 0".to_owned() } else { format!("{least} or more") };
        let message = format!("{flag} {}: a percentage {from} and below 100 is needed here", quoted(text));
        problems.push(Problem::general(message).fix("write it with at most four decimals, as in 99 or 99.9"));
    }
    read
}
