//! The flow against the flow of a general library, and the sides against every cut there is.

use super::capacity::Capacity;
use super::flow::{Flow, Pair, SINK, SOURCE, Side};
use petgraph::algo::maximum_flow::dinics;
use petgraph::graph::{DiGraph, NodeIndex};
use proptest::prelude::*;

const INNER: u32 = 9;

fn any_node() -> impl Strategy<Value = u32> {
    prop_oneof![6 => 0..INNER, 1 => Just(SOURCE), 1 => Just(SINK)]
}

fn any_pairs() -> impl Strategy<Value = Vec<Pair<i64>>> {
    let pair = (any_node(), any_node(), 0_i64..12, prop_oneof![2 => Just(0_i64), 1 => 0_i64..12]);
    let pairs = prop::collection::vec(pair, 0..60);
    pairs.prop_map(|pairs| {
        let each = pairs.into_iter().filter(|(from, to, ..)| from != to);
        each.map(|(from, to, forth, back)| Pair { from, to, forth, back }).collect()
    })
}

/// The arcs of a network, each one way, the source first and the sink last.
fn arcs(pairs: &[Pair<i64>]) -> Vec<(usize, usize, i64)> {
    let at = |node: u32| match node {
        SOURCE => INNER as usize,
        SINK => INNER as usize + 1,
        node => node as usize,
    };
    pairs
        .iter()
        .flat_map(|it| [(at(it.from), at(it.to), it.forth), (at(it.to), at(it.from), it.back)])
        .filter(|(_, _, capacity)| *capacity > 0)
        .collect()
}

fn by_library(pairs: &[Pair<i64>]) -> u64 {
    let mut graph: DiGraph<(), u64> = DiGraph::new();
    let nodes: Vec<NodeIndex> = (0..INNER + 2).map(|_| graph.add_node(())).collect();
    for (from, to, capacity) in arcs(pairs) {
        graph.add_edge(nodes[from], nodes[to], capacity.unsigned_abs());
    }
    dinics(&graph, nodes[INNER as usize], nodes[INNER as usize + 1]).0
}

/// What every cut costs, by which inner nodes stand with the source.
fn every_cut(pairs: &[Pair<i64>]) -> Vec<i64> {
    let arcs = arcs(pairs);
    let with_source = |cut: u32, node: usize| match node.cmp(&(INNER as usize)) {
        std::cmp::Ordering::Less => cut >> node & 1 == 1,
        std::cmp::Ordering::Equal => true,
        std::cmp::Ordering::Greater => false,
    };
    let cost = |cut: u32| {
        let cut_arcs = arcs.iter().filter(|(from, to, _)| with_source(cut, *from) && !with_source(cut, *to));
        cut_arcs.map(|(_, _, capacity)| capacity).sum()
    };
    (0..1 << INNER).map(cost).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn as_much_flows_as_in_a_general_library_and_the_sides_are_those_of_every_least_cut(pairs in any_pairs()) {
        let flow = Flow::fill(INNER as usize, &pairs);
        prop_assert_eq!(flow.value().unsigned_abs(), by_library(&pairs));
        let wide: Vec<Pair<i128>> = pairs
            .iter()
            .map(|it| Pair { from: it.from, to: it.to, forth: it.forth.into(), back: it.back.into() })
            .collect();
        prop_assert_eq!(Flow::fill(INNER as usize, &wide).value(), i128::from(flow.value()));
        let cuts = every_cut(&pairs);
        let least = cuts.iter().min().copied().unwrap_or_default();
        prop_assert_eq!(flow.value(), least);
        let cheapest: Vec<u32> = (0_u32..).zip(&cuts).filter(|(_, cost)| **cost == least).map(|it| it.0).collect();
        for (node, side) in flow.sides().into_iter().enumerate() {
            let with_source = cheapest.iter().filter(|cut| **cut >> node & 1 == 1).count();
            let wanted = match with_source {
                0 => Side::Sink,
                all if all == cheapest.len() => Side::Source,
                _ => Side::Either,
            };
            prop_assert_eq!(side, wanted, "node {}", node);
        }
    }
}

#[test]
fn what_nothing_limits_is_unlimited_and_does_not_overflow() {
    let pair = |from, to| Pair { from, to, forth: i64::UNLIMITED, back: i64::UNLIMITED };
    let pairs: Vec<Pair<i64>> = (0..200).flat_map(|_| [pair(SOURCE, 0), pair(0, 1), pair(1, SINK)]).collect();
    assert_eq!(Flow::fill(2, &pairs).value(), i64::UNLIMITED);
    let straight: Vec<Pair<i64>> = (0..200).map(|_| pair(SOURCE, SINK)).collect();
    assert_eq!(Flow::fill(0, &straight).value(), i64::UNLIMITED);
}
