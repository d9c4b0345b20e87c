//! The weights on what is short, moved until the cheapest seats take no more than there is.
//!
//! Under any weights the cheapest seats, less the weights of what there is, cost no more than the best plan
//! there is: that is the bound (Lagrangian relaxation; the weights go where the cheapest seats take too much,
//! after B. T. Polyak, "Minimization of unsmooth functionals", 1969). All of it is whole numbers.

use super::cut::{Cut, Network, Part, Refer, Span};
use super::field::Field;
use super::price::{Aim, FINE, MOST_WEIGHT, Price, Weights};
use super::search::{Making, Search};
use super::shelf::{PARTS, Parts, Shelf};
use crate::plan::stages::NotProven;
use crate::plan::system::System;

/// Steps without a better bound after which the steps become shorter.
const PATIENCE: u32 = 4;

/// The part of a full step that is taken at first, and the least, in 64ths.
const STEPS: (i128, i128) = (48, 1);

/// Part of the problem: what is looked at of each pad, and the best bound known of it.
#[derive(Clone, Debug)]
pub(super) struct Node {
    pub(super) part: Part,
    pub(super) weights: Weights,
    /// The component looked at is at least this, in units of [`FINE`].
    pub(super) bound: i128,
}

/// What came of the steps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ended {
    /// Nothing here is better than the best plan known.
    Closed,
    /// A better plan was found on the way.
    Better,
    /// Something better may be here.
    Open,
    /// There was no work left to look.
    Spent,
}

/// Where the cheapest seats of a pad stood over the steps.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Seen {
    pub(super) low: Option<i64>,
    pub(super) high: Option<i64>,
    pub(super) referred: u32,
    /// Steps in which it stood elsewhere than in the last.
    pub(super) moved: u32,
    pub(super) last: Option<i64>,
}

/// Where the lowest level of a spread could lie over the steps.
#[derive(Clone, Copy, Debug)]
pub(super) struct Level {
    /// The least of the highest places.
    pub(super) least: i64,
    /// The greatest of the lowest places.
    pub(super) greatest: i64,
    /// The highest place in the last step.
    pub(super) last: i64,
}

/// The steps at one node.
pub(super) struct Ascent<'n> {
    pub(super) field: &'n Field,
    pub(super) aim: Aim,
    /// The steps that are taken at most.
    pub(super) steps: usize,
    /// How cuts are made into plans.
    pub(super) making: Making,
    /// Whether a node is given up as soon as nothing better can be in it.
    pub(super) closes: bool,
    /// What was seen at each pad, and what the last cut took.
    pub(super) seen: Vec<Seen>,
    pub(super) levels: Vec<Option<Level>>,
    pub(super) last: Option<Cut>,
}

impl<'n> Ascent<'n> {
    /// Begins at a node.
    pub(super) fn new(field: &'n Field, aim: Aim, steps: usize) -> Self {
        let seen = vec![Seen::default(); field.pads.len()];
        Self { field, aim, steps, making: Making::AsItIs, closes: true, seen, levels: Vec::new(), last: None }
    }

    /// Moves the weights of a node; `ends` is how far its variables reach.
    pub(super) fn run(
        &mut self,
        search: &mut Search<'_>,
        node: &mut Node,
        ends: &[(i64, i64)],
    ) -> Result<Ended, NotProven> {
        let Aim { level, hard } = self.aim;
        let mut weights = node.weights.clone();
        // the best value, and how much more is taken there than there is
        let mut best: Option<(i128, Vec<i64>)> = None;
        let (mut length, mut stalled) = (STEPS.0, 0);
        let mut before: Vec<i128> = Vec::new();
        let system = search.system;
        let spans = node.part.spans.clone();
        let mut network = Network::new(self.field, system, &spans, ends, &search.splits);
        let mut splits = search.split;
        for _ in 0..self.steps {
            if !search.work.allows(network.work()) {
                break;
            }
            let shelf = search.shelf;
            // where a plan is made of it, the cut may as well be cheap in all that follows
            let tail = self.making != Making::AsItIs;
            let price = Price::new(shelf, self.aim, &weights, tail);
            if splits != search.split {
                splits = search.split;
                network = Network::new(self.field, system, &spans, ends, &search.splits);
            }
            let found = network.cut(&price)?;
            search.work.take(network.work());
            let known = search.best.parts;
            let kept = (0..hard).map(|part| i128::from(known[part]));
            if self.closes && found.total[..hard].iter().copied().gt(kept) {
                return Ok(Ended::Closed);
            }
            let capacity = capacity(shelf, self.aim, &known);
            let worth = |weights: &Weights| -> i128 {
                let each = weighed(weights, self.aim).into_iter().zip(&capacity);
                each.map(|(weight, there)| i128::from(weight) * i128::from(*there)).sum()
            };
            let value = found.total[hard] - worth(&weights);
            node.bound = node.bound.max(value);
            let goal = search.goal(level);
            if self.closes && value > goal - i128::from(FINE) {
                return Ok(Ended::Closed);
            }
            self.see(system, &found);
            let mut over = over(shelf, self.aim, &found, &capacity);
            let mut from = value;
            match &best {
                Some((best, there)) if value <= *best => {
                    stalled += 1;
                    if stalled >= PATIENCE {
                        if length <= STEPS.1 {
                            break;
                        }
                        // from the best place once more, with shorter steps
                        stalled = 0;
                        length = (length / 2).max(STEPS.1);
                        weights = node.weights.clone();
                        before.clear();
                        (from, over) = (*best, there.clone());
                    }
                }
                _ => {
                    best = Some((value, over.clone()));
                    node.weights = weights.clone();
                    stalled = 0;
                }
            }
            let better = search.consider(self.field, &found, self.making)?;
            self.last = Some(found);
            if better && search.best.parts[..(level + 1).min(PARTS)] < known[..(level + 1).min(PARTS)] {
                return Ok(Ended::Better);
            }
            let gap = (goal - from).max(i128::from(FINE) / 16);
            if !step(&mut weights, self.aim, &over, &mut before, gap, length) {
                break;
            }
        }
        Ok(if self.last.is_some() { Ended::Open } else { Ended::Spent })
    }

