//! Reach and stages against full enumeration of small systems.

use super::capacity::Capacity;
use super::layout::{Cell, Layout};
use super::limits_kept::{LimitsKept, Spread, Step, Tie};
use super::prices::{COMPONENTS, Counts};
use super::reach::{Domain, End, reach};
use super::stages::Stages;
use super::system::System;
use crate::length::Length;
use proptest::prelude::*;
use std::ops::{Add, Sub};

/// A capacity so small that every component takes a stage of its own.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
struct Small(i64);

impl Add for Small {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Small {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Capacity for Small {
    const UNLIMITED: Self = Self(1 << 40);
    const MOST: i128 = 30;

    fn of(number: i128) -> Self {
        Self(i64::try_from(number).unwrap())
    }
}

/// A pad's values with what each counts.
type Values = Vec<(i64, [i64; COMPONENTS])>;

#[derive(Clone, Debug)]
struct Case {
    pads: Vec<Values>,
    steps: Vec<(usize, usize, i64)>,
    spreads: Vec<(Vec<usize>, i64)>,
}

impl Case {
    fn system(&self) -> System {
        let nm = Length::from_nm;
        let steps = self.steps.iter().map(|&(a, b, most)| Step {
            columns: [a, b],
            most: nm(most),
            tie: Tie::Building,
        });
        let spreads = self.spreads.iter().map(|(columns, most)| Spread {
            columns: columns.clone(),
            most: nm(*most),
            tie: Tie::Building,
        });
        let limits = LimitsKept { steps: steps.collect(), spreads: spreads.collect(), design: Vec::new() };
        System::new(self.pads.len(), &limits, Some)
    }

    fn keeps(&self, chosen: &[i64]) -> bool {
        let steps = self.steps.iter().all(|&(a, b, most)| (chosen[a] - chosen[b]).abs() <= most);
        steps
            && self.spreads.iter().all(|(members, most)| {
                let of = || members.iter().map(|&member| chosen[member]);
                members.len() < 2 || of().max().unwrap() - of().min().unwrap() <= *most
            })
    }

    /// Every choice that keeps the limits: what is chosen, and at which values.
    fn solutions(&self) -> Vec<(Vec<usize>, Vec<i64>)> {
        let mut all = vec![Vec::new()];
        for pad in &self.pads {
            all = all
                .into_iter()
                .flat_map(|before: Vec<usize>| {
                    (0..pad.len()).map(move |k| before.iter().copied().chain([k]).collect())
                })
                .collect();
        }
        let at =
            |chosen: &[usize]| chosen.iter().zip(&self.pads).map(|(&k, pad)| pad[k].0).collect::<Vec<_>>();
        let each = all.into_iter().map(|chosen| (chosen.clone(), at(&chosen)));
        each.filter(|(_, values)| self.keeps(values)).collect()
    }

    fn neighbours(&self) -> Vec<(usize, usize)> {
        let mut pairs: Vec<_> = self.steps.iter().map(|&(a, b, _)| (a.min(b), a.max(b))).collect();
        pairs.sort_unstable();
        pairs.dedup();
        pairs
    }

    fn layout(&self, system: &System) -> Layout {
        let cell = |value: i64, choice| Cell { low: value, high: value, choice };
        let mut rows: Vec<Vec<Cell>> = self
            .pads
            .iter()
            .map(|pad| pad.iter().enumerate().map(|(k, (value, _))| cell(*value, Some(k))).collect())
            .collect();
        for members in &system.spreads {
            let mut values: Vec<i64> = members.iter().flat_map(|&it| &self.pads[it]).map(|it| it.0).collect();
            values.sort_unstable();
            values.dedup();
            rows.push(values.into_iter().map(|value| cell(value, None)).collect());
        }
        Layout::new(rows)
    }

