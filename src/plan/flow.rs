//! The maximum flow of a network, and with it its minimum cut.
//!
//! Two search trees grow from the source and from the sink until they touch; the path found is
//! filled, and what it tears off is adopted again (Boykov and Kolmogorov, "An Experimental
//! Comparison of Min-Cut/Max-Flow Algorithms", IEEE PAMI 26(9), 2004).

use super::capacity::Capacity;
use std::collections::VecDeque;

/// The node every flow comes from.
pub(super) const SOURCE: u32 = u32::MAX;
/// The node every flow goes to.
pub(super) const SINK: u32 = u32::MAX - 1;

/// No arc leads to a parent: the node stands in no tree.
const FREE: u32 = u32::MAX;
/// The parent is the source or the sink itself.
const ROOT: u32 = u32::MAX - 1;
/// The parent was lost.
const ORPHAN: u32 = u32::MAX - 2;
/// No way to a root.
const NO_WAY: u32 = u32::MAX;

/// A pair of nodes with what may flow each way.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pair<C> {
    /// One node.
    pub(super) from: u32,
    /// The other.
    pub(super) to: u32,
    /// What may flow from the one to the other.
    pub(super) forth: C,
    /// What may flow back.
    pub(super) back: C,
}

/// Which part of the cut a node is sure to be in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    /// With the source in every minimum cut.
    Source,
    /// With the sink in every minimum cut.
    Sink,
    /// With the source in some, with the sink in others.
    Either,
}

/// A network with what may still flow.
pub(super) struct Flow<C> {
    /// Where the arcs of a node begin; one more than there are nodes.
    first: Vec<u32>,
    head: Vec<u32>,
    mate: Vec<u32>,
    left: Vec<C>,
    /// What may still come from the source, or, below zero, go to the sink.
    terminal: Vec<C>,
    /// What flows.
    value: C,
}

impl<C: Capacity> Flow<C> {
    /// Makes a network of so many nodes, and fills it; no pair joins a node to itself.
    pub(super) fn fill(nodes: usize, pairs: &[Pair<C>]) -> Self {
        let mut flow = Self::lay(nodes, pairs);
        Search::new(&mut flow).run();
        flow
    }

    /// Gives what flows; [`Capacity::UNLIMITED`] or more where nothing limits it.
    pub(super) fn value(&self) -> C {
        self.value
    }

    /// Gives the side of every node.
    ///
    /// What the source still reaches is with it in every minimum cut, and what still
    /// reaches the sink is with that.
    pub(super) fn sides(&self) -> Vec<Side> {
        let mut sides = vec![Side::Either; self.terminal.len()];
        let zero = C::default();
        let mut reached: Vec<u32> = Vec::new();
        for (side, forth) in [(Side::Source, true), (Side::Sink, false)] {
            for (node, terminal) in (0_u32..).zip(&self.terminal) {
                if if forth { *terminal > zero } else { *terminal < zero } {
                    sides[node as usize] = side;
                    reached.push(node);
                }
            }
            while let Some(node) = reached.pop() {
                for arc in self.arcs(node) {
                    let open = if forth { arc } else { self.mate[arc] as usize };
                    let next = self.head[arc];
                    if self.left[open] > zero && sides[next as usize] == Side::Either {
                        sides[next as usize] = side;
                        reached.push(next);
                    }
                }
            }
        }
        sides
    }

    /// Gives every pair of nodes with which ways something may still flow.
    pub(super) fn residual(&self) -> impl Iterator<Item = Pair<bool>> + use<'_, C> {
        let zero = C::default();
        (0..self.terminal.len() as u32).flat_map(move |from| {
            self.arcs(from).filter(move |&arc| (arc as u32) < self.mate[arc]).map(move |arc| Pair {
                from,
                to: self.head[arc],
                forth: self.left[arc] > zero,
                back: self.left[self.mate[arc] as usize] > zero,
            })
        })
    }

    /// Lays the arcs of a node side by side, and lets flow what goes from the source straight to the sink.
    fn lay(nodes: usize, pairs: &[Pair<C>]) -> Self {
        let zero = C::default();
        let mut from_source = vec![zero; nodes];
        let mut to_sink = vec![zero; nodes];
        let mut value = zero;
        let mut first = vec![0_u32; nodes + 1];
        for pair in pairs {
            match (pair.from, pair.to) {
                (SOURCE, SINK) => value = value.add_capped(pair.forth),
                (SINK, SOURCE) => value = value.add_capped(pair.back),
                (SOURCE, node) => {
                    from_source[node as usize] = from_source[node as usize].add_capped(pair.forth)
                }
                (node, SOURCE) => {
                    from_source[node as usize] = from_source[node as usize].add_capped(pair.back)
                }
                (node, SINK) => to_sink[node as usize] = to_sink[node as usize].add_capped(pair.forth),
                (SINK, node) => to_sink[node as usize] = to_sink[node as usize].add_capped(pair.back),
                (from, to) => {
                    first[from as usize + 1] += 1;
                    first[to as usize + 1] += 1;
                }
            }
        }
        for node in 0..nodes {
            first[node + 1] += first[node];
        }
        let arcs = first[nodes] as usize;
        let mut next = first.clone();
        let (mut head, mut mate, mut left) = (vec![0_u32; arcs], vec![0_u32; arcs], vec![zero; arcs]);
        for pair in pairs.iter().filter(|pair| pair.from < SINK && pair.to < SINK) {
            let (from, to) = (pair.from as usize, pair.to as usize);
            let (forth, back) = (next[from], next[to]);
            next[from] += 1;
            next[to] += 1;
            (head[forth as usize], head[back as usize]) = (pair.to, pair.from);
            (mate[forth as usize], mate[back as usize]) = (back, forth);
            (left[forth as usize], left[back as usize]) = (pair.forth, pair.back);
        }
        let mut terminal = Vec::with_capacity(nodes);
        for (source, sink) in from_source.into_iter().zip(to_sink) {
            value = value.add_capped(source.min(sink));
            terminal.push(source - sink);
        }
        Self { first, head, mate, left, terminal, value }
    }

    fn arcs(&self, node: u32) -> std::ops::Range<usize> {
        self.first[node as usize] as usize..self.first[node as usize + 1] as usize
    }
}

