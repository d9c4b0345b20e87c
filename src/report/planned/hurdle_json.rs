//! What stands in the way of a column, as JSON has it.

use crate::check::Case;
use crate::length::Length;
use crate::model::State;
use crate::plan::{Hurdle, HurdleLink, Stop, Tie, Way};
use serde::Serialize;

/// A chain of limits from one seat that cannot move to another, first cause first.
#[derive(Serialize)]
pub(in crate::report) struct HurdleJson {
    way: &'static str,
    chain: Vec<LinkJson>,
}

#[derive(Serialize)]
struct LinkJson {
    column: String,
    limit: Option<&'static str>,
    line: Option<String>,
    apart_nm: Option<i64>,
    needed_raise_nm: Option<i64>,
    raise_nm: Option<i64>,
    last_open_raise_nm: Option<i64>,
    stop: StopJson,
}

#[derive(Serialize)]
struct StopJson {
    kind: &'static str,
    raise_nm: Option<i64>,
    rod: Option<String>,
    state: Option<State>,
}

/// Gives a chain.
pub(in crate::report) fn hurdle(case: &Case<'_>, hurdle: &Hurdle) -> HurdleJson {
    let way = match hurdle.way {
        Way::Up => "up",
        Way::Down => "down",
    };
    HurdleJson { way, chain: hurdle.links.iter().map(|it| link(case, it)).collect() }
}

/// Names the limit that ties two columns, and its line.
pub(in crate::report) fn limit(case: &Case<'_>, tie: Tie) -> (&'static str, Option<String>) {
    let name = |line: usize| case.job.lines.get(line).map(|line| line.name.clone());
    match tie {
        Tie::Neighbours { line } => ("neighbours", name(line)),
        Tie::Wall { line } => ("wall", name(line)),
        Tie::Building => ("building", None),
    }
}

fn link(case: &Case<'_>, link: &HurdleLink) -> LinkJson {
    let (limit, line) = link.tie.map(|(tie, _)| self::limit(case, tie)).unzip();
    LinkJson {
        column: case.column(link.column).mark.clone(),
        limit,
        line: line.flatten(),
        apart_nm: link.tie.map(|(_, most)| most.nm()),
        needed_raise_nm: link.needed.map(Length::nm),
        raise_nm: link.raise.map(Length::nm),
        last_open_raise_nm: link.last_open.map(Length::nm),
        stop: stop(&link.stop),
    }
}

fn stop(stop: &Stop) -> StopJson {
    let plain = |kind| StopJson { kind, raise_nm: None, rod: None, state: None };
    match stop {
        Stop::Free => plain("referred-too"),
        Stop::Nothing => plain("nothing-further"),
        Stop::HeldAt => plain("held-at"),
        Stop::Design { raise } => StopJson { raise_nm: Some(raise.nm()), ..plain("design") },
        Stop::Rod { raise, rod, state } => StopJson {
            raise_nm: Some(raise.nm()),
            rod: Some(rod.to_string()),
            state: Some(*state),
            ..plain("rod")
        },
    }
}
