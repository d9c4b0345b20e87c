//! Where zero is in a job without known elevations.

use super::adjust::Adjusted;
use super::carry::{Carried, Step};
use super::pad::corners::centre;
use crate::model::Job;
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// Finds the block that gets elevations, by its root: the one with most column pads, then the first.
///
/// Where no column pad was read at all, the points themselves are counted.
pub(super) fn largest_block(job: &Job, carried: &Carried) -> Option<usize> {
    let step = |point: usize| carried.points.get(point).and_then(Option::as_ref);
    let pads = job.columns.iter().enumerate().filter_map(|(index, column)| {
        let spots = || centre(job, index).into_iter().find_map(|(spot, _)| step(spot));
        step(column.point?).or_else(spots)
    });
    largest(pads).or_else(|| largest(carried.points.iter().flatten()))
}

fn largest<'s>(steps: impl Iterator<Item = &'s Step>) -> Option<usize> {
    let mut blocks: BTreeMap<usize, (usize, usize)> = BTreeMap::new();
    for (index, step) in steps.enumerate() {
        let (count, _first) = blocks.entry(step.root).or_insert((0, index));
        *count += 1;
    }
    let best = blocks.into_iter().max_by_key(|(_, (count, first))| (*count, Reverse(*first)));
    best.map(|(root, _)| root)
}

/// Finds the point that is 0: the highest column pad on the datum, of equals the first.
pub(super) fn highest_pad(job: &Job, heights: &[Option<Adjusted>]) -> Option<usize> {
    let height = |point: usize| Some((point, heights.get(point).copied().flatten()?));
    let pads = job.columns.iter().filter_map(|column| height(column.point?));
    highest(pads).or_else(|| highest((0..heights.len()).filter_map(height)))
}

fn highest(points: impl Iterator<Item = (usize, Adjusted)>) -> Option<usize> {
    let best = points.reduce(|best, next| if next.1.is_above(best.1) { next } else { best });
    best.map(|(point, _)| point)
}
