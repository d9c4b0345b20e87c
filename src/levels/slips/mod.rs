//! What a crew may have done wrong, as far as it shows: a foot or an inch misread, two columns swapped, the rod on the
//! wrong mark, a whole wall drifting one way, a check shot that does not come back.
//!
//! Nothing here changes an answer: every slip is a question to the crew, beside the readings that do not fit.

mod check_shot;
mod drift;
mod off_neighbours;
mod off_the_others;
mod round_amount;
mod seats_swapped;
mod swapped;
#[cfg(test)]
mod tests;
mod wrong_mark;

pub use round_amount::RoundAmount;

use super::adjust::Adjustment;
use super::global_test::GlobalTest;
use super::observation::Observation;
use super::posed::Posed;
use super::suspects::Suspect;
use crate::length::Length;
use crate::source::Place;
use std::collections::BTreeSet;

/// One thing a crew may have done wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Slip {
    /// What.
    pub kind: SlipKind,
    /// At which setup, an index into [`crate::model::Readings::setups`], where it is one.
    pub setup: Option<usize>,
    /// The points concerned, indices into [`crate::model::Readings::points`].
    pub points: Vec<usize>,
    /// The readings concerned, where they stand in the input.
    pub places: Vec<Place>,
    /// How large it is, without sign.
    pub size: Length,
}

/// What a crew may have done wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SlipKind {
    /// A reading that others check is off by a round amount.
    Misread(RoundAmount),
    /// A reading that nothing checks stands off its neighbours on the line by a round amount.
    OffNeighbours(RoundAmount),
    /// A reading that nothing checks stands off nearly all other pads by whole feet or metres.
    OffTheOthers(RoundAmount),
    /// The readings of two points were written down for each other.
    Swapped,
    /// Two pads that nothing checks come out at each other's design seat.
    SeatsSwapped,
    /// The rod stood on another point, one of these.
    WrongMark(Vec<usize>),
    /// The readings of a setup drift.
    Drift(Along),
    /// Pads along a line that nothing checks fall evenly; the line is an index into [`crate::model::Job::lines`].
    Falling(usize),
    /// A point that was read again from the same setup does not come back.
    CheckShot,
}

/// Along what the readings of a setup drift.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Along {
    /// In the order in which they were taken: the instrument settled or was touched.
    Time,
    /// Along a line of columns, an index into [`crate::model::Job::lines`].
    Line(usize),
    /// Over the plan, as a tilted instrument does.
    Plan,
}

/// Looks for what a crew may have done wrong.
///
/// Where two readings swapped, or a drift, explain the readings better than one bad reading does, that stands first.
pub(super) fn slips(
    posed: &Posed<'_>,
    adjustment: &Adjustment,
    test: Option<&GlobalTest>,
    suspects: &[Suspect],
) -> Vec<Slip> {
    let mut found = Vec::new();
    if let Some(bad) = Bad::of(posed, test, suspects) {
        found.extend(swapped::swapped(posed, adjustment, &bad));
        if found.is_empty() {
            found.extend(drift::drift(posed, &bad));
        }
        found.extend(suspects.iter().filter_map(|suspect| round_amount::misread(posed, suspect)));
        found.extend(wrong_mark::wrong_mark(posed, suspects));
    }
    found.extend(check_shot::check_shots(posed));
    let unchecked = Unchecked::of(posed, adjustment);
    found.extend(off_neighbours::off_neighbours(&unchecked));
    let others = off_the_others::off_the_others(&unchecked, &found);
    found.extend(others);
    found.extend(off_neighbours::falling(&unchecked));
    found.extend(seats_swapped::seats_swapped(&unchecked));
    found
}

/// Notes with a bad reading in them.
struct Bad {
    /// The statistic of all readings.
    all: f64,
    /// The statistic without the worst reading.
    without_worst: f64,
}

impl Bad {
    /// Takes the statistics where a reading is suspect or the test has failed; none where all is well.
    fn of(posed: &Posed<'_>, test: Option<&GlobalTest>, suspects: &[Suspect]) -> Option<Self> {
        let test = test?;
        if test.passed && suspects.is_empty() {
            return None;
        }
        let without_worst = suspects.first().map(|worst| {
            let left = without(&posed.observations, worst.place);
            posed.test(&posed.adjusted(&left), &left).map_or(0.0, |test| test.statistic)
        });
        Some(Self { all: test.statistic, without_worst: without_worst.unwrap_or(test.statistic) })
    }
}

/// Gives the observations without the one at a place.
fn without(observations: &[Observation], place: Place) -> Vec<Observation> {
    observations.iter().filter(|it| it.place != place).cloned().collect()
}

/// The heights of pads that no other reading checks.
struct Unchecked<'p, 'j> {
    posed: &'p Posed<'j>,
    /// Of each column: how far its pad stands above its own design seat, where its readings are not checked.
    departures: Vec<Option<Length>>,
}

impl<'p, 'j> Unchecked<'p, 'j> {
    fn of(posed: &'p Posed<'j>, adjustment: &Adjustment) -> Self {
        let judged = super::reliability::judged(adjustment, &posed.observations, posed.precision);
        let checked: BTreeSet<usize> =
            judged.iter().filter(|it| it.is_checked()).map(|it| posed.observations[it.index].point).collect();
        let departures = posed.job.columns.iter().map(|column| {
            let point = column.point?;
            let height = adjustment.points.get(point).copied().flatten()?;
            (!checked.contains(&point)).then(|| height.above_zero() - posed.job.design_seat(column))
        });
        Self { posed, departures: departures.collect() }
    }

    /// Gives what the difference of two readings is good to, at 95 %.
    fn good_to(&self) -> Length {
        Length::from_nm((self.posed.precision.unit * std::f64::consts::SQRT_2) as i64)
    }
}
