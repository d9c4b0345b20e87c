//! `rodreach sheet`.

use super::Refusal;
use super::args::{SheetArgs, SheetForArg};
use super::print;
use crate::input::load_blank;
use crate::model::Job;
use crate::output::{Format, csv_to_fill_in};
use crate::report::{SheetFor, sheet_answer};
use crate::source::render;
use crate::text::count;
use std::path::Path;

/// Runs the command; a blank sheet is all well.
pub(super) fn run(args: &SheetArgs) -> Result<bool, Refusal> {
    let blank =
        load_blank(&args.job).map_err(|refused| Refusal(render(&refused.problems, &refused.files)))?;
    print::spare_inputs(&args.out, &blank.loaded.files)?;
    let job = &blank.loaded.job;
    if job.columns.is_empty() {
        return Err(Refusal(
            "the job has no columns to walk: list them under [[column]], in columns.csv or in walk.csv"
                .to_owned(),
        ));
    }
    let what = match args.read {
        Some(SheetForArg::All) => SheetFor::All,
        Some(SheetForArg::Walk) => SheetFor::Walk,
        Some(SheetForArg::Levels) => SheetFor::Levels,
        Some(SheetForArg::Rods) => SheetFor::Rods,
        None if blank.short => SheetFor::Walk,
        None => SheetFor::All,
    };
    let setups = setups(args.setups, job)?;
    let answer = sheet_answer(job, what, setups, &blank.loaded.catalog.instruments);
    let format = print::format(&args.out)?;
    if format == Format::Csv && what == SheetFor::All {
        return Err(Refusal(
            "pads and rods are two CSV files: write one with --for levels and one with --for rods".to_owned(),
        ));
    }
    leave_readings_alone(args.out.output.as_deref(), format)?;
    if format != Format::Csv {
        return print::answer(&answer, &args.out);
    }
    print::deliver(&csv_to_fill_in(&answer), &args.out)?;
    Ok(answer.clear)
}

/// Refuses to put a blank sheet in the place of a file that may hold readings.
fn leave_readings_alone(path: Option<&Path>, format: Format) -> Result<(), Refusal> {
    let Some(path) = path.filter(|path| path.exists()) else { return Ok(()) };
    let is_csv = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("csv"));
    if is_csv || format == Format::Csv {
        return Err(Refusal(format!(
            "{} is there already and may hold readings; nothing was written: name another file, or take it away",
            path.display()
        )));
    }
    Ok(())
}

/// Gives among how many setups the walk is shared: as asked for, else as the job describes them, else one.
fn setups(asked: Option<usize>, job: &Job) -> Result<usize, Refusal> {
    let described = job.readings.setups.len();
    let Some(setups) = asked else { return Ok(described.max(1)) };
    if setups < described {
        return Err(Refusal(format!(
            "--setups {setups}: the job describes {}; take [[setup]] tables out of it, or leave the flag away",
            count(described, "setup")
        )));
    }
    if setups == 0 || setups > job.columns.len() {
        return Err(Refusal(format!(
            "--setups {setups}: {} cannot be shared among so many setups; use 1 to {}",
            count(job.columns.len(), "column"),
            job.columns.len()
        )));
    }
    Ok(setups)
}
