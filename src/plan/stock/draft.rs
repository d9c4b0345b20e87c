//! A plan in the making: what is taken at each pad, the pieces it takes and what it costs.

use super::field::{Field, Pick};
use super::shelf::{PARTS, Parts, Shelf};
use crate::plan::reach::{Domain, End, reach};
use crate::plan::system::System;

/// Most pads of a job in which referred ones are free while another is moved.
pub(super) const FREE_IN: usize = 100;

/// What is taken at each pad.
#[derive(Clone, Debug)]
pub(super) struct Draft {
    /// None is referred.
    pub(super) picks: Vec<Option<Pick>>,
    /// Where each seat stands; that of a referred pad somewhere among the others.
    pub(super) at: Vec<i64>,
    /// The pieces taken of each thickness on hand.
    pub(super) used: Vec<i64>,
    /// What it costs.
    pub(super) parts: Parts,
}

impl Draft {
    /// Takes these; none where the limits do not allow them side by side.
    pub(super) fn of(
        shelf: &Shelf,
        field: &Field,
        system: &System,
        picks: Vec<Option<Pick>>,
    ) -> Option<Self> {
        let reached = reach(system, &fixed(field, system, &picks, None), End::Low);
        if !reached.clashes.is_empty() {
            return None;
        }
        let at = reached.ends.iter().take(picks.len()).map(|end| end.unwrap_or(0)).collect();
        let mut draft = Self { picks: Vec::new(), at, used: vec![0; shelf.on_hand.len()], parts: [0; PARTS] };
        for pick in &picks {
            draft.count(shelf, pick.as_ref(), 1);
        }
        draft.picks = picks;
        Some(draft)
    }

    /// Takes something else at a pad.
    pub(super) fn put(&mut self, shelf: &Shelf, pad: usize, pick: Option<Pick>) {
        let before = self.picks[pad];
        self.count(shelf, before.as_ref(), -1);
        self.count(shelf, pick.as_ref(), 1);
        self.picks[pad] = pick;
        if let Some(pick) = pick {
            self.at[pad] = pick.departure;
        }
    }

    /// Takes other stacks under the same seats.
    pub(super) fn put_all(&mut self, shelf: &Shelf, picks: Vec<Option<Pick>>) {
        for (pad, pick) in picks.into_iter().enumerate() {
            self.put(shelf, pad, pick);
        }
    }

    /// Counts the pieces beyond what is on hand.
    pub(super) fn excess(&self, shelf: &Shelf) -> i64 {
        shelf.excess(&self.used)
    }

    /// Gives the lowest and the highest place for the seat of a pad while all others stay.
    ///
    /// In a large job referred pads stay where they were put too, which leaves less room than there is.
    pub(super) fn room(&self, field: &Field, system: &System, pad: usize) -> (i64, i64) {
        let of_others = self.picks.iter().enumerate().any(|(other, pick)| other != pad && pick.is_none());
        if of_others && self.picks.len() <= FREE_IN {
            // what is between two seats may go through the free ones
            let all = fixed(field, system, &self.picks, Some(pad));
            let end = |end: End| reach(system, &all, end).ends[pad];
            return (end(End::Low).unwrap_or(i64::MIN), end(End::High).unwrap_or(i64::MAX));
        }
        let (mut low, mut high) = (i64::MIN, i64::MAX);
        for &index in system.leaving(pad) {
            let bound = &system.bounds[index];
            if bound.to < system.pads {
                high = high.min(self.at[bound.to] + bound.most);
            } else {
                let members = &system.spreads[bound.to - system.pads];
                let others = || members.iter().filter(|&&it| it != pad).map(|&it| self.at[it]);
                low = low.max(others().max().map_or(i64::MIN, |it| it - bound.most));
                high = high.min(others().min().map_or(i64::MAX, |it| it + bound.most));
            }
        }
        for &index in system.entering(pad) {
            let bound = &system.bounds[index];
            if bound.from < system.pads {
                low = low.max(self.at[bound.from] - bound.most);
            }
        }
        (low, high)
    }

    /// Gives what a pad costs as it is.
    pub(super) fn of_pad(&self, shelf: &Shelf, pad: usize) -> Parts {
        self.picks[pad].map_or(shelf.refer(), |pick| *pick.parts(shelf))
    }

    /// Gives the departures of the seats; none is referred.
    pub(super) fn seats(&self) -> Vec<Option<i64>> {
        self.picks.iter().map(|pick| pick.map(|pick| pick.departure)).collect()
    }

    fn count(&mut self, shelf: &Shelf, pick: Option<&Pick>, times: i64) {
        let refer = shelf.refer();
        let parts = pick.map_or(&refer, |pick| pick.parts(shelf));
        self.parts.iter_mut().zip(parts).for_each(|(sum, part)| *sum += part * times);
        if let Some(pick) = pick {
            self.used.iter_mut().zip(pick.uses(shelf)).for_each(|(sum, uses)| *sum += uses * times);
        }
    }
}

/// Gives what every variable may be under these picks, one pad free of its own.
pub(super) fn fixed(
    field: &Field,
    system: &System,
    picks: &[Option<Pick>],
    free: Option<usize>,
) -> Vec<Domain> {
    let pads = field.pads.iter().zip(picks).enumerate().map(|(pad, (of, pick))| match pick {
        Some(pick) if free != Some(pad) => Domain::Values(vec![pick.departure]),
        _ => Domain::Between(of.window.map(|most| -most), of.window),
    });
    pads.chain(system.spreads.iter().map(|_| Domain::Between(None, None))).collect()
}
