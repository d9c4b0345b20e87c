//! Which points and lines of sight are on the datum, and which of them can move.

use super::carry::{Carried, Step};
use super::known::Known;
use super::network::Node;
use super::observation::{From, Observation};

/// The points and lines on the datum; a node that is none is held.
#[derive(Clone, Debug)]
pub(super) struct Nodes {
    points: Vec<Option<Node>>,
    lines: Vec<Option<Node>>,
    count: usize,
}

impl Nodes {
    /// Numbers what hangs on known points; those that are held do not move.
    pub(super) fn on_known(carried: &Carried, known: &[Option<Known>]) -> Self {
        let is_known = |point: usize| known.get(point).copied().flatten();
        Self::number(
            carried,
            |step| is_known(step.root).is_some(),
            |point| is_known(point).is_some_and(|known| known.held),
            None,
        )
    }

    /// Numbers the block of one root; its first line of sight is held, or, where there is none, its root.
    pub(super) fn in_block(carried: &Carried, root: usize) -> Self {
        let in_block = |step: &Step| step.root == root;
        let lines = || carried.lines.iter().take(carried.setups);
        let first = lines().position(|line| line.as_ref().is_some_and(in_block));
        Self::number(carried, in_block, |point| first.is_none() && point == root, first)
    }

    fn number(
        carried: &Carried,
        on_datum: impl Fn(&Step) -> bool,
        held_point: impl Fn(usize) -> bool,
        held_line: Option<usize>,
    ) -> Self {
        let mut count = 0;
        let mut next = |held: bool| {
            if held {
                return None;
            }
            count += 1;
            Some(count - 1)
        };
        let on_datum = |step: &Option<Step>| step.as_ref().is_some_and(&on_datum);
        let lines = carried.lines.iter().take(carried.setups).enumerate();
        let lines = lines.map(|(line, step)| on_datum(step).then(|| next(held_line == Some(line)))).collect();
        let points = carried.points.iter().enumerate();
        let points = points.map(|(point, step)| on_datum(step).then(|| next(held_point(point)))).collect();
        Self { points, lines, count }
    }

    /// Gives how many can move.
    pub(super) const fn count(&self) -> usize {
        self.count
    }

    /// Gives a point's node; none where it is not on the datum.
    pub(super) fn point(&self, point: usize) -> Option<Node> {
        self.points.get(point).copied().flatten()
    }

    /// Gives a line's node; none where it is not on the datum.
    pub(super) fn line(&self, setup: usize) -> Option<Node> {
        self.lines.get(setup).copied().flatten()
    }

    /// Gives the nodes an observation joins, its point first; none where it is not on the datum.
    pub(super) fn ends(&self, observation: &Observation) -> Option<(Node, Node)> {
        let base = match observation.from {
            From::Line(setup) => self.line(setup)?,
            From::Point(point) => self.point(point)?,
            From::Zero => None,
        };
        Some((self.point(observation.point)?, base))
    }
}
