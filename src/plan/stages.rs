//! One aim after another: of all solutions that are best for the first, those best for the next.
//!
//! The minimum cuts of a network are the sets that nothing still flows out of. So what may still
//! flow after one stage binds all later ones, and the next prices are laid on the rest.

use super::capacity::Capacity;
use super::flow::{Flow, Pair, SINK, SOURCE, Side};
use super::layout::Layout;
use super::system::System;

/// A cut does not cost what flows: a fault of this program, never of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct NotProven;

/// The stages so far.
pub(super) struct Stages<'l, C> {
    layout: &'l Layout,
    /// Where each node went: with the source, with the sink, or into the network that is left.
    place: Vec<u32>,
    left: Vec<Pair<C>>,
    nodes: usize,
}

impl<'l, C: Capacity> Stages<'l, C> {
    /// Begins with the bounds alone: every cut is as good.
    pub(super) fn new(layout: &'l Layout, system: &System) -> Self {
        let mut left = layout.implications(system);
        // a later node never stands with the source before an earlier one
        for variable in 0..layout.cells.len() {
            let nodes = layout.nodes_of(variable);
            left.extend(nodes.clone().zip(nodes.skip(1)).map(|(earlier, later)| Pair {
                from: earlier as u32,
                to: later as u32,
                forth: C::default(),
                back: C::UNLIMITED,
            }));
        }
        Self { layout, place: (0..layout.nodes() as u32).collect(), left, nodes: layout.nodes() }
    }

    /// Gives the pairs that are left to flow through.
    pub(super) fn into_pairs(self) -> Vec<Pair<C>> {
        self.left
    }

    /// Goes on to the solutions that are best by these prices, a price on each cell.
    pub(super) fn least(&mut self, price: impl Fn(usize, usize) -> C) -> Result<(), NotProven> {
        let layout = self.layout;
        let pairs = layout.prices(&price);
        let base = layout
            .cells
            .iter()
            .enumerate()
            .map(|(variable, row)| (0..row.len()).map(|k| price(variable, k)).min().unwrap_or_default());
        let base = base.fold(C::default(), |sum, least| sum + least);
        let value = self.go_on(&pairs);
        let lowest = self.lowest();
        let cost = lowest.iter().enumerate().map(|(variable, &k)| price(variable, k));
        let cost = cost.fold(C::default(), |sum, price| sum + price);
        if cost == base + value { Ok(()) } else { Err(NotProven) }
    }

    /// Goes on to the solutions with the least sum of steps between these pairs of variables.
    pub(super) fn flattest(&mut self, steps: &[(usize, usize)], unit: i64) -> Result<(), NotProven> {
        let layout = self.layout;
        let pairs: Vec<Pair<C>> = steps.iter().flat_map(|&(a, b)| layout.step(a, b, unit)).collect();
        let value = self.go_on(&pairs);
        let lowest = self.lowest();
        let at = |variable: usize| layout.cells[variable][lowest[variable]].low;
        let sum: i128 =
            steps.iter().map(|&(a, b)| i128::from(at(a).abs_diff(at(b)) / unit.unsigned_abs())).sum();
        if C::of(sum) == value { Ok(()) } else { Err(NotProven) }
    }

    /// Gives the cell of each variable in the lowest solution of all that are left.
    pub(super) fn lowest(&self) -> Vec<usize> {
        self.cells(|place| place == SOURCE)
    }

    /// Gives the cell of each variable in the highest solution of all that are left.
    pub(super) fn highest(&self) -> Vec<usize> {
        self.cells(|place| place != SINK)
    }

    fn cells(&self, above: impl Fn(u32) -> bool) -> Vec<usize> {
        (0..self.layout.cells.len())
            .map(|variable| {
                self.place[self.layout.nodes_of(variable)].iter().filter(|&&it| above(it)).count()
            })
            .collect()
    }

    /// Fills the network that is left under more prices, and keeps what the cuts have in common.
    fn go_on(&mut self, prices: &[Pair<C>]) -> C {
        let place = |node: u32| if node >= SINK { node } else { self.place[node as usize] };
        let mut pairs = std::mem::take(&mut self.left);
        pairs.extend(
            prices.iter().map(|pair| Pair { from: place(pair.from), to: place(pair.to), ..*pair }).filter(
                |pair| pair.from != pair.to && (pair.forth > C::default() || pair.back > C::default()),
            ),
        );
        let flow = Flow::fill(self.nodes, &pairs);
        drop(pairs);
        let mut nodes = 0;
        let moved: Vec<u32> = flow
            .sides()
            .into_iter()
            .map(|side| match side {
                Side::Source => SOURCE,
                Side::Sink => SINK,
                Side::Either => {
                    nodes += 1;
                    nodes - 1
                }
            })
            .collect();
        let unlimited = |open: bool| if open { C::UNLIMITED } else { C::default() };
        self.left = flow
            .residual()
            .map(|pair| Pair {
                from: moved[pair.from as usize],
                to: moved[pair.to as usize],
                forth: unlimited(pair.forth),
                back: unlimited(pair.back),
            })
            .filter(|pair| pair.from < SINK && pair.to < SINK)
            .collect();
        for place in &mut self.place {
            if *place < SINK {
                *place = moved[*place as usize];
            }
        }
        self.nodes = nodes as usize;
        flow.value()
    }
}
