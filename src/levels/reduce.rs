//! Reducing the level notes of a job.

use super::adjust::{Adjusted, Adjustment, adjust};
use super::carry::{Carried, carry};
use super::corners::centre;
use super::extra::extra_reading;
use super::global_test::global_test;
use super::known::known_points;
use super::levelled::{Datum, Height, Levelled, SetupLine};
use super::nodes::Nodes;
use super::observation::{Observation, Precision, observations};
use super::parameter::{Parameter, parameters};
use super::reliability::{judged, reliabilities};
use super::slope::{found_slopes, priors};
use super::spread::{Shares, Spread};
use super::suspects::suspects;
use super::untold::{entangled, told, untold};
use super::zero::{highest_pad, largest_block};
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
    let known = known_points(readings);
    let precision = Precision::of(readings);
    let carried = carry(readings, &known);
    let block = if readings.is_absolute() { None } else { largest_block(job, &carried) };
    let nodes = match block {
        Some(root) => Nodes::in_block(&carried, root),
        None => Nodes::on_known(&carried, &known),
    };
    let slopes = parameters(job, |setup| nodes.line(setup).is_some());
    let observations = observations(job, &known, precision, &slopes);
    let adjusted = |observations: &[Observation]| {
        adjust(&carried, nodes.clone(), observations, (slopes.len(), priors(job, &slopes, precision)))
    };
    let adjustment = adjusted(&observations);

    let rows = observations.iter().filter(|observation| nodes.ends(observation).is_some()).count();
    let systematic = &adjustment.systematic;
    let redundancy = (rows + systematic.priors()).saturating_sub(nodes.count() + systematic.rank());
    let test = global_test(&adjustment, &observations, precision, redundancy);
    let judged = judged(&adjustment, &observations, precision);
    let suspects = suspects(&adjustment, &observations, precision, |left| Some(adjusted(left)));
    let untold = untold(systematic, &slopes);
    let entangled = entangled(systematic, &slopes);

    let mut heights = adjustment.points.clone();
    let mut points: Vec<Option<Shares>> =
        (0..heights.len()).map(|point| Some(vec![(nodes.point(point)?, 1.0)])).collect();
    for (column, point) in job.columns.iter().enumerate().filter_map(|(at, it)| Some((at, it.point?))) {
        if heights.get(point).is_some_and(Option::is_none)
            && carried.points.get(point).is_some_and(Option::is_none)
        {
            centred(job, column, point, &nodes, (&mut heights, &mut points));
        }
    }
    let pads: Vec<usize> = job.columns.iter().filter_map(|column| column.point).collect();
    let keep = told(systematic, &points, &pads, block.is_none());
    for (point, keep) in keep.into_iter().enumerate() {
        if !keep {
            heights[point] = None;
            points[point] = None;
        }
    }
    let extra = extra_reading(job, &carried, &adjustment, &points, precision, redundancy);
    let zero = if block.is_some() { highest_pad(job, &heights) } else { None };
    let zero_height = zero.and_then(|zero| heights.get(zero).copied().flatten());
    let height =
        |height: Adjusted| zero_height.map_or_else(|| height.above_zero(), |zero| height.above(zero));
    let counts = counts(job);
    let untold_slopes: Vec<Parameter> = untold.iter().flat_map(|it| it.slopes.clone()).collect();
    let lines = lines(readings, &adjustment, zero_height, height);
    let reliabilities = reliabilities(&judged, &observations);
    let slopes = found_slopes(&adjustment, &slopes, precision, &untold_slopes);
    let spread = Spread { unit: if precision.exact { 0.0 } else { precision.unit }, points, adjustment };
    let elevations = heights.into_iter().enumerate().map(|(point, it)| {
        let elevation = height(it?);
        let plus_minus = spread.plus_minus(point, zero)?;
        Some(Height { elevation, plus_minus, readings: counts.get(point).copied().unwrap_or(0) })
    });
    Levelled {
        datum: datum(readings),
        heights: elevations.collect(),
        blocks: blocks(&carried, &spread),
        readings: counts,
        closures: carried.closures,
        redundancy,
        test,
        suspects,
        reliabilities,
        lines,
        slopes,
        untold,
        entangled,
        extra,
        spread,
    }
}

/// Gives a pad that was read only at other spots the height of its centre.
fn centred(
    job: &Job,
    column: usize,
    pad: usize,
    nodes: &Nodes,
    (heights, points): (&mut [Option<Adjusted>], &mut [Option<Shares>]),
) {
    let centre = centre(job, column);
    let each: Option<Vec<(Adjusted, f64)>> =
        centre.iter().map(|&(point, share)| Some((heights.get(point).copied().flatten()?, share))).collect();
    let shares: Option<Shares> =
        centre.iter().map(|&(point, share)| Some((nodes.point(point)?, share))).collect();
    if let (Some(each), Some(shares)) = (each, shares)
        && let Some(mean) = Adjusted::mean(&each)
    {
        heights[pad] = Some(mean);
        points[pad] = Some(shares);
    }
}

/// Gives the height of every setup's line of sight, on the datum.
fn lines(
    readings: &Readings,
    adjustment: &Adjustment,
    zero: Option<Adjusted>,
    height: impl Fn(Adjusted) -> Length,
) -> Vec<SetupLine> {
    let relative_without_zero = !readings.is_absolute() && zero.is_none();
    let each = readings.setups.iter().enumerate().map(|(setup, _)| SetupLine {
        height: adjustment.line(setup).filter(|_| !relative_without_zero).map(&height),
    });
    each.collect()
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
