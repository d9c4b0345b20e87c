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

    /// Takes the nodes out, one with few neighbours first.
    ///
    /// Every node must be joined, over whatever others, to what is held. Of nodes with one
    /// or two neighbours, those whose neighbours are still there come first: a long run is
    /// halved again and again, and no way through what was taken out is long.
    pub(super) fn eliminate(mut self) -> Eliminated {
        let mut heights = vec![0; self.joins.len()];
        let mut queue: BTreeSet<Turn> =
            self.joins.iter().enumerate().map(|(node, joins)| turn(joins.len(), 0, node)).collect();
        let mut taken = Vec::with_capacity(self.joins.len());
        let mut position = vec![0; self.joins.len()];
        while let Some((_, height, node)) = queue.pop_first() {
            position[node] = taken.len();
            let neighbours: Vec<usize> = self.joins[node].keys().copied().collect();
            for &neighbour in &neighbours {
                queue.remove(&turn(self.joins[neighbour].len(), heights[neighbour], neighbour));
            }
            taken.push(self.take_out(node));
            for &neighbour in &neighbours {
                heights[neighbour] = heights[neighbour].max(height + 1);
                queue.insert(turn(self.joins[neighbour].len(), heights[neighbour], neighbour));
            }
        }
        for taken in &mut taken {
            for (neighbour, _) in &mut taken.shares {
                *neighbour = position[*neighbour];
            }
            taken.next = taken.shares.iter().map(|(neighbour, _)| *neighbour).min();
        }
        Eliminated { taken, position }
    }

    fn take_out(&mut self, node: usize) -> Taken {
        let neighbours: Vec<(usize, f64)> = std::mem::take(&mut self.joins[node]).into_iter().collect();
        let weight = self.to_held[node] + neighbours.iter().map(|(_, join)| join).sum::<f64>();
        let shares: Vec<(usize, f64)> =
            neighbours.iter().map(|&(neighbour, join)| (neighbour, join / weight)).collect();
        for (index, &(one, share)) in shares.iter().enumerate() {
            self.joins[one].remove(&node);
            self.to_held[one] += share * self.to_held[node];
            for &(other, join) in &neighbours[index + 1..] {
                self.join(Some(one), Some(other), share * join);
            }
        }
        Taken { weight, shares, next: None }
    }
}

/// When a node is taken out: by its neighbours, by how many were taken out before it on one way, by number.
type Turn = (usize, usize, usize);

fn turn(neighbours: usize, height: usize, node: usize) -> Turn {
    (neighbours.max(2), height, node)
}

/// A node that was taken out.
#[derive(Clone, Debug)]
struct Taken {
    /// The weight of all its joins.
    weight: f64,
    /// The neighbours it then had, by their position, each with its share of that weight.
    shares: Vec<(usize, f64)>,
    /// The first of them to be taken out; all others are met from there on.
    next: Option<usize>,
}

/// A network solved for any loads.
#[derive(Clone, Debug)]
pub(super) struct Eliminated {
    /// The nodes in the order they were taken out.
    taken: Vec<Taken>,
    /// Where each node stands in that order.
    position: Vec<usize>,
}

impl Eliminated {
    /// Finds the corrections under a load at each node.
    pub(super) fn solve(&self, loads: &[f64]) -> Vec<f64> {
        let mut at = vec![0.0; self.taken.len()];
        for (&position, load) in self.position.iter().zip(loads) {
            at[position] = *load;
        }
        for (position, taken) in self.taken.iter().enumerate() {
            let own = at[position];
            for &(neighbour, share) in &taken.shares {
                at[neighbour] += own * share;
            }
        }
        for (position, taken) in self.taken.iter().enumerate().rev() {
            let from_neighbours: f64 =
                taken.shares.iter().map(|&(neighbour, share)| share * at[neighbour]).sum();
            at[position] = at[position] / taken.weight + from_neighbours;
        }
        self.position.iter().map(|&position| at[position]).collect()
    }

    /// Gives the variance of a sum of shares of nodes, that of an observation of weight 1 being 1.
    ///
    /// What is held has no variance of its own.
    pub(super) fn variance(&self, shares: &[(Node, f64)]) -> f64 {
        self.variance_on(&mut Vec::new(), shares)
    }

    /// Gives a variance as [`Eliminated::variance`] does; `slate` is empty at first and can be used again and again.
    pub(super) fn variance_on(&self, slate: &mut Vec<f64>, shares: &[(Node, f64)]) -> f64 {
        slate.resize(self.taken.len(), 0.0);
        let at = slate;
        let mut heads: Vec<usize> = Vec::with_capacity(shares.len());
        for &(node, share) in shares {
            if let Some(position) = node.map(|node| self.position[node]) {
                at[position] += share;
                heads.push(position);
            }
        }
        let mut variance = 0.0;
        while let Some(position) = heads.iter().min().copied() {
            // every place that is written is met on the way, and is clean again behind it
            let (taken, own) = (&self.taken[position], std::mem::take(&mut at[position]));
            variance += own * own / taken.weight;
            for &(neighbour, share) in &taken.shares {
                at[neighbour] += own * share;
            }
            // ways that meet go on as one
            heads.retain(|head| *head != position);
            heads.extend(taken.next);
        }
        variance
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn between(network: &Eliminated, one: Node, other: Node) -> f64 {
        network.variance(&[(one, 1.0), (other, -1.0)])
    }

    #[test]
    fn readings_in_a_row_add_their_variances_and_side_by_side_their_weights() {
        let mut network = Network::new(3);
        network.join(None, Some(0), 1.0);
        network.join(Some(0), Some(1), 1.0);
        network.join(Some(1), Some(2), 1.0);
        network.join(Some(1), Some(2), 1.0);
        let network = network.eliminate();
        assert_relative_eq!(between(&network, Some(1), None), 2.0);
        assert_relative_eq!(between(&network, Some(2), None), 2.5);
        assert_relative_eq!(between(&network, Some(2), Some(1)), 0.5);
        assert_relative_eq!(between(&network, Some(2), Some(2)), 0.0);
    }

    #[test]
    fn weights_of_very_different_size_lose_no_digits() {
        let weak = 1e-24;
        let mut network = Network::new(2);
        network.join(Some(0), None, weak);
        network.join(Some(1), None, weak);
        network.join(Some(0), Some(1), 1.0);
        let network = network.eliminate();
        assert_relative_eq!(between(&network, Some(0), None), 0.5 / weak, max_relative = 1e-12);
        assert_relative_eq!(between(&network, Some(0), Some(1)), 1.0, max_relative = 1e-12);
        let corrections = network.solve(&[weak * 3.0, weak * 5.0]);
        assert_relative_eq!(corrections[0], 4.0, max_relative = 1e-12);
    }

    #[test]
    fn a_load_nowhere_moves_nothing_at_all() {
        let mut network = Network::new(2);
        network.join(Some(0), Some(1), 0.3);
        network.join(Some(1), None, 0.7);
        assert_eq!(network.eliminate().solve(&[0.0, 0.0]), [0.0, 0.0]);
    }
}
