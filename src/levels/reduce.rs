//! Reducing the level notes of a job.

use super::adjust::{Adjusted, Adjustment};
use super::carry::Carried;
use super::extra::extra_reading;
use super::levelled::{Datum, Height, Levelled, SetupLine};
use super::made::Made;
use super::observation::Plan;
use super::pad::corners::centre;
use super::posed::Posed;
use super::reliability::{judged, reliabilities};
use super::rounding::half_up;
use super::sight::METRE;
use super::slips::slips;
use super::slopes::found::found_slopes;
use super::slopes::parameter::Parameter;
use super::slopes::untold::{entangled, untold};
use super::spread::Spread;
use super::suspects::suspects;
use super::zero::highest_pad;
use crate::length::Length;
use crate::model::{Job, Readings};
use std::collections::BTreeMap;

/// Reduces the level notes of a job to elevations.
///
/// With a benchmark or a measured elevation, elevations are absolute. Without, 0 is the
/// highest column pad of the largest connected block, counted by column pads.
#[must_use]
pub fn reduce(job: &Job) -> Levelled {
    let readings = &job.readings;
    let posed = Posed::of(job);
    let Posed { precision, block, ref observations, ref slopes, .. } = posed;
    let adjustment = posed.adjusted(observations);
    let systematic = &adjustment.systematic;
    let redundancy = posed.redundancy(&adjustment, observations);
    let test = posed.test(&adjustment, observations);
    let judged = judged(&adjustment, observations, precision);
    let suspects = suspects(&posed, &adjustment);
    let slips = slips(&posed, &adjustment, test.as_ref(), &suspects);
    let untold = untold(systematic, slopes);
    let entangled = entangled(systematic, slopes);

    let Made { heights, points, lines: told_lines } = Made::of(&posed, &adjustment);
    let extra = extra_reading(&posed, &adjustment, &points, redundancy);
    let zero = if block.is_some() { highest_pad(job, &heights) } else { None };
    let zero_height = zero.and_then(|zero| heights.get(zero).copied().flatten());
    let height =
        |height: Adjusted| zero_height.map_or_else(|| height.above_zero(), |zero| height.above(zero));
    let counts = counts(job);
    let untold_slopes: Vec<Parameter> = untold.iter().flat_map(|it| it.slopes.clone()).collect();
    let lines = lines(readings, &told_lines, (&adjustment, zero_height), height);
    let reliabilities = reliabilities(&judged, observations);
    let slopes = found_slopes(&adjustment, slopes, precision, &untold_slopes);
    let spread = Spread { unit: if precision.exact { 0.0 } else { precision.unit }, points, adjustment };
    let elevations = heights.into_iter().enumerate().map(|(point, it)| {
        let elevation = height(it?);
        let plus_minus = spread.plus_minus(point, zero)?;
        Some(Height { elevation, plus_minus, readings: counts.get(point).copied().unwrap_or(0) })
    });
    Levelled {
        datum: datum(readings),
        heights: elevations.collect(),
        blocks: blocks(&posed.carried, &spread),
        readings: counts,
        closures: posed.carried.closures,
        redundancy,
        test,
        suspects,
        slips,
        reliabilities,
        lines,
        slopes,
        untold,
        entangled,
        sight_lengths: sight_lengths(job),
        extra,
        spread,
    }
}

/// Gives the height of every setup's line of sight, on the datum; none where the readings do not tell it.
fn lines(
    readings: &Readings,
    told: &[bool],
    (adjustment, zero): (&Adjustment, Option<Adjusted>),
    height: impl Fn(Adjusted) -> Length,
) -> Vec<SetupLine> {
    let relative_without_zero = !readings.is_absolute() && zero.is_none();
    let each = told.iter().enumerate().map(|(setup, told)| SetupLine {
        height: adjustment.line(setup).filter(|_| *told && !relative_without_zero).map(&height),
    });
    each.collect()
}

/// Gives the length of every sight, where it is known.
fn sight_lengths(job: &Job) -> Vec<Option<Length>> {
    let plan = Plan::of(job);
    let sights = job.readings.sights.iter();
    sights.map(|sight| plan.length(&job.readings, sight).map(|metres| half_up(metres * METRE))).collect()
}

/// Lists the blocks that share no point with the datum: their points, in the order of reading.
fn blocks(carried: &Carried, spread: &Spread) -> Vec<Vec<usize>> {
    let mut blocks: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (point, step) in carried.points.iter().enumerate() {
        if let (Some(step), None) = (step, spread.adjustment.nodes.point(point)) {
            blocks.entry(step.root).or_default().push(point);
        }
    }
    let mut blocks: Vec<Vec<usize>> = blocks.into_values().collect();
    blocks.sort();
    blocks
}

fn datum(readings: &Readings) -> Datum {
    if !readings.is_absolute() {
        return Datum::Relative;
    }
    let names = readings.benchmarks.iter().filter_map(|benchmark| readings.points.get(benchmark.point));
    Datum::Absolute(names.cloned().collect())
}

/// Counts the readings of every point; those of a pad's other spots count for a pad that was not read itself.
fn counts(job: &Job) -> Vec<usize> {
    let readings = &job.readings;
    let mut counts = vec![0; readings.points.len()];
    let sights = readings.sights.iter().map(|sight| sight.point);
    let elevations = readings.elevations.iter().map(|it| it.point);
    let differences = readings.differences.iter().flat_map(|it| [it.from, it.to]);
    for point in sights.chain(elevations).chain(differences) {
        if let Some(count) = counts.get_mut(point) {
            *count += 1;
        }
    }
    let own = counts.clone();
    for (column, point) in job.columns.iter().enumerate().filter_map(|(at, it)| Some((at, it.point?))) {
        if own.get(point) == Some(&0) {
            let spots = centre(job, column);
            counts[point] = spots.iter().filter_map(|(spot, _)| own.get(*spot)).sum();
        }
    }
    counts
}
