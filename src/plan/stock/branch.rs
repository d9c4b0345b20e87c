//! Closing the gap: one pad after the other is decided until nothing better can be left.

use super::ascent::{Ascent, Ended, Node, Seen};
use super::compose::compose;
use super::cut::{Refer, ends};
use super::field::Field;
use super::price::{Aim, FINE};
use super::search::{Making, Search};
use crate::plan::stages::NotProven;
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// Steps of the weights at one node.
const STEPS: usize = 14;

/// Nodes between two of which one goes straight down.
const DIVE: usize = 24;

/// What came of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Branched {
    /// Nothing is better than the best plan known.
    Closed,
    /// A better plan was found.
    Better,
    /// The work was too much; the component is at least this, in units of [`super::price::FINE`].
    Open(i128),
}

/// Decides pads, where the bound is least first, until nothing better is left, something better is found or the work is done.
pub(super) fn branch(
    search: &mut Search<'_>,
    field: &Field,
    aim: Aim,
    root: Node,
) -> Result<Branched, NotProven> {
    // what could not be looked at to the end
    let mut open: Option<i128> = None;
    // the least bound first, of equal ones the last that was split
    let mut waiting: BTreeMap<(i128, Reverse<usize>), Node> =
        BTreeMap::from([((root.bound, Reverse(0)), root)]);
    let mut number = 0;
    // a node that is gone down from before all others
    let mut down: Option<Node> = None;
    let mut diving = false;
    let mut looked = 0;
    loop {
        let next = match down.take() {
            Some(node) => Some((node.bound, node)),
            None => waiting.pop_first().map(|((bound, _), node)| (bound, node)),
        };
        let Some((bound, mut node)) = next else { break };
        if bound > search.goal(aim.level) - i128::from(FINE) {
            continue;
        }
        let came = if search.work.is_done() { Looked::Spent } else { look(search, field, aim, &mut node)? };
        let mut parts = match came {
            Looked::Spent => {
                let waits = waiting.first_key_value().map(|((bound, _), _)| *bound);
                open = [open, waits, Some(bound)].into_iter().flatten().min();
                break;
            }
            Looked::Closed => {
                diving = false;
                continue;
            }
            Looked::Better => return Ok(Branched::Better),
            Looked::Parts(parts) => parts,
        };
        looked += 1;
        diving |= looked % DIVE == 1;
        if parts.is_empty() {
            open = Some(open.map_or(node.bound, |open| open.min(node.bound)));
        }
        if diving {
            down = parts.pop();
        }
        for part in parts {
            number += 1;
            waiting.insert((part.bound, Reverse(number)), part);
        }
    }
    Ok(open.map_or(Branched::Closed, Branched::Open))
}

/// What came of one node.
enum Looked {
    /// Nothing better is in it.
    Closed,
    /// A better plan was found.
    Better,
    /// There was no work left to look.
    Spent,
    /// What is left of it, split; nothing where it cannot be.
    Parts(Vec<Node>),
}

/// Looks at one node.
fn look(search: &mut Search<'_>, field: &Field, aim: Aim, node: &mut Node) -> Result<Looked, NotProven> {
    let known = search.best.parts;
    let better = |search: &Search<'_>| search.best.parts[..=aim.level] < known[..=aim.level];
    search.work.take(search.system.bounds.len() * Search::BOUND);
    let Some(ends) = ends(field, search.system, &node.part) else { return Ok(Looked::Closed) };
    if node.is_decided(&ends) {
        let seats = node.seats(&ends);
        let composed = compose(search.shelf, field, &seats, Some(&known), &mut search.work);
        let found = composed.picks.is_some_and(|picks| search.offer(picks));
        return Ok(match composed.complete {
            _ if found && better(search) => Looked::Better,
            true => Looked::Closed,
            false => Looked::Parts(Vec::new()),
        });
    }
    let mut ascent = Ascent::new(field, aim, STEPS);
    match ascent.run(search, node, &ends)? {
        Ended::Closed => return Ok(Looked::Closed),
        Ended::Better => return Ok(Looked::Better),
        Ended::Spent => return Ok(Looked::Spent),
        Ended::Open => {}
    }
    if let Some(last) = &ascent.last
        && search.consider(field, last, Making::Changed)?
        && better(search)
    {
        return Ok(Looked::Better);
    }
    Ok(Looked::Parts(split(search, field, &ascent, node, &ends)))
}

