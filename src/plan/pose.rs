//! A job laid out for the exact plan.

use super::fewest::{NoPlan, Wish};
use super::guard::limits_for;
use super::options::{PlannedOption, all_options};
use super::solve::Puzzle;
use super::system::System;
use super::task::Task;
use crate::levels::Levelled;
use crate::model::Job;
use std::collections::{BTreeMap, BTreeSet};

/// The pads of a job, what is open at them, and the limits that tie them together.
pub(super) struct Posed {
    pub(super) task: Task,
    pub(super) system: System,
    /// Distinct neighbours, both pads.
    pub(super) neighbours: Vec<(usize, usize)>,
}

impl Posed {
    /// Lays a job out, every shim at hand.
    pub(super) fn new(job: &Job, levels: &Levelled, wish: &Wish) -> Result<Self, NoPlan> {
        Self::of(job, levels, wish, all_options(job))
    }

    /// Lays a job out with these options at a column, of one height the better first.
    pub(super) fn of(
        job: &Job,
        levels: &Levelled,
        wish: &Wish,
        options: Vec<PlannedOption>,
    ) -> Result<Self, NoPlan> {
        let limits = limits_for(job, levels, wish).map_err(NoPlan::TooCoarse)?;
        let task = Task::new(job, levels, &limits.design, wish, options);
        let at: BTreeMap<usize, usize> =
            task.pads.iter().enumerate().map(|(at, pad)| (pad.column, at)).collect();
        let system = System::new(task.pads.len(), &limits, |column| at.get(&column).copied());
        let neighbours = neighbours(job, &at);
        Ok(Self { task, system, neighbours })
    }

    /// Gives what is to be solved.
    pub(super) fn puzzle(&self) -> Puzzle<'_> {
        Puzzle { task: &self.task, system: &self.system, neighbours: &self.neighbours }
    }
}

/// Gives the pairs of next pads, each once, whichever lines they stand on.
fn neighbours(job: &Job, at: &BTreeMap<usize, usize>) -> Vec<(usize, usize)> {
    let next = job.lines.iter().flat_map(|line| line.columns.iter().zip(line.columns.iter().skip(1)));
    let pads = next.filter_map(|(a, b)| Some((*at.get(a)?, *at.get(b)?)));
    let pairs: BTreeSet<(usize, usize)> = pads.map(|(a, b)| (a.min(b), a.max(b))).collect();
    pairs.into_iter().collect()
}
