//! What stands in the way of a column that is referred: a chain of limits from one seat that cannot move to another.

use super::cells::domains;
use super::limits_kept::Tie;
use super::options::{Open, PlannedOption, judge};
use super::pose::Posed;
use super::reach::{Clash, Domain, End, Link, reach};
use crate::length::Length;
use crate::model::{Job, RodLabel, State, state_at};

/// Which way a chain of limits moves the seats.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// The first seat cannot come lower, and the others must follow it up.
    Up,
    /// The first seat cannot come higher, and the others must follow it down.
    Down,
}

/// Why no open option brings a column where it must be.
///
/// With every other referred column free to stand anywhere, the first column of the chain
/// cannot go far enough, each limit moves the next column, and the last cannot follow.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hurdle {
    /// Which way the seats are moved.
    pub way: Way,
    /// The columns of the chain, first cause first.
    pub links: Vec<HurdleLink>,
}

/// One column of a chain.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HurdleLink {
    /// The column, an index into [`Job::columns`].
    pub column: usize,
    /// The limit from the column before, and how far apart it lets them be; none at the first.
    pub tie: Option<(Tie, Length)>,
    /// The raise from its own pad at which it must stand at least (on the way up) or at most; none at the first.
    pub needed: Option<Length>,
    /// The nearest raise it can take; none at the last, which has none.
    pub raise: Option<Length>,
    /// The last raise that is open to it the way it must go; none where it is referred too or nothing is open.
    pub last_open: Option<Length>,
    /// What ends there.
    pub stop: Stop,
}

/// What ends the open options of a column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stop {
    /// It is referred too: its seat is free.
    Free,
    /// Nothing that the limits know goes further.
    Nothing,
    /// The next option ends at a rod.
    Rod {
        /// The raise of that option.
        raise: Length,
        /// The rod.
        rod: RodLabel,
        /// What it would be: short or running out of thread.
        state: State,
    },
    /// The next option leaves the limit from the design seat.
    Design {
        /// The raise of that option.
        raise: Length,
    },
    /// It is held at a raise of the user's choice.
    HeldAt,
}

/// Finds what stands in the way of a pad that is referred, the other referred ones being free.
///
/// None where no limit does: then it is the shims on hand.
pub(super) fn hurdle(job: &Job, posed: &Posed, referred: &[bool], pad: usize) -> Option<Hurdle> {
    let mut free = referred.to_vec();
    free[pad] = false;
    let all = domains(&posed.task, &posed.system, &free, None);
    if matches!(&all[pad], Domain::Values(values) if values.is_empty()) {
        let (of_pad, column) = (&posed.task.pads[pad], posed.task.pads[pad].column);
        let blocked =
            posed.task.options_of(of_pad).iter().find_map(|option| rod_that_stops(job, column, option));
        let stop = blocked.map_or(Stop::Nothing, |(raise, rod, state)| Stop::Rod { raise, rod, state });
        let link = HurdleLink { column, tie: None, needed: None, raise: None, last_open: None, stop };
        return Some(Hurdle { way: Way::Up, links: vec![link] });
    }
    let shortest = |end: End| {
        let clashes = reach(&posed.system, &all, end).clashes;
        clashes.into_iter().min_by_key(Vec::len).map(|clash| (clash, end))
    };
    let [up, down] = [End::Low, End::High].map(shortest);
    let (clash, end) = [up, down].into_iter().flatten().min_by_key(|(clash, _)| clash.len())?;
    Some(told(job, posed, &free, clash, end))
}

/// Tells which columns of a job that may not be referred stand in each other's way.
pub(super) fn clash(job: &Job, posed: &Posed, clash: Clash) -> Hurdle {
    let free: Vec<bool> = posed.task.pads.iter().map(|pad| pad.referable).collect();
    told(job, posed, &free, clash, End::Low)
}

/// Tells a clash in columns and raises, the lowest levels of spreads left out.
fn told(job: &Job, posed: &Posed, free: &[bool], clash: Vec<Link>, end: End) -> Hurdle {
    let mut links: Vec<HurdleLink> = Vec::new();
    let mut tie: Option<(Tie, Length)> = None;
    let last = clash.len().saturating_sub(1);
    for (place, link) in clash.into_iter().enumerate() {
        if let Some(bound) = link.bound.and_then(|bound| posed.system.bounds.get(bound)) {
            let before = tie.map_or(Length::ZERO, |(_, most)| most);
            tie = Some((bound.tie, before + Length::from_nm(bound.most)));
        }
        let Some(pad) = posed.task.pads.get(link.variable) else { continue };
        let raise = |departure: i64| Length::from_nm(departure - pad.departure);
        let far = match end {
            End::Low => pad.open.last(),
            End::High => pad.open.first(),
        };
        let near = match end {
            End::Low => pad.open.first(),
            End::High => pad.open.last(),
        };
        let is_free = free.get(link.variable).copied().unwrap_or(false);
        // the first cannot come nearer, all others cannot go further
        let (open, further) = match (tie.is_none(), end) {
            (true, End::Low) => (near, End::High),
            (true, End::High) => (near, End::Low),
            (false, end) => (far, end),
        };
        let last_open = open.filter(|_| !is_free).map(|it| raise(it.departure));
        let stop = if is_free {
            Stop::Free
        } else if pad.referable {
            last_open.map_or(Stop::Nothing, |raise| stop(job, posed, link.variable, raise, further))
        } else {
            Stop::HeldAt
        };
        let needed = tie.map(|_| raise(link.needed));
        links.push(HurdleLink {
            column: pad.column,
            tie: tie.take(),
            needed,
            raise: (place < last).then(|| raise(link.value)),
            last_open,
            stop,
        });
        // from here on every link stands on a limit
        tie = None;
    }
    Hurdle { way: if end == End::Low { Way::Up } else { Way::Down }, links }
}

/// Finds what ends the open options of a pad beyond its last: upward with [`End::Low`], downward with [`End::High`].
fn stop(job: &Job, posed: &Posed, pad: usize, last_open: Length, further: End) -> Stop {
    let pad = &posed.task.pads[pad];
    let beyond = posed.task.options_of(pad).iter().filter(|option| match further {
        End::Low => option.raise.nominal > last_open,
        End::High => option.raise.nominal < last_open,
    });
    let next = beyond.min_by_key(|option| (option.raise.nominal - last_open).abs());
    let Some(option) = next else { return Stop::Nothing };
    if let Some((raise, rod, state)) = rod_that_stops(job, pad.column, option) {
        return Stop::Rod { raise, rod, state };
    }
    Stop::Design { raise: option.raise.nominal }
}

/// Finds the rod that forbids an option.
pub(super) fn rod_that_stops(
    job: &Job,
    column: usize,
    option: &PlannedOption,
) -> Option<(Length, RodLabel, State)> {
    let column = job.columns.get(column)?;
    if judge(job, column, option) != Open::No {
        return None;
    }
    let sound = column.rods.iter().filter(|rod| rod.condition.is_sound());
    let states = sound.map(|rod| {
        (rod.label, state_at(job.base_of(column), option.raise, rod, rod.good_to(job.rods_plus_minus)))
    });
    let bad = states.into_iter().find(|(_, state)| matches!(state, State::Short | State::RunsOut));
    bad.map(|(rod, state)| (option.raise.nominal, rod, state))
}
