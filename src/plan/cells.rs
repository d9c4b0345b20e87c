//! Rows of cells: values, and the gaps between them.

use super::layout::Cell;
use super::reach::{Domain, End, reach};
use super::system::System;
use super::task::{Pad, Task};
use std::collections::{BTreeMap, BTreeSet};

/// Values at which the free variables are told apart, more of them from round to round.
///
/// A column that is referred may come to any elevation, and so may the lowest level of a spread.
/// Both are kept as gaps between values, which says less than the limits do. Where the best cut
/// then stands for no real elevations, the values along the conflict become values of their own.
pub(super) struct Splits {
    of: Vec<BTreeSet<i64>>,
}

impl Splits {
    /// Begins without any.
    pub(super) fn new(system: &System) -> Self {
        Self { of: vec![BTreeSet::new(); system.variables()] }
    }

    /// Looks for elevations of the free variables that keep every limit beside the fixed ones.
    ///
    /// Gives whether there are; where not, what stands in the way is split.
    pub(super) fn realised(&mut self, system: &System, domains: &[Domain]) -> Realised {
        let reached = reach(system, domains, End::Low);
        if reached.clashes.is_empty() {
            return Realised::Yes;
        }
        let mut new = false;
        for link in reached.clashes.iter().flatten() {
            if matches!(domains[link.variable], Domain::Between(..)) {
                new |= self.of[link.variable].insert(link.value);
            }
        }
        if new { Realised::Split } else { Realised::Never }
    }
}

/// Whether a cut stands for real elevations.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Realised {
    /// It does.
    Yes,
    /// It did not; cells were split, so that the same cut does not come again.
    Split,
    /// It did not, and nothing was left to split: a fault of this program.
    Never,
}

/// Gives what every variable may be where these pads are referred, the others keep what is open to them,
/// and referred ones stay between two ends.
pub(super) fn domains(
    task: &Task,
    system: &System,
    referred: &[bool],
    ends: Option<(i64, i64)>,
) -> Vec<Domain> {
    let pads = task.pads.iter().zip(referred).map(|(pad, referred)| {
        if *referred {
            return between(pad, ends);
        }
        Domain::Values(pad.open.iter().map(|it| it.departure).collect())
    });
    pads.chain(system.spreads.iter().map(|_| Domain::Between(None, None))).collect()
}

/// Gives what a referred pad may be: its design window, and no further out than two ends.
fn between(pad: &Pad, ends: Option<(i64, i64)>) -> Domain {
    let window = pad.window.map(|most| (-most, most));
    let low = [window.map(|it| it.0), ends.map(|it| it.0)].into_iter().flatten().max();
    let high = [window.map(|it| it.1), ends.map(|it| it.1)].into_iter().flatten().min();
    Domain::Between(low, high)
}

/// Gives the cells of a pad between two values: what is open, and the gaps where it may be referred.
pub(super) fn of_pad(
    pad: &Pad,
    (low, high): (i64, i64),
    keeps: bool,
    refers: bool,
    splits: &Splits,
    variable: usize,
) -> Vec<Cell> {
    let mut points: BTreeMap<i64, Option<usize>> = BTreeMap::new();
    if refers {
        points.extend(splits.of[variable].iter().map(|&value| (value, None)));
    }
    let open = pad.open.iter().enumerate();
    points.extend(open.map(|(choice, it)| (it.departure, Some(choice).filter(|_| keeps))));
    row(points, (low, high), refers)
}

/// Gives the cells of the lowest level of a spread between two values: those of its members.
pub(super) fn of_spread(
    members: &[usize],
    rows: &[Vec<Cell>],
    (low, high): (i64, i64),
    splits: &Splits,
    variable: usize,
) -> Vec<Cell> {
    let cells = || members.iter().filter_map(|&member| rows.get(member)).flatten();
    let free = cells().any(|cell| cell.choice.is_none());
    let mut values: Vec<i64> = cells().filter(|cell| cell.low == cell.high).map(|cell| cell.low).collect();
    values.extend(&splits.of[variable]);
    values.sort_unstable();
    values.dedup();
    let points = values.into_iter().map(|value| (value, None)).collect();
    row(points, (low, high), free)
}

/// Lays points between two values side by side, with the gaps between them where asked for.
fn row(points: BTreeMap<i64, Option<usize>>, (low, high): (i64, i64), gaps: bool) -> Vec<Cell> {
    let mut cells = Vec::with_capacity(points.len() * 2 + 1);
    let mut from = low;
    for (value, choice) in points.into_iter().filter(|(value, _)| (low..=high).contains(value)) {
        if gaps && from < value {
            cells.push(Cell { low: from, high: value - 1, choice: None });
        }
        cells.push(Cell { low: value, high: value, choice });
        from = value + 1;
    }
    if gaps && from <= high {
        cells.push(Cell { low: from, high, choice: None });
    }
    cells
}
