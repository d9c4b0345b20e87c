//! A test vector with one tilted setup, and what becomes of it when the tilt is left out.

use super::grid::{PLACES, instrument, m, mm_a_metre, notes};
use super::sample::Notes;
use crate::length::{Bare, Length, Unit, read};
use crate::levels::reduce;
use crate::levels::{Axis, Levelled, Parameter};
use crate::model::{Instrument, Job, LineOfSight, Tilt};
use approx::assert_abs_diff_eq;

/// Readings in millimetres of two setups on twelve pads, generated with numpy (seed 20240611) from known heights,
/// the second setup tilted by 0.15 and -0.10 mm/m.
const READINGS: [[f64; 12]; 2] = [
    [
        1500.286, 1501.575, 1497.332, 1508.943, 1496.462, 1501.264, 1503.316, 1497.247, 1509.983, 1500.135,
        1503.287, 1497.164,
    ],
    [
        1436.205, 1439.163, 1434.199, 1448.701, 1432.681, 1435.956, 1441.218, 1436.247, 1443.264, 1434.471,
        1440.306, 1433.384,
    ],
];

/// Heights of pads 1 to 11 above pad 0 with their standard deviations (millimetres), as numpy found them from the
/// dense whitened matrix.
const HEIGHTS: [(f64, f64); 11] = [
    (-1.459_501, 0.614_220),
    (3.459_224, 0.637_850),
    (-8.829_687, 0.695_814),
    (3.237_995, 0.640_214),
    (-0.403_873, 0.626_081),
    (-3.447_691, 0.646_592),
    (2.606_124, 0.710_221),
    (-9.483_373, 0.709_793),
    (0.439_921, 0.691_904),
    (-3.693_093, 0.715_325),
    (3.726_915, 0.787_186),
];

/// The readings as they are, without curvature and refraction: the dense solution has none.
fn vector(instrument: Instrument) -> Notes {
    let mut notes = notes(instrument);
    for (setup, readings) in READINGS.iter().enumerate() {
        let name = setup.to_string();
        for (pad, reading) in readings.iter().enumerate() {
            let [x, y] = super::grid::pads()[pad];
            let length = (x - PLACES[setup][0]).hypot(y - PLACES[setup][1]);
            // what the program takes off for curvature and refraction is put on before
            let known = crate::levels::sight::curvature_and_refraction(length);
            let reading = read(&format!("{reading:.3} mm"), Bare::of(Unit::Metre)).unwrap() + known;
            notes = notes.sight_over(&name, &format!("P{pad}"), &m(reading.nm() as f64 / 1e9), &m(length));
        }
        notes = notes.set(&name, |setup| setup.instrument = Some(0));
    }
    notes
}

fn height(job: &Job, levelled: &Levelled, pad: usize) -> f64 {
    let elevation = |pad: usize| levelled.height(job.columns[pad].point.unwrap()).unwrap().elevation;
    (elevation(pad) - elevation(0)).nm() as f64 / 1e6
}

#[test]
fn the_vector_with_a_tilt_comes_out_to_a_ten_thousandth_of_a_millimetre() {
    let notes = vector(instrument(LineOfSight::Level, Tilt::Level)).set("1", |setup| setup.tilt = Tilt::Free);
    let job = notes.job();
    let levelled = reduce(&job);
    for (pad, (wanted, deviation)) in (1..).zip(HEIGHTS) {
        assert_abs_diff_eq!(height(&job, &levelled, pad), wanted, epsilon = 1e-4);
        let point = |pad: usize| job.columns[pad].point.unwrap();
        let found = levelled.difference_plus_minus(point(pad), point(0)).unwrap().nm() as f64 / 1.96e6;
        assert_abs_diff_eq!(found, deviation, epsilon = 1e-4);
    }
    let slope = |axis: Axis| {
        let found = levelled.slopes().iter().find(|it| it.slope == Parameter::Tilt(1, axis)).unwrap();
        let a_metre = |it: crate::model::Slope| it.rise.nm() as f64 / it.run.nm() as f64 * 1e3;
        (a_metre(found.value), a_metre(found.plus_minus.unwrap()) / 1.96)
    };
    for (axis, value, deviation) in [(Axis::X, 0.151_826, 0.032_025), (Axis::Y, -0.126_660, 0.036_231)] {
        assert_abs_diff_eq!(slope(axis).0, value, epsilon = 1e-6);
        assert_abs_diff_eq!(slope(axis).1, deviation, epsilon = 1e-6);
    }
    // the lines of sight over the middle of the grid, above pad 0
    let pad_0 = levelled.height(job.columns[0].point.unwrap()).unwrap().elevation;
    for (setup, wanted) in [1_500.262_168, 1_436.829_076].into_iter().enumerate() {
        let line: Length = levelled.lines()[setup].height.unwrap() - pad_0;
        assert_abs_diff_eq!(line.nm() as f64 / 1e6, wanted, epsilon = 1e-4);
    }
    let test = levelled.test().unwrap();
    assert_eq!(levelled.redundancy(), 9);
    assert_abs_diff_eq!(test.statistic, 11.552_016, epsilon = 1e-5);
    assert_abs_diff_eq!(test.upper, 19.0228, epsilon = 6e-5);
    assert!(test.passed);
}

