//! What there is to choose at every pad, each seat with all the ways to come to it.

use super::shelf::{PARTS, Parts, Shelf};
use crate::model::Job;
use crate::plan::options::{Open, judge};
use crate::plan::task::{Pad, Task};
use std::collections::BTreeMap;

/// One way to come to a seat.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Way {
    /// What is done, an index into [`Shelf::makes`].
    pub(super) make: usize,
    /// Whether it is held.
    pub(super) held: bool,
}

/// One way to come to a seat, with the stack that is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Pick {
    /// Where the seat then stands.
    pub(super) departure: i64,
    /// The way.
    pub(super) way: Way,
    /// The stack, an index into what the make lists.
    pub(super) made: usize,
}

impl Pick {
    /// Gives what it costs.
    pub(super) fn parts<'s>(&self, shelf: &'s Shelf) -> &'s Parts {
        shelf.makes[self.way.make].made[self.made].parts(self.way.held)
    }

    /// Gives the pieces it takes.
    pub(super) fn uses<'s>(&self, shelf: &'s Shelf) -> &'s [i64] {
        &shelf.makes[self.way.make].made[self.made].uses
    }
}

/// What there is to choose at every pad.
#[derive(Clone, Debug)]
pub(super) struct Field {
    /// The pads, with the seats that can be come to.
    pub(super) pads: Vec<Pad>,
    /// The ways to come to each of these seats.
    pub(super) ways: Vec<Vec<Vec<Way>>>,
    /// The lowest and the highest seat anything can come to.
    pub(super) ends: (i64, i64),
}

impl Field {
    /// Looks at every pad; what a pinned pad takes is put on the shelf, and what is open on a designed bed.
    pub(super) fn new(job: &Job, task: &Task, shelf: &mut Shelf) -> Self {
        let free = shelf.makes.len();
        let mut all = Vec::new();
        for pad in &task.pads {
            let mut ways: BTreeMap<i64, Vec<Way>> =
                pad.open.iter().map(|it| (it.departure, Vec::new())).collect();
            if pad.referable && !pad.on_bed {
                for make in 0..free {
                    let option = &shelf.makes[make].made[0].option;
                    let Some(ways) = ways.get_mut(&(pad.departure + option.raise.nominal.nm())) else {
                        continue;
                    };
                    match judge(job, &job.columns[pad.column], option) {
                        Open::Yes => ways.push(Way { make, held: false }),
                        Open::Held => ways.push(Way { make, held: true }),
                        Open::No => {}
                    }
                }
            } else {
                for it in &pad.open {
                    let make = shelf.add_taken(task.options[it.option].clone());
                    let held = it.cost.held > 0;
                    ways.entry(it.departure).or_default().push(Way { make, held });
                }
            }
            all.push(ways.into_values().collect());
        }
        Self { pads: task.pads.clone(), ways: all, ends: task.ends }
    }

    /// Leaves out what no plan can use that is cheaper than another in one component, and as cheap before it.
    pub(super) fn cheaper(&self, shelf: &Shelf, level: usize, than: &Parts) -> Self {
        let most = |part: usize| than[part] - i64::from(part == level);
        let fits = |way: &Way| {
            // the first has the fewest pieces
            let parts = shelf.makes[way.make].made[0].parts(way.held);
            (0..PARTS.min(level + 1)).all(|part| parts[part] <= most(part))
        };
        let mut found = self.clone();
        for (pad, seats) in found.pads.iter_mut().zip(&mut found.ways) {
            pad.referable &= most(0) > 0;
            for ways in seats.iter_mut() {
                ways.retain(fits);
            }
            let mut kept = seats.iter().map(|ways| !ways.is_empty());
            pad.open.retain(|_| kept.next() == Some(true));
            seats.retain(|ways| !ways.is_empty());
        }
        found
    }

    /// Gives the ways to come to a seat of a pad.
    pub(super) fn ways_to(&self, pad: usize, departure: i64) -> &[Way] {
        let found = self.pads[pad].open.binary_search_by_key(&departure, |it| it.departure);
        found.ok().and_then(|seat| self.ways[pad].get(seat)).map_or(&[], Vec::as_slice)
    }
}