    fn best<C: Capacity>(&self) -> (Vec<usize>, usize) {
        let system = self.system();
        let layout = self.layout(&system);
        let of = self.pads.iter().map(|pad| pad.iter().map(|(_, counts)| *counts).collect());
        let counts = Counts { of: of.collect() };
        let groups = counts.groups::<C>();
        let mut stages = Stages::<C>::new(&layout, &system);
        for group in &groups {
            stages.least(|variable, cell| counts.price(group, variable, cell)).unwrap();
        }
        stages.flattest(&self.neighbours(), 1).unwrap();
        (stages.lowest()[..self.pads.len()].to_vec(), groups.len())
    }
}

fn any_case() -> impl Strategy<Value = Case> {
    let counts = prop::array::uniform7(prop_oneof![3 => Just(0_i64), 2 => 0_i64..4]);
    let pad = prop::collection::btree_map(-6_i64..7, counts, 1..5);
    let pads = prop::collection::vec(pad.prop_map(|pad| pad.into_iter().collect::<Values>()), 1..5);
    pads.prop_flat_map(|pads| {
        let n = pads.len();
        let steps = prop::collection::vec((0..n, 0..n, 0_i64..7), 0..6);
        let spreads = prop::collection::vec((prop::collection::btree_set(0..n, 1..=n), 0_i64..9), 0..3);
        (Just(pads), steps, spreads).prop_map(|(pads, steps, spreads)| Case {
            pads,
            steps: steps.into_iter().filter(|(a, b, _)| a != b).collect(),
            spreads: spreads.into_iter().map(|(set, most)| (set.into_iter().collect(), most)).collect(),
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 3000,
        failure_persistence: None,
        max_global_rejects: 100_000,
        ..ProptestConfig::default()
    })]

    #[test]
    fn reach_clashes_just_where_nothing_fits_and_else_gives_the_least_and_the_greatest(case in any_case()) {
        let system = case.system();
        let values = case.pads.iter().map(|pad| Domain::Values(pad.iter().map(|it| it.0).collect()));
        let free = system.spreads.iter().map(|_| Domain::Between(None, None));
        let domains: Vec<Domain> = values.chain(free).collect();
        let solutions = case.solutions();
        for end in [End::Low, End::High] {
            let reached = reach(&system, &domains, end);
            prop_assert_eq!(reached.clashes.is_empty(), !solutions.is_empty());
            if solutions.is_empty() {
                continue;
            }
            for pad in 0..case.pads.len() {
                let at = solutions.iter().map(|(_, values)| values[pad]);
                let wanted = if end == End::Low { at.min() } else { at.max() };
                prop_assert_eq!(reached.ends[pad], wanted);
            }
        }
    }

    #[test]
    fn the_stages_end_at_the_best_by_cost_then_flatness_then_lowest(case in any_case()) {
        let solutions = case.solutions();
        prop_assume!(!solutions.is_empty());
        let rank = |(chosen, values): &(Vec<usize>, Vec<i64>)| {
            let mut cost = [0; COMPONENTS];
            for (pad, &k) in case.pads.iter().zip(chosen) {
                cost.iter_mut().zip(pad[k].1).for_each(|(sum, count)| *sum += count);
            }
            let steps: i64 = case.neighbours().iter().map(|&(a, b)| (values[a] - values[b]).abs()).sum();
            (cost, steps)
        };
        let best = solutions.iter().map(rank).min().unwrap();
        let all_best: Vec<_> = solutions.iter().filter(|it| rank(it) == best).collect();
        let lowest: Vec<i64> =
            (0..case.pads.len()).map(|pad| all_best.iter().map(|it| it.1[pad]).min().unwrap()).collect();
        let (chosen, _) = case.best::<i64>();
        let at: Vec<i64> = chosen.iter().zip(&case.pads).map(|(&k, pad)| pad[k].0).collect();
        prop_assert_eq!(&at, &lowest);
        prop_assert_eq!(&case.best::<i128>().0, &chosen);
        prop_assert_eq!(&case.best::<Small>().0, &chosen);
    }
}

#[test]
fn a_capacity_that_is_too_small_for_all_components_takes_more_stages() {
    let counts = [3, 3, 3, 3, 3, 3, 3];
    let pad: Values = vec![(0, [0; COMPONENTS]), (1, counts)];
    let case = Case { pads: vec![pad.clone(), pad], steps: vec![(0, 1, 0)], spreads: Vec::new() };
    assert_eq!(case.best::<i64>().1, 1);
    assert!(case.best::<Small>().1 > 1);
}
