//! The arithmetic at one rod: what stands beyond the nut, and what thread is left under it.

use super::base::Base;
use super::column::Rod;
use super::raise::Raise;
use crate::length::Length;
use serde::{Deserialize, Serialize};

/// What is certain about the nuts on a rod; only `full` is a pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum State {
    /// Every nut full, and the thread wanted beyond, at the worst of all parts.
    Full,
    /// Nuts full, less thread beyond than wanted.
    Scant,
    /// Too close to call within the parts and the reading.
    Unsure,
    /// A nut is not full, whatever the parts.
    Short,
    /// The thread runs out under the nut with every allowed washer.
    RunsOut,
    /// The projection was not measured.
    Unmeasured,
}

/// A part of a whole, exact.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Share {
    /// The part.
    pub part: Length,
    /// The whole.
    pub whole: Length,
}

/// The figures at one rod.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StackUp {
    /// What is certain about the nuts.
    pub state: State,
    /// Rod above the outer nut, parts at their nominal.
    pub beyond: Option<Length>,
    /// Rod above the outer nut, parts and shims at their most.
    pub beyond_worst: Option<Length>,
    /// Thread left under the nut, parts and shims at their least; unknown without a measured thread.
    pub thread_left: Option<Length>,
    /// For each nut from the plate up, how much of its height is on thread.
    pub engaged: Vec<Share>,
    /// Washers added under the nut.
    pub extra_washers: u32,
}

/// Works out one rod at a raise.
///
/// `plus_minus` is what one projection is good to, at 95 %.
///
/// # Units
/// Exact nanometres throughout; nothing is rounded.
///
/// # Example
/// beyond = p - h - t - W - H; thread left = L - c - (p - h - t - W).
#[must_use]
pub fn stack_up(base: &Base, raise: Raise, rod: &Rod, plus_minus: Length) -> StackUp {
    let Some(projection) = rod.projection else {
        return StackUp {
            state: State::Unmeasured,
            beyond: None,
            beyond_worst: None,
            thread_left: None,
            engaged: Vec::new(),
            extra_washers: 0,
        };
    };
    let Settled { state, extra, beyond, worst, left } = settle(base, raise, rod, projection, plus_minus);
    let washers = base.washers_with(extra);
    let above = projection - raise.nominal - base.plate.thickness.nominal - washers.nominal;
    StackUp {
        state,
        beyond: Some(beyond),
        beyond_worst: Some(worst),
        thread_left: left,
        engaged: engaged(base, above, rod.thread),
        extra_washers: extra,
    }
}

/// Tells what is certain about the nuts on a rod at a raise: the state of [`stack_up`], without its figures.
#[must_use]
pub fn state_at(base: &Base, raise: Raise, rod: &Rod, plus_minus: Length) -> State {
    rod.projection
        .map_or(State::Unmeasured, |projection| settle(base, raise, rod, projection, plus_minus).state)
}

struct Settled {
    state: State,
    extra: u32,
    beyond: Length,
    worst: Length,
    left: Option<Length>,
}

/// Adds the fewest washers that leave thread under the nut, and judges what stands beyond it.
fn settle(base: &Base, raise: Raise, rod: &Rod, projection: Length, plus_minus: Length) -> Settled {
    let left = |extra: u32| {
        let thread = rod.thread?;
        let washers = base.washers_with(extra).least;
        let under_nut = projection - raise.least - base.plate.thickness.least - washers;
        Some(thread - base.clear.value - under_nut)
    };
    let enough = |extra: &u32| left(*extra).is_none_or(|left| left - plus_minus >= Length::ZERO);
    let most_extra = base.extra_allowed();
    let fewest = (0..=most_extra).find(enough);
    let extra = fewest.unwrap_or(most_extra);
    let washers = base.washers_with(extra);
    let nuts = base.nuts_sum();
    let plate = base.plate.thickness;
    let beyond = projection - raise.nominal - plate.nominal - washers.nominal - nuts.nominal;
    let worst = projection - raise.most - plate.most - washers.most - nuts.most;
    let state = if fewest.is_none() {
        State::RunsOut
    } else if worst - base.beyond.value - plus_minus >= Length::ZERO {
        State::Full
    } else if worst - plus_minus >= Length::ZERO {
        State::Scant
    } else if beyond + plus_minus < Length::ZERO {
        State::Short
    } else {
        State::Unsure
    };
    Settled { state, extra, beyond, worst, left: left(extra) }
}

/// Gives each nut's share on thread; `above` is the rod above the underside of the first nut.
fn engaged(base: &Base, above: Length, thread: Option<Length>) -> Vec<Share> {
    let thread_from = thread.map_or(Length::ZERO, |thread| (above - thread).max(Length::ZERO));
    let mut under = Length::ZERO;
    let mut shares = Vec::with_capacity(base.nuts.len());
    for nut in &base.nuts {
        let top = under + nut.height.nominal;
        let part = (top.min(above) - under.max(thread_from)).max(Length::ZERO);
        shares.push(Share { part, whole: nut.height.nominal });
        under = top;
    }
    shares
}

/// Gives what every rod must stand above the pad to be `full` at a raise, most parts, so many extra washers.
#[must_use]
pub fn needed_projection(base: &Base, raise: Raise, extra_washers: u32, plus_minus: Length) -> Length {
    raise.most
        + base.plate.thickness.most
        + base.washers_with(extra_washers).most
        + base.nuts_sum().most
        + base.beyond.value
        + plus_minus
}
