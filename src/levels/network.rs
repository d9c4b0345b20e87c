//! A network of nodes and joins, solved by taking out one node after the other.
//!
//! Least squares of height differences and a network of resistors are one problem: a
//! weight is a conductance, a correction a voltage, the variance of a difference
//! (at unit weight 1) the resistance between two nodes. Taking a node out joins its
//! neighbours to each other; done this way nothing is ever subtracted, so that weights
//! of very different size do no harm, and only what is joined is stored.

use std::collections::{BTreeMap, BTreeSet};

/// A node by its number; none is what is held, where every correction is 0.
pub(super) type Node = Option<usize>;

/// Nodes and the weights of the joins between them.
#[derive(Clone, Debug)]
pub(super) struct Network {
    joins: Vec<BTreeMap<usize, f64>>,
    to_held: Vec<f64>,
}

impl Network {
    /// Makes a network of so many nodes and no joins.
    pub(super) fn new(nodes: usize) -> Self {
        Self { joins: vec![BTreeMap::new(); nodes], to_held: vec![0.0; nodes] }
    }

    /// Joins two nodes; the weights of several joins add up.
    pub(super) fn join(&mut self, one: Node, other: Node, weight: f64) {
        match (one, other) {
            (Some(one), Some(other)) if one != other => {
                *self.joins[one].entry(other).or_default() += weight;
                *self.joins[other].entry(one).or_default() += weight;
            }
            (Some(node), None) | (None, Some(node)) => self.to_held[node] += weight,
            _ => {}
        }
    }

    /// Takes the nodes out, always one with the fewest neighbours.
    ///
    /// Every node must be joined, over whatever others, to what is held.
    pub(super) fn eliminate(mut self) -> Eliminated {
        let mut queue: BTreeSet<(usize, usize)> =
            self.joins.iter().enumerate().map(|(node, joins)| (joins.len(), node)).collect();
        let mut taken = Vec::with_capacity(self.joins.len());
        let mut position = vec![0; self.joins.len()];
        while let Some((_, node)) = queue.pop_first() {
            position[node] = taken.len();
            taken.push(self.take_out(node, &mut queue));
        }
        Eliminated { taken, position }
    }

    fn take_out(&mut self, node: usize, queue: &mut BTreeSet<(usize, usize)>) -> Taken {
        let neighbours: Vec<(usize, f64)> = std::mem::take(&mut self.joins[node]).into_iter().collect();
        let weight = self.to_held[node] + neighbours.iter().map(|(_, join)| join).sum::<f64>();
        let shares: Vec<(usize, f64)> =
            neighbours.iter().map(|&(neighbour, join)| (neighbour, join / weight)).collect();
        for &(neighbour, _) in &neighbours {
            queue.remove(&(self.joins[neighbour].len(), neighbour));
            self.joins[neighbour].remove(&node);
        }
        for (index, &(one, share)) in shares.iter().enumerate() {
            self.to_held[one] += share * self.to_held[node];
            for &(other, join) in &neighbours[index + 1..] {
                self.join(Some(one), Some(other), share * join);
            }
        }
        queue.extend(neighbours.iter().map(|&(neighbour, _)| (self.joins[neighbour].len(), neighbour)));
        Taken { node, weight, shares }
    }
}

/// A node that was taken out.
#[derive(Clone, Debug)]
struct Taken {
    node: usize,
    /// The weight of all its joins.
    weight: f64,
    /// The neighbours it then had, each with its share of that weight.
    shares: Vec<(usize, f64)>,
}

/// A network solved for any loads.
#[derive(Clone, Debug)]
pub(super) struct Eliminated {
    taken: Vec<Taken>,
    /// When each node was taken out.
    position: Vec<usize>,
}

impl Eliminated {
    /// Finds the corrections under a load at each node.
    pub(super) fn solve(&self, mut load: Vec<f64>) -> Vec<f64> {
        for taken in &self.taken {
            let own = load[taken.node];
            for &(neighbour, share) in &taken.shares {
                load[neighbour] += own * share;
            }
        }
        for taken in self.taken.iter().rev() {
            let from_neighbours: f64 = taken.shares.iter().map(|&(node, share)| share * load[node]).sum();
            load[taken.node] = load[taken.node] / taken.weight + from_neighbours;
        }
        load
    }

    /// Gives the variance of the difference between two nodes, that of an observation of weight 1 being 1.
    pub(super) fn variance(&self, one: Node, other: Node) -> f64 {
        let mut load: BTreeMap<usize, f64> = BTreeMap::new();
        for (node, sign) in [(one, 1.0), (other, -1.0)] {
            if let Some(node) = node {
                *load.entry(self.position[node]).or_default() += sign;
            }
        }
        let mut variance = 0.0;
        while let Some((position, own)) = load.pop_first() {
            let taken = &self.taken[position];
            variance += own * own / taken.weight;
            for &(neighbour, share) in &taken.shares {
                *load.entry(self.position[neighbour]).or_default() += own * share;
            }
        }
        variance
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn readings_in_a_row_add_their_variances_and_side_by_side_their_weights() {
        let mut network = Network::new(3);
        network.join(None, Some(0), 1.0);
        network.join(Some(0), Some(1), 1.0);
        network.join(Some(1), Some(2), 1.0);
        network.join(Some(1), Some(2), 1.0);
        let network = network.eliminate();
        assert_relative_eq!(network.variance(Some(1), None), 2.0);
        assert_relative_eq!(network.variance(Some(2), None), 2.5);
        assert_relative_eq!(network.variance(Some(2), Some(1)), 0.5);
        assert_relative_eq!(network.variance(Some(2), Some(2)), 0.0);
    }

    #[test]
    fn weights_of_very_different_size_lose_no_digits() {
        let weak = 1e-24;
        let mut network = Network::new(2);
        network.join(Some(0), None, weak);
        network.join(Some(1), None, weak);
        network.join(Some(0), Some(1), 1.0);
        let network = network.eliminate();
        assert_relative_eq!(network.variance(Some(0), None), 0.5 / weak, max_relative = 1e-12);
        assert_relative_eq!(network.variance(Some(0), Some(1)), 1.0, max_relative = 1e-12);
        let corrections = network.solve(vec![weak * 3.0, weak * 5.0]);
        assert_relative_eq!(corrections[0], 4.0, max_relative = 1e-12);
    }

    #[test]
    fn a_load_nowhere_moves_nothing_at_all() {
        let mut network = Network::new(2);
        network.join(Some(0), Some(1), 0.3);
        network.join(Some(1), None, 0.7);
        assert_eq!(network.eliminate().solve(vec![0.0, 0.0]), [0.0, 0.0]);
    }
}
