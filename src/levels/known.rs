//! The points whose height is known before anything is carried.

use crate::length::Length;
use crate::model::{ElevationReading, Readings};

/// What is known of a point beforehand.
#[derive(Clone, Copy, Debug)]
pub(super) struct Known {
    /// Its height.
    pub(super) height: Length,
    /// Whether it is held as it is; otherwise the height is the first of what was measured.
    pub(super) held: bool,
    /// The elevation that gave the height, an index into [`Readings::elevations`]; none for a benchmark.
    pub(super) given_by: Option<usize>,
}

/// Lists what is known of each point: a benchmark holds, then an elevation.
///
/// A benchmark with a +- of its own gives a height to start from and is adjusted like an elevation.
/// An elevation good to +- 0 is held like a benchmark. Where a point has several
/// of them and they differ, none is: they are adjusted like all others.
pub(super) fn known_points(readings: &Readings) -> Vec<Option<Known>> {
    let mut known: Vec<Option<Known>> = vec![None; readings.points.len()];
    for benchmark in &readings.benchmarks {
        if let Some(place) = known.get_mut(benchmark.point) {
            let held = benchmark.plus_minus <= Length::ZERO;
            place.get_or_insert(Known { height: benchmark.elevation, held, given_by: None });
        }
    }
    let mut exact: Vec<Exact> = vec![Exact::None; readings.points.len()];
    for (index, reading) in readings.elevations.iter().enumerate() {
        if let Some(exact) = exact.get_mut(reading.point) {
            exact.meet(index, reading);
        }
        if let Some(place) = known.get_mut(reading.point) {
            place.get_or_insert(Known { height: reading.elevation, held: false, given_by: Some(index) });
        }
    }
    for (place, exact) in known.iter_mut().zip(exact) {
        let by_benchmark = place.is_some_and(|known| known.held && known.given_by.is_none());
        if let (false, Exact::One { index, height }) = (by_benchmark, exact) {
            *place = Some(Known { height, held: true, given_by: Some(index) });
        }
    }
    known
}

/// What a point's elevations of +- 0 say.
#[derive(Clone, Copy)]
enum Exact {
    None,
    One { index: usize, height: Length },
    Differ,
}

impl Exact {
    fn meet(&mut self, index: usize, reading: &ElevationReading) {
        if reading.plus_minus > Length::ZERO {
            return;
        }
        *self = match *self {
            Self::None => Self::One { index, height: reading.elevation },
            Self::One { height, .. } if height != reading.elevation => Self::Differ,
            same => same,
        };
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::length::Unit;
    use crate::levels::tests::sample::Notes;

    fn known(notes: Notes) -> Vec<Option<(i64, bool)>> {
        let job = notes.job();
        known_points(&job.readings).into_iter().map(|it| it.map(|it| (it.height.nm(), it.held))).collect()
    }

    #[test]
    fn a_benchmark_holds_over_an_elevation() {
        let notes = Notes::of(Unit::Millimetre).elevation("A", "7", "1").benchmark("A", "5");
        assert_eq!(known(notes), [Some((5_000_000, true))]);
        let notes = Notes::of(Unit::Millimetre).elevation("A", "7", "0").benchmark("A", "5");
        assert_eq!(known(notes), [Some((5_000_000, true))]);
    }

    #[test]
    fn an_elevation_without_tolerance_is_held_before_one_with() {
        let notes = Notes::of(Unit::Millimetre).elevation("A", "7", "1").elevation("A", "6", "0");
        assert_eq!(known(notes), [Some((6_000_000, true))]);
        let notes = Notes::of(Unit::Millimetre).elevation("A", "7", "1").elevation("A", "6", "1");
        assert_eq!(known(notes), [Some((7_000_000, false))]);
    }

    #[test]
    fn two_exact_elevations_that_differ_hold_nothing() {
        let notes = Notes::of(Unit::Millimetre).elevation("A", "7", "0").elevation("A", "6", "0");
        assert_eq!(known(notes), [Some((7_000_000, false))]);
        let notes = Notes::of(Unit::Millimetre).elevation("A", "7", "0").elevation("A", "7", "0");
        assert_eq!(known(notes), [Some((7_000_000, true))]);
    }
}
