//! The best plan that the pieces on hand allow, component by component, and what none can be better than.

use super::ascent::{Ascent, Ended, Node};
use super::branch::{Branched, branch};
use super::compose::compose;
use super::cut::{Cut, Part, ends};
use super::draft::{Draft, fixed};
use super::field::{Field, Pick};
use super::moves::Moves;
use super::price::{Aim, FINE, Price, Weights};
use super::shelf::{PARTS, Parts, Shelf};
use super::work::Work;
use crate::plan::cells::{Realised, Splits};
use crate::plan::stages::NotProven;
use crate::plan::system::System;
use std::collections::BTreeSet;

/// Steps of the weights over plans as cheap as without a limit.
const TIE_STEPS: usize = 40;

/// Most pads of a job in which that is tried, and the part of the work it may take.
const MOST_TIED: usize = 500;
const TIES: i64 = 40;

/// The part of the work that one component of the whole job may take, before pads are decided.
const ROOT: i64 = 2;

/// Steps of the weights over the whole job for one component.
const ROOT_STEPS: usize = 160;

/// Steps that only look for a better plan.
const POLISH_STEPS: usize = 40;

/// The part of the work that is kept for what only looks for a better plan.
const KEPT: i64 = 8;

/// The part of the work that making one cut into a plan may take.
const ONE_PLAN: i64 = 200;

/// How a plan is made of a cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Making {
    /// Only where the cut takes no more than there is.
    AsItIs,
    /// Only where its seats can be come to with what there is.
    Composed,
    /// Pads are changed until the pieces are there, and no more referred than in the best plan known.
    Changed,
    /// Likewise, more of them referred on the way where nothing else is left.
    Referring,
}

/// The state of the search.
pub(super) struct Search<'a> {
    pub(super) shelf: &'a Shelf,
    pub(super) system: &'a System,
    pub(super) field: &'a Field,
    pub(super) splits: Splits,
    /// How often something was split.
    pub(super) split: usize,
    /// The best plan known.
    pub(super) best: Draft,
    /// No plan costs less than this, in the order of its components.
    pub(super) lower: Parts,
    /// What the plan would cost with as many of each thickness on hand as one likes.
    pub(super) first: Parts,
    pub(super) work: Work,
    /// The best weights known for each component.
    weights: Vec<Weights>,
    seen: BTreeSet<Vec<Option<i64>>>,
}

impl<'a> Search<'a> {
    /// What one bound of the system counts as work, where the ends are looked for.
    pub(super) const BOUND: usize = 8;

    /// Begins with a plan and with what none is cheaper than.
    pub(super) fn new(
        shelf: &'a Shelf,
        system: &'a System,
        field: &'a Field,
        best: Draft,
        first: Parts,
        work: Work,
    ) -> Self {
        Self {
            shelf,
            system,
            field,
            splits: Splits::new(system),
            split: 0,
            best,
            lower: first,
            first,
            work,
            weights: vec![Weights::none(shelf); PARTS],
            seen: BTreeSet::new(),
        }
    }

    /// Looks for the best plan until it is proven or the work is done.
    pub(super) fn run(&mut self) -> Result<(), NotProven> {
        self.work.keep(KEPT);
        if self.field.pads.len() <= MOST_TIED {
            self.work.spend(TIES);
            self.try_ties()?;
            self.work.keep(KEPT);
        }
        while let Some(level) = self.open_level() {
            let known = self.best.parts;
            self.work.spend(ROOT);
            let (ended, field, node) = self.root(level, ROOT_STEPS, true)?;
            self.work.keep(KEPT);
            if ended == Ended::Better {
                // the bound holds for the better plan too
                self.raise(level, node.bound);
                continue;
            }
            if ended == Ended::Closed {
                self.close(level);
                continue;
            }
            if ended == Ended::Spent {
                break;
            }
            self.raise(level, node.bound);
            if self.lower[level] >= self.best.parts[level] {
                continue;
            }
            match branch(self, &field, self.aim(level), node)? {
                Branched::Closed => self.close(level),
                Branched::Better => {}
                Branched::Open(bound) => {
                    self.raise(level, bound);
                    if self.best.parts == known {
                        break;
                    }
                }
            }
            if self.work.is_done() {
                break;
            }
        }
        self.polish()
    }

    /// Gives the first component that is not proven.
    fn open_level(&self) -> Option<usize> {
        (0..PARTS).find(|&part| self.lower[part] < self.best.parts[part])
    }

    /// Gives how a component is looked at.
    pub(super) fn aim(&self, level: usize) -> Aim {
        let forced = (0..PARTS).find(|&part| self.best.parts[part] > self.first[part]);
        Aim { level, hard: forced.unwrap_or(PARTS).min(level) }
    }

    /// Gives what a component comes to in the best plan known, in units of [`FINE`].
    pub(super) fn goal(&self, level: usize) -> i128 {
        i128::from(FINE)
            * i128::from(Price::amount(self.shelf, level, &self.best.parts).max(i64::from(level >= PARTS)))
    }

