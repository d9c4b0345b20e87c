//! Sights, differences and elevations in one form.

use super::known::Known;
use super::rounding::up;
use super::sight::{apart, curvature_and_refraction, metres};
use super::slopes::parameter::{Parameter, Seen};
use crate::length::Length;
use crate::model::{Instrument, Job, Readings, Sense, Sight};
use crate::source::Place;

/// What a height was read from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum From {
    /// The line of sight of a setup.
    Line(usize),
    /// Another point.
    Point(usize),
    /// Zero: an elevation.
    Zero,
}

/// One thing that was observed: how far a point stands above a line of sight, another point, or zero.
#[derive(Clone, Debug)]
pub(super) struct Observation {
    /// What it counts from.
    pub(super) from: From,
    /// The point.
    pub(super) point: usize,
    /// The point above that (negative below), curvature and refraction taken off.
    pub(super) rise: Length,
    /// Its weight; that of a reading as good as the job says is 1.
    pub(super) weight: f64,
    /// What a nanometre a metre of each slope adds to the line at the point.
    pub(super) shares: Vec<(usize, f64)>,
    /// Which sight it is, an index into [`Readings::sights`].
    pub(super) sight: Option<usize>,
    /// Where it stands in the input.
    pub(super) place: Place,
}

/// How good the readings are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Precision {
    /// The half width at 95 % of a reading of weight 1, in nanometres.
    pub(super) unit: f64,
    /// Whether all is called exact, so that every +- is 0 and nothing can be tested.
    pub(super) exact: bool,
}

impl Precision {
    /// Takes the precision of a job's readings.
    ///
    /// Readings called good to +- 0 still need a weight against others that are not: they count as good to 1 nm.
    pub(super) fn of(readings: &Readings) -> Self {
        let stated = readings.elevations.iter().map(|it| it.plus_minus);
        let stated = stated.chain(readings.differences.iter().map(|it| it.plus_minus));
        let mut stated = stated.chain(readings.benchmarks.iter().map(|it| it.plus_minus));
        let by_instrument = readings.sights.iter().any(|sight| {
            let setup = readings.setups.get(sight.setup);
            let instrument = setup.and_then(|setup| readings.instruments.get(setup.instrument?));
            // one that grows with the sight is exact at no distance only
            instrument.is_some_and(|it| it.per_sight.is_some()) || half_width_of(readings, sight, None) > NONE
        });
        Self {
            unit: half_width(readings.plus_minus),
            exact: !by_instrument && !stated.any(|plus_minus| plus_minus > Length::ZERO),
        }
    }
}

/// What a reading that is called exact counts as good to, in nanometres.
const NONE: f64 = 1.0;

/// Gives a half width in nanometres, no less than 1.
pub(super) fn half_width(plus_minus: Length) -> f64 {
    (plus_minus.nm() as f64).max(NONE)
}

/// Gives what one sight is good to, at 95 %, in nanometres; `length` is that of the sight in metres, where known.
pub(super) fn half_width_of(readings: &Readings, sight: &Sight, length: Option<f64>) -> f64 {
    let setup = readings.setups.get(sight.setup);
    let instrument = setup.and_then(|setup| readings.instruments.get(setup.instrument?));
    match (instrument, length) {
        (None, _) => half_width(readings.plus_minus),
        (Some(instrument), None) => half_width(instrument.without_sight),
        (Some(instrument), Some(length)) => over(instrument, length),
    }
}

/// Gives what every sight is good to, at 95 %, in the order of reading, over its length where that is known.
///
/// # Units
/// Lengths, up to the next nanometre.
#[must_use]
pub fn sights_good_to(job: &Job) -> Vec<Length> {
    let plan = Plan::of(job);
    let readings = &job.readings;
    let good_to = |sight: &Sight| half_width_of(readings, sight, plan.length(readings, sight));
    let sights = readings.sights.iter().map(good_to);
    sights.map(|it| if it > NONE { up(it) } else { Length::ZERO }).collect()
}

/// Gives what one reading of an instrument is good to over a sight of so many metres, in nanometres.
pub(super) fn over(instrument: &Instrument, length: f64) -> f64 {
    let growing = instrument.per_sight.map_or(0.0, |per| per.rise.nm() as f64 / metres(per.run) * length);
    (instrument.reading.nm() as f64).hypot(growing).max(NONE)
}

