//! What a redundant reading says about the run it closes.

use super::carry::{Carried, Step};
use crate::length::Length;

/// The misclosure that one redundant reading shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Closure {
    /// The point the run starts from, an index into [`crate::model::Readings::points`].
    pub from: usize,
    /// The point the run ends on; the same where it comes back.
    pub to: usize,
    /// The setups on the way; 0 where two elevations of one point differ.
    pub setups: usize,
    /// The height computed through the run less the known one.
    pub misclosure: Length,
}

/// Tells which run a second way to a point closes.
///
/// Between two known points it is the run from the one to the other; else it is a
/// loop, from the point back to it.
pub(super) fn run_closed(carried: &Carried, setup: usize, line: &Step, point: usize, end: &Step) -> Closure {
    let misclosure = Length::ZERO;
    match end.via {
        Some(other) if end.root == line.root => {
            Closure { from: point, to: point, setups: setups_of_loop(carried, setup, other), misclosure }
        }
        _ => Closure { from: line.root, to: end.root, setups: line.setups + end.setups, misclosure },
    }
}

/// Counts the setups on the way between two setups that were carried from one root, both included.
fn setups_of_loop(carried: &Carried, one: usize, other: usize) -> usize {
    let line = |setup: usize| carried.lines.get(setup).copied().flatten();
    let back = |line: &Step| carried.points.get(line.via?).copied().flatten()?.via;
    let (mut one, mut other) = (one, other);
    let mut left_behind = 0;
    while one != other {
        let (Some(a), Some(b)) = (line(one), line(other)) else { break };
        if a.via == b.via {
            return left_behind + 2;
        }
        let (deeper, from) = if a.setups >= b.setups { (&mut one, a) } else { (&mut other, b) };
        let Some(before) = back(&from) else { break };
        *deeper = before;
        left_behind += 1;
    }
    left_behind + 1
}
