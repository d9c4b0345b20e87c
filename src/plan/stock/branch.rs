//! Closing the gap: one pad after the other is decided until nothing better can be left.

use super::ascent::{Ascent, Ended, Node, Seen};
use super::compose::compose;
use super::cut::{Refer, ends};
use super::field::Field;
use super::price::Aim;
use super::search::Search;
use crate::plan::stages::NotProven;

/// Steps of the weights at one node.
const STEPS: usize = 14;

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

/// Decides pads, depth first, until nothing better is left, something better is found or the work is done.
pub(super) fn branch(
    search: &mut Search<'_>,
    field: &Field,
    aim: Aim,
    root: Node,
) -> Result<Branched, NotProven> {
    // places that could not be looked at to the end
    let mut open: Option<i128> = None;
    let mut waiting = vec![root];
    while let Some(mut node) = waiting.pop() {
        if search.work.is_done() {
            let bounds = waiting.iter().map(|node| node.bound).chain([node.bound]).chain(open);
            return Ok(Branched::Open(bounds.min().unwrap_or(node.bound)));
        }
        if node.bound > search.goal(aim.level) - i128::from(super::price::FINE) {
            continue;
        }
        search.work.take(search.system.bounds.len());
        let Some(ends) = ends(field, search.system, &node.spans) else { continue };
        if node.is_decided(&ends) {
            let seats = node.seats(&ends);
            let known = search.best.parts;
            let composed = compose(search.shelf, field, &seats, Some(&known), &mut search.work);
            if let Some(picks) = composed.picks
                && search.offer(picks)
                && search.best.parts[..=aim.level] < known[..=aim.level]
            {
                return Ok(Branched::Better);
            }
            if !composed.complete {
                open = Some(open.map_or(node.bound, |open| open.min(node.bound)));
            }
            continue;
        }
        let mut ascent = Ascent::new(field, aim, STEPS);
        match ascent.run(search, &mut node, &ends)? {
            Ended::Closed => continue,
            Ended::Better => return Ok(Branched::Better),
            Ended::Open => {}
        }
        let next = split(search, field, &ascent, &node, &ends);
        if next.is_empty() {
            open = Some(open.map_or(node.bound, |open| open.min(node.bound)));
        }
        waiting.extend(next);
    }
    Ok(open.map_or(Branched::Closed, Branched::Open))
}

/// Splits a node at one pad; the part that is looked at first comes last.
fn split(
    search: &Search<'_>,
    field: &Field,
    ascent: &Ascent<'_>,
    node: &Node,
    ends: &[(i64, i64)],
) -> Vec<Node> {
    let may = |pad: &usize| node.spans[*pad].refer == Refer::May;
    let moves =
        |pad: &usize| !may(pad) && node.spans[*pad].refer == Refer::Never && varies(&ascent.seen[*pad]);
    let pads = || 0..node.spans.len();
    // a pad that is referred in some cuts and not in others, then one that stands here and there
    let undecided = pads().filter(may).max_by_key(|&pad| {
        let seen = &ascent.seen[pad];
        (seen.moved.min(1), seen.referred.min(1), seen.moved, std::cmp::Reverse(pad))
    });
    let here_and_there =
        pads().filter(moves).max_by_key(|&pad| (ascent.seen[pad].moved, std::cmp::Reverse(pad)));
    let stays = |pad: &usize| may(pad) && ascent.seen[*pad].moved == 0 && ascent.seen[*pad].referred == 0;
    match (undecided, here_and_there) {
        (Some(pad), there) if !(stays(&pad) && there.is_some()) => {
            let with = |refer: Refer| {
                let mut node = node.clone();
                node.spans[pad].refer = refer;
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
            under.spans[pad].high = under.spans[pad].high.min(middle);
            over.spans[pad].low = over.spans[pad].low.max(middle + 1);
            if last <= middle { vec![over, under] } else { vec![under, over] }
        }
        _ => apart(search, field, ascent, node, ends),
    }
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
    let free = |pad: &usize| node.spans[*pad].refer == Refer::Never && ends[*pad].0 < ends[*pad].1;
    let pads = (0..node.spans.len()).filter(free);
    let Some(pad) = pads.max_by_key(|&pad| (short(pad), std::cmp::Reverse(pad))) else { return Vec::new() };
    let (low, high) = ends[pad];
    let open = field.pads[pad].open.iter().map(|it| it.departure).find(|it| (low..=high).contains(it));
    let Some(at) = ascent.seen[pad].last.or(open) else { return Vec::new() };
    let part = |low: i64, high: i64| {
        let mut node = node.clone();
        (node.spans[pad].low, node.spans[pad].high) = (low, high);
        node
    };
    let sides = [(low, at - 1), (at + 1, high), (at, at)];
    sides.into_iter().filter(|(low, high)| low <= high).map(|(low, high)| part(low, high)).collect()
}
