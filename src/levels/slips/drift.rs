//! Readings of one setup that drift: in time, along a wall, or over the plan as a tilted instrument does.

use super::{Along, Bad, Posed, Slip, SlipKind};
use crate::length::Length;
use crate::levels::observation::{From, Observation, Plan};
use crate::levels::rounding::half_up;
use crate::model::Job;

/// A slope must exceed so many of its own standard deviations.
const CLEAR: f64 = 3.29;

/// Fewest readings that show a drift.
const FEWEST: usize = 4;

/// Most adjustments that are made, and most observations of them all.
const MOST: (usize, usize) = (120, 400_000);

/// One way in which the readings of a setup may drift: what a unit of it adds at each reading.
struct Way {
    setup: usize,
    along: Along,
    shares: Vec<Vec<(usize, f64)>>,
}

/// Finds the drift that explains the readings best, if one does, and better than one bad reading.
pub(super) fn drift(posed: &Posed<'_>, bad: &Bad) -> Option<Slip> {
    let ways = ways(posed);
    if ways.len() > MOST.0 || ways.len().saturating_mul(posed.observations.len()) > MOST.1 {
        return None;
    }
    let mut best: Option<(f64, Slip)> = None;
    for way in ways {
        let Some((statistic, slip)) = explained(posed, &way) else { continue };
        let better = best.as_ref().is_none_or(|(least, _)| statistic < *least);
        if statistic < bad.without_worst.min(bad.all) && better {
            best = Some((statistic, slip));
        }
    }
    best.map(|(_, slip)| slip)
}

/// Lists the ways in which the readings of each setup may drift.
fn ways(posed: &Posed<'_>) -> Vec<Way> {
    let job = posed.job;
    let plan = Plan::of(job);
    let mut found = Vec::new();
    for setup in 0..job.readings.setups.len() {
        let of_setup: Vec<usize> = (0..posed.observations.len())
            .filter(|index| posed.observations[*index].from == From::Line(setup))
            .collect();
        if posed.nodes.line(setup).is_none() || of_setup.len() < FEWEST {
            continue;
        }
        let middle = (of_setup.len() - 1) as f64 / 2.0;
        let time = of_setup.iter().enumerate().map(|(order, index)| (*index, order as f64 - middle));
        found.push(Way { setup, along: Along::Time, shares: vec![time.collect()] });
        let place = |axis: usize| -> Option<Vec<(usize, f64)>> {
            let each = of_setup.iter();
            each.map(|index| Some((*index, plan.off_middle(posed.observations[*index].point)?[axis])))
                .collect()
        };
        if let (Some(x), Some(y)) = (place(0), place(1)) {
            found.push(Way { setup, along: Along::Plan, shares: vec![x, y] });
        }
        for line in 0..job.lines.len() {
            let along = along_line(job, line);
            let on_line = of_setup.iter().filter_map(|index| {
                let point = posed.observations[*index].point;
                Some((*index, along.iter().find(|(at, _)| *at == point)?.1))
            });
            let on_line: Vec<(usize, f64)> = on_line.collect();
            if on_line.len() >= FEWEST {
                found.push(Way { setup, along: Along::Line(line), shares: vec![on_line] });
            }
        }
    }
    found
}

/// Gives how far along its line each pad stands, in steps where the spacing is not known.
fn along_line(job: &Job, line: usize) -> Vec<(usize, f64)> {
    let Some(line) = job.lines.get(line) else { return Vec::new() };
    let mut at = 0.0;
    let mut found = Vec::new();
    for (step, column) in line.columns.iter().enumerate() {
        if step > 0 {
            at += line.spacing.get(step - 1).map_or(1.0, |spacing| spacing.nm() as f64 / 1e9);
        }
        if let Some(point) = job.columns.get(*column).and_then(|column| column.point) {
            found.push((point, at));
        }
    }
    found
}

/// Adjusts with the drift; its statistic and what it comes to, where the readings then agree and the drift is clear.
fn explained(posed: &Posed<'_>, way: &Way) -> Option<(f64, Slip)> {
    let first = posed.slopes.len();
    let mut observations: Vec<Observation> = posed.observations.clone();
    for (more, shares) in way.shares.iter().enumerate() {
        for (index, share) in shares.iter().filter(|(_, share)| *share != 0.0) {
            observations[*index].shares.push((first + more, *share));
        }
    }
    let adjustment = posed.with_more(&observations, way.shares.len());
    if !adjustment.systematic.untold.is_empty() {
        return None;
    }
    let test = posed.test(&adjustment, &observations);
    if test.is_some_and(|test| !test.passed) {
        return None;
    }
    let unit = posed.precision.unit / crate::levels::global_test::HALF_WIDTH;
    let cofactor = adjustment.systematic.cofactor();
    let clear = (first..first + way.shares.len())
        .any(|slope| adjustment.slopes[slope].abs() > CLEAR * unit * cofactor[(slope, slope)].sqrt());
    if !clear {
        return None;
    }
    // what it comes to from one end of the readings to the other
    let amounts: Vec<f64> = way
        .shares
        .first()?
        .iter()
        .map(|(index, _)| {
            let shares = way.shares.iter().enumerate();
            shares
                .filter_map(|(more, all)| {
                    let share = all.iter().find(|(it, _)| it == index)?.1;
                    Some(share * adjustment.slopes[first + more])
                })
                .sum()
        })
        .collect();
    let low = amounts.iter().copied().fold(f64::INFINITY, f64::min);
    let high = amounts.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let size: Length = half_up(high - low);
    let points = way.shares.first()?.iter().map(|(index, _)| posed.observations[*index].point);
    let slip = Slip {
        kind: SlipKind::Drift(way.along),
        setup: Some(way.setup),
        points: points.collect(),
        places: Vec::new(),
        size,
    };
    Some((test.map_or(0.0, |test| test.statistic), slip))
}