/// Which tree a node stands in.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Tree {
    Source,
    Sink,
}

/// The two trees while they grow.
struct Search<'f, C> {
    flow: &'f mut Flow<C>,
    tree: Vec<Tree>,
    /// The arc from a node to its parent, or one of the marks above.
    parent: Vec<u32>,
    /// How far the root was when last looked at, and when that was.
    distance: Vec<u32>,
    looked: Vec<u32>,
    time: u32,
    waiting: VecDeque<u32>,
    waits: Vec<bool>,
    orphans: VecDeque<u32>,
}

impl<'f, C: Capacity> Search<'f, C> {
    fn new(flow: &'f mut Flow<C>) -> Self {
        let nodes = flow.terminal.len();
        let mut search = Self {
            tree: vec![Tree::Source; nodes],
            parent: vec![FREE; nodes],
            distance: vec![0; nodes],
            looked: vec![0; nodes],
            time: 0,
            waiting: VecDeque::new(),
            waits: vec![false; nodes],
            orphans: VecDeque::new(),
            flow,
        };
        let zero = C::default();
        for node in 0..nodes {
            let terminal = search.flow.terminal[node];
            if terminal == zero {
                continue;
            }
            search.tree[node] = if terminal > zero { Tree::Source } else { Tree::Sink };
            search.parent[node] = ROOT;
            search.distance[node] = 1;
            search.wait(node as u32);
        }
        search
    }

    fn run(&mut self) {
        let mut current: Option<u32> = None;
        loop {
            let node = match current.take().filter(|&node| self.parent[node as usize] != FREE) {
                Some(node) => node,
                None => match self.next_waiting() {
                    Some(node) => node,
                    None => return,
                },
            };
            if let Some(bridge) = self.grow(node) {
                // the node is not done yet
                current = Some(node);
                self.time = self.time.wrapping_add(1);
                self.push_along(bridge);
                while let Some(orphan) = self.orphans.pop_front() {
                    self.adopt(orphan);
                }
                if self.flow.value >= C::UNLIMITED {
                    return;
                }
            }
        }
    }

    fn wait(&mut self, node: u32) {
        if !self.waits[node as usize] {
            self.waits[node as usize] = true;
            self.waiting.push_back(node);
        }
    }

    fn next_waiting(&mut self) -> Option<u32> {
        loop {
            let node = self.waiting.pop_front()?;
            self.waits[node as usize] = false;
            if self.parent[node as usize] != FREE {
                return Some(node);
            }
        }
    }

    /// Gives the arc on which a tree grows along another arc of its node: from the root outward.
    fn outward(&self, tree: Tree, arc: usize) -> usize {
        match tree {
            Tree::Source => arc,
            Tree::Sink => self.flow.mate[arc] as usize,
        }
    }

    /// Takes in the free neighbours of a node, until it touches the other tree.
    fn grow(&mut self, node: u32) -> Option<usize> {
        let at = node as usize;
        let tree = self.tree[at];
        let zero = C::default();
        for arc in self.flow.arcs(node) {
            let outward = self.outward(tree, arc);
            if self.flow.left[outward] <= zero {
                continue;
            }
            let next = self.flow.head[arc] as usize;
            if self.parent[next] == FREE {
                self.tree[next] = tree;
                self.join(next, at, arc);
                self.wait(next as u32);
            } else if self.tree[next] != tree {
                return Some(outward);
            } else if self.looked[next] <= self.looked[at] && self.distance[next] > self.distance[at] {
                // a shorter way to the root
                self.join(next, at, arc);
            }
        }
        None
    }

