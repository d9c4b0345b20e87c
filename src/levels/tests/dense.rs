//! The adjustment judged against normal equations written out in full, on random small networks.

use super::sample::{Notes, Reduced};
use crate::length::Unit;
use crate::model::Sense;
use nalgebra::{DMatrix, DVector};
use proptest::prelude::*;
use std::collections::BTreeSet;

const POINTS: usize = 6;

/// Random notes: readings in nanometres.
#[derive(Clone, Debug)]
struct Random {
    sights: Vec<(usize, usize, i64)>,
    elevations: Vec<(usize, i64, i64)>,
    benchmarks: Vec<(usize, i64)>,
}

const UNIT: i64 = 1_500_000;

fn mm(nm: i64) -> String {
    let sign = if nm < 0 { "-" } else { "" };
    format!("{sign}{}.{:06}", nm.abs() / 1_000_000, nm.abs() % 1_000_000)
}

fn name(point: usize) -> String {
    format!("P{point}")
}

impl Random {
    fn notes(&self) -> Notes {
        let mut notes = Notes::of(Unit::Millimetre).plus_minus(&mm(UNIT));
        for (setup, point, reading) in &self.sights {
            notes = notes.sight(&setup.to_string(), &name(*point), &mm(*reading));
        }
        for (point, elevation, plus_minus) in &self.elevations {
            notes = notes.elevation(&name(*point), &mm(*elevation), &mm(*plus_minus));
        }
        for (point, elevation) in &self.benchmarks {
            notes = notes.benchmark(&name(*point), &mm(*elevation));
        }
        let columns: Vec<String> = (0..POINTS).map(name).collect();
        notes.columns(&columns.iter().map(String::as_str).collect::<Vec<_>>())
    }

    fn reduce(&self) -> Reduced {
        self.notes().reduce()
    }

    fn read(&self) -> BTreeSet<usize> {
        let sights = self.sights.iter().map(|(_, point, _)| *point);
        let elevations = self.elevations.iter().map(|(point, _, _)| *point);
        sights.chain(elevations).chain(self.benchmarks.iter().map(|(point, _)| *point)).collect()
    }
}

fn sights() -> impl Strategy<Value = Vec<(usize, usize, i64)>> {
    proptest::collection::vec((0..4_usize, 0..POINTS, 1_000_000_000..1_004_000_000_i64), 1..16)
}

fn relative() -> impl Strategy<Value = Random> {
    sights().prop_map(|sights| Random { sights, elevations: Vec::new(), benchmarks: Vec::new() })
}

fn absolute() -> impl Strategy<Value = Random> {
    let elevations = proptest::collection::vec(
        (0..POINTS, 2_000_000_000..2_004_000_000_i64, 700_000..7_000_000_i64),
        0..4,
    );
    let benchmarks = proptest::collection::btree_map(0..POINTS, 2_000_000_000..2_004_000_000_i64, 0..3);
    (sights(), elevations, benchmarks)
        .prop_filter("a datum", |(_, elevations, benchmarks)| elevations.len() + benchmarks.len() > 0)
        .prop_map(|(sights, elevations, benchmarks)| Random {
            sights,
            elevations,
            benchmarks: benchmarks.into_iter().collect(),
        })
}

/// The normal equations over all points on the datum and the setups that read them.
struct Dense {
    heights: DVector<f64>,
    covariance: DMatrix<f64>,
    statistic: f64,
    redundancy: usize,
}

/// A row of the design matrix: coefficients, observed, weight.
type Row = (Vec<(usize, f64)>, f64, f64);

