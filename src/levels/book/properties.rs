//! What holds for every level book there can be.

use super::{Book, level_book};
use crate::length::{Length, Unit};
use crate::levels::tests::sample::Notes;
use crate::model::{Benchmark, Job, Sense, Setup, Sight, SightKind};
use crate::source::{Files, Place};
use proptest::prelude::*;

const POINTS: usize = 7;
const SETUPS: usize = 6;

fn place() -> Place {
    Place { file: Files::default().add("levels.csv", String::new()), start: 0, end: 0 }
}

fn sight(setup: usize, point: usize, kind: SightKind, reading: i64) -> Sight {
    Sight { setup, point, kind, reading: Length::from_nm(reading), distance: None, place: place() }
}

fn any_kind() -> impl Strategy<Value = SightKind> {
    prop_oneof![Just(SightKind::Back), Just(SightKind::Intermediate), Just(SightKind::Fore)]
}

fn any_sense() -> impl Strategy<Value = Sense> {
    prop_oneof![Just(Sense::Rod), Just(Sense::Height)]
}

fn job(points: usize, setups: usize, sights: Vec<Sight>, benchmarks: &[(usize, i64)], sense: Sense) -> Job {
    let mut job = Notes::of(Unit::Metre).sense(sense).job();
    job.readings.points = (0..points).map(|it| format!("P{it}")).collect();
    job.readings.setups = (0..setups).map(|it| Setup::named(&it.to_string())).collect();
    job.readings.sights = sights;
    job.readings.benchmarks = benchmarks
        .iter()
        .map(|&(point, nm)| Benchmark {
            point,
            elevation: Length::from_nm(nm),
            plus_minus: Length::ZERO,
            at: None,
            place: place(),
        })
        .collect();
    job
}

/// Any sights in any order, on few points so that they meet.
fn any_notes() -> impl Strategy<Value = Job> {
    let sight = (0..SETUPS, 0..POINTS, any_kind(), -10_000_000_000_000_i64..=10_000_000_000_000)
        .prop_map(|(setup, point, kind, reading)| sight(setup, point, kind, reading));
    let sights = prop::collection::vec(sight, 0..40);
    let benchmarks = prop::collection::vec((0..POINTS, -10_000_000_000_000_i64..=10_000_000_000_000), 0..4);
    (sights, benchmarks, any_sense())
        .prop_map(|(sights, benchmarks, sense)| job(POINTS, SETUPS, sights, &benchmarks, sense))
}

/// A run from a benchmark to another, or back to its first point: setups of one backsight, some pads and a foresight.
fn any_run() -> impl Strategy<Value = Job> {
    let reading = || 0_i64..5_000_000_000;
    let setup = (reading(), prop::collection::vec(reading(), 0..4), reading());
    let setups = prop::collection::vec(setup, 1..12);
    (setups, prop::option::of((reading(), reading())), any_sense()).prop_map(|(setups, ends, sense)| {
        let count = setups.len();
        let last = if ends.is_some() { count } else { 0 };
        let mut points = count + 1;
        let mut sights = Vec::new();
        for (number, (back, pads, fore)) in setups.into_iter().enumerate() {
            sights.push(sight(number, number, SightKind::Back, back));
            for pad in pads {
                sights.push(sight(number, points, SightKind::Intermediate, pad));
                points += 1;
            }
            let to = if number + 1 == count { last } else { number + 1 };
            sights.push(sight(number, to, SightKind::Fore, fore));
        }
        let benchmarks = ends.map_or(Vec::new(), |(first, end)| vec![(0, first), (count, end)]);
        job(points, count, sights, &benchmarks, sense)
    })
}

fn end_rows(book: &Book) -> Vec<(Length, Length)> {
    let closed = book.sections.iter().filter_map(|section| Some((section, section.misclosure?)));
    closed
        .map(|(section, misclosure)| {
            let last = *section.setups.last().unwrap();
            let fore =
                book.rows.iter().find(|row| row.setup == last && row.sight == SightKind::Fore).unwrap();
            (fore.booked.unwrap().correction, section.start_correction - misclosure)
        })
        .collect()
}

proptest! {
    #[test]
    fn whatever_is_read_in_whatever_order_the_checks_hold(job in any_notes()) {
        let book = level_book(&job);
        prop_assert!(book.checks.iter().all(|it| it.holds), "{:?}", book.checks);
        prop_assert_eq!(book.rows.len(), job.readings.sights.len());
        for (correction, end) in end_rows(&book) {
            prop_assert_eq!(correction, end);
        }
    }

    #[test]
    fn every_setup_is_in_one_section_or_is_told_as_not_reached(job in any_notes()) {
        let book = level_book(&job);
        let mut found = book.not_reached.clone();
        found.extend(book.sections.iter().flat_map(|it| it.setups.iter().copied()));
        found.sort_unstable();
        let read: Vec<usize> =
            (0..SETUPS).filter(|setup| job.readings.sights.iter().any(|it| it.setup == *setup)).collect();
        prop_assert_eq!(&found, &read);
        for setup in read {
            let rows = || book.rows.iter().filter(|row| row.setup == setup);
            let used = |kind: SightKind| rows().filter(|row| row.sight == kind).count();
            let reached = !book.not_reached.contains(&setup);
            prop_assert!(rows().all(|row| row.booked.is_some() == reached));
            if reached {
                prop_assert_eq!(used(SightKind::Back), 1);
                prop_assert!(used(SightKind::Fore) <= 1);
            }
        }
    }

    #[test]
    fn a_run_closes_in_one_section_and_its_corrections_sum_to_minus_the_misclosure(job in any_run()) {
        let book = level_book(&job);
        prop_assert!(book.is_whole(), "{:?}", book.checks);
        prop_assert_eq!(book.sections.len(), 1);
        let section = &book.sections[0];
        let misclosure = section.misclosure.unwrap();
        prop_assert_eq!(section.setups.len(), job.readings.setups.len());
        // what each setup adds to the correction, to the nanometre
        let mut sum = Length::ZERO;
        for row in book.rows.iter().filter(|row| row.sight == SightKind::Fore) {
            let back = book.rows.iter().find(|it| it.setup == row.setup && it.sight == SightKind::Back).unwrap();
            sum = sum + (row.booked.unwrap().correction - back.booked.unwrap().correction);
        }
        prop_assert_eq!(sum, -misclosure);
        for row in &book.rows {
            prop_assert_eq!(row.marked, row.sight);
            let count = i128::try_from(section.setups.len()).unwrap();
            let number = i128::try_from(row.setup).unwrap() + i128::from(row.sight != SightKind::Back);
            let off = i128::from(row.booked.unwrap().correction.nm()) * count + i128::from(misclosure.nm()) * number;
            prop_assert!(off.abs() * 2 <= count, "no more than half a nanometre from k/n");
        }
    }

    #[test]
    fn heights_are_readings_turned_round(job in any_run()) {
        let mut turned = job.clone();
        turned.readings.sense = match job.readings.sense {
            Sense::Rod => Sense::Height,
            Sense::Height => Sense::Rod,
        };
        for sight in &mut turned.readings.sights {
            sight.reading = -sight.reading;
        }
        let (one, other) = (level_book(&job), level_book(&turned));
        for (row, turned) in one.rows.iter().zip(&other.rows) {
            prop_assert_eq!(row.booked, turned.booked);
        }
        prop_assert_eq!(one.sections, other.sections);
    }
}
