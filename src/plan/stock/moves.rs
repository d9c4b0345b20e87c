//! One pad at a time taken otherwise: first until the pieces are there, then until nothing gets cheaper.

use super::draft::{Draft, FREE_IN};
use super::field::{Field, Pick};
use super::shelf::{PARTS, Parts, Shelf};
use super::work::Work;
use crate::plan::system::System;
use std::cmp::Ordering;

/// Stacks of one height that are tried, the best first.
const STACKS_TRIED: usize = 16;

/// Of so many pads that take what is missing, one is changed before all are weighed again.
const AT_ONCE: usize = 64;

/// Pads that give up pieces for one other.
const MOST_GIVERS: usize = 4;

/// The means to change a plan in the making.
pub(super) struct Moves<'a> {
    pub(super) shelf: &'a Shelf,
    pub(super) field: &'a Field,
    pub(super) system: &'a System,
}

/// Something else at a pad: what the plan then costs more, and how many pieces are then missing.
struct Other {
    pick: Option<Pick>,
    more: Parts,
    excess: i64,
}

/// A change after which fewer pieces are missing.
struct Relief {
    pick: Option<Pick>,
    more: Parts,
    saved: i64,
}

impl Relief {
    /// Compares what each piece no longer missing costs.
    fn against(&self, other: &Self) -> Ordering {
        let each = |of: &Parts, times: i64| of.map(|part| i128::from(part) * i128::from(times));
        each(&self.more, other.saved).cmp(&each(&other.more, self.saved))
    }
}

