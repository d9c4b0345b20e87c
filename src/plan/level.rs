//! The plan that brings every column to one level.

use super::action::{Action, Aim, Choice, Plan};
use super::fewest::Wish;
use super::guard::limits_for;
use super::limits_kept::{LimitsKept, limits_kept};
use super::options::{Open, PlannedOption, all_options, judge, open_options, options_at};
use crate::length::Length;
use crate::levels::Levelled;
use crate::model::Job;
use std::cmp::Reverse;
use std::collections::BTreeSet;

/// Plans every column into a band below one level.
///
/// The level is a pad's departure from its design seat, its designed bed added: of all pads the one that
/// refers fewest columns, then holds fewest options, then the highest. A column takes
/// an open option within its least accepted difference below the level: not held
/// first, then no shim or a shim, grout, grinding, then nearest the level, then
/// fewest pieces. Where there is none it is referred to the engineer.
#[must_use]
pub fn plan_level(job: &Job, levels: &Levelled, wish: &Wish) -> Plan {
    let all = all_options(job);
    let limits = limits_for(job, levels, wish).unwrap_or_else(|_| limits_kept(job, levels, wish.to));
    let pads: Vec<Option<Pad>> =
        (0..job.columns.len()).map(|index| pad(job, levels, index, &all, &limits, wish)).collect();
    let candidates: BTreeSet<Length> = pads.iter().flatten().map(|pad| pad.departure + pad.bed).collect();
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
        _ => Choice::without(Action::Unmeasured),
    });
    Plan {
        choices: choices.collect(),
        aim: Aim::Level,
        to: wish.to,
        guarded: wish.guarded,
        optimum: None,
        firm: None,
        shortage: None,
    }
}

/// A measured pad and what is open at it.
struct Pad {
    departure: Length,
    /// Its designed bed, 0 without one.
    bed: Length,
    band: Option<Length>,
    /// Whether it takes its only option wherever the level is.
    pinned: bool,
    options: Vec<(PlannedOption, bool)>,
}

impl Pad {
    /// Takes the best open option whose seat lies in the band below a level.
    fn take(&self, level: Length) -> Option<&(PlannedOption, bool)> {
        self.options
            .iter()
            .filter(|(option, _)| {
                let seat = self.departure + option.raise.nominal;
                self.pinned || seat <= level && self.band.is_none_or(|band| seat >= level - band)
            })
            .min_by_key(|(option, held)| {
                let rank = match option.action {
                    Action::Grout => 1,
                    Action::Grind => 2,
                    _ => 0,
                };
                (*held, rank, level - (self.departure + option.raise.nominal), option.pieces)
            })
    }

    fn choice(&self, level: Length, design: Length) -> Choice {
        match self.take(level) {
            Some((option, held)) => option.choice(*held),
            None => Choice {
                seat_range: Some((self.band.map(|band| design + level - band), Some(design + level))),
                ..Choice::without(Action::Refer)
            },
        }
    }
}

fn pad(
    job: &Job,
    levels: &Levelled,
    index: usize,
    all: &[PlannedOption],
    limits: &LimitsKept,
    wish: &Wish,
) -> Option<Pad> {
    let column = &job.columns[index];
    let elevation = levels.height(column.point?)?.elevation;
    let departure = elevation - job.design_seat(column);
    let pin = wish.pins.get(&index);
    let options = match pin {
        Some(pin) => vec![(pin.clone(), judge(job, column, pin) != Open::Yes)],
        None => open_options(job, column, &options_at(job, column, all)),
    };
    let bed = job.base_of(column).bed;
    Some(Pad { departure, bed, band: limits.closest(index), pinned: pin.is_some(), options })
}
