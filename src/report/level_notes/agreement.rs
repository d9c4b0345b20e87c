//! Closures, the test of all readings together, readings that do not fit, and what may have gone wrong.

use crate::check::slip_words;
use crate::length::Rounding;
use crate::levels::{Closure, Levelled};
use crate::model::Job;
use crate::report::document::{Align, Document, Tone};
use crate::source::{Files, Place};
use crate::text::{Style, and, count};

/// Most closures that are shown on a screen.
const SHOWN: usize = 12;

/// Tells every run that closes, the largest misclosure first.
///
/// Runs are compared by their ends and the number of their setups.
pub(in crate::report) fn closure(document: &mut Document, job: &Job, levels: &Levelled, style: Style) {
    document.heading(Tone::Plain, "CLOSURE, computed less known");
    if levels.closures().is_empty() {
        document.text(Tone::Ask, "Unchecked: nothing was read twice and no run closes.");
        return;
    }
    let name = |point: usize| job.readings.points.get(point).map_or("", String::as_str);
    // what several points say of one run stands in one line, the largest misclosure for all of them
    let mut runs: Vec<(&Closure, usize)> = Vec::new();
    for closure in levels.closures() {
        let same = |it: &Closure| (it.from, it.to, it.setups) == (closure.from, closure.to, closure.setups);
        match runs.iter_mut().find(|(run, _)| same(run)) {
            Some((run, times)) => {
                *times += 1;
                if closure.misclosure.abs() > run.misclosure.abs() {
                    *run = closure;
                }
            }
            None => runs.push((closure, 1)),
        }
    }
    runs.sort_by_key(|(run, _)| std::cmp::Reverse(run.misclosure.abs()));
    let rows = runs.iter().take(SHOWN).map(|(it, times)| {
        let (from, to) = (name(it.from), name(it.to));
        let run = match (from == to, it.setups) {
            (true, 0) => format!("{from}, given twice"),
            (true, _) => format!("{from}, back to it"),
            (false, _) => format!("{from} to {to}"),
        };
        let of = if *times > 1 { format!("largest of {times}") } else { String::new() };
        vec![run, it.setups.to_string(), style.signed(it.misclosure, Rounding::Nearest), of]
    });
    let columns =
        [("run", Align::Left), ("setups", Align::Right), ("misclosure", Align::Right), ("", Align::Wrap)];
    let several = runs.iter().any(|(_, times)| *times > 1);
    let columns = &columns[..if several { 4 } else { 3 }];
    document.grid(columns, rows.map(|row| row.into_iter().take(columns.len()).collect()).collect());
    if runs.len() > SHOWN {
        document.text(Tone::Quiet, format!("The largest {SHOWN} of {}.", count(runs.len(), "run")));
    }
}

/// Tells whether the readings agree, which of them do not fit, and what that looks like.
pub(in crate::report) fn verdict(
    document: &mut Document,
    job: &Job,
    levels: &Levelled,
    files: &Files,
    style: Style,
) {
    if let Some(test) = levels.test() {
        let figures = format!("{:.2}, up to {:.2} passes at 5 %", test.statistic, test.upper);
        let over = count(levels.redundancy(), "reading");
        let (tone, text) = match (test.passed, levels.suspects().is_empty()) {
            (true, true) => {
                (Tone::Good, format!("The readings agree within their +- ({figures}, {over} over)."))
            }
            (true, false) => (
                Tone::Ask,
                format!(
                    "Together the readings agree within their +- ({figures}, {over} over), but not every one."
                ),
            ),
            (false, _) => (
                Tone::Stop,
                format!(
                    "The readings do NOT agree within their +- ({figures}): read again before you rely on them."
                ),
            ),
        };
        document.text(tone, text);
    }
    suspects(document, job, levels, files, style);
    slips(document, job, levels, files, style);
}

fn line(files: &Files, place: Place) -> String {
    files.row_words(place)
}

fn suspects(document: &mut Document, job: &Job, levels: &Levelled, files: &Files, style: Style) {
    let name = |point: usize| job.readings.points.get(point).map_or("", String::as_str);
    for suspect in levels.suspects() {
        let size = style.write(suspect.size.abs(), Rounding::Nearest);
        let which_way = if suspect.too_high { "too high" } else { "too low" };
        let text = if suspect.tied_with.is_empty() {
            format!("suspect reading: {} puts it {size} {which_way}", line(files, suspect.place))
        } else {
            let all: Vec<String> =
                [suspect.place].iter().chain(&suspect.tied_with).map(|place| line(files, *place)).collect();
            format!(
                "one of {} is off by about {size}: {}; they cannot be told apart",
                count(all.len(), "reading"),
                and(&all)
            )
        };
        document.item(Tone::Stop, name(suspect.point), text);
    }
}

fn slips(document: &mut Document, job: &Job, levels: &Levelled, files: &Files, style: Style) {
    if levels.slips().is_empty() {
        return;
    }
    document.heading(Tone::Ask, "IT LOOKS AS IF");
    for slip in levels.slips() {
        let words = slip_words(job, slip, style);
        let lines: Vec<String> = slip.places.iter().take(4).map(|place| line(files, *place)).collect();
        let lines = if lines.is_empty() { String::new() } else { format!(" ({})", lines.join(", ")) };
        document.item(Tone::Plain, "-", format!("{words}{lines}"));
    }
}
