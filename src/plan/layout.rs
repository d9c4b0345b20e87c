//! Every value as a row of cells, and the network over them.

use super::capacity::Capacity;
use super::flow::{Pair, SINK, SOURCE};
use super::system::System;

/// Values that are not told apart: one value, or every whole value of a gap between two.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Cell {
    /// The lowest value.
    pub(super) low: i64,
    /// The highest value.
    pub(super) high: i64,
    /// Which of the pad's choices stands there; none is free: referred, or the level of a spread.
    pub(super) choice: Option<usize>,
}

/// The cells of every variable, in rising order, and the nodes between them.
///
/// Node k of a variable, counted from 1, stands with the source where its value lies in
/// cell k or above; before the first is the source itself, behind the last the sink.
pub(super) struct Layout {
    /// The cells of each variable, at least one.
    pub(super) cells: Vec<Vec<Cell>>,
    base: Vec<u32>,
    nodes: u32,
}

impl Layout {
    /// Numbers the nodes.
    pub(super) fn new(cells: Vec<Vec<Cell>>) -> Self {
        let mut nodes = 0;
        let base = cells.iter().map(|row| {
            let base = nodes;
            nodes += row.len().saturating_sub(1) as u32;
            base
        });
        let base = base.collect();
        Self { cells, base, nodes }
    }

    /// Counts the nodes.
    pub(super) fn nodes(&self) -> usize {
        self.nodes as usize
    }

    /// Gives the node between cell `k - 1` and cell `k` of a variable.
    pub(super) fn node(&self, variable: usize, k: usize) -> u32 {
        match k {
            0 => SOURCE,
            k if k >= self.cells[variable].len() => SINK,
            k => self.base[variable] + k as u32 - 1,
        }
    }

    /// Gives the nodes of a variable.
    pub(super) fn nodes_of(&self, variable: usize) -> std::ops::Range<usize> {
        let base = self.base[variable] as usize;
        base..base + self.cells[variable].len().saturating_sub(1)
    }

    /// Gives the pairs that say what an earlier value of a variable implies: a later node never stands
    /// with the source before an earlier one, and every bound of the system is kept cell by cell.
    pub(super) fn implications<C: Capacity>(&self, system: &System) -> Vec<Pair<C>> {
        let mut pairs = Vec::new();
        for bound in &system.bounds {
            let (from, to) = (&self.cells[bound.from], &self.cells[bound.to]);
            let (Some(highest), Some(lowest)) = (from.last(), to.first()) else { continue };
            if highest.high - lowest.low <= bound.most {
                continue;
            }
            let (mut at, mut last) = (0, 0);
            for (k, cell) in from.iter().enumerate() {
                while to.get(at).is_some_and(|there| there.high < cell.low - bound.most) {
                    at += 1;
                }
                // what the cell before implied is implied again
                if at > last {
                    last = at;
                    pairs.push(Pair {
                        from: self.node(bound.from, k),
                        to: self.node(bound.to, at),
                        forth: C::UNLIMITED,
                        back: C::default(),
                    });
                }
            }
        }
        pairs
    }

    /// Gives the pairs along every variable, with a price on each of its cells.
    pub(super) fn prices<C: Capacity>(&self, price: impl Fn(usize, usize) -> C) -> Vec<Pair<C>> {
        let mut pairs = Vec::new();
        for (variable, row) in self.cells.iter().enumerate() {
            let least = (0..row.len()).map(|k| price(variable, k)).min().unwrap_or_default();
            pairs.extend((0..row.len()).map(|k| Pair {
                from: self.node(variable, k),
                to: self.node(variable, k + 1),
                forth: price(variable, k) - least,
                back: C::default(),
            }));
        }
        pairs
    }

    /// Gives the pairs that price the step between two variables, `each` a value of one.
    ///
    /// The step |a - b| is, over every stretch between two values next to each other, its length where one of them
    /// lies above it and the other does not.
    pub(super) fn step<C: Capacity>(&self, a: usize, b: usize, unit: i64) -> Vec<Pair<C>> {
        let mut values: Vec<i64> =
            [a, b].iter().flat_map(|&it| &self.cells[it]).map(|cell| cell.low).collect();
        values.sort_unstable();
        values.dedup();
        let node = |variable: usize, value: i64| {
            let k = self.cells[variable].partition_point(|cell| cell.low < value);
            self.node(variable, k)
        };
        let stretches = values.iter().zip(values.iter().skip(1));
        stretches
            .map(|(&low, &high)| {
                let price = C::of(i128::from((high - low) / unit));
                Pair { from: node(a, high), to: node(b, high), forth: price, back: price }
            })
            .collect()
    }
}
