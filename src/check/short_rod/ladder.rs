//! What may be done about a rod that is not full without touching it, in numbers: a lower seat, a thinner washer.

use crate::catalog::Authority;
use crate::catalog::{Catalog, Extent, Standing, Washer};
use crate::check::case::{Case, ColumnCase, RodCase};
use crate::check::difference::DifferenceKind;
use crate::check::rules::{Cover, cover};
use crate::length::Length;
use crate::model::{Base, Interval, Raise, Rod, State, WasherPart, allowed_raises, intersect, state_at};

/// What may be done, in the order in which it is to be thought of.
#[derive(Clone, Debug)]
pub struct Ladder {
    /// A lower seat; none where the rod, or another measured one, is full at no lower raise.
    pub lower: Option<Lower>,
    /// Thinner washers that cover the hole; none where the hole in the plate is not given.
    pub washers: Option<Vec<Thinner>>,
    /// How far a coupling nut must reach over each of two rods: one rod diameter, by a rule of thumb.
    pub coupling: Length,
}

/// How far the plate must come down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lower {
    /// By how much.
    pub by: Length,
    /// The highest raise at which the nut is full, shim tolerance apart; below the pad where negative.
    pub to: Length,
    /// Whether every other measured sound rod is full there too; if not, only this rod was looked at.
    pub all_rods: bool,
    /// The lowest raise that the limits leave with all other seats as planned; none where nothing limits it.
    pub lowest: Option<Length>,
    /// Whether some limit could not be looked at because a pad is not measured or is referred.
    pub unknown: bool,
}

/// A thinner washer.
#[derive(Clone, Debug)]
pub struct Thinner {
    /// The series it takes the place of.
    pub instead_of: String,
    /// Its series.
    pub series: String,
    /// How much more rod stands above the nut, both washers at their most.
    pub gain: Length,
    /// The state of the rod with it.
    pub state: State,
    /// On whose word its thickness stands.
    pub authority: Authority,
    /// On whose word it may stand over this hole.
    pub over_hole: Authority,
}

/// Works out what may be done about one rod.
pub(super) fn ladder(case: &Case<'_>, column: &ColumnCase, rod: &RodCase, catalog: &Catalog) -> Ladder {
    let base = case.base(column.index);
    let of_job = case.column(column.index).rods.iter().find(|it| it.label == rod.label);
    let raise = column.raise.unwrap_or(Raise::exact(Length::ZERO));
    Ladder {
        lower: of_job.and_then(|of_job| lower(case, column, of_job, rod, raise)),
        washers: cover(base)
            .zip(of_job)
            .map(|(cover, of_job)| thinner(base, of_job, rod.plus_minus, raise, catalog, &cover)),
        coupling: base.rods.diameter,
    }
}

fn lower(case: &Case<'_>, column: &ColumnCase, of_job: &Rod, rod: &RodCase, raise: Raise) -> Option<Lower> {
    let alone = allowed_raises(case.base(column.index), of_job, rod.plus_minus)?;
    let together = column.allowed.as_ref().map(|all| intersect(all, &alone)).unwrap_or_default();
    let below = |all: &[Interval]| highest_below(all, raise);
    let (to, all_rods) = match below(&together) {
        Some(to) => (to, true),
        None => (below(&alone)?, false),
    };
    let (lowest, unknown) = lowest(case, column);
    Some(Lower { by: raise.most - to, to, all_rods, lowest, unknown })
}

/// Gives the highest raise of a union of intervals that is no higher than the plate may stand now.
fn highest_below(all: &[Interval], raise: Raise) -> Option<Length> {
    let reached = all.iter().filter(|it| it.low.is_none_or(|low| low <= raise.most));
    reached.map(|it| it.high.map_or(raise.most, |high| high.min(raise.most))).max()
}

