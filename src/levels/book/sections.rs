//! Sections of a level book: which setups close on what, and how the misclosure is shared.

use super::super::observation::rise;
use super::run::{Run, Standing};
use crate::length::Length;
use crate::model::{Readings, SightKind};

/// Setups that hang on each other, from a point with an elevation to where they close or end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BookSection {
    /// The point it starts from, an index into [`Readings::points`].
    pub from: usize,
    /// The point it ends on; none where nothing was read but its start.
    pub to: Option<usize>,
    /// Its setups in their order, indices into [`Readings::setups`].
    pub setups: Vec<usize>,
    /// The correction of the point it starts from; 0 on a benchmark.
    pub start_correction: Length,
    /// The elevation it closes on; none where it is open.
    pub known: Option<Length>,
    /// The elevation computed on that point less the known one; none where it is open and nothing is shared.
    ///
    /// A section that starts from a corrected point counts from its adjusted elevation.
    pub misclosure: Option<Length>,
}

impl BookSection {
    /// Tells whether it closes on a known elevation.
    #[must_use]
    pub const fn closed(&self) -> bool {
        self.known.is_some()
    }
}

/// What every setup shares of the misclosures.
pub(super) struct Shared {
    /// The sections, in the order of their first setups.
    pub(super) sections: Vec<BookSection>,
    /// The correction of each setup; none where it was not reached.
    corrections: Vec<Option<Length>>,
    /// The foresight of each setup, an index into [`Readings::sights`].
    fores: Vec<Option<usize>>,
    /// The setup that gave the point of each setup's backsight.
    parents: Vec<Option<usize>>,
}

impl Shared {
    /// Cuts a run into sections, those that close first.
    pub(super) fn of(readings: &Readings, run: &Run<'_>) -> Self {
        let setups = readings.setups.len();
        let parents: Vec<Option<usize>> = (0..setups).map(|setup| run.parent(setup)).collect();
        let mut cutter = Cutter {
            readings,
            run,
            shared: Self {
                sections: Vec::new(),
                corrections: vec![None; setups],
                fores: vec![None; setups],
                parents,
            },
            carries_on: vec![false; setups],
            stood_on: vec![false; readings.points.len()],
        };
        for parent in cutter.shared.parents.iter().flatten() {
            cutter.carries_on[*parent] = true;
        }
        for setup in 0..setups {
            cutter.close(setup);
        }
        cutter.leave_open();
        let mut shared = cutter.shared;
        shared.sections.sort_by_key(|section| section.setups.first().copied());
        shared
    }

    /// Gives the correction of the points that a setup gave.
    pub(super) fn at(&self, setup: usize) -> Length {
        self.corrections.get(setup).copied().flatten().unwrap_or(Length::ZERO)
    }

    /// Gives the correction of the point that a setup stands on.
    pub(super) fn under(&self, setup: usize) -> Length {
        self.parents.get(setup).copied().flatten().map_or(Length::ZERO, |parent| self.at(parent))
    }

    /// Gives the foresight of a setup.
    pub(super) fn fore(&self, setup: usize) -> Option<usize> {
        self.fores.get(setup).copied().flatten()
    }

    /// Gives the sight that carries a section on from each of its setups but the last.
    fn link(&mut self, chain: &[usize], run: &Run<'_>) {
        for pair in chain.windows(2) {
            self.fores[pair[0]] = run.standing(pair[1]).and_then(|it| it.from);
        }
    }
}

struct Cutter<'r> {
    readings: &'r Readings,
    run: &'r Run<'r>,
    shared: Shared,
    /// Whether another setup hangs on a setup.
    carries_on: Vec<bool>,
    /// Whether an earlier setup stood on a point.
    stood_on: Vec<bool>,
}

