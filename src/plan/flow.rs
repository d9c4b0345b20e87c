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

/// One way between two nodes.
#[derive(Clone, Copy)]
struct Arc<C> {
    /// Where it leads.
    head: u32,
    /// The arc back.
    mate: u32,
    /// What may still flow.
    left: C,
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
    /// The arcs, those of one node side by side.
    arcs: Vec<Arc<C>>,
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
                for arc in self.arcs_of(node) {
                    let Arc { head: next, mate, left } = *arc;
                    let left = if forth { left } else { self.arcs[mate as usize].left };
                    if left > zero && sides[next as usize] == Side::Either {
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
            let each = self.range(from).map(|index| (index, self.arcs[index]));
            each.filter(|(index, arc)| (*index as u32) < arc.mate).map(move |(_, arc)| Pair {
                from,
                to: arc.head,
                forth: arc.left > zero,
                back: self.arcs[arc.mate as usize].left > zero,
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
        let mut next = first.clone();
        let mut arcs = vec![Arc { head: 0, mate: 0, left: zero }; first[nodes] as usize];
        for pair in pairs.iter().filter(|pair| pair.from < SINK && pair.to < SINK) {
            let (from, to) = (pair.from as usize, pair.to as usize);
            let (forth, back) = (next[from], next[to]);
            next[from] += 1;
            next[to] += 1;
            arcs[forth as usize] = Arc { head: pair.to, mate: back, left: pair.forth };
            arcs[back as usize] = Arc { head: pair.from, mate: forth, left: pair.back };
        }
        let mut terminal = Vec::with_capacity(nodes);
        for (source, sink) in from_source.into_iter().zip(to_sink) {
            value = value.add_capped(source.min(sink));
            terminal.push(source - sink);
        }
        Self { first, arcs, terminal, value }
    }

    fn range(&self, node: u32) -> std::ops::Range<usize> {
        self.first[node as usize] as usize..self.first[node as usize + 1] as usize
    }

    fn arcs_of(&self, node: u32) -> &[Arc<C>] {
        &self.arcs[self.range(node)]
    }
}

/// Which tree a node stands in.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Tree {
    Source,
    Sink,
}

/// What the search knows of a node.
#[derive(Clone, Copy)]
struct Node {
    /// The arc from the node to its parent, or one of the marks above.
    parent: u32,
    /// How far the root was when last looked at.
    distance: u32,
    /// When that was.
    looked: u32,
    tree: Tree,
    waits: bool,
}

/// The two trees while they grow.
struct Search<'f, C> {
    flow: &'f mut Flow<C>,
    nodes: Vec<Node>,
    time: u32,
    waiting: VecDeque<u32>,
    orphans: VecDeque<u32>,
}

impl<'f, C: Capacity> Search<'f, C> {
    fn new(flow: &'f mut Flow<C>) -> Self {
        let zero = C::default();
        let node = |terminal: &C| Node {
            parent: if *terminal == zero { FREE } else { ROOT },
            distance: 1,
            looked: 0,
            tree: if *terminal < zero { Tree::Sink } else { Tree::Source },
            waits: false,
        };
        let nodes: Vec<Node> = flow.terminal.iter().map(node).collect();
        let mut search = Self { flow, nodes, time: 0, waiting: VecDeque::new(), orphans: VecDeque::new() };
        for node in 0..search.nodes.len() {
            if search.nodes[node].parent == ROOT {
                search.wait(node as u32);
            }
        }
        search
    }

