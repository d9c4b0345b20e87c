//! What an instrument may do to all its readings: a line of sight that slopes, a plane that is tilted.

use crate::model::{Instrument, Job, LineOfSight, Setup, Tilt};

/// A slope that is found from the readings along with the heights.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Parameter {
    /// The slope of an instrument's line of sight, an index into [`crate::model::Readings::instruments`].
    Slope(usize),
    /// The tilt of the plane a setup sweeps, along x or y; an index into [`crate::model::Readings::setups`].
    Tilt(usize, Axis),
    /// The tilt that goes with the body of an instrument, along its own x or y.
    BodyTilt(usize, Axis),
}

/// A direction in plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Axis {
    /// Along x.
    X,
    /// Along y.
    Y,
}

/// Lists the slopes that are to be found; `on_datum` tells the setups that count.
pub(in crate::levels) fn parameters(job: &Job, on_datum: impl Fn(usize) -> bool) -> Vec<Parameter> {
    let readings = &job.readings;
    let setups = || readings.setups.iter().enumerate().filter(|(setup, _)| on_datum(*setup));
    let mut found = Vec::new();
    for (index, instrument) in readings.instruments.iter().enumerate() {
        if !setups().any(|(_, setup)| setup.instrument == Some(index)) {
            continue;
        }
        if instrument.line != LineOfSight::Level {
            found.push(Parameter::Slope(index));
        }
        if instrument.tilt != Tilt::Level {
            found.extend([Axis::X, Axis::Y].map(|axis| Parameter::BodyTilt(index, axis)));
        }
    }
    for (index, setup) in setups() {
        if setup.tilt != Tilt::Level {
            found.extend([Axis::X, Axis::Y].map(|axis| Parameter::Tilt(index, axis)));
        }
    }
    found
}

/// One sight as the slopes see it.
#[derive(Clone, Copy, Debug)]
pub(in crate::levels) struct Seen<'a> {
    /// The setup, an index into [`crate::model::Readings::setups`].
    pub(in crate::levels) setup: (usize, &'a Setup),
    /// Its length in metres, where known.
    pub(in crate::levels) length: Option<f64>,
    /// Where its point stands from the middle of the plan, in metres, where known.
    pub(in crate::levels) at: Option<[f64; 2]>,
}

impl Parameter {
    /// Gives how much one nanometre a metre of this slope adds to the line of sight at the point.
    pub(in crate::levels) fn share(self, seen: &Seen<'_>) -> f64 {
        let (index, setup) = seen.setup;
        let [x, y] = seen.at.unwrap_or_default();
        match self {
            Self::Slope(instrument) if setup.instrument == Some(instrument) => seen.length.unwrap_or(0.0),
            Self::Tilt(tilted, axis) if tilted == index => match axis {
                Axis::X => x,
                Axis::Y => y,
            },
            Self::BodyTilt(instrument, axis) if setup.instrument == Some(instrument) => {
                let (sine, cosine) = turn(setup.turned);
                match axis {
                    Axis::X => x * cosine + y * sine,
                    Axis::Y => y * cosine - x * sine,
                }
            }
            _ => 0.0,
        }
    }

    /// Gives what is said of this tilt beforehand.
    pub(in crate::levels) fn level_to(self, instruments: &[Instrument], setups: &[Setup]) -> Tilt {
        match self {
            Self::Slope(_) => Tilt::Level,
            Self::Tilt(setup, _) => setups.get(setup).map_or(Tilt::Level, |setup| setup.tilt),
            Self::BodyTilt(instrument, _) => instruments.get(instrument).map_or(Tilt::Level, |it| it.tilt),
        }
    }
}

/// Gives sine and cosine of a turn in degrees, the quarters exact.
fn turn(degrees: i64) -> (f64, f64) {
    match degrees.rem_euclid(360) {
        0 => (0.0, 1.0),
        90 => (1.0, 0.0),
        180 => (0.0, -1.0),
        270 => (-1.0, 0.0),
        other => (other as f64).to_radians().sin_cos(),
    }
}
