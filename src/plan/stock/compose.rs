//! Which stack stands at each pad, once every seat is chosen: the cheapest that the pieces on hand allow.
//!
//! Pads whose seats have the same ways are alike. They are taken together, in job order of the first,
//! and within them the cheaper stack comes first, of equal ones the thicker piece first.

use super::field::{Field, Pick, Way};
use super::shelf::{PARTS, Parts, Shelf};
use super::work::Work;
use std::collections::BTreeMap;

/// Places in the search that are remembered.
const MOST_REMEMBERED: usize = 100_000;

/// What came of it.
#[derive(Clone, Debug)]
pub(super) struct Composed {
    /// The cheapest stacks found, if any is cheaper than the limit.
    pub(super) picks: Option<Vec<Option<Pick>>>,
    /// Whether nothing cheaper exists for these seats.
    pub(super) complete: bool,
}

/// One stack at a pad of a class.
struct Choice {
    way: Way,
    made: usize,
    parts: Parts,
    uses: Vec<i64>,
}

/// Finds the cheapest stacks for these seats that cost less than a limit.
pub(super) fn compose(
    shelf: &Shelf,
    field: &Field,
    seats: &[Option<i64>],
    limit: Option<&Parts>,
    work: &mut Work,
) -> Composed {
    let mut classes: BTreeMap<&[Way], Vec<usize>> = BTreeMap::new();
    let mut start = [0; PARTS];
    for (pad, seat) in seats.iter().enumerate() {
        match seat {
            Some(departure) => classes.entry(field.ways_to(pad, *departure)).or_default().push(pad),
            None => start = plus(&start, &shelf.refer()),
        }
    }
    let mut classes: Vec<(&[Way], Vec<usize>)> = classes.into_iter().collect();
    classes.sort_by_key(|(_, pads)| pads.first().copied());
    let choices: Vec<Vec<Choice>> = classes.iter().map(|(ways, _)| choices(shelf, ways)).collect();
    let mut order = Vec::new();
    for (class, (_, pads)) in classes.iter().enumerate() {
        if choices[class].is_empty() {
            return Composed { picks: None, complete: true };
        }
        order.extend(pads.iter().enumerate().map(|(member, pad)| (class, member, *pad)));
    }
    let order: Vec<(usize, usize, usize)> = order;
    let search = Search { choices: &choices, order: &order, need: Need::of(shelf, &choices, &order) };
    let (found, complete) = search.run(shelf, start, limit, work);
    let picks = found.map(|taken| {
        let mut picks = vec![None; seats.len()];
        for (&(class, _, pad), &choice) in order.iter().zip(&taken) {
            let Choice { way, made, .. } = choices[class][choice];
            picks[pad] = seats[pad].map(|departure| Pick { departure, way, made });
        }
        picks
    });
    Composed { picks, complete }
}

/// Lists the stacks of a class, cheapest first.
fn choices(shelf: &Shelf, ways: &[Way]) -> Vec<Choice> {
    let each = ways.iter().flat_map(|&way| {
        let makes = shelf.makes[way.make].made.iter().enumerate();
        makes.map(move |(made, it)| Choice { way, made, parts: *it.parts(way.held), uses: it.uses.clone() })
    });
    let mut choices: Vec<Choice> = each.collect();
    choices.sort_by_key(|choice| choice.parts);
    choices
}

/// What the places from one on need at least.
struct Need {
    parts: Vec<Parts>,
    /// Pieces of each thickness, and behind them pieces in all.
    uses: Vec<Vec<i64>>,
}

impl Need {
    fn of(shelf: &Shelf, choices: &[Vec<Choice>], order: &[(usize, usize, usize)]) -> Self {
        let kinds = shelf.on_hand.len();
        let least: Vec<Vec<i64>> = choices
            .iter()
            .map(|all| {
                let of = |kind: usize| all.iter().map(|it| it.uses[kind]).min().unwrap_or(0);
                let pieces = all.iter().map(|it| it.uses.iter().sum()).min().unwrap_or(0);
                (0..kinds).map(of).chain([pieces]).collect()
            })
            .collect();
        let mut need = Self { parts: vec![[0; PARTS]], uses: vec![vec![0; kinds + 1]] };
        for &(class, ..) in order.iter().rev() {
            if let (Some(parts), Some(uses)) = (need.parts.last(), need.uses.last()) {
                let cheapest = choices[class].first().map_or([0; PARTS], |it| it.parts);
                let parts = plus(parts, &cheapest);
                let uses = uses.iter().zip(&least[class]).map(|(a, b)| a + b).collect();
                need.parts.push(parts);
                need.uses.push(uses);
            }
        }
        need.parts.reverse();
        need.uses.reverse();
        need
    }

