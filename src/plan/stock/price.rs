//! What is laid on each way: components that count first, then one with weights on what is short.

use super::field::{Pick, Way};
use super::shelf::{Made, PARTS, Parts, Shelf, THICKNESS};
use crate::plan::prices::COMPONENTS;

/// What one of the component that is looked at is worth in the weights on what is short.
pub(super) const FINE: i64 = 1 << 12;

/// No weight is more.
pub(super) const MOST_WEIGHT: i64 = 1 << 50;

/// Which component is looked at, and how those before it are kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Aim {
    /// The component that is looked at; behind the last, none is.
    pub(super) level: usize,
    /// So many of the first are kept by themselves: they count before all weights. Those from there to the
    /// level must not come to more than a plan that is known, and each of them is weighed as if it were short.
    pub(super) hard: usize,
}

/// What each piece of a thickness and each of a component is weighed with, where there is not enough of it.
#[derive(Clone, Debug)]
pub(super) struct Weights {
    /// By thickness on hand.
    pub(super) kinds: Vec<i64>,
    /// By component.
    pub(super) parts: Parts,
}

impl Weights {
    /// Weighs nothing.
    pub(super) fn none(shelf: &Shelf) -> Self {
        Self { kinds: vec![0; shelf.on_hand.len()], parts: [0; PARTS] }
    }
}

/// The prices under some weights.
pub(super) struct Price<'s> {
    shelf: &'s Shelf,
    aim: Aim,
    weights: &'s Weights,
    /// Whether ties are broken by the components that are not kept.
    tail: bool,
    /// The best stack of every make, and its price where not held and where held.
    best: Vec<(usize, [[i64; COMPONENTS]; 2])>,
    refer: [i64; COMPONENTS],
}

impl<'s> Price<'s> {
    /// Works out the best stack of everything that can be made.
    pub(super) fn new(shelf: &'s Shelf, aim: Aim, weights: &'s Weights, tail: bool) -> Self {
        let mut price = Self { shelf, aim, weights, tail, best: Vec::new(), refer: [0; COMPONENTS] };
        price.refer = price.vector(&shelf.refer(), &[]);
        let best = shelf.makes.iter().map(|make| {
            // stacks of one make differ in their pieces alone, held or not
            let each = make.made.iter().enumerate();
            let best = each.min_by_key(|(_, made)| price.order(made)).map_or(0, |(best, _)| best);
            let made = &make.made[best];
            (best, [false, true].map(|held| price.vector(made.parts(held), &made.uses)))
        });
        price.best = best.collect();
        price
    }

    /// Gives the price of referring.
    pub(super) const fn refer(&self) -> &[i64; COMPONENTS] {
        &self.refer
    }

    /// Gives the cheapest of several ways to a seat, and its price.
    pub(super) fn cheapest(&self, departure: i64, ways: &[Way]) -> Option<(&[i64; COMPONENTS], Pick)> {
        let each = ways.iter().map(|&way| {
            let (made, [open, held]) = &self.best[way.make];
            (if way.held { held } else { open }, Pick { departure, way, made: *made })
        });
        each.min_by_key(|(vector, _)| *vector)
    }

    /// Gives what a component comes to in the units it is weighed in.
    pub(super) fn amount(shelf: &Shelf, level: usize, parts: &Parts) -> i64 {
        match level {
            THICKNESS => parts[THICKNESS] / shelf.unit,
            level => parts.get(level).copied().unwrap_or(0),
        }
    }

    /// Gives what stacks of one make are told apart by.
    fn order(&self, made: &Made) -> (i64, i64, i64) {
        let pieces = i64::from(made.option.pieces);
        let before = if self.shelf.pieces < self.aim.hard { pieces } else { 0 };
        (before, self.weighed(made.parts(false), &made.uses), pieces)
    }

    /// Gives the component that is looked at, with the weights on what is short.
    fn weighed(&self, parts: &Parts, uses: &[i64]) -> i64 {
        let Aim { level, hard } = self.aim;
        let amount = FINE * Self::amount(self.shelf, level, parts);
        let short = uses.iter().zip(&self.weights.kinds).map(|(uses, weight)| uses * weight);
        let kept = (hard..level.min(PARTS)).map(|part| parts[part] * self.weights.parts[part]);
        amount + short.sum::<i64>() + kept.sum::<i64>()
    }

    fn vector(&self, parts: &Parts, uses: &[i64]) -> [i64; COMPONENTS] {
        let hard = self.aim.hard;
        let amount = |part: usize| Self::amount(self.shelf, part, parts);
        let mut vector = [0; COMPONENTS];
        for (part, place) in vector.iter_mut().enumerate() {
            if part < hard {
                *place = amount(part);
            } else if part == hard {
                *place = self.weighed(parts, uses);
            } else if self.tail {
                *place = amount(part - 1);
            }
        }
        vector
    }
}
