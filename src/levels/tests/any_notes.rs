//! Any notes at all get an answer: finite, the same whatever the order, and never more certain for a reading less.

use super::grid::{found, mm_a_metre};
use super::sample::Notes;
use crate::length::{Length, Unit};
use crate::levels::reduce;
use crate::model::{Instrument, LineOfSight, PegReading, PegTest, Tilt};
use proptest::prelude::*;

const MARKS: [&str; 6] = ["A", "B", "C", "D", "E", "F"];

/// Where a setup stood, which tilt it has, how it was turned.
type Standing = (Option<(i64, i64)>, usize, i64);

/// Notes of any kind: most of what they hold may be missing, exact, repeated, far off.
#[derive(Clone, Debug)]
struct Any {
    sights: Vec<(usize, usize, i64, Option<i64>)>,
    differences: Vec<(usize, usize, i64, i64)>,
    elevations: Vec<(usize, i64, i64)>,
    benchmarks: Vec<(usize, i64, i64)>,
    places: Vec<(i64, i64)>,
    setups: Vec<Standing>,
    line: usize,
    body: usize,
    reading: i64,
    per_sight: i64,
}

fn nm(nm: i64) -> String {
    let sign = if nm < 0 { "-" } else { "" };
    format!("{sign}{}.{:06} mm", nm.abs() / 1_000_000, nm.abs() % 1_000_000)
}

fn plus_minus() -> impl Strategy<Value = i64> {
    prop_oneof![Just(0_i64), 1_i64..1_000, 500_000_i64..5_000_000, Just(1_000_000_000)]
}

fn height() -> impl Strategy<Value = i64> {
    prop_oneof![1_000_000_000_i64..1_010_000_000, -10_000_000_000_000_i64..10_000_000_000_000]
}

fn any_notes() -> impl Strategy<Value = Any> {
    let distance =
        proptest::option::of(prop_oneof![Just(0_i64), 0_i64..60_000_000_000, Just(9_000_000_000_000)]);
    let sights = proptest::collection::vec((0..4_usize, 0..6_usize, height(), distance), 0..20);
    let differences = proptest::collection::vec((0..6_usize, 0..6_usize, height(), plus_minus()), 0..5);
    let elevations = proptest::collection::vec((0..6_usize, height(), plus_minus()), 0..3);
    let benchmarks = proptest::collection::btree_map(0..6_usize, (height(), plus_minus()), 0..3);
    let benchmarks =
        benchmarks.prop_map(|all| all.into_iter().map(|(at, (height, good))| (at, height, good)).collect());
    let at = || prop_oneof![Just(0_i64), 0_i64..30_000_000_000, Just(9_000_000_000_000)];
    let places = proptest::collection::vec((at(), at()), 6);
    let setups =
        proptest::collection::vec((proptest::option::of((at(), at())), 0..3_usize, -360_i64..=360), 4);
    let instrument = (0..4_usize, 0..3_usize, plus_minus(), prop_oneof![Just(0_i64), 1_i64..100_000]);
    (sights, differences, elevations, benchmarks, places, setups, instrument).prop_map(
        |(sights, differences, elevations, benchmarks, places, setups, (line, body, reading, per_sight))| {
            Any {
                sights,
                differences,
                elevations,
                benchmarks,
                places,
                setups,
                line,
                body,
                reading,
                per_sight,
            }
        },
    )
}

fn tilt(kind: usize) -> Tilt {
    match kind {
        0 => Tilt::Level,
        1 => Tilt::Free,
        _ => Tilt::Within(mm_a_metre(0.1)),
    }
}

impl Any {
    /// Brings everything into the size of a slab and of the readings that are taken on one.
    fn on_a_slab(mut self) -> Self {
        let near = |nm: i64| nm.rem_euclid(60_000_000_000);
        let good = |nm: i64| nm.clamp(100_000, 50_000_000);
        for sight in &mut self.sights {
            sight.3 = sight.3.map(near);
        }
        self.differences.iter_mut().for_each(|it| it.3 = good(it.3));
        self.elevations.iter_mut().for_each(|it| it.2 = good(it.2));
        self.benchmarks.iter_mut().filter(|it| it.2 > 0).for_each(|it| it.2 = good(it.2));
        // a metre apart at least, or on one spot
        let grid = |nm: i64| near(nm) / 1_000_000_000 * 1_000_000_000;
        self.places.iter_mut().for_each(|it| *it = (grid(it.0), grid(it.1)));
        self.setups.iter_mut().for_each(|it| it.0 = it.0.map(|(x, y)| (grid(x), grid(y))));
        self.reading = good(self.reading);
        self
    }