    fn is_there(&self, place: usize, left: &[i64]) -> bool {
        let all: i64 = left.iter().sum();
        self.uses[place].iter().zip(left.iter().chain([&all])).all(|(need, left)| need <= left)
    }
}

struct Search<'c> {
    choices: &'c [Vec<Choice>],
    /// Class, which member of it, pad.
    order: &'c [(usize, usize, usize)],
    need: Need,
}

impl Search<'_> {
    /// Goes through the places depth first; gives the best choices and whether all was looked at.
    fn run(
        &self,
        shelf: &Shelf,
        start: Parts,
        limit: Option<&Parts>,
        work: &mut Work,
    ) -> (Option<Vec<usize>>, bool) {
        let mut best: Option<Vec<usize>> = None;
        let mut limit = limit.copied();
        let mut remembered: BTreeMap<(usize, usize, Vec<i64>), Parts> = BTreeMap::new();
        // the choice at each place, and the one to be tried next at the last
        let mut taken: Vec<usize> = Vec::with_capacity(self.order.len());
        let mut sums = vec![start];
        let mut left = shelf.on_hand.clone();
        let mut next = 0;
        loop {
            let place = taken.len();
            let so_far = sums[place];
            let mut dead = false;
            if place == self.order.len() {
                if limit.is_none_or(|limit| so_far < limit) {
                    limit = Some(so_far);
                    best = Some(taken.clone());
                }
                dead = true;
            } else if next == self.first(place, &taken) {
                // new here
                work.take(30 + 2 * left.len());
                if work.is_done() {
                    return (best, false);
                }
                let key = (place, next, left.clone());
                let worse = remembered.get(&key).is_some_and(|known| *known <= so_far);
                dead = worse || !self.need.is_there(place, &left);
                if !dead && remembered.len() < MOST_REMEMBERED {
                    remembered.insert(key, so_far);
                }
            }
            let found = if dead { None } else { self.take(place, next, &so_far, limit.as_ref(), &left) };
            if let Some(choice) = found {
                let it = &self.choices[self.order[place].0][choice];
                left.iter_mut().zip(&it.uses).for_each(|(left, uses)| *left -= uses);
                sums.push(plus(&so_far, &it.parts));
                taken.push(choice);
                next = self.first(place + 1, &taken);
                continue;
            }
            let Some(last) = taken.pop() else { return (best, true) };
            sums.pop();
            let it = &self.choices[self.order[place - 1].0][last];
            left.iter_mut().zip(&it.uses).for_each(|(left, uses)| *left += uses);
            next = last + 1;
        }
    }

    /// Gives the first choice at a place: pads that are alike take theirs in order.
    fn first(&self, place: usize, taken: &[usize]) -> usize {
        match self.order.get(place) {
            Some((_, member, _)) if *member > 0 => taken[place - 1],
            _ => 0,
        }
    }

    /// Finds the next choice that the pieces allow and that can still come to less than the limit.
    fn take(
        &self,
        place: usize,
        next: usize,
        so_far: &Parts,
        limit: Option<&Parts>,
        left: &[i64],
    ) -> Option<usize> {
        let choices = &self.choices[self.order[place].0];
        for (choice, it) in choices.iter().enumerate().skip(next) {
            let least = plus(&plus(so_far, &it.parts), &self.need.parts[place + 1]);
            if limit.is_some_and(|limit| least >= *limit) {
                return None;
            }
            if it.uses.iter().zip(left).all(|(uses, left)| uses <= left) {
                return Some(choice);
            }
        }
        None
    }
}

fn plus(a: &Parts, b: &Parts) -> Parts {
    let mut sum = *a;
    sum.iter_mut().zip(b).for_each(|(sum, part)| *sum += part);
    sum
}
