//! What is laid on each way: components that count first, then one with weights on what is short.

use super::field::{Pick, Way};
use super::shelf::{PARTS, Parts, Shelf, THICKNESS};
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
    /// The best stack of every make and its price, where not held and where held.
    best: Vec<[([i64; COMPONENTS], usize); 2]>,
}

impl<'s> Price<'s> {
    /// Works out the best stack of everything that can be made.
    pub(super) fn new(shelf: &'s Shelf, aim: Aim, weights: &'s Weights, tail: bool) -> Self {
        let mut price = Self { shelf, aim, weights, tail, best: Vec::new() };
        let best = shelf.makes.iter().map(|make| {
            // whether it is held adds the same to all of them
            let each = make.made.iter().map(|made| price.vector(made.parts(false), &made.uses)).enumerate();
            let best = each.min_by_key(|(_, vector)| *vector).map_or(0, |(made, _)| made);
            [false, true].map(|held| (price.vector(make.made[best].parts(held), &make.made[best].uses), best))
        });
        price.best = best.collect();
        price
    }

    /// Gives the price of a way and the stack it is taken with.
    pub(super) fn of(&self, way: Way) -> ([i64; COMPONENTS], usize) {
        let [open, held] = self.best[way.make];
        if way.held { held } else { open }
    }

    /// Gives the price of referring.
    pub(super) fn refer(&self) -> [i64; COMPONENTS] {
        self.vector(&self.shelf.refer(), &[])
    }

    /// Gives what a component comes to in the units it is weighed in.
    pub(super) fn amount(shelf: &Shelf, level: usize, parts: &Parts) -> i64 {
        match level {
            THICKNESS => parts[THICKNESS] / shelf.unit,
            level => parts.get(level).copied().unwrap_or(0),
        }
    }

    /// Gives the price of a way to a seat and the way itself, the cheapest of several.
    pub(super) fn cheapest(&self, departure: i64, ways: &[Way]) -> Option<([i64; COMPONENTS], Pick)> {
        let each = ways.iter().map(|&way| {
            let (vector, made) = self.of(way);
            (vector, Pick { departure, way, made })
        });
        each.min_by_key(|(vector, _)| *vector)
    }

    fn vector(&self, parts: &Parts, uses: &[i64]) -> [i64; COMPONENTS] {
        let Aim { level, hard } = self.aim;
        let mut vector = [0; COMPONENTS];
        vector[..hard].copy_from_slice(&parts[..hard]);
        let amount = FINE * Self::amount(self.shelf, level, parts);
        let short = uses.iter().zip(&self.weights.kinds).map(|(uses, weight)| uses * weight);
        let kept = (hard..level.min(PARTS)).map(|part| parts[part] * self.weights.parts[part]);
        vector[hard] = amount + short.sum::<i64>() + kept.sum::<i64>();
        if self.tail {
            vector[hard + 1..].copy_from_slice(&parts[hard..]);
        }
        vector
    }
}
