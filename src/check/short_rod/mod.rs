//! A rod whose nut is not full: how much of each nut is on thread, what is published of that, and what may be done.
//!
//! Facts for the engineer. Nothing here is a verdict: only `full` is a pass, and it is not at hand.

mod ladder;
mod published;

pub use ladder::{Ladder, Lower, Thinner};
pub use published::{Asked, Published, Said};

use super::case::{Case, ColumnCase, RodCase};
use crate::catalog::Catalog;
use crate::length::Length;
use crate::model::{Base, Raise, RodLabel, Share, State};

/// What is known of one rod that is not full.
#[derive(Clone, Debug)]
pub struct ShortRod {
    /// Which rod.
    pub rod: RodLabel,
    /// Its state: short, unsure or scant.
    pub state: State,
    /// Whether the column is referred, so that the figures are those of the plate left on its pad.
    pub referred: bool,
    /// Whether its thread was measured; if not, all of the rod above the pad is taken for thread.
    pub thread_measured: bool,
    /// For each nut from the plate up, the share of its height on thread, parts at their nominal.
    pub nuts: Vec<Share>,
    /// The same with every part at its most and the reading at its lowest.
    pub nuts_worst: Vec<Share>,
    /// What each publication says of the outer nut.
    pub published: Vec<Published>,
    /// What may be done without touching the rod, and what the engineer may decide.
    pub ladder: Ladder,
}

/// Gives the rods of a column that are short, unsure or scant.
///
/// A rod whose thread runs out is none of them: there the nut does not come down on its washer at all.
#[must_use]
pub fn short_rods(case: &Case<'_>, column: &ColumnCase, catalog: &Catalog) -> Vec<ShortRod> {
    let not_full = column
        .rods
        .iter()
        .filter(|rod| matches!(rod.result.state, State::Short | State::Unsure | State::Scant));
    not_full.filter_map(|rod| short_rod(case, column, rod, catalog)).collect()
}

fn short_rod(case: &Case<'_>, column: &ColumnCase, rod: &RodCase, catalog: &Catalog) -> Option<ShortRod> {
    let base = case.base(column.index);
    let at = Reached::of(base, column.raise.unwrap_or(Raise::exact(Length::ZERO)), rod)?;
    Some(ShortRod {
        rod: rod.label,
        state: rod.result.state,
        referred: column.raise.is_none(),
        thread_measured: rod.thread.is_some(),
        nuts: rod.result.engaged.clone(),
        nuts_worst: at.nuts_worst,
        published: published::all(base, &at.outer, rod.thread.is_some()),
        ladder: ladder::ladder(case, column, rod, catalog),
    })
}

/// The outer nut of a rod: what the publications speak of.
#[derive(Clone, Copy, Debug)]
struct Outer {
    /// Rod above it, every part at its most and the reading at its lowest; negative where the rod ends below its top.
    worst: Length,
    /// The same at nominal parts with the reading at its highest.
    best: Length,
    /// Its height.
    height: Length,
    /// Its height at its most.
    height_most: Length,
}

/// How far a rod reaches into its nuts.
struct Reached {
    outer: Outer,
    nuts_worst: Vec<Share>,
}

impl Reached {
    fn of(base: &Base, raise: Raise, rod: &RodCase) -> Option<Self> {
        let (beyond, worst) = (rod.result.beyond?, rod.result.beyond_worst? - rod.plus_minus);
        let height = base.nuts.last()?.height;
        let washers = base.washers_with(rod.result.extra_washers).most;
        let above = rod.projection? - rod.plus_minus - raise.most - base.plate.thickness.most - washers;
        Some(Self {
            outer: Outer {
                worst,
                best: beyond + rod.plus_minus,
                height: height.nominal,
                height_most: height.most,
            },
            nuts_worst: shares(base.nuts.iter().map(|nut| nut.height.most), above),
        })
    }
}

/// Gives the share of each nut below the top of a rod that stands so far above the underside of the first.
fn shares(heights: impl Iterator<Item = Length>, above: Length) -> Vec<Share> {
    let mut under = Length::ZERO;
    let of_one = |height: Length| {
        let part = (above - under).max(Length::ZERO).min(height);
        under = under + height;
        Share { part, whole: height }
    };
    heights.map(of_one).collect()
}