/// The same readings with the tilt left out fail: 46.247 where 21.92 passes.
#[test]
fn the_vector_without_its_tilt_fails_the_test() {
    let levelled = reduce(&vector(instrument(LineOfSight::Level, Tilt::Level)).job());
    let test = levelled.test().unwrap();
    assert_eq!(levelled.redundancy(), 11);
    assert_abs_diff_eq!(test.statistic, 46.247, epsilon = 6e-4);
    assert_abs_diff_eq!(test.upper, 21.9200, epsilon = 6e-5);
    assert!(!test.passed);
}

/// Readings without any noise of an instrument whose own plane is tilted by 0.30 along its x and -0.20 mm/m along its y,
/// its body turned by so many degrees at the second place.
fn body(turned: i64) -> Notes {
    let mut notes = notes(instrument(LineOfSight::Level, Tilt::Free));
    for (setup, turn) in [0, turned].into_iter().enumerate() {
        let (sine, cosine) = (turn as f64).to_radians().sin_cos();
        let name = setup.to_string();
        for (pad, [x, y]) in super::grid::pads().into_iter().enumerate() {
            // where the pad stands as the body sees it
            let (own_x, own_y) = (x * cosine + y * sine, y * cosine - x * sine);
            let height = f64::from(pad as u32 % 5) * -1.7;
            let reading = 1_500.0 + 40.0 * setup as f64 - height + 0.30 * own_x - 0.20 * own_y;
            notes = notes.sight(&name, &format!("P{pad}"), &format!("{reading:.6} mm"));
        }
        notes = notes.set(&name, |setup| {
            setup.instrument = Some(0);
            setup.turned = turn;
        });
    }
    notes
}

#[test]
fn a_tilt_that_turns_with_the_body_is_found_whichever_way_it_was_turned() {
    for turned in [180, 90, 30, -120] {
        let job = body(turned).job();
        let levelled = reduce(&job);
        let found: Vec<f64> = levelled
            .slopes()
            .iter()
            .map(|it| it.value.rise.nm() as f64 / it.value.run.nm() as f64 * 1e3)
            .collect();
        assert_abs_diff_eq!(found[0], 0.30, epsilon = 1e-6);
        assert_abs_diff_eq!(found[1], -0.20, epsilon = 1e-6);
        for pad in 1..12 {
            assert_abs_diff_eq!(
                height(&job, &levelled, pad),
                f64::from(pad as u32 % 5) * -1.7,
                epsilon = 1e-5
            );
        }
    }
}

/// A slope that is stated as 0 with a standard deviation of 0.02 mm/m, and readings without noise that make it 0.5, known
/// to 0.0193 (recomputed by numpy): 0.5 squared over 0.02 squared and 0.0193 squared, 323.6.
#[test]
fn what_is_stated_of_a_slope_is_tested_with_the_readings() {
    let stated = Some((mm_a_metre(0.0), mm_a_metre(1.96 * 0.02)));
    let line = LineOfSight::Found { stated, pegs: Vec::new() };
    let mut notes = notes(instrument(line, Tilt::Level));
    for (setup, place) in PLACES.iter().take(2).enumerate() {
        let name = setup.to_string();
        for (pad, [x, y]) in super::grid::pads().into_iter().enumerate() {
            let length = (x - place[0]).hypot(y - place[1]);
            let known = crate::levels::sight::curvature_and_refraction(length).nm() as f64 / 1e6;
            let reading = format!("{:.6} mm", 1_500.0 + 0.5 * length + known);
            notes = notes.sight_over(&name, &format!("P{pad}"), &reading, &m(length));
        }
        notes = notes.set(&name, |setup| setup.instrument = Some(0));
    }
    let levelled = reduce(&notes.job());
    let test = levelled.test().unwrap();
    assert!(!test.passed);
    let expected = 0.25 / (0.02_f64.powi(2) + 0.019_25_f64.powi(2));
    assert_abs_diff_eq!(test.statistic, expected, epsilon = 0.01 * expected);
}
