//! Twelve pads on a grid of 4 by 3, 7.5 and 9 m apart, read from up to three places: the notes of several tests.
//!
//! The places, the noise of a reading (0.5 mm and 0.02 mm a metre) and the true heights are those of an experiment
//! made with numpy and scipy, whose figures the tests give.

use super::sample::Notes;
use crate::length::{Length, Unit};
use crate::model::{Instrument, LineOfSight, Slope, Tilt};

/// Where the pads stand, in metres.
pub(in crate::levels) fn pads() -> Vec<[f64; 2]> {
    (0..12).map(|pad| [f64::from(pad % 4) * 7.5, f64::from(pad / 4) * 9.0]).collect()
}

/// Where the instrument stood, in metres.
pub(in crate::levels) const PLACES: [[f64; 2]; 3] = [[5.0, -6.0], [19.0, 25.0], [-7.0, 10.0]];

/// Writes metres to the nanometre.
pub(in crate::levels) fn m(metres: f64) -> String {
    format!("{metres:.9} m")
}

/// Gives so many millimetres over a metre.
pub(in crate::levels) fn mm_a_metre(mm: f64) -> Slope {
    Slope { rise: Length::from_nm((mm * 1e6).round() as i64), run: Length::from_nm(1_000_000_000) }
}

/// Makes the instrument: a standard deviation of 0.5 mm, and 0.02 mm a metre.
pub(in crate::levels) fn instrument(line: LineOfSight, tilt: Tilt) -> Instrument {
    let reading = Length::from_nm((1.96 * 0.5e6) as i64);
    Instrument {
        name: "A".to_owned(),
        kind: None,
        reading,
        per_sight: Some(mm_a_metre(1.96 * 0.02)),
        without_sight: reading,
        line,
        tilt,
    }
}

/// A line of sight whose slope is found from the readings.
pub(in crate::levels) fn found() -> LineOfSight {
    LineOfSight::Found { stated: None, pegs: Vec::new() }
}

/// Starts notes with the pads in their places, read by this instrument.
pub(in crate::levels) fn notes(instrument: Instrument) -> Notes {
    let names: Vec<String> = (0..12).map(|pad| format!("P{pad}")).collect();
    let marks: Vec<&str> = names.iter().map(String::as_str).collect();
    let notes = Notes::of(Unit::Metre).instrument(instrument).columns(&marks);
    pads().iter().zip(&names).fold(notes, |notes, ([x, y], name)| notes.stands(name, &m(*x), &m(*y)))
}

/// Adds a setup that reads some pads, all at one height.
pub(in crate::levels) fn reads(
    notes: Notes,
    setup: usize,
    at: [f64; 2],
    pads: impl IntoIterator<Item = usize>,
) -> Notes {
    let name = setup.to_string();
    let notes = pads.into_iter().fold(notes, |notes, pad| notes.sight(&name, &format!("P{pad}"), "1.5 m"));
    notes.set(&name, |setup| {
        setup.instrument = Some(0);
        setup.at = Some(at.map(|it| Length::from_nm((it * 1e9) as i64)));
    })
}