    fn notes(&self) -> Notes {
        let mut notes = Notes::of(Unit::Millimetre).columns(&MARKS);
        for (setup, point, reading, distance) in &self.sights {
            let (setup, point, reading) = (setup.to_string(), MARKS[*point], nm(*reading));
            notes = match distance {
                Some(distance) => notes.sight_over(&setup, point, &reading, &nm(*distance)),
                None => notes.sight(&setup, point, &reading),
            };
        }
        for (from, to, difference, good) in self.differences.iter().filter(|it| it.0 != it.1) {
            notes = notes.difference(MARKS[*from], MARKS[*to], &nm(*difference), &nm(*good));
        }
        for (point, elevation, good) in &self.elevations {
            notes = notes.elevation(MARKS[*point], &nm(*elevation), &nm(*good));
        }
        for (point, elevation, good) in &self.benchmarks {
            notes = notes.benchmark_good_to(MARKS[*point], &nm(*elevation), &nm(*good));
        }
        for (mark, (x, y)) in MARKS.iter().zip(&self.places) {
            notes = notes.stands(mark, &nm(*x), &nm(*y));
        }
        let reading = Length::from_nm(self.reading);
        let peg = |reading: i64, sight: i64| PegReading {
            reading: Length::from_nm(reading),
            sight: Length::from_nm(sight),
        };
        let pegs = PegTest {
            first: [peg(1_000_000_000, 20_000_000_000), peg(1_100_000_000, 20_000_000_000)],
            second: [peg(1_000_000_000, 5_000_000_000), peg(1_101_000_000, 45_000_000_000)],
        };
        let line = match self.line {
            0 => LineOfSight::Level,
            1 => found(),
            2 => LineOfSight::Found { stated: None, pegs: vec![pegs] },
            _ => LineOfSight::Found { stated: Some((mm_a_metre(0.0), mm_a_metre(0.0))), pegs: vec![pegs] },
        };
        let per_sight = (self.per_sight > 0).then(|| mm_a_metre(self.per_sight as f64 / 1e6));
        let (name, kind, tilt_of_body) = ("it".to_owned(), None, tilt(self.body));
        let without_sight = reading;
        let instrument =
            Instrument { name, kind, reading, per_sight, without_sight, line, tilt: tilt_of_body };
        notes = notes.instrument(instrument);
        let read: Vec<usize> = self.sights.iter().map(|sight| sight.0).collect();
        for (setup, (at, kind, turned)) in
            self.setups.iter().enumerate().filter(|(setup, _)| read.contains(setup))
        {
            notes = notes.set(&setup.to_string(), |it| {
                it.instrument = Some(0);
                it.at = at.map(|(x, y)| [Length::from_nm(x), Length::from_nm(y)]);
                it.tilt = tilt(*kind);
                it.turned = *turned;
            });
        }
        notes
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_notes_get_a_finite_answer(any in any_notes()) {
        let job = any.notes().job();
        let levelled = reduce(&job);
        for point in 0..job.readings.points.len() {
            if let Some(height) = levelled.height(point) {
                prop_assert!(!height.plus_minus.is_negative());
            }
            for other in 0..job.readings.points.len() {
                let difference = levelled.difference_plus_minus(point, other);
                prop_assert!(difference.is_none_or(|it| !it.is_negative()));
                prop_assert_eq!(difference, levelled.difference_plus_minus(other, point));
            }
        }
        if let Some(test) = levelled.test() {
            prop_assert!(test.statistic.is_finite() && test.statistic >= 0.0, "{}", test.statistic);
        }
    }

    /// Shares of control add up to the redundancy where nothing is absurd: no pad 9 km off, no reading good to 1 nm.
    #[test]
    fn what_checks_the_readings_of_a_slab_adds_up_to_the_redundancy(any in any_notes()) {
        let levelled = reduce(&any.on_a_slab().notes().job());
        let shares: f64 = levelled.reliabilities().iter().map(|it| f64::from(it.checked) / 1e3).sum();
        // a prior takes the part of its own row
        prop_assert!(shares <= levelled.redundancy() as f64 + 0.05, "{shares} of {}", levelled.redundancy());
    }
}
