//! Sights and elevations in one form.

use super::known::Known;
use crate::length::Length;
use crate::model::{Readings, Sense};
use crate::source::Place;

/// One thing that was observed: how far a point stands above a line of sight, or above zero.
#[derive(Clone, Copy, Debug)]
pub(super) struct Observation {
    /// The setup whose line of sight it counts from; none for an elevation.
    pub(super) setup: Option<usize>,
    /// The point.
    pub(super) point: usize,
    /// The point above the line (negative below), or its elevation.
    pub(super) rise: Length,
    /// Its weight; that of a sight is 1.
    pub(super) weight: f64,
    /// Where it stands in the input.
    pub(super) place: Place,
}

/// How good the readings are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Precision {
    /// The half width at 95 % of a reading of weight 1, in nanometres.
    pub(super) unit: f64,
    /// Whether the readings are called exact, so that every +- is 0 and nothing can be tested.
    pub(super) exact: bool,
}

impl Precision {
    /// Takes the precision of a job's readings.
    ///
    /// Readings called good to +- 0 still need a weight against elevations that are
    /// not: they count as good to 1 nm.
    pub(super) fn of(readings: &Readings) -> Self {
        let by_elevation = readings.elevations.iter().any(|it| it.plus_minus > Length::ZERO);
        Self {
            unit: half_width(readings.plus_minus),
            exact: readings.plus_minus <= Length::ZERO && !by_elevation,
        }
    }
}

fn half_width(plus_minus: Length) -> f64 {
    plus_minus.nm().max(1) as f64
}

/// Gives a reading's point above its line of sight: a lower reading on a rod is a higher point.
pub(super) fn rise(sense: Sense, reading: Length) -> Length {
    match sense {
        Sense::Rod => -reading,
        Sense::Height => reading,
    }
}

/// Lists what was observed, the sights first, both in the order of reading.
///
/// Left out is the elevation that holds its point: it is a datum, not an observation.
pub(super) fn observations(
    readings: &Readings,
    known: &[Option<Known>],
    precision: Precision,
) -> Vec<Observation> {
    let sights = readings.sights.iter().map(|sight| Observation {
        setup: Some(sight.setup),
        point: sight.point,
        rise: rise(readings.sense, sight.reading),
        weight: 1.0,
        place: sight.place,
    });
    let elevations = readings.elevations.iter().enumerate();
    let elevations = elevations.filter(|(index, reading)| {
        let known = known.get(reading.point).copied().flatten();
        !known.is_some_and(|known| known.held && known.given_by == Some(*index))
    });
    let elevations = elevations.map(|(_, reading)| Observation {
        setup: None,
        point: reading.point,
        rise: reading.elevation,
        weight: (precision.unit / half_width(reading.plus_minus)).powi(2),
        place: reading.place,
    });
    sights.chain(elevations).collect()
}