    fn join(&mut self, node: usize, parent: usize, arc: usize) {
        self.parent[node] = self.flow.mate[arc];
        self.looked[node] = self.looked[parent];
        self.distance[node] = self.distance[parent] + 1;
    }

    /// Fills the path over an arc that leads from one tree to the other.
    fn push_along(&mut self, bridge: usize) {
        let ends = [self.flow.head[self.flow.mate[bridge] as usize], self.flow.head[bridge]];
        let mut most = self.flow.left[bridge];
        for end in ends {
            let mut at = end as usize;
            while self.parent[at] < ORPHAN {
                let up = self.parent[at] as usize;
                most = most.min(self.flow.left[self.toward_sink(at, up)]);
                at = self.flow.head[up] as usize;
            }
            let terminal = self.flow.terminal[at];
            most = most.min(if self.tree[at] == Tree::Source { terminal } else { C::default() - terminal });
        }
        self.push(bridge, most);
        for end in ends {
            let mut at = end as usize;
            while self.parent[at] < ORPHAN {
                let up = self.parent[at] as usize;
                let arc = self.toward_sink(at, up);
                self.push(arc, most);
                if self.flow.left[arc] == C::default() {
                    self.lose_parent(at);
                }
                at = self.flow.head[up] as usize;
            }
            let terminal = &mut self.flow.terminal[at];
            *terminal = if self.tree[at] == Tree::Source { *terminal - most } else { *terminal + most };
            if *terminal == C::default() {
                self.lose_parent(at);
            }
        }
        self.flow.value = self.flow.value.add_capped(most);
    }

    /// Gives the arc between a node and its parent that points from the source to the sink.
    fn toward_sink(&self, node: usize, up: usize) -> usize {
        match self.tree[node] {
            Tree::Source => self.flow.mate[up] as usize,
            Tree::Sink => up,
        }
    }

    fn push(&mut self, arc: usize, amount: C) {
        let mate = self.flow.mate[arc] as usize;
        self.flow.left[arc] = self.flow.left[arc] - amount;
        self.flow.left[mate] = self.flow.left[mate] + amount;
    }

    fn lose_parent(&mut self, node: usize) {
        self.parent[node] = ORPHAN;
        self.orphans.push_front(node as u32);
    }

    /// Finds an orphan another parent in its tree, or sets it free.
    fn adopt(&mut self, orphan: u32) {
        let at = orphan as usize;
        let tree = self.tree[at];
        let zero = C::default();
        let mut best: Option<(u32, usize)> = None;
        for arc in self.flow.arcs(orphan) {
            let inward = self.outward(tree, self.flow.mate[arc] as usize);
            let next = self.flow.head[arc] as usize;
            if self.flow.left[inward] <= zero || self.tree[next] != tree || self.parent[next] == FREE {
                continue;
            }
            let distance = self.look_up(next);
            if distance != NO_WAY && best.is_none_or(|(least, _)| distance < least) {
                best = Some((distance, arc));
            }
        }
        if let Some((distance, arc)) = best {
            self.parent[at] = arc as u32;
            self.looked[at] = self.time;
            self.distance[at] = distance + 1;
            return;
        }
        for arc in self.flow.arcs(orphan) {
            let next = self.flow.head[arc] as usize;
            if self.tree[next] != tree || self.parent[next] == FREE {
                continue;
            }
            let inward = self.outward(tree, self.flow.mate[arc] as usize);
            // orphans too: they may find a parent yet, and this node is free to be taken in again
            if self.flow.left[inward] > zero {
                self.wait(next as u32);
            }
            let up = self.parent[next];
            if up < ORPHAN && self.flow.head[up as usize] == orphan {
                self.parent[next] = ORPHAN;
                self.orphans.push_back(next as u32);
            }
        }
        self.parent[at] = FREE;
    }

    /// Gives how far a node is from its root, or that it hangs on an orphan.
    fn look_up(&mut self, node: usize) -> u32 {
        let mut at = node;
        let mut distance = 0;
        loop {
            if self.looked[at] == self.time {
                distance += self.distance[at];
                break;
            }
            let up = self.parent[at];
            if up >= ORPHAN {
                if up != ROOT {
                    return NO_WAY;
                }
                distance += 1;
                self.looked[at] = self.time;
                self.distance[at] = 1;
                break;
            }
            distance += 1;
            at = self.flow.head[up as usize] as usize;
        }
        let mut at = node;
        let mut left = distance;
        while self.looked[at] != self.time {
            self.looked[at] = self.time;
            self.distance[at] = left;
            left -= 1;
            at = self.flow.head[self.parent[at] as usize] as usize;
        }
        distance
    }
}
