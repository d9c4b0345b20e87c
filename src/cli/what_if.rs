//! What a crew tries: a column held at a raise, a thickness left out.

use super::Refusal;
use super::args::PlanArgs;
use crate::check::style;
use crate::length::{Length, read};
use crate::levels::Levelled;
use crate::model::Job;
use crate::plan::{NoSuchRaise, PlannedOption, all_options, option_at, options_at};
use crate::report::Tried;
use crate::source::{Files, Problem, nearest, render};
use crate::text::{and, quoted, why_unreadable};
use std::collections::BTreeMap;

/// What is tried, ready to be planned.
pub(super) struct WhatIf {
    /// The option of every column that is held, by its index.
    pub(super) pins: BTreeMap<usize, PlannedOption>,
    /// The same for the answer to say.
    pub(super) tried: Tried,
}

/// Takes the thicknesses of `--without` away from the shims of a job, and finds the option of every `--hold-at`.
pub(super) fn read_what_if(job: &mut Job, levels: &Levelled, args: &PlanArgs) -> Result<WhatIf, Refusal> {
    let mut problems = Vec::new();
    let mut without = Vec::new();
    for text in &args.without {
        match thickness(job, text) {
            Ok(thickness) if without.contains(&thickness) => {
                problems.push(twice("--without", text, "this thickness"));
            }
            Ok(thickness) => without.push(thickness),
            Err(fault) => problems.push(fault.of("--without", text)),
        }
    }
    job.shims.pieces.retain(|piece| !without.contains(&piece.thickness.nominal));
    if let Some(stock) = &mut job.shims.stock {
        stock.retain(|thickness, _| !without.contains(thickness));
    }
    let all = if args.hold_at.is_empty() { Vec::new() } else { all_options(job) };
    let mut pins = BTreeMap::new();
    for text in &args.hold_at {
        match pin(job, levels, &all, text) {
            Ok((column, _)) if pins.contains_key(&column) => {
                problems.push(twice("--hold-at", text, "this column"));
            }
            Ok((column, option)) => drop(pins.insert(column, option)),
            Err(fault) => problems.push(fault.of("--hold-at", text)),
        }
    }
    if !problems.is_empty() {
        return Err(Refusal(render(&problems, &Files::default())));
    }
    let held = |(column, option): (&usize, &PlannedOption)| {
        (job.columns[*column].mark.clone(), option.raise.nominal)
    };
    let hold_at = pins.iter().map(held).collect();
    let style = style(job);
    Ok(WhatIf { pins, tried: Tried { hold_at, without, style } })
}

/// What is wrong with a value, and how to mend it.
struct Fault {
    message: String,
    fix: String,
}

impl Fault {
    fn new(message: impl Into<String>, fix: impl Into<String>) -> Self {
        Self { message: message.into(), fix: fix.into() }
    }

    fn of(self, flag: &str, text: &str) -> Problem {
        Problem::general(format!("{flag} {}: {}", quoted(text), self.message)).fix(self.fix)
    }
}

fn twice(flag: &str, text: &str, what: &str) -> Problem {
    let message = format!("{what} stands here a second time");
    Fault::new(message, "leave one of the two out").of(flag, text)
}

fn thickness(job: &Job, text: &str) -> Result<Length, Fault> {
    let wanted = length(job, text)?;
    let thicknesses = || job.shims.pieces.iter().map(|piece| piece.thickness.nominal);
    if thicknesses().any(|it| it == wanted) {
        return Ok(wanted);
    }
    let style = style(job);
    // thinnest first, as on a rack
    let listed: Vec<String> = thicknesses().rev().map(|it| style.exact(it)).collect();
    Err(Fault::new("the job has no shims of this thickness", format!("it has {}", and(&listed))))
}

fn pin(
    job: &Job,
    levels: &Levelled,
    all: &[PlannedOption],
    text: &str,
) -> Result<(usize, PlannedOption), Fault> {
    let Some((mark, raise)) = text.rsplit_once('=') else {
        let message = "a mark and a raise are needed here";
        return Err(Fault::new(message, "write them with an equals sign between, as in A3=1/4"));
    };
    let mark = mark.trim();
    let raise = length(job, raise)?;
    let marks = || job.columns.iter().map(|column| column.mark.as_str());
    let Some(index) = marks().position(|known| known == mark) else {
        let fix = match nearest(mark, marks()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => "write a mark as the job has it".to_owned(),
        };
        return Err(Fault::new(format!("there is no column {} in this job", quoted(mark)), fix));
    };
    let column = &job.columns[index];
    if column.point.and_then(|point| levels.height(point)).is_none() {
        let message = format!("the pad of {mark} is not measured, so nothing can be planned there");
        return Err(Fault::new(message, "read the pad first"));
    }
    let all = options_at(job, column, all);
    let option = option_at(job, column, &all, raise).map_err(|nearest| no_such_raise(job, nearest))?;
    Ok((index, option))
}

fn no_such_raise(job: &Job, NoSuchRaise { below, above }: NoSuchRaise) -> Fault {
    let style = style(job);
    let named = |raise: Length| match raise {
        Length::ZERO => format!("{} (nothing under the plate)", style.exact(raise)),
        raise if raise.is_negative() => format!("{} (grinding)", style.exact(raise)),
        raise => style.exact(raise),
    };
    let can: Vec<String> = [below, above].into_iter().flatten().map(named).collect();
    let verb = if can.len() == 1 { "is" } else { "are" };
    Fault::new(
        "no stack, bed of grout or grinding makes this raise",
        format!("the nearest that can be made {verb} {}", and(&can)),
    )
}

fn length(job: &Job, text: &str) -> Result<Length, Fault> {
    read(text, job.units.bare()).map_err(|why| {
        let (message, fix) = why_unreadable(why);
        Fault::new(message, fix)
    })
}