impl Cutter<'_> {
    fn point(&self, sight: usize) -> usize {
        self.readings.sights[sight].point
    }

    /// Closes the section that ends with a foresight of a setup, if one does.
    fn close(&mut self, setup: usize) {
        let Some(standing) = self.run.standing(setup).copied() else { return };
        let base = self.point(standing.base);
        self.stood_on[base] = true;
        let Some((sight, known)) = self.closing(setup, &standing) else { return };
        let chain = self.chain(setup);
        let (Some(&first), Some(count)) = (chain.first(), i64::try_from(chain.len()).ok()) else { return };
        let Some(start) = self.run.standing(first) else { return };
        let start_correction = self.shared.under(first);
        let elevation = standing.line + rise(self.readings.sense, self.readings.sights[sight].reading);
        let misclosure = elevation + start_correction - known;
        for (&it, number) in chain.iter().zip(1..) {
            let share = share(-misclosure, number, count);
            self.shared.corrections[it] = Some(start_correction + share);
        }
        self.shared.link(&chain, self.run);
        self.shared.fores[setup] = Some(sight);
        self.shared.sections.push(BookSection {
            from: self.point(start.base),
            to: Some(self.point(sight)),
            setups: chain,
            start_correction,
            known: Some(known),
            misclosure: Some(misclosure),
        });
    }

    /// Finds the foresight that closes a section at a setup, and the adjusted elevation it closes on.
    ///
    /// Where no foresight is marked and no setup hangs on this one, its last sight is the foresight.
    fn closing(&self, setup: usize, standing: &Standing) -> Option<(usize, Length)> {
        let sights = self.run.sights(setup);
        let fore = |index: &&usize| self.readings.sights[**index].kind == SightKind::Fore;
        let known = |index: &usize| Some((*index, self.closes_on(setup, self.point(*index))?));
        if sights.iter().any(|it| fore(&it) && *it != standing.base) {
            return sights.iter().filter(fore).filter(|it| **it != standing.base).rev().find_map(known);
        }
        let last = sights.last().filter(|it| **it != standing.base && !self.carries_on[setup])?;
        known(last)
    }

    /// Gives the adjusted elevation of a point where a section may close: a fixed one, or its own first.
    fn closes_on(&self, setup: usize, point: usize) -> Option<Length> {
        if let Some(fixed) = self.run.fixed(point) {
            return Some(fixed);
        }
        if !self.stood_on[point] {
            return None;
        }
        let first = *self.chain(setup).first()?;
        let start = self.run.standing(first)?;
        (self.point(start.base) == point).then(|| start.start + self.shared.under(first))
    }

    /// Lists the setups of an open section up to a setup: back to a fixed point, or to a setup that is corrected.
    fn chain(&self, setup: usize) -> Vec<usize> {
        let open = |setup: &usize| self.shared.corrections[*setup].is_none();
        let back = std::iter::successors(Some(setup), |&it| self.shared.parents[it].filter(open));
        let mut chain: Vec<usize> = back.collect();
        chain.reverse();
        chain
    }

    /// Puts the setups that close nothing into open sections: nothing is shared, the start's correction is kept.
    fn leave_open(&mut self) {
        let mut open: Vec<Vec<usize>> = Vec::new();
        let mut ends_at = vec![None; self.readings.setups.len()];
        for setup in 0..self.readings.setups.len() {
            if self.run.standing(setup).is_none() || self.shared.corrections[setup].is_some() {
                continue;
            }
            self.shared.corrections[setup] = Some(self.shared.under(setup));
            let goes_on = self.shared.parents[setup].and_then(|parent: usize| ends_at[parent].take());
            let section = goes_on.unwrap_or_else(|| {
                open.push(Vec::new());
                open.len() - 1
            });
            open[section].push(setup);
            ends_at[setup] = Some(section);
        }
        for chain in open {
            self.shared.link(&chain, self.run);
            let (Some(&first), Some(&last)) = (chain.first(), chain.last()) else { continue };
            let end = self.open_end(last);
            self.shared.fores[last] = end;
            let Some(from) = self.run.standing(first).map(|it| self.point(it.base)) else { continue };
            let turning = (chain.len() > 1).then(|| self.run.standing(last).map(|it| self.point(it.base)));
            self.shared.sections.push(BookSection {
                from,
                to: end.map(|it| self.point(it)).or(turning.flatten()),
                start_correction: self.shared.under(first),
                setups: chain,
                known: None,
                misclosure: None,
            });
        }
    }

    /// Gives the last marked foresight of a setup, else its last sight.
    fn open_end(&self, setup: usize) -> Option<usize> {
        let base = self.run.standing(setup)?.base;
        let others = || self.run.sights(setup).iter().copied().filter(|it| *it != base);
        let fore = others().rfind(|it| self.readings.sights[*it].kind == SightKind::Fore);
        fore.or_else(|| others().next_back())
    }
}

/// Gives `number` of `count` equal shares of a length, to the nearest nanometre, ties away from zero.
fn share(whole: Length, number: i64, count: i64) -> Length {
    let over = i128::from(whole.nm()) * i128::from(number);
    let count = i128::from(count.max(1));
    let nearest = (over.abs() * 2 + count) / (count * 2) * over.signum();
    Length::from_nm(i64::try_from(nearest).unwrap_or(whole.nm()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_are_cumulative_and_the_last_gets_it_all() {
        let shares = |whole: i64, count: i64| -> Vec<i64> {
            (1..=count).map(|number| share(Length::from_nm(whole), number, count).nm()).collect()
        };
        assert_eq!(shares(42, 6), [7, 14, 21, 28, 35, 42]);
        assert_eq!(shares(10, 3), [3, 7, 10]);
        assert_eq!(shares(-10, 4), [-3, -5, -8, -10]);
        assert_eq!(shares(1, 2), [1, 1]);
        assert_eq!(shares(0, 3), [0, 0, 0]);
    }
}
