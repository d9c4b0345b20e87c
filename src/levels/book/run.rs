//! Which sight each setup stands on, and the elevations that it carries on.

use super::super::observation::rise;
use crate::length::Length;
use crate::model::{Readings, SightKind};

/// How a setup came to its line of sight.
#[derive(Clone, Copy, Debug)]
pub(super) struct Standing {
    /// The sight that serves as its backsight, an index into [`Readings::sights`].
    pub(super) base: usize,
    /// The sight that gave that point its elevation; none where the point is fixed.
    pub(super) from: Option<usize>,
    /// The elevation of that point, as it was carried.
    pub(super) start: Length,
    /// The height of instrument.
    pub(super) line: Length,
}

/// What the sights gave a point.
#[derive(Clone, Copy)]
struct Given {
    sight: usize,
    elevation: Length,
}

/// Level notes carried forward, setup by setup.
pub(super) struct Run<'r> {
    readings: &'r Readings,
    /// The sights of each setup, in the order of reading.
    sights: Vec<Vec<usize>>,
    standings: Vec<Option<Standing>>,
    /// The elevation of benchmarks, and of the point a book without one starts on.
    fixed: Vec<Option<Length>>,
    given: Vec<Option<Given>>,
    zero: Option<usize>,
}

impl<'r> Run<'r> {
    /// Carries elevations through all setups, once, in the order of reading.
    pub(super) fn of(readings: &'r Readings) -> Self {
        let mut sights = vec![Vec::new(); readings.setups.len()];
        for (index, sight) in readings.sights.iter().enumerate() {
            sights[sight.setup].push(index);
        }
        let mut fixed = vec![None; readings.points.len()];
        for benchmark in &readings.benchmarks {
            if let Some(place) = fixed.get_mut(benchmark.point) {
                place.get_or_insert(benchmark.elevation);
            }
        }
        let given = vec![None; readings.points.len()];
        let standings = vec![None; readings.setups.len()];
        let mut run = Self { readings, sights, standings, fixed, given, zero: None };
        for setup in 0..readings.setups.len() {
            run.stand(setup);
        }
        run
    }

    /// Gives the sights of a setup, in the order of reading.
    pub(super) fn sights(&self, setup: usize) -> &[usize] {
        self.sights.get(setup).map_or(&[], Vec::as_slice)
    }

    /// Tells how a setup stands; none where it was not reached.
    pub(super) fn standing(&self, setup: usize) -> Option<&Standing> {
        self.standings.get(setup)?.as_ref()
    }

    /// Gives the setup that a setup hangs on; none where it stands on a fixed point.
    pub(super) fn parent(&self, setup: usize) -> Option<usize> {
        Some(self.readings.sights[self.standing(setup)?.from?].setup)
    }

    /// Gives the elevation of a benchmark, or of the point at 0.
    pub(super) fn fixed(&self, point: usize) -> Option<Length> {
        self.fixed.get(point).copied().flatten()
    }

    /// Gives the point that was put at 0.
    pub(super) const fn zero(&self) -> Option<usize> {
        self.zero
    }

    /// Lists the setups with sights that were not reached.
    pub(super) fn not_reached(&self) -> Vec<usize> {
        let read = |setup: &usize| !self.sights(*setup).is_empty();
        (0..self.standings.len()).filter(read).filter(|&it| self.standing(it).is_none()).collect()
    }

    fn stand(&mut self, setup: usize) {
        let Some(standing) = self.found(setup) else { return };
        self.standings[setup] = Some(standing);
        for &index in &self.sights[setup] {
            if index == standing.base {
                continue;
            }
            let sight = &self.readings.sights[index];
            let fore = sight.kind == SightKind::Fore;
            let elevation = standing.line + rise(self.readings.sense, sight.reading);
            let place = &mut self.given[sight.point];
            // the run goes on from the last foresight; without one the point keeps what it was given first
            if fore || place.is_none() {
                *place = Some(Given { sight: index, elevation });
            }
        }
    }

    /// Finds the sight a setup stands on: a marked backsight, else its first sight, on a point with an elevation.
    fn found(&mut self, setup: usize) -> Option<Standing> {
        let sights = &self.sights[setup];
        let back = |index: &&usize| self.readings.sights[**index].kind == SightKind::Back;
        let known = |index: &&usize| self.elevation(self.readings.sights[**index].point).is_some();
        let base = sights.iter().filter(back).find(known).or_else(|| sights.iter().find(known)).copied();
        let base = match base {
            Some(base) => base,
            None if self.readings.benchmarks.is_empty() && self.zero.is_none() => {
                let first = *sights.iter().find(back).or_else(|| sights.first())?;
                let point = self.readings.sights[first].point;
                self.zero = Some(point);
                self.fixed[point] = Some(Length::ZERO);
                first
            }
            None => return None,
        };
        let sight = &self.readings.sights[base];
        let start = self.elevation(sight.point)?;
        let from = match self.fixed(sight.point) {
            Some(_) => None,
            None => self.given[sight.point].map(|it| it.sight),
        };
        Some(Standing { base, from, start, line: start - rise(self.readings.sense, sight.reading) })
    }

    fn elevation(&self, point: usize) -> Option<Length> {
        self.fixed(point).or_else(|| self.given.get(point).copied().flatten().map(|it| it.elevation))
    }
}