/// Adjusts with heavy weights in place of what is held.
fn dense(random: &Random, on_datum: &BTreeSet<usize>, zero: Option<usize>) -> Dense {
    let setups: BTreeSet<usize> =
        random.sights.iter().filter(|(_, point, _)| on_datum.contains(point)).map(|it| it.0).collect();
    let columns: Vec<usize> = on_datum.iter().copied().chain(setups.iter().map(|it| POINTS + it)).collect();
    let held = |point: usize| match zero {
        Some(zero) => (point == zero).then_some(0.0),
        None => random.benchmarks.iter().find(|it| it.0 == point).map(|it| (it.1 - 2_000_000_000) as f64),
    };
    let free: Vec<usize> = columns.iter().copied().filter(|&it| it >= POINTS || held(it).is_none()).collect();
    let mut rows: Vec<Row> = Vec::new();
    let observed = |rows: &mut Vec<Row>, terms: &[(usize, f64)], mut value: f64, weight: f64| {
        let mut row = Vec::new();
        for &(node, sign) in terms {
            match held(node).filter(|_| node < POINTS) {
                Some(height) => value -= sign * height,
                None => row.push((free.iter().position(|&it| it == node).unwrap(), sign)),
            }
        }
        rows.push((row, value, weight));
    };
    for (setup, point, reading) in random.sights.iter().filter(|it| on_datum.contains(&it.1)) {
        let reading = (reading - 1_000_000_000) as f64;
        observed(&mut rows, &[(*point, 1.0), (POINTS + setup, -1.0)], -reading, 1.0);
    }
    for (point, elevation, plus_minus) in random.elevations.iter().filter(|it| on_datum.contains(&it.0)) {
        let weight = (UNIT as f64 / *plus_minus as f64).powi(2);
        observed(&mut rows, &[(*point, 1.0)], (elevation - 2_000_000_000) as f64, weight);
    }
    let mut normal: DMatrix<f64> = DMatrix::zeros(free.len(), free.len());
    let mut right: DVector<f64> = DVector::zeros(free.len());
    for (row, value, weight) in &rows {
        for (i, a) in row {
            right[*i] += weight * a * value;
            for (j, b) in row {
                normal[(*i, *j)] += weight * a * b;
            }
        }
    }
    let covariance = if free.is_empty() { normal } else { normal.try_inverse().unwrap() };
    let solution: DVector<f64> = &covariance * right;
    let squares = rows.iter().map(|(row, value, weight)| {
        let computed: f64 = row.iter().map(|(i, a)| a * solution[*i]).sum();
        weight * (computed - value).powi(2)
    });
    let statistic = squares.sum::<f64>() * (1.96 / UNIT as f64).powi(2);
    let mut heights = DVector::zeros(POINTS);
    let mut spread = DMatrix::zeros(POINTS, POINTS);
    for &point in on_datum {
        let index = |point: usize| free.iter().position(|&it| it == point);
        heights[point] = held(point).unwrap_or_else(|| solution[index(point).unwrap()]);
        for &other in on_datum {
            if let (Some(i), Some(j)) = (index(point), index(other)) {
                spread[(point, other)] = covariance[(i, j)];
            }
        }
    }
    Dense { heights, covariance: spread, statistic, redundancy: rows.len() - free.len() }
}

/// Compares everything that is reported with the dense solution.
fn compare(random: &Random) {
    let reduced = random.reduce();
    let levelled = &reduced.levelled;
    let on_datum: BTreeSet<usize> =
        random.read().into_iter().filter(|&point| reduced.elevation(&name(point)).is_some()).collect();
    let is_relative = random.benchmarks.is_empty() && random.elevations.is_empty();
    let zero = on_datum.iter().copied().find(|&it| reduced.height(&name(it)) == Some((0, 0)));
    let dense = dense(random, &on_datum, if is_relative { zero } else { None });
    let base = if is_relative { 0.0 } else { 2e9 };
    assert_eq!(levelled.redundancy(), dense.redundancy);
    for &a in &on_datum {
        let (elevation, plus_minus) = reduced.height(&name(a)).unwrap();
        let height = dense.heights[a] + base;
        assert!((elevation as f64 - height).abs() <= 0.5 + 1e-3, "{elevation} against {height}");
        close(plus_minus, dense.covariance[(a, a)]);
        for &b in &on_datum {
            let variance =
                dense.covariance[(a, a)] + dense.covariance[(b, b)] - 2.0 * dense.covariance[(a, b)];
            close(reduced.difference_plus_minus(&name(a), &name(b)).unwrap(), variance);
        }
    }
    match levelled.test() {
        None => assert_eq!(dense.redundancy, 0),
        Some(test) => {
            approx::assert_relative_eq!(test.statistic, dense.statistic, max_relative = 1e-6, epsilon = 1e-9);
        }
    }
}