impl Moves<'_> {
    /// Changes pads until no piece is missing, referring so many of them at most; tells whether that was done.
    ///
    /// The change that costs least for each piece no longer missing comes first; in a large job several are made
    /// before all are weighed again.
    pub(super) fn repair(&self, draft: &mut Draft, most: i64, work: &mut Work) -> bool {
        loop {
            if draft.excess(self.shelf) == 0 {
                return true;
            }
            let short = self.short(draft);
            let found = short.iter().filter_map(|&pad| Some((self.relief(draft, pad, most, work)?, pad)));
            let mut found: Vec<(Relief, usize)> = found.collect();
            found.sort_by(|(one, _), (other, _)| one.against(other));
            found.truncate(1 + short.len() / AT_ONCE);
            let mut changed = false;
            for (at, (relief, pad)) in found.into_iter().enumerate() {
                // the first stands as it was weighed
                let relief = if at == 0 { Some(relief) } else { self.relief(draft, pad, most, work) };
                if let Some(relief) = relief {
                    draft.put(self.shelf, pad, relief.pick);
                    changed = true;
                }
            }
            if !changed {
                return false;
            }
        }
    }

    /// Finds what a pad can best be changed for, so that fewer pieces are missing.
    fn relief(&self, draft: &Draft, pad: usize, most: i64, work: &mut Work) -> Option<Relief> {
        let excess = draft.excess(self.shelf);
        let others = self.others(draft, pad, work).into_iter();
        let helps = others.filter(|it| it.excess < excess && draft.parts[0] + it.more[0] <= most);
        let reliefs = helps.map(|it| Relief { pick: it.pick, more: it.more, saved: excess - it.excess });
        reliefs.min_by(Relief::against)
    }

    /// Changes one pad, or several at once, as long as it gets cheaper and no piece is missing.
    pub(super) fn improve(&self, draft: &mut Draft, work: &mut Work) {
        while !work.is_done() {
            if !self.improve_one(draft, work) && !self.improve_several(draft, work) {
                return;
            }
        }
    }

    fn improve_one(&self, draft: &mut Draft, work: &mut Work) -> bool {
        let mut changed = false;
        for pad in 0..draft.picks.len() {
            if work.is_done() {
                break;
            }
            let others = self.others(draft, pad, work).into_iter();
            let best = others.filter(|it| it.excess == 0 && it.more < [0; PARTS]).min_by_key(|it| it.more);
            if let Some(best) = best {
                draft.put(self.shelf, pad, best.pick);
                changed = true;
            }
        }
        changed
    }

    /// Makes one pad cheaper with pieces that others give up, one after the other.
    fn improve_several(&self, draft: &mut Draft, work: &mut Work) -> bool {
        for pad in 0..draft.picks.len() {
            let mut wanted: Vec<Other> = self.others(draft, pad, work);
            wanted.retain(|it| it.more < [0; PARTS] && it.excess > 0);
            wanted.sort_by_key(|it| (it.more, it.excess));
            for one in wanted {
                if work.is_done() {
                    return false;
                }
                let mut tried = draft.clone();
                tried.put(self.shelf, pad, one.pick);
                if self.give_up(&mut tried, pad, &draft.parts, work) {
                    *draft = tried;
                    return true;
                }
            }
        }
        false
    }

    /// Lets other pads give up what is missing, as long as the plan stays cheaper than it was.
    fn give_up(&self, draft: &mut Draft, taker: usize, before: &Parts, work: &mut Work) -> bool {
        let mut changed = vec![taker];
        for _ in 0..MOST_GIVERS {
            let mut best: Option<(Other, usize)> = None;
            for giver in self.short(draft).into_iter().filter(|giver| !changed.contains(giver)) {
                for other in self.others(draft, giver, work) {
                    let key = |it: &Other| (it.excess, it.more);
                    let cheaper = sum(&draft.parts, &other.more) < *before;
                    if cheaper && best.as_ref().is_none_or(|(best, _)| key(&other) < key(best)) {
                        best = Some((other, giver));
                    }
                }
            }
            let Some((other, giver)) = best else { return false };
            let missing = other.excess;
            draft.put(self.shelf, giver, other.pick);
            changed.push(giver);
            if missing == 0 {
                return true;
            }
        }
        false
    }

    /// Lists the pads that take pieces of which there are not enough.
    fn short(&self, draft: &Draft) -> Vec<usize> {
        let over: Vec<bool> =
            draft.used.iter().zip(&self.shelf.on_hand).map(|(used, there)| used > there).collect();
        let takes = |pick: &Pick| {
            let uses = pick.uses(self.shelf);
            uses.iter().zip(&over).any(|(uses, over)| *over && *uses > 0)
        };
        let pads = draft.picks.iter().enumerate();
        pads.filter(|(_, pick)| pick.as_ref().is_some_and(takes)).map(|(pad, _)| pad).collect()
    }

    /// Lists what else can be taken at a pad while all others stay.
    fn others(&self, draft: &Draft, pad: usize, work: &mut Work) -> Vec<Other> {
        let (low, high) = draft.room(self.field, self.system, pad);
        let now = draft.picks[pad];
        let cost = draft.of_pad(self.shelf, pad);
        let uses = now.as_ref().map(|pick| pick.uses(self.shelf));
        let other = |pick: Option<Pick>, parts: &Parts, takes: Option<&[i64]>| {
            let change = |kind: usize| {
                let of = |uses: Option<&[i64]>| uses.map_or(0, |uses| uses[kind]);
                of(takes) - of(uses)
            };
            let used = draft.used.iter().enumerate().map(|(kind, used)| used + change(kind));
            let excess = used.zip(&self.shelf.on_hand).map(|(used, there)| (used - there).max(0)).sum();
            let mut more = *parts;
            more.iter_mut().zip(&cost).for_each(|(more, now)| *more -= now);
            Other { pick, more, excess }
        };
        let mut found = Vec::new();
        let of_pad = &self.field.pads[pad];
        let from = of_pad.open.partition_point(|seat| seat.departure < low);
        for (seat, ways) in of_pad.open.iter().zip(&self.field.ways[pad]).skip(from) {
            if seat.departure > high {
                break;
            }
            for &way in ways {
                let makes = &self.shelf.makes[way.make].made;
                for (made, it) in makes.iter().enumerate().take(STACKS_TRIED) {
                    let pick = Pick { departure: seat.departure, way, made };
                    if now != Some(pick) {
                        found.push(other(Some(pick), it.parts(way.held), Some(&it.uses)));
                    }
                }
            }
        }
        if now.is_some() && of_pad.referable {
            found.push(other(None, &self.shelf.refer(), None));
        }
        let free = draft.parts[0] > 0 && draft.picks.len() <= FREE_IN;
        let room = if free { 6 * self.system.bounds.len() } else { draft.picks.len() / 2 };
        work.take(4 * found.len() + room);
        found
    }
}

fn sum(a: &Parts, b: &Parts) -> Parts {
    let mut sum = *a;
    sum.iter_mut().zip(b).for_each(|(sum, more)| *sum += more);
    sum
}