/// Splits a node at one pad; the part that is looked at first comes last.
fn split(
    search: &Search<'_>,
    field: &Field,
    ascent: &Ascent<'_>,
    node: &Node,
    ends: &[(i64, i64)],
) -> Vec<Node> {
    if let Some(sides) = split_level(ascent, node) {
        return sides;
    }
    let may = |pad: &usize| node.part.spans[*pad].refer == Refer::May;
    let moves =
        |pad: &usize| !may(pad) && node.part.spans[*pad].refer == Refer::Never && varies(&ascent.seen[*pad]);
    let pads = || 0..node.part.spans.len();
    // a pad that is referred in some cuts and not in others, then one that stands here and there
    let undecided = pads().filter(may).max_by_key(|&pad| {
        let seen = &ascent.seen[pad];
        (seen.moved.min(1), seen.referred.min(1), seen.moved, Reverse(pad))
    });
    let here_and_there = pads().filter(moves).max_by_key(|&pad| (ascent.seen[pad].moved, Reverse(pad)));
    let stays = |pad: &usize| may(pad) && ascent.seen[*pad].moved == 0 && ascent.seen[*pad].referred == 0;
    match (undecided, here_and_there) {
        (Some(pad), there) if !(stays(&pad) && there.is_some()) => {
            let with = |refer: Refer| {
                let mut node = node.clone();
                node.part.spans[pad].refer = refer;
                node
            };
            if ascent.seen[pad].last.is_none() {
                vec![with(Refer::Never), with(Refer::Always)]
            } else {
                vec![with(Refer::Always), with(Refer::Never)]
            }
        }
        (_, Some(pad)) => {
            let seen = &ascent.seen[pad];
            let (Some(low), Some(high), Some(last)) = (seen.low, seen.high, seen.last) else {
                return Vec::new();
            };
            let middle = low + (high - low) / 2;
            let (mut under, mut over) = (node.clone(), node.clone());
            under.part.spans[pad].high = under.part.spans[pad].high.min(middle);
            over.part.spans[pad].low = over.part.spans[pad].low.max(middle + 1);
            if last <= middle { vec![over, under] } else { vec![under, over] }
        }
        _ => apart(search, field, ascent, node, ends),
    }
}

/// Splits a node at the lowest level of a spread, where the cuts lie apart: pads that are tied to one another move
/// together, so that tells more of them than any pad by itself.
fn split_level(ascent: &Ascent<'_>, node: &Node) -> Option<Vec<Node>> {
    let levels = ascent.levels.iter().enumerate().filter_map(|(spread, level)| Some((spread, (*level)?)));
    let apart = levels.filter(|(_, level)| level.least < level.greatest);
    let (spread, level) =
        apart.max_by_key(|(spread, level)| (level.greatest - level.least, Reverse(*spread)))?;
    let middle = level.least + (level.greatest - level.least) / 2;
    let (mut under, mut over) = (node.clone(), node.clone());
    let of_under = &mut under.part.levels[spread].1;
    *of_under = Some(of_under.map_or(middle, |high| high.min(middle)));
    let of_over = &mut over.part.levels[spread].0;
    *of_over = Some(of_over.map_or(middle + 1, |low| low.max(middle + 1)));
    Some(if level.last <= middle { vec![over, under] } else { vec![under, over] })
}

fn varies(seen: &Seen) -> bool {
    seen.low != seen.high
}

/// Splits a node in which all cuts agree: at a pad that takes what is short, into where it stands, under and over it.
fn apart(
    search: &Search<'_>,
    field: &Field,
    ascent: &Ascent<'_>,
    node: &Node,
    ends: &[(i64, i64)],
) -> Vec<Node> {
    let short = |pad: usize| -> i64 {
        let pick = ascent.last.as_ref().and_then(|cut| cut.picks[pad]);
        let weights = &node.weights.kinds;
        pick.map_or(0, |pick| {
            pick.uses(search.shelf).iter().zip(weights).map(|(uses, weight)| uses * weight).sum()
        })
    };
    let free = |pad: &usize| node.part.spans[*pad].refer == Refer::Never && ends[*pad].0 < ends[*pad].1;
    let pads = (0..node.part.spans.len()).filter(free);
    let Some(pad) = pads.max_by_key(|&pad| (short(pad), Reverse(pad))) else { return Vec::new() };
    let (low, high) = ends[pad];
    let open = field.pads[pad].open.iter().map(|it| it.departure).find(|it| (low..=high).contains(it));
    let Some(at) = ascent.seen[pad].last.or(open) else { return Vec::new() };
    let part = |low: i64, high: i64| {
        let mut node = node.clone();
        (node.part.spans[pad].low, node.part.spans[pad].high) = (low, high);
        node
    };
    let sides = [(low, at - 1), (at + 1, high), (at, at)];
    sides.into_iter().filter(|(low, high)| low <= high).map(|(low, high)| part(low, high)).collect()
}
