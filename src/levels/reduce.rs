//! Reducing the level notes of a job.

use super::adjust::adjust;
use super::carry::carry;
use super::global_test::global_test;
use super::known::known_points;
use super::levelled::{Datum, Height, Levelled, Spread};
use super::nodes::Nodes;
use super::observation::{Precision, observations};
use super::suspects::suspects;
use super::zero::{highest_pad, largest_block};
use crate::model::{Job, Readings};

/// Reduces the level notes of a job to elevations.
///
/// With a benchmark or a measured elevation, elevations are absolute. Without, 0 is the
/// highest column pad of the largest connected block, counted by column pads.
#[must_use]
pub fn reduce(job: &Job) -> Levelled {
    let readings = &job.readings;
    let known = known_points(readings);
    let precision = Precision::of(readings);
    let observations = observations(readings, &known, precision);
    let carried = carry(readings, &known);
    let block = if readings.is_absolute() { None } else { largest_block(job, &carried) };
    let nodes = match block {
        Some(root) => Nodes::in_block(&carried, root),
        None => Nodes::on_known(&carried, &known),
    };
    let on_datum = observations.iter().filter(|observation| nodes.ends(observation).is_some()).count();
    let redundancy = on_datum.saturating_sub(nodes.count());
    let adjustment = adjust(&carried, nodes, &observations);
    let test = global_test(&adjustment, &observations, precision, redundancy);
    let failed = test.is_some_and(|test| !test.passed);
    let suspects = if failed { suspects(&adjustment, &observations, precision) } else { Vec::new() };

    let zero = if block.is_some() { highest_pad(job, &adjustment) } else { None };
    let counts = counts(readings);
    let spread = Spread {
        unit: if precision.exact { 0.0 } else { precision.unit },
        nodes: adjustment.nodes,
        network: adjustment.network,
    };
    let zero_height = zero.and_then(|zero| adjustment.points.get(zero).copied().flatten());
    let zero_node = zero.and_then(|zero| spread.nodes.point(zero)).flatten();
    let heights = adjustment.points.iter().enumerate().map(|(point, height)| {
        let height = (*height)?;
        let elevation = zero_height.map_or_else(|| height.above_zero(), |zero| height.above(zero));
        let plus_minus = spread.plus_minus(spread.nodes.point(point)?, zero_node);
        Some(Height { elevation, plus_minus, readings: counts.get(point).copied().unwrap_or(0) })
    });
    let heights = heights.collect();
    Levelled {
        datum: datum(readings),
        heights,
        readings: counts,
        closures: carried.closures,
        redundancy,
        test,
        suspects,
        spread,
    }
}

fn datum(readings: &Readings) -> Datum {
    if !readings.is_absolute() {
        return Datum::Relative;
    }
    let names = readings.benchmarks.iter().filter_map(|benchmark| readings.points.get(benchmark.point));
    Datum::Absolute(names.cloned().collect())
}

fn counts(readings: &Readings) -> Vec<usize> {
    let mut counts = vec![0; readings.points.len()];
    let sights = readings.sights.iter().map(|sight| sight.point);
    for point in sights.chain(readings.elevations.iter().map(|it| it.point)) {
        if let Some(count) = counts.get_mut(point) {
            *count += 1;
        }
    }
    counts
}