/// Gives a reading's point above its line of sight: a lower reading on a rod is a higher point.
pub(super) fn rise(sense: Sense, reading: Length) -> Length {
    match sense {
        Sense::Rod => -reading,
        Sense::Height => reading,
    }
}

/// Lists what was observed: sights, differences, elevations, benchmarks that are not held, each in the order of reading.
///
/// Left out is the elevation that holds its point: it is a datum, not an observation.
pub(super) fn observations(
    job: &Job,
    known: &[Option<Known>],
    precision: Precision,
    slopes: &[Parameter],
) -> Vec<Observation> {
    let readings = &job.readings;
    let weight = |half_width: f64| (precision.unit / half_width).powi(2);
    let plan = Plan::of(job);
    let sights = readings.sights.iter().enumerate().filter_map(|(index, sight)| {
        let setup = readings.setups.get(sight.setup)?;
        let length = plan.length(readings, sight);
        let seen = Seen { setup: (sight.setup, setup), length, at: plan.off_middle(sight.point) };
        let shares = slopes.iter().map(|slope| slope.share(&seen)).enumerate();
        Some(Observation {
            from: From::Line(sight.setup),
            point: sight.point,
            rise: rise(readings.sense, sight.reading) + length.map_or(Length::ZERO, curvature_and_refraction),
            weight: weight(half_width_of(readings, sight, length)),
            shares: shares.filter(|(_, share)| *share != 0.0).collect(),
            sight: Some(index),
            place: sight.place,
        })
    });
    let plain = |from: From, point: usize, rise: Length, plus_minus: Length, place: Place| Observation {
        from,
        point,
        rise,
        weight: weight(half_width(plus_minus)),
        shares: Vec::new(),
        sight: None,
        place,
    };
    let differences = readings
        .differences
        .iter()
        .map(|it| plain(From::Point(it.from), it.to, it.difference, it.plus_minus, it.place));
    let elevations = readings.elevations.iter().enumerate().filter(|(index, reading)| {
        let known = known.get(reading.point).copied().flatten();
        !known.is_some_and(|known| known.held && known.given_by == Some(*index))
    });
    let elevations =
        elevations.map(|(_, it)| plain(From::Zero, it.point, it.elevation, it.plus_minus, it.place));
    let benchmarks = readings
        .benchmarks
        .iter()
        .filter(|it| it.plus_minus > Length::ZERO)
        .map(|it| plain(From::Zero, it.point, it.elevation, it.plus_minus, it.place));
    sights.chain(differences).chain(elevations).chain(benchmarks).collect()
}

/// Where points and instruments stand.
pub(super) struct Plan {
    positions: Vec<Option<[Length; 2]>>,
    middle: [Length; 2],
}

impl Plan {
    /// Takes the positions of a job; the middle is that of all that were sighted.
    pub(super) fn of(job: &Job) -> Self {
        let positions = job.positions();
        let sighted = job.readings.sights.iter().filter_map(|sight| *positions.get(sight.point)?);
        let mut ends: Option<[[Length; 2]; 2]> = None;
        for [x, y] in sighted {
            let [low, high] = ends.unwrap_or([[x, y]; 2]);
            ends = Some([[low[0].min(x), low[1].min(y)], [high[0].max(x), high[1].max(y)]]);
        }
        let [low, high] = ends.unwrap_or_default();
        let middle = |axis: usize| Length::from_nm((low[axis].nm() + high[axis].nm()) / 2);
        Self { positions, middle: [middle(0), middle(1)] }
    }

    fn at(&self, point: usize) -> Option<[Length; 2]> {
        self.positions.get(point).copied().flatten()
    }

    /// Gives where a point stands from the middle, in metres.
    pub(super) fn off_middle(&self, point: usize) -> Option<[f64; 2]> {
        let [x, y] = self.at(point)?;
        Some([metres(x - self.middle[0]), metres(y - self.middle[1])])
    }

    /// Gives the length of a sight in metres: as measured, or between the instrument and the point in plan.
    pub(super) fn length(&self, readings: &Readings, sight: &Sight) -> Option<f64> {
        if let Some(distance) = sight.distance {
            return Some(metres(distance));
        }
        let stands = readings.setups.get(sight.setup)?.at?;
        Some(apart(stands, self.at(sight.point)?))
    }
}