    /// Moves the weights over the whole job.
    fn root(&mut self, level: usize, steps: usize, closes: bool) -> Result<(Ended, Field, Node), NotProven> {
        let field = self.field.cheaper(self.shelf, level, &self.best.parts);
        let part = Part::whole(&field, self.system);
        let mut node = Node { weights: self.weights[level].clone(), bound: i128::MIN, part };
        let Some(ends) = ends(&field, self.system, &node.part) else {
            return Ok((Ended::Closed, field, node));
        };
        let aim = self.aim(level);
        let mut ascent = Ascent { making: Making::Referring, closes, ..Ascent::new(&field, aim, steps) };
        let ended = ascent.run(self, &mut node, &ends)?;
        self.weights[level] = node.weights.clone();
        Ok((ended, field, node))
    }

    /// Looks among plans that cost no more than with as many pieces as one likes.
    fn try_ties(&mut self) -> Result<(), NotProven> {
        let part = Part::whole(self.field, self.system);
        let mut node = Node { weights: Weights::none(self.shelf), bound: i128::MIN, part };
        let field = self.field;
        let Some(ends) = ends(field, self.system, &node.part) else { return Ok(()) };
        let aim = Aim { level: PARTS, hard: PARTS };
        let mut ascent =
            Ascent { making: Making::Composed, closes: false, ..Ascent::new(field, aim, TIE_STEPS) };
        ascent.run(self, &mut node, &ends)?;
        Ok(())
    }

    /// Looks for a better plan at the components behind the first that is not proven.
    fn polish(&mut self) -> Result<(), NotProven> {
        let Some(open) = self.open_level() else { return Ok(()) };
        self.work.keep(0);
        for level in open + 1..PARTS {
            let _ = self.root(level, POLISH_STEPS, false)?;
        }
        Ok(())
    }

    /// Notes that a component can be no less than in the best plan known.
    fn close(&mut self, level: usize) {
        let value = self.best.parts[level];
        self.at_least(level, value);
    }

    /// Notes a bound of a component.
    fn raise(&mut self, level: usize, bound: i128) {
        let fine = i128::from(FINE);
        let whole = bound.max(0).div_euclid(fine) + i128::from(bound.max(0).rem_euclid(fine) > 0);
        let unit = if level == PARTS - 1 { self.shelf.unit } else { 1 };
        let value = i64::try_from(whole * i128::from(unit)).unwrap_or(i64::MAX);
        self.at_least(level, value.min(self.best.parts[level]));
    }

    fn at_least(&mut self, level: usize, value: i64) {
        let mut lower = self.best.parts;
        lower[level] = value;
        // what follows is not known there
        lower[level + 1..].fill(0);
        self.lower = self.lower.max(lower);
    }

    /// Makes a plan of a cut; tells whether it is the best so far.
    pub(super) fn consider(&mut self, field: &Field, cut: &Cut, making: Making) -> Result<bool, NotProven> {
        let seats: Vec<Option<i64>> = cut.picks.iter().map(|pick| pick.map(|pick| pick.departure)).collect();
        if self.seen.contains(&seats) {
            return Ok(false);
        }
        let Some(draft) = Draft::of(self.shelf, field, self.system, cut.picks.clone()) else {
            let all = fixed(field, self.system, &cut.picks, None);
            return match self.splits.realised(self.system, &all) {
                Realised::Never => Err(NotProven),
                Realised::Yes | Realised::Split => {
                    self.split += 1;
                    // the cut may be looked at again before the network is laid out anew
                    self.seen.insert(seats);
                    Ok(false)
                }
            };
        };
        let fits = draft.excess(self.shelf) == 0;
        if making == Making::AsItIs && !fits {
            return Ok(false);
        }
        self.seen.insert(seats.clone());
        let known = self.best.parts;
        let (shelf, all) = (self.shelf, self.field);
        let moves = Moves { shelf, field: all, system: self.system };
        let draft = self.work.within(ONE_PLAN, |work| {
            let mut draft = draft;
            if let Some(picks) = compose(shelf, all, &seats, Some(&known), work).picks {
                draft.put_all(shelf, picks);
            }
            if making == Making::Composed {
                return draft;
            }
            let most = if making == Making::Referring { i64::MAX } else { known[0] };
            if moves.repair(&mut draft, most, work) && making != Making::AsItIs {
                moves.improve(&mut draft, work);
                if let Some(picks) = compose(shelf, all, &draft.seats(), Some(&draft.parts), work).picks {
                    draft.put_all(shelf, picks);
                }
            }
            draft
        });
        let better = draft.excess(self.shelf) == 0 && draft.parts < self.best.parts;
        if better {
            self.best = draft;
        }
        Ok(better)
    }

    /// Takes picks as the best plan if they are cheaper; tells whether they are.
    pub(super) fn offer(&mut self, picks: Vec<Option<Pick>>) -> bool {
        let Some(draft) = Draft::of(self.shelf, self.field, self.system, picks) else { return false };
        let better = draft.excess(self.shelf) == 0 && draft.parts < self.best.parts;
        if better {
            self.best = draft;
        }
        better
    }
}