/// Gives the lowest raise that the limits leave a column, and whether some limit could not be looked at.
///
/// All other seats stay as planned. For a referred column it is what the plan says of its seat.
fn lowest(case: &Case<'_>, column: &ColumnCase) -> (Option<Length>, bool) {
    let Some((raise, own)) = column.raise.zip(column.seat_departure) else {
        let range = case.raise_range(column);
        return (range.and_then(|range| range.low), range.is_none());
    };
    let (mut room, mut unknown) = (None::<Length>, false);
    for it in case.differences.iter().filter(|it| it.columns.contains(&column.index)) {
        let highest = if it.kind == DifferenceKind::Design {
            Some(Length::ZERO)
        } else {
            let others = it.columns.iter().filter(|&&index| index != column.index);
            let departures: Vec<Option<Length>> =
                others.map(|&index| case.columns.get(index).and_then(|other| other.seat_departure)).collect();
            unknown |= departures.iter().any(Option::is_none);
            departures.into_iter().flatten().max()
        };
        if let Some(highest) = highest {
            let left = own - (highest - it.limit);
            room = Some(room.map_or(left, |room| room.min(left)));
        }
    }
    (room.map(|room| raise.nominal - room), unknown)
}

fn thinner(
    base: &Base,
    rod: &Rod,
    plus_minus: Length,
    raise: Raise,
    catalog: &Catalog,
    cover: &Cover,
) -> Vec<Thinner> {
    let mut found: Vec<Thinner> = Vec::new();
    for (at, old) in base.washers.iter().enumerate() {
        for table in &catalog.washers {
            let Some(washer) = table.row(base.rods.diameter) else { continue };
            let gain = old.thickness.most - washer.thickness.most;
            if table.name == old.series || gain <= Length::ZERO || !covers(cover, washer) {
                continue;
            }
            let mut with = base.clone();
            with.washers[at] = WasherPart {
                series: table.name.clone(),
                thickness: washer.thickness,
                outer: washer.outer,
                authority: washer.authority.clone(),
            };
            let state = state_at(&with, raise, rod, plus_minus);
            let (series, authority) = (table.name.clone(), washer.authority.clone());
            let over_hole = over_hole(base, cover);
            found.push(Thinner { instead_of: old.series.clone(), series, gain, state, authority, over_hole });
        }
    }
    found.sort_by(|a, b| a.gain.cmp(&b.gain).then_with(|| a.series.cmp(&b.series)));
    found
}

/// Tells whether a washer is as wide and as thick as the hole asks; what is not known is neither.
fn covers(cover: &Cover, washer: &Washer) -> bool {
    let Extent { nominal, .. } = washer.thickness;
    washer.outer.is_some_and(|outer| outer >= cover.outer.0)
        && cover.thickness.as_ref().is_none_or(|(needed, _)| nominal >= *needed)
}

/// Gives on whose word a washer may stand over the hole: the weakest word of those it rests on.
fn over_hole(base: &Base, cover: &Cover) -> Authority {
    match (&cover.thickness, &base.plain_washer) {
        (Some((_, authority)), _) => authority.clone(),
        (None, Some(plain)) if plain.authority.kind == Standing::FromMemory => plain.authority.clone(),
        _ => cover.outer.1.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_next_raise_down_is_the_highest_that_an_interval_reaches() {
        let nm = Length::from_nm;
        let interval = |low: Option<i64>, high: i64| Interval { low: low.map(nm), high: Some(nm(high)) };
        let at = Raise::exact(nm(10));
        assert_eq!(highest_below(&[interval(None, 4)], at), Some(nm(4)));
        assert_eq!(highest_below(&[interval(Some(-9), -3), interval(Some(2), 4)], at), Some(nm(4)));
        assert_eq!(highest_below(&[interval(Some(-9), -3), interval(Some(12), 14)], at), Some(nm(-3)));
        assert_eq!(highest_below(&[interval(Some(12), 14)], at), None, "full only higher up: another matter");
        assert_eq!(highest_below(&[], at), None);
    }
}
