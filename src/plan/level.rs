//! The plan that brings every column to one level.

use super::action::{Action, Choice, Plan};
use super::options::{PlannedOption, all_options, open_options};
use crate::length::Length;
use crate::levels::{Datum, Levelled};
use crate::model::{Job, LineKind};
use std::cmp::Reverse;
use std::collections::BTreeSet;

/// Plans every column into a band below one level.
///
/// The level is a pad's departure from its design seat: of all pads the one that
/// refers fewest columns, then holds fewest options, then the highest. A column takes
/// an open option within its least accepted difference below the level: not held
/// first, then no shim or a shim, grout, grinding, then nearest the level, then
/// fewest pieces. Where there is none it is referred to the engineer.
#[must_use]
pub fn plan_level(job: &Job, levels: &Levelled) -> Plan {
    let all = all_options(job);
    let pads: Vec<Option<Pad>> = (0..job.columns.len()).map(|index| pad(job, levels, index, &all)).collect();
    let candidates: BTreeSet<Length> = pads.iter().flatten().map(|pad| pad.departure).collect();
    let best = candidates.into_iter().min_by_key(|level| {
        let (referred, held) =
            pads.iter().flatten().fold((0_usize, 0_usize), |(referred, held), pad| match pad.take(*level) {
                None => (referred + 1, held),
                Some((_, option_held)) => (referred, held + usize::from(*option_held)),
            });
        (referred, held, Reverse(*level))
    });
    let choices = pads.iter().enumerate().map(|(index, pad)| match (pad, best) {
        (Some(pad), Some(level)) => pad.choice(level, job.design_seat(&job.columns[index])),
        _ => Choice {
            action: Action::Unmeasured,
            raise: None,
            stack: Vec::new(),
            held: false,
            seat_range: None,
        },
    });
    Plan { choices: choices.collect() }
}

/// A measured pad and what is open at it.
struct Pad {
    departure: Length,
    band: Option<Length>,
    options: Vec<(PlannedOption, bool)>,
}

impl Pad {
    /// Takes the best open option whose seat lies in the band below a level.
    fn take(&self, level: Length) -> Option<&(PlannedOption, bool)> {
        self.options
            .iter()
            .filter(|(option, _)| {
                let seat = self.departure + option.raise;
                seat <= level && self.band.is_none_or(|band| seat >= level - band)
            })
            .min_by_key(|(option, held)| {
                let rank = match option.action {
                    Action::Grout => 1,
                    Action::Grind => 2,
                    _ => 0,
                };
                (*held, rank, level - (self.departure + option.raise), option.pieces)
            })
    }

    fn choice(&self, level: Length, design: Length) -> Choice {
        match self.take(level) {
            Some((option, held)) => Choice {
                action: option.action,
                raise: Some(option.raise),
                stack: option.stack.clone(),
                held: *held,
                seat_range: None,
            },
            None => Choice {
                action: Action::Refer,
                raise: None,
                stack: Vec::new(),
                held: false,
                seat_range: Some((self.band.map(|band| design + level - band), design + level)),
            },
        }
    }
}

fn pad(job: &Job, levels: &Levelled, index: usize, all: &[PlannedOption]) -> Option<Pad> {
    let column = &job.columns[index];
    let elevation = levels.height(column.point?)?.elevation;
    let departure = elevation - job.design_seat(column);
    Some(Pad { departure, band: band(job, levels, index), options: open_options(job, column, all) })
}

/// Gives the least accepted difference that applies to a column.
fn band(job: &Job, levels: &Levelled, index: usize) -> Option<Length> {
    let limits = &job.limits.tables;
    let lines = || job.lines.iter().filter(|line| line.columns.contains(&index));
    let neighbours = limits.neighbours.as_ref().map(|table| table.accept.value);
    let by_line = lines().filter_map(|line| line.accept.or(neighbours)).min();
    let on_wall = lines().any(|line| line.kind == LineKind::Wall);
    let wall = limits.wall.as_ref().map(|table| table.accept.value).filter(|_| on_wall);
    let building = limits.building.as_ref().map(|table| table.accept.value);
    let column = &job.columns[index];
    let has_design = matches!(levels.datum(), Datum::Absolute(_)) && column.seat.or(job.seat).is_some();
    let design = limits.design.as_ref().map(|table| table.accept.value).filter(|_| has_design);
    [by_line, wall, building, design].into_iter().flatten().min()
}
