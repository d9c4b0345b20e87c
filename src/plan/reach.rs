//! How low and how high each value can be, and why not lower or higher.

use super::system::System;
use std::collections::VecDeque;

/// What one variable may be.
#[derive(Clone, Debug)]
pub(super) enum Domain {
    /// One of these, in rising order, at least one.
    Values(Vec<i64>),
    /// Anything between two bounds; a missing one is unlimited.
    Between(Option<i64>, Option<i64>),
}

/// Which end is looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum End {
    /// The lowest.
    Low,
    /// The highest.
    High,
}

/// One step of a reason: a bound that moves a variable.
#[derive(Clone, Debug)]
pub(super) struct Link {
    /// The bound, an index into [`System::bounds`]; none at the beginning, where the variable's own domain ends.
    pub(super) bound: Option<usize>,
    /// The variable.
    pub(super) variable: usize,
    /// Where the bound moves it at least.
    pub(super) needed: i64,
    /// The first value it has from there; what is needed where it has none.
    pub(super) value: i64,
}

/// A variable that cannot be moved where the others need it, with how that comes about, first cause first.
pub(super) type Clash = Vec<Link>;

/// How far each variable can go, and what cannot be.
#[derive(Clone, Debug)]
pub(super) struct Reach {
    /// The end of each variable; none where nothing limits it.
    pub(super) ends: Vec<Option<i64>>,
    /// Variables that cannot be where they must; with none of these the ends are themselves a
    /// solution, the least (or the greatest) there is.
    pub(super) clashes: Vec<Clash>,
    steps: Vec<(Link, Option<usize>)>,
    last: Vec<Option<usize>>,
}

impl Reach {
    /// Gives why a variable cannot go further, first cause first.
    pub(super) fn reason(&self, variable: usize) -> Vec<Link> {
        self.chain(self.last[variable])
    }

    fn chain(&self, mut step: Option<usize>) -> Vec<Link> {
        let mut links = Vec::new();
        while let Some((link, before)) = step.and_then(|step| self.steps.get(step)) {
            links.push(link.clone());
            step = *before;
        }
        links.reverse();
        links
    }
}

/// Moves every variable from its end only as far as the others force it.
///
/// Feasible sets of difference constraints over ordered domains are closed under pointwise
/// least and greatest, so what this comes to is exact: it clashes just where no solution is.
pub(super) fn reach(system: &System, domains: &[Domain], end: End) -> Reach {
    let up = end == End::Low;
    let own: Vec<Option<i64>> = domains.iter().map(|domain| first(domain, up)).collect();
    let mut found = Reach { ends: own, clashes: Vec::new(), steps: Vec::new(), last: Vec::new() };
    for (variable, value) in found.ends.iter().enumerate() {
        found.last.push(value.map(|value| {
            found.steps.push((Link { bound: None, variable, needed: value, value }, None));
            found.steps.len() - 1
        }));
    }
    let mut clashed = vec![false; domains.len()];
    let mut waits = vec![true; domains.len()];
    let mut waiting: VecDeque<usize> = (0..domains.len()).collect();
    while let Some(from) = waiting.pop_front() {
        waits[from] = false;
        let Some(value) = found.ends[from] else { continue };
        for &index in if up { system.leaving(from) } else { system.entering(from) } {
            let bound = &system.bounds[index];
            let (to, needed) =
                if up { (bound.to, value - bound.most) } else { (bound.from, value + bound.most) };
            let beyond = |there: i64| if up { needed > there } else { needed < there };
            if !found.ends[to].is_none_or(beyond) {
                continue;
            }
            let next = next(&domains[to], needed, up);
            let link = Link { bound: Some(index), variable: to, needed, value: next.unwrap_or(needed) };
            found.steps.push((link, found.last[from]));
            let step = Some(found.steps.len() - 1);
            let Some(next) = next else {
                if !clashed[to] {
                    clashed[to] = true;
                    let chain = found.chain(step);
                    found.clashes.push(chain);
                }
                continue;
            };
            found.ends[to] = Some(next);
            found.last[to] = step;
            if !waits[to] {
                waits[to] = true;
                waiting.push_back(to);
            }
        }
    }
    found
}

fn first(domain: &Domain, up: bool) -> Option<i64> {
    match domain {
        Domain::Values(values) => if up { values.first() } else { values.last() }.copied(),
        Domain::Between(low, high) => {
            if up {
                *low
            } else {
                *high
            }
        }
    }
}

/// Gives the first value at or beyond a place.
fn next(domain: &Domain, needed: i64, up: bool) -> Option<i64> {
    match domain {
        Domain::Values(values) if up => values.get(values.partition_point(|value| *value < needed)).copied(),
        Domain::Values(values) => {
            values.get(values.partition_point(|value| *value <= needed).checked_sub(1)?).copied()
        }
        Domain::Between(low, high) => {
            let other = if up { *high } else { *low };
            let fits = |other: i64| if up { needed <= other } else { needed >= other };
            other.is_none_or(fits).then_some(needed)
        }
    }
}