fn close(plus_minus: i64, variance: f64) {
    let full = UNIT as f64 * variance.max(0.0).sqrt();
    let over = plus_minus as f64 - full;
    assert!(over > -1.0 - 1e-6 * full && over < 1.0 + 1e-6 * full, "{plus_minus} against {full}");
}

/// Gives what must not hang on the order of the notes.
fn answer(reduced: &Reduced) -> Vec<Option<(i64, i64)>> {
    (0..POINTS).map(|point| read_height(reduced, point)).collect()
}

fn read_height(reduced: &Reduced, point: usize) -> Option<(i64, i64)> {
    let known = reduced.has(&name(point));
    if known { reduced.height(&name(point)) } else { None }
}

proptest! {
    #[test]
    fn relative_notes_agree_with_the_normal_equations(random in relative()) {
        compare(&random);
    }

    #[test]
    fn absolute_notes_agree_with_the_normal_equations(random in absolute()) {
        compare(&random);
    }

    #[test]
    fn the_order_of_the_sights_changes_no_elevation(
        (random, shuffled) in absolute().prop_flat_map(|it| (Just(it.clone()), Just(it.sights).prop_shuffle()))
    ) {
        let other = Random { sights: shuffled, ..random.clone() };
        prop_assert_eq!(answer(&random.reduce()), answer(&other.reduce()));
    }

    #[test]
    fn the_order_within_a_setup_changes_no_relative_elevation(
        (random, shuffled) in relative().prop_flat_map(|it| (Just(it.clone()), Just(it.sights).prop_shuffle()))
    ) {
        // A stable sort by setup keeps the setups and mixes only their sights.
        let by_setup = |mut sights: Vec<(usize, usize, i64)>| { sights.sort_by_key(|it| it.0); sights };
        let one = Random { sights: by_setup(random.sights.clone()), ..random.clone() };
        let other = Random { sights: by_setup(shuffled), ..random };
        prop_assert_eq!(answer(&one.reduce()), answer(&other.reduce()));
    }

    #[test]
    fn an_instrument_that_stands_higher_changes_nothing(random in relative(), by in 0..3_000_000_000_i64) {
        let sights = random.sights.iter().map(|it| if it.0 == 1 { (it.0, it.1, it.2 + by) } else { *it });
        let raised = Random { sights: sights.collect(), ..random.clone() };
        let (one, other) = (random.reduce(), raised.reduce());
        prop_assert_eq!(answer(&one), answer(&other));
        prop_assert_eq!(one.closures(), other.closures());
    }

    #[test]
    fn heights_read_upward_are_the_same_as_depths_read_downward(random in absolute()) {
        let sights = random.sights.iter().map(|it| (it.0, it.1, -it.2)).collect();
        let upward = Random { sights, ..random.clone() }.notes().sense(Sense::Height).reduce();
        prop_assert_eq!(answer(&random.reduce()), answer(&upward));
    }

    #[test]
    fn every_reading_that_is_more_than_needed_is_a_closure(random in absolute()) {
        let reduced = random.reduce();
        if reduced.unconnected().is_empty() {
            prop_assert_eq!(reduced.levelled.closures().len(), reduced.levelled.redundancy());
        }
    }

    #[test]
    fn without_redundancy_nothing_is_corrected(random in absolute()) {
        let reduced = random.reduce();
        if reduced.levelled.redundancy() > 0 {
            return Ok(());
        }
        // What one setup reads of two points is then what their elevations say, to the nanometre.
        for one in &random.sights {
            for other in random.sights.iter().filter(|other| other.0 == one.0) {
                let height = |point: usize| reduced.elevation(&name(point));
                if let (Some(a), Some(b)) = (height(one.1), height(other.1)) {
                    prop_assert_eq!(a - b, other.2 - one.2);
                }
            }
        }
    }
}
