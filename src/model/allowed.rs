//! All raises at which a rod, or every rod of a column, is full.

use super::base::Base;
use super::column::Rod;
use crate::length::Length;

/// A closed interval of raises; a missing bound is unlimited.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Interval {
    /// The lowest raise.
    pub low: Option<Length>,
    /// The highest raise.
    pub high: Option<Length>,
}

impl Interval {
    /// Tells whether a raise lies in the interval.
    #[must_use]
    pub fn contains(self, raise: Length) -> bool {
        self.low.is_none_or(|low| low <= raise) && self.high.is_none_or(|high| raise <= high)
    }
}

/// Gives the raises at which one measured rod is full, shim tolerance apart; none without a projection.
#[must_use]
pub fn allowed_raises(base: &Base, rod: &Rod, plus_minus: Length) -> Option<Vec<Interval>> {
    let projection = rod.projection?;
    let plate = base.plate.thickness;
    let nanometre = Length::from_nm(1);
    let high = |extra: u32| {
        let parts = plate.most + base.washers_with(extra).most + base.nuts_sum().most;
        projection - parts - base.beyond.value - plus_minus
    };
    let Some(thread) = rod.thread else {
        return Some(vec![Interval { low: None, high: Some(high(0)) }]);
    };
    // so many extra washers leave enough thread from this raise up
    let low = |extra: u32| {
        let parts = plate.least + base.washers_with(extra).least;
        projection + base.clear.value + plus_minus - thread - parts
    };
    let mut found = Vec::new();
    for extra in (0..=base.extra_allowed()).rev() {
        // fewer washers are used wherever they leave enough thread
        let high = match extra.checked_sub(1) {
            Some(fewer) => high(extra).min(low(fewer) - nanometre),
            None => high(extra),
        };
        if low(extra) <= high {
            found.push(Interval { low: Some(low(extra)), high: Some(high) });
        }
    }
    Some(joined(found))
}

/// Joins intervals that touch; they come in rising order.
fn joined(intervals: Vec<Interval>) -> Vec<Interval> {
    let mut out: Vec<Interval> = Vec::with_capacity(intervals.len());
    for next in intervals {
        match out.last_mut() {
            Some(last) if touches(last.high, next.low) => last.high = last.high.max(next.high),
            _ => out.push(next),
        }
    }
    out
}

fn touches(high: Option<Length>, low: Option<Length>) -> bool {
    match (high, low) {
        (Some(high), Some(low)) => low <= high + Length::from_nm(1),
        _ => true,
    }
}

/// Gives the raises that lie in both of two unions of intervals.
#[must_use]
pub fn intersect(one: &[Interval], other: &[Interval]) -> Vec<Interval> {
    let mut out = Vec::new();
    for a in one {
        for b in other {
            let low = match (a.low, b.low) {
                (Some(a), Some(b)) => Some(a.max(b)),
                (a, b) => a.or(b),
            };
            let high = match (a.high, b.high) {
                (Some(a), Some(b)) => Some(a.min(b)),
                (a, b) => a.or(b),
            };
            if low.is_none_or(|low| high.is_none_or(|high| low <= high)) {
                out.push(Interval { low, high });
            }
        }
    }
    out
}