    fn run(&mut self) {
        let mut current: Option<u32> = None;
        loop {
            let node = match current.take().filter(|&node| self.nodes[node as usize].parent != FREE) {
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
        let waits = &mut self.nodes[node as usize].waits;
        if !*waits {
            *waits = true;
            self.waiting.push_back(node);
        }
    }

    fn next_waiting(&mut self) -> Option<u32> {
        loop {
            let node = self.waiting.pop_front()?;
            self.nodes[node as usize].waits = false;
            if self.nodes[node as usize].parent != FREE {
                return Some(node);
            }
        }
    }

    /// Takes in the free neighbours of a node, until it touches the other tree.
    fn grow(&mut self, node: u32) -> Option<usize> {
        let from = self.nodes[node as usize];
        let zero = C::default();
        for index in self.flow.range(node) {
            let Arc { head, mate, left } = self.flow.arcs[index];
            let (outward, left) = match from.tree {
                Tree::Source => (index, left),
                Tree::Sink => (mate as usize, self.flow.arcs[mate as usize].left),
            };
            if left <= zero {
                continue;
            }
            let next = &mut self.nodes[head as usize];
            let joined = Node { parent: mate, distance: from.distance + 1, looked: from.looked, ..*next };
            if next.parent == FREE {
                *next = Node { tree: from.tree, ..joined };
                self.wait(head);
            } else if next.tree != from.tree {
                return Some(outward);
            } else if next.looked <= from.looked && next.distance > from.distance {
                // a shorter way to the root
                *next = joined;
            }
        }
        None
    }

    /// Fills the path over an arc that leads from one tree to the other.
    fn push_along(&mut self, bridge: usize) {
        let Arc { head, mate, left } = self.flow.arcs[bridge];
        let ends = [self.flow.arcs[mate as usize].head, head];
        let mut most = left;
        for end in ends {
            let mut at = end as usize;
            while self.nodes[at].parent < ORPHAN {
                let up = self.nodes[at].parent as usize;
                most = most.min(self.flow.arcs[self.toward_sink(at, up)].left);
                at = self.flow.arcs[up].head as usize;
            }
            let terminal = self.flow.terminal[at];
            let from_source = self.nodes[at].tree == Tree::Source;
            most = most.min(if from_source { terminal } else { C::default() - terminal });
        }
        self.push(bridge, most);
        for end in ends {
            let mut at = end as usize;
            while self.nodes[at].parent < ORPHAN {
                let up = self.nodes[at].parent as usize;
                let arc = self.toward_sink(at, up);
                self.push(arc, most);
                if self.flow.arcs[arc].left == C::default() {
                    self.lose_parent(at);
                }
                at = self.flow.arcs[up].head as usize;
            }
            let from_source = self.nodes[at].tree == Tree::Source;
            let terminal = &mut self.flow.terminal[at];
            *terminal = if from_source { *terminal - most } else { *terminal + most };
            if *terminal == C::default() {
                self.lose_parent(at);
            }
        }
        self.flow.value = self.flow.value.add_capped(most);
    }

    /// Gives the arc between a node and its parent that points from the source to the sink.
    fn toward_sink(&self, node: usize, up: usize) -> usize {
        match self.nodes[node].tree {
            Tree::Source => self.flow.arcs[up].mate as usize,
            Tree::Sink => up,
        }
    }

    fn push(&mut self, arc: usize, amount: C) {
        let there = &mut self.flow.arcs[arc];
        there.left = there.left - amount;
        let mate = there.mate as usize;
        let back = &mut self.flow.arcs[mate];
        back.left = back.left + amount;
    }

    fn lose_parent(&mut self, node: usize) {
        self.nodes[node].parent = ORPHAN;
        self.orphans.push_front(node as u32);
    }

    /// Gives what may flow to a node of a tree over an arc that leaves it, on the way from the root.
    fn inward(&self, tree: Tree, arc: Arc<C>) -> C {
        match tree {
            Tree::Source => self.flow.arcs[arc.mate as usize].left,
            Tree::Sink => arc.left,
        }
    }

    /// Finds an orphan another parent in its tree, or sets it free.
    fn adopt(&mut self, orphan: u32) {
        let tree = self.nodes[orphan as usize].tree;
        let zero = C::default();
        let mut best: Option<(u32, usize)> = None;
        for index in self.flow.range(orphan) {
            let arc = self.flow.arcs[index];
            let next = self.nodes[arc.head as usize];
            if next.tree != tree || next.parent == FREE || self.inward(tree, arc) <= zero {
                continue;
            }
            let distance = self.look_up(arc.head as usize);
            if distance != NO_WAY && best.is_none_or(|(least, _)| distance < least) {
                best = Some((distance, index));
            }
        }
        if let Some((distance, arc)) = best {
            let node = &mut self.nodes[orphan as usize];
            (node.parent, node.looked, node.distance) = (arc as u32, self.time, distance + 1);
            return;
        }
        for index in self.flow.range(orphan) {
            let arc = self.flow.arcs[index];
            let next = self.nodes[arc.head as usize];
            if next.tree != tree || next.parent == FREE {
                continue;
            }
            // orphans too: they may find a parent yet, and this node is free to be taken in again
            if self.inward(tree, arc) > zero {
                self.wait(arc.head);
            }
            if next.parent < ORPHAN && self.flow.arcs[next.parent as usize].head == orphan {
                self.nodes[arc.head as usize].parent = ORPHAN;
                self.orphans.push_back(arc.head);
            }
        }
        self.nodes[orphan as usize].parent = FREE;
    }

    /// Gives how far a node is from its root, or that it hangs on an orphan.
    fn look_up(&mut self, node: usize) -> u32 {
        let mut at = node;
        let mut distance = 0;
        loop {
            let there = self.nodes[at];
            if there.looked == self.time {
                distance += there.distance;
                break;
            }
            if there.parent >= ORPHAN {
                if there.parent != ROOT {
                    return NO_WAY;
                }
                distance += 1;
                self.nodes[at] = Node { looked: self.time, distance: 1, ..there };
                break;
            }
            distance += 1;
            at = self.flow.arcs[there.parent as usize].head as usize;
        }
        let mut at = node;
        let mut left = distance;
        while self.nodes[at].looked != self.time {
            let there = self.nodes[at];
            self.nodes[at] = Node { looked: self.time, distance: left, ..there };
            left -= 1;
            at = self.flow.arcs[there.parent as usize].head as usize;
        }
        distance
    }
}
