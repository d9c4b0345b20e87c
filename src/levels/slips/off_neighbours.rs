//! Pads that nothing checks: one that stands off both its neighbours by a round amount, a line that falls evenly.

use super::{RoundAmount, Slip, SlipKind, Unchecked};
use crate::length::Length;
use crate::source::Place;

/// Fewest pads of a line that show a fall.
const FEWEST: usize = 4;

/// A pad is off the even fall by no more than this part of the whole.
const EVEN: i64 = 6;

/// Finds pads that stand off both neighbours on a line, which agree with each other, by a round amount.
pub(super) fn off_neighbours(unchecked: &Unchecked<'_, '_>) -> Vec<Slip> {
    let job = unchecked.posed.job;
    let good_to = unchecked.good_to();
    let departure = |column: usize| unchecked.departures.get(column).copied().flatten();
    let mut found: Vec<Slip> = Vec::new();
    for line in &job.lines {
        for trio in line.columns.windows(3) {
            let Some([before, own, behind]) = all([trio[0], trio[1], trio[2]].map(departure)) else {
                continue;
            };
            if (before - behind).abs() > good_to {
                continue;
            }
            let middle = Length::from_nm((before.nm() + behind.nm()) / 2);
            let off = (own - middle).abs();
            let point = job.columns[trio[1]].point;
            if let (Some(amount), Some(point)) = (RoundAmount::near(job, off, good_to), point)
                && !found.iter().any(|it| it.points == [point])
            {
                found.push(Slip {
                    kind: SlipKind::OffNeighbours(amount),
                    setup: None,
                    points: vec![point],
                    places: places(unchecked, point),
                    size: off,
                });
            }
        }
    }
    found
}

/// Finds lines whose pads fall evenly from one end to the other by more than readings vary.
pub(super) fn falling(unchecked: &Unchecked<'_, '_>) -> Vec<Slip> {
    let job = unchecked.posed.job;
    let mut found = Vec::new();
    for (index, line) in job.lines.iter().enumerate() {
        let departures: Option<Vec<Length>> =
            line.columns.iter().map(|column| unchecked.departures.get(*column).copied().flatten()).collect();
        let Some(departures) = departures.filter(|it| it.len() >= FEWEST) else { continue };
        let known = line.spacing.len() + 1 == departures.len();
        let step = |at: usize| if known { line.spacing[at].nm().max(1) } else { 1 };
        let along: Vec<i64> = (0..departures.len()).map(|end| (0..end).map(step).sum()).collect();
        let (Some(first), Some(last), Some(length)) = (departures.first(), departures.last(), along.last())
        else {
            continue;
        };
        let fall = *last - *first;
        let even = departures.iter().zip(&along).all(|(departure, along)| {
            let share = i128::from(fall.nm()) * i128::from(*along) / i128::from((*length).max(1));
            let off = i128::from((*departure - *first).nm()) - share;
            off.abs() * i128::from(EVEN) <= i128::from(fall.abs().nm())
        });
        if even && fall.abs() > unchecked.good_to() * 2 {
            let points = line.columns.iter().filter_map(|column| job.columns.get(*column)?.point);
            found.push(Slip {
                kind: SlipKind::Falling(index),
                setup: None,
                points: points.collect(),
                places: Vec::new(),
                size: fall.abs(),
            });
        }
    }
    found
}

fn all<const N: usize>(each: [Option<Length>; N]) -> Option<[Length; N]> {
    let all: Option<Vec<Length>> = each.into_iter().collect();
    all?.try_into().ok()
}

/// Gives where the readings of a point stand.
pub(super) fn places(unchecked: &Unchecked<'_, '_>, point: usize) -> Vec<Place> {
    let observations = unchecked.posed.observations.iter();
    observations.filter(|it| it.point == point).map(|it| it.place).collect()
}