    fn see(&mut self, system: &System, cut: &Cut) {
        self.levels.resize(system.spreads.len(), None);
        for (spread, seen) in self.levels.iter_mut().enumerate() {
            let members = || {
                let picks = system.spreads[spread].iter().filter_map(|&pad| cut.picks[pad]);
                picks.map(|pick| pick.departure)
            };
            let (Some(low), Some(high)) = (members().min(), members().max()) else { continue };
            let lowest = high - system.spread_of(spread);
            let level = seen.get_or_insert(Level { least: low, greatest: lowest, last: low });
            *level = Level { least: level.least.min(low), greatest: level.greatest.max(lowest), last: low };
        }
        for (seen, pick) in self.seen.iter_mut().zip(&cut.picks) {
            let at = pick.map(|pick| pick.departure);
            seen.moved += u32::from(self.last.is_some() && at != seen.last);
            seen.last = at;
            match at {
                None => seen.referred += 1,
                Some(at) => {
                    seen.low = Some(seen.low.map_or(at, |low| low.min(at)));
                    seen.high = Some(seen.high.map_or(at, |high| high.max(at)));
                }
            }
        }
    }
}

/// Gives how much there is of everything that is weighed: pieces, then components that are known to suffice.
fn capacity(shelf: &Shelf, aim: Aim, known: &Parts) -> Vec<i64> {
    let parts = (aim.hard..aim.level.min(PARTS)).map(|part| known[part]);
    shelf.on_hand.iter().copied().chain(parts).collect()
}

/// Gives the weights in the same order.
fn weighed(weights: &Weights, aim: Aim) -> Vec<i64> {
    let parts = (aim.hard..aim.level.min(PARTS)).map(|part| weights.parts[part]);
    weights.kinds.iter().copied().chain(parts).collect()
}

/// Gives how much more a cut takes of everything than there is.
fn over(shelf: &Shelf, aim: Aim, cut: &Cut, capacity: &[i64]) -> Vec<i64> {
    let mut over: Vec<i64> = capacity.iter().map(|there| -there).collect();
    let refer = shelf.refer();
    for pick in &cut.picks {
        let parts = pick.as_ref().map_or(&refer, |pick| pick.parts(shelf));
        let uses = pick.as_ref().map_or(&[][..], |pick| pick.uses(shelf));
        over.iter_mut().zip(uses).for_each(|(sum, uses)| *sum += uses);
        let parts = (aim.hard..aim.level.min(PARTS)).map(|part| parts[part]);
        over.iter_mut().skip(shelf.on_hand.len()).zip(parts).for_each(|(sum, part)| *sum += part);
    }
    over
}

/// Moves the weights once; tells whether any was moved.
///
/// The way is that of what is taken too much, with a part of the way before, which keeps it from swinging.
fn step(
    weights: &mut Weights,
    aim: Aim,
    over: &[i64],
    before: &mut Vec<i128>,
    gap: i128,
    length: i128,
) -> bool {
    let now = weighed(weights, aim);
    before.resize(over.len(), 0);
    let mut square = 0;
    for ((way, over), weight) in before.iter_mut().zip(over).zip(&now) {
        *way = i128::from(*over) * 16 + *way * 5 / 8;
        if *weight == 0 && *way < 0 {
            *way = 0;
        }
        square += *way * *way;
    }
    if square == 0 {
        return false;
    }
    let mut moved = false;
    for (at, (way, weight)) in before.iter().zip(&now).enumerate() {
        let by = gap * length * *way * 16 / (square * 64);
        let by = if by == 0 { way.signum() } else { by };
        let next = (i128::from(*weight) + by).clamp(0, i128::from(MOST_WEIGHT));
        let next = i64::try_from(next).unwrap_or(MOST_WEIGHT);
        moved |= next != *weight;
        match at.checked_sub(weights.kinds.len()) {
            None => weights.kinds[at] = next,
            Some(part) => weights.parts[aim.hard + part] = next,
        }
    }
    moved
}

impl Node {
    /// Tells whether every pad is decided between these ends.
    pub(super) fn is_decided(&self, ends: &[(i64, i64)]) -> bool {
        let decided = |(span, (low, high)): (&Span, &(i64, i64))| match span.refer {
            Refer::Never => low == high,
            Refer::May => false,
            Refer::Always => true,
        };
        self.part.spans.iter().zip(ends).all(decided)
    }

    /// Gives the seats of a node in which every pad is decided.
    pub(super) fn seats(&self, ends: &[(i64, i64)]) -> Vec<Option<i64>> {
        let each = self.part.spans.iter().zip(ends);
        each.map(|(span, (low, _))| (span.refer != Refer::Always).then_some(*low)).collect()
    }
}
