//! `rodreach report`.

use super::Refusal;
use super::args::{AimArg, JobArgs, PlanArgs, ReportArgs, ToArg};
use super::planned::Planned;
use super::print;
use crate::output::Format;
use crate::report::{Told, report_answer};
use std::path::PathBuf;

/// Runs the command and tells whether all is well.
pub(super) fn run(args: &ReportArgs) -> Result<bool, Refusal> {
    let planned = Planned::read(&args.job, &args.plan)?;
    let told = Told {
        files: &planned.files,
        catalog: &planned.catalog,
        command: command(&args.job, &args.plan),
        version: env!("CARGO_PKG_VERSION"),
    };
    let mut answer = report_answer(&planned.judged(), &planned.beside()?, &told);
    planned.tried.tell(&mut answer);
    print::answer_or(&answer, &args.job.out, Format::Html)
}

/// Gives the command that makes the report again: what it reads from and what it was asked, not where it is written.
fn command(job: &JobArgs, plan: &PlanArgs) -> String {
    let mut words = vec!["rodreach report JOB".to_owned()];
    let file = |path: &Option<PathBuf>| path.as_ref().map(|path| path.display().to_string());
    let named = [
        ("--limits", job.limits.clone()),
        ("--levels", file(&job.levels)),
        ("--rods", file(&job.rods)),
        ("--walk", file(&job.walk)),
        ("--aim", (plan.aim == AimArg::Level).then(|| "level".to_owned())),
        ("--to", (plan.to == ToArg::Desired).then(|| "desired".to_owned())),
    ];
    for (flag, value) in named {
        words.extend(value.map(|value| format!("{flag} {value}")));
    }
    if plan.guarded {
        words.push("--guarded".to_owned());
    }
    words.extend(plan.hold_at.iter().map(|it| format!("--hold-at {it}")));
    words.extend(plan.without.iter().map(|it| format!("--without {it}")));
    words.join(" ")
}
