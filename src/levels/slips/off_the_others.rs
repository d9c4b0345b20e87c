//! A pad that nothing checks and that stands off nearly all others by whole feet or metres: no concrete varies so much.

use super::off_neighbours::places;
use super::{RoundAmount, Slip, SlipKind, Unchecked};
use crate::length::{Length, Unit};
use crate::model::{Job, Units};

/// Fewest other pads that show where pads stand.
const FEWEST: usize = 3;

/// Pads stand together, and a slip is a round one, within this part of the amount: 1-1/2 in of a foot.
const PART: i64 = 8;

/// Finds pads that stand off nearly all others by a round amount, those left out that were found already.
pub(super) fn off_the_others(unchecked: &Unchecked<'_, '_>, found: &[Slip]) -> Vec<Slip> {
    let job = unchecked.posed.job;
    let known = || unchecked.departures.iter().enumerate().filter_map(|(at, it)| Some((at, (*it)?.nm())));
    let amount = amount(job);
    let near = amount.length().nm() / PART;
    // one middle serves all: a single pad hardly moves it
    let mut sorted: Vec<i64> = known().map(|(_, departure)| departure).collect();
    sorted.sort_unstable();
    let Some(middle) = sorted.get(sorted.len() / 2).copied() else { return Vec::new() };
    let together = sorted.iter().filter(|it| apart(**it, middle) <= near).count();
    // three of four at least
    if together < FEWEST || together * 4 < sorted.len() * 3 {
        return Vec::new();
    }
    let slips = known().filter_map(|(column, departure)| {
        let off = apart(departure, middle);
        let one = amount.length().nm();
        let whole = off.saturating_add(one / 2) / one;
        let point = job.columns.get(column)?.point?;
        let told = found.iter().any(|it| it.points == [point]);
        (whole > 0 && apart(off, whole * one) <= near && !told).then(|| Slip {
            kind: SlipKind::OffTheOthers(amount),
            setup: None,
            points: vec![point],
            places: places(unchecked, point),
            size: Length::from_nm(off),
        })
    });
    slips.collect()
}

/// Gives how far two heights are apart; heights of notes that cannot be may be as far as numbers go.
const fn apart(one: i64, other: i64) -> i64 {
    one.saturating_sub(other).saturating_abs()
}

/// Gives what is misread whole on such a rod.
fn amount(job: &Job) -> RoundAmount {
    let metric = match job.readings.unit {
        Some(unit) => !matches!(unit, Unit::Inch | Unit::Foot),
        None => job.units == Units::Millimetre,
    };
    if metric { RoundAmount::Metre } else { RoundAmount::Foot }
}
