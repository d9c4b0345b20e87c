//! What can be told with which readings: the configurations one by one, against a dense solution by numpy.

use super::grid::{PLACES, found, instrument, mm_a_metre, notes, pads, reads};
use super::sample::Notes;
use crate::levels::network::Node;
use crate::levels::reduce;
use crate::levels::{Axis, Levelled, Parameter};
use crate::model::{Instrument, LineOfSight, Tilt};
use approx::{assert_abs_diff_eq, assert_relative_eq};
use std::collections::BTreeSet;

const ALL: std::ops::Range<usize> = 0..12;

fn level() -> Instrument {
    instrument(LineOfSight::Level, Tilt::Level)
}

fn sloping() -> Instrument {
    instrument(found(), Tilt::Level)
}

fn free(notes: Notes, setups: &[usize]) -> Notes {
    tilted(notes, setups, Tilt::Free)
}

fn tilted(notes: Notes, setups: &[usize], tilt: Tilt) -> Notes {
    setups.iter().fold(notes, |notes, setup| notes.set(&setup.to_string(), |it| it.tilt = tilt))
}

/// So many setups that read all pads.
fn full(instrument: Instrument, setups: usize) -> Notes {
    (0..setups).fold(notes(instrument), |notes, setup| reads(notes, setup, PLACES[setup], ALL))
}

/// How many directions nothing tells, and the redundancy.
fn defect(notes: &Notes) -> (usize, usize) {
    let levelled = reduce(&notes.job());
    (levelled.spread.adjustment.systematic.untold.len(), levelled.redundancy())
}

fn heights(notes: &Notes) -> usize {
    let job = notes.job();
    let levelled = reduce(&job);
    job.columns.iter().filter(|column| levelled.height(column.point.unwrap()).is_some()).count()
}

/// Whether a sum of shares of pads does not move along anything that nothing tells.
fn is_told(levelled: &Levelled, notes: &Notes, shares: &[(usize, f64)]) -> bool {
    let job = notes.job();
    let nodes: Vec<(Node, f64)> = shares
        .iter()
        .map(|(pad, share)| {
            (levelled.spread.adjustment.nodes.point(job.columns[*pad].point.unwrap()).unwrap(), *share)
        })
        .collect();
    let systematic = &levelled.spread.adjustment.systematic;
    let along = systematic.along(&nodes);
    systematic.untold.iter().all(|direction| direction.dot(&along).abs() < 1e-9)
}

/// The +- of a difference as a standard deviation in millimetres.
fn deviation(notes: &Notes, one: usize, other: usize) -> f64 {
    let job = notes.job();
    let point = |pad: usize| job.columns[pad].point.unwrap();
    reduce(&job).difference_plus_minus(point(one), point(other)).unwrap().nm() as f64 / 1.96e6
}

#[test]
fn one_level_setup_gives_heights_that_nothing_checks() {
    let notes = full(level(), 1);
    assert_eq!((defect(&notes), heights(&notes)), ((0, 0), 12));
    assert_eq!(reduce(&notes.job()).test(), None);
}

#[test]
fn one_setup_that_may_be_tilted_tells_twist_and_straightness_and_no_height() {
    let notes = free(full(level(), 1), &[0]);
    assert_eq!((defect(&notes), heights(&notes)), ((2, 0), 0));
    let levelled = reduce(&notes.job());
    assert!(!is_told(&levelled, &notes, &[(1, 1.0), (0, -1.0)]));
    assert!(!is_told(&levelled, &notes, &[(3, 1.0), (8, -1.0)]));
    assert!(is_told(&levelled, &notes, &[(0, 1.0), (1, -2.0), (2, 1.0)]));
    assert!(is_told(&levelled, &notes, &[(0, 1.0), (3, -1.0), (8, -1.0), (11, 1.0)]));
    let slopes: BTreeSet<Parameter> = levelled.untold().iter().flat_map(|it| it.slopes.clone()).collect();
    assert_eq!(slopes, [Axis::X, Axis::Y].map(|axis| Parameter::Tilt(0, axis)).into());
}

#[test]
fn one_setup_with_a_sloping_line_of_sight_tells_no_height() {
    let notes = full(sloping(), 1);
    assert_eq!((defect(&notes), heights(&notes)), ((1, 0), 0));
}

/// Three pads of known elevation that are not in a row tell a tilt; in a row they tell it only along the row.
#[test]
fn known_pads_tell_the_tilt_of_one_setup_unless_they_are_in_a_row() {
    let known = |pads: [usize; 3]| {
        let notes = free(full(level(), 1), &[0]);
        pads.iter().fold(notes, |notes, pad| notes.benchmark(&format!("P{pad}"), "0"))
    };
    let corners = known([0, 3, 8]);
    assert_eq!((defect(&corners), heights(&corners)), ((0, 0), 12));
    let row = known([0, 1, 2]);
    // pads 0 to 3 stand on the row
    assert_eq!((defect(&row).0, heights(&row)), (1, 4));
}

#[test]
fn a_level_setup_tells_the_tilt_of_another_by_three_pads_that_are_not_in_a_row() {
    let shared = |pads: &[usize]| {
        let notes = reads(notes(level()), 0, PLACES[0], ALL);
        free(reads(notes, 1, PLACES[1], pads.iter().copied()), &[1])
    };
    let cases: [(&[usize], usize, usize); 6] = [
        (&[0], 2, 0),
        (&[0, 3], 1, 0),
        (&[0, 1, 3], 1, 1),
        (&[0, 3, 8], 0, 0),
        (&[0, 3, 8, 11], 0, 1),
        (&[], 0, 0),
    ];
    for (pads, untold, redundancy) in cases {
        if pads.is_empty() {
            assert_eq!(defect(&free(full(level(), 2), &[1])), (0, 9));
            continue;
        }
        let notes = shared(pads);
        assert_eq!(defect(&notes), (untold, redundancy), "{pads:?}");
        // the level setup gives every pad its height, whatever the other does
        assert_eq!(heights(&notes), 12, "{pads:?}");
    }
}

#[test]
fn setups_that_may_all_be_tilted_tell_no_height_however_many_they_are() {
    for (setups, redundancy) in [(2, 9), (3, 18)] {
        let all: Vec<usize> = (0..setups).collect();
        let notes = free(full(level(), setups), &all);
        assert_eq!((defect(&notes), heights(&notes)), ((2, redundancy), 0));
        let levelled = reduce(&notes.job());
        assert!(is_told(&levelled, &notes, &[(0, 1.0), (1, -2.0), (2, 1.0)]));
        // each direction tilts every setup by as much: differences of tilt are told
        for direction in &levelled.spread.adjustment.systematic.untold {
            for setup in 1..setups {
                assert_abs_diff_eq!(direction[2 * setup], direction[0], epsilon = 1e-9);
                assert_abs_diff_eq!(direction[2 * setup + 1], direction[1], epsilon = 1e-9);
            }
        }
    }
}

#[test]
fn a_bubble_makes_tilted_setups_tell_heights() {
    let within = Tilt::Within(mm_a_metre(1.96 * 0.1));
    let notes = tilted(full(level(), 2), &[0, 1], within);
    assert_eq!((defect(&notes), heights(&notes)), ((0, 11), 12));
    assert_abs_diff_eq!(deviation(&notes, 0, 11), 2.1314, epsilon = 6e-5);
    assert_abs_diff_eq!(deviation(&notes, 1, 2), 0.8081, epsilon = 6e-5);
    let closer = tilted(full(level(), 2), &[0, 1], Tilt::Within(mm_a_metre(1.96 * 0.02)));
    assert_abs_diff_eq!(deviation(&closer, 0, 11), 0.7467, epsilon = 6e-5);
}

#[test]
fn an_instrument_that_is_turned_half_round_tells_its_own_tilt() {
    let notes = full(instrument(LineOfSight::Level, Tilt::Free), 2);
    assert_eq!(defect(&notes), (2, 11));
    let turned = notes.set("1", |setup| setup.turned = 180);
    assert_eq!((defect(&turned), heights(&turned)), ((0, 9), 12));
}

#[test]
fn two_setups_tell_the_slope_of_the_line_of_sight_where_the_sights_differ() {
    assert_eq!(defect(&full(sloping(), 2)), (0, 10));
    // two instruments, each with a slope of its own
    let mut other = sloping();
    other.name = "B".to_owned();
    let two = full(sloping(), 2).instrument(other).set("1", |setup| setup.instrument = Some(1));
    assert_eq!(defect(&two), (0, 9));
}

/// Five pads in a row, one setup beyond each end, or both beyond one end.
fn row(instrument: Instrument, places: [[f64; 2]; 2]) -> Notes {
    let marks = ["P0", "P1", "P2", "P3", "P4"];
    let notes = (0..5)
        .fold(Notes::of(crate::length::Unit::Metre).instrument(instrument).columns(&marks), |notes, pad| {
            notes.stands(marks[pad], &format!("{} m", pad * 6), "0 m")
        });
    places.iter().enumerate().fold(notes, |notes, (setup, at)| reads(notes, setup, *at, 0..5))
}

#[test]
fn a_row_tells_the_slope_from_its_two_ends_and_not_from_one() {
    let ends = row(sloping(), [[-8.0, 0.0], [32.0, 0.0]]);
    assert_eq!(defect(&ends), (0, 3));
    let one_end = row(sloping(), [[-8.0, 0.0], [-20.0, 0.0]]);
    assert_eq!((defect(&one_end).0, heights(&one_end)), (1, 0));
}

/// Between two setups at the ends of a row a sloping line of sight and an instrument tilted along the row do the same.
#[test]
fn a_row_between_two_setups_cannot_tell_a_sloping_line_from_a_tilt_along_it() {
    let notes = free(row(sloping(), [[-8.0, 0.0], [32.0, 0.0]]), &[1]);
    let levelled = reduce(&notes.job());
    // across the row nothing is tilted and nothing is seen either: that direction moves no pad
    assert_eq!(levelled.spread.adjustment.systematic.untold.len(), 2);
    assert_eq!(heights(&notes), 0);
    let all: Vec<Parameter> = levelled.untold().iter().flat_map(|it| it.slopes.clone()).collect();
    assert!(all.contains(&Parameter::Slope(0)) && all.contains(&Parameter::Tilt(1, Axis::X)), "{all:?}");
}

/// Redundancy, standard deviations of slope (mm/m), tilt along x (mm/m), their correlation, and of the differences
/// of pads 11 and 0, 5 and 6 (mm); recomputed by numpy from the dense matrix.
#[test]
fn standard_deviations_and_correlations_are_those_of_the_dense_solution() {
    let nan = f64::NAN;
    let cases: [(&str, Notes, usize, [f64; 5]); 7] = [
        ("two level", full(level(), 2), 11, [nan, nan, nan, 0.6257, 0.6086]),
        ("tilt of the second", free(full(level(), 2), &[1]), 9, [nan, 0.0320, nan, 0.7872, 0.6197]),
        ("slope", full(sloping(), 2), 10, [0.0193, nan, nan, 0.6258, 0.6086]),
        ("slope and tilt", free(full(sloping(), 2), &[1]), 8, [0.2885, 0.2219, 0.990, 6.5530, 0.9894]),
        (
            "slope and two tilts",
            free(full(sloping(), 3), &[1, 2]),
            17,
            [0.1048, 0.0867, 0.930, 2.4689, 0.5967],
        ),
        (
            "slope by a peg test and tilt",
            free(full(stated(), 2), &[1]),
            9,
            [0.0200, 0.0354, 0.429, 0.9067, 0.6220],
        ),
        ("one level", full(level(), 1), 0, [nan, nan, nan, 0.9366, 0.8500]),
    ];
    for (name, notes, redundancy, [slope, tilt, together, far, near]) in cases {
        let levelled = reduce(&notes.job());
        assert_eq!(levelled.redundancy(), redundancy, "{name}");
        assert_abs_diff_eq!(deviation(&notes, 11, 0), far, epsilon = 6e-5);
        assert_abs_diff_eq!(deviation(&notes, 5, 6), near, epsilon = 6e-5);
        let good_to = |wanted: Parameter| {
            let found = levelled.slopes().iter().find(|it| it.slope == wanted)?.plus_minus?;
            Some(found.rise.nm() as f64 / found.run.nm() as f64 * 1e3 / 1.96)
        };
        if !slope.is_nan() {
            assert_abs_diff_eq!(good_to(Parameter::Slope(0)).unwrap(), slope, epsilon = 6e-5);
        }
        if !tilt.is_nan() {
            assert_abs_diff_eq!(good_to(Parameter::Tilt(1, Axis::X)).unwrap(), tilt, epsilon = 6e-5);
        }
        if !together.is_nan() {
            let cofactor = levelled.spread.adjustment.systematic.cofactor();
            let found = cofactor[(0, 1)] / (cofactor[(0, 0)] * cofactor[(1, 1)]).sqrt();
            assert_abs_diff_eq!(found.abs(), together, epsilon = 6e-4);
            let pair = [Parameter::Slope(0), Parameter::Tilt(1, Axis::X)];
            let told = levelled.entangled().iter().any(|it| it.slopes == pair);
            assert_eq!(told, together > 0.95, "{name}");
        }
    }
}

/// A slope that is stated as 0 with a standard deviation of 0.02 mm/m.
fn stated() -> Instrument {
    let stated = Some((mm_a_metre(0.0), mm_a_metre(1.96 * 0.02)));
    instrument(LineOfSight::Found { stated, pegs: Vec::new() }, Tilt::Level)
}

/// The datum changes every +- and no difference: standard deviations of pad 5 under four datums, recomputed by numpy.
#[test]
fn a_difference_is_good_to_the_same_whatever_the_datum() {
    for (held, own) in [(0, 0.6163), (5, 0.0), (11, 0.6147)] {
        let notes = full(level(), 2).benchmark(&format!("P{held}"), "0");
        let job = notes.job();
        let levelled = reduce(&job);
        let height = levelled.height(job.columns[5].point.unwrap()).unwrap();
        assert_abs_diff_eq!(height.plus_minus.nm() as f64 / 1.96e6, own, epsilon = 6e-5);
        assert_abs_diff_eq!(deviation(&notes, 5, 6), 0.6086, epsilon = 6e-5);
        assert_abs_diff_eq!(deviation(&notes, 0, 11), 0.6257, epsilon = 6e-5);
        assert_abs_diff_eq!(deviation(&notes, 1, 2), 0.6085, epsilon = 6e-5);
    }
}

/// Redundancy and the least slip seen (0.1 %, 80 %) of one reading on pad 5, recomputed by numpy: 3.750, 3.149 and
/// 2.874 mm, and none for a pad that is read once.
#[test]
fn what_slip_would_be_seen_goes_with_how_often_a_pad_is_read() {
    let twice = (0..2).fold(full(level(), 2), |notes, setup| reads(notes, setup, PLACES[setup], ALL));
    let once = reads(reads(notes(level()), 0, PLACES[0], ALL), 1, PLACES[1], ALL.filter(|pad| *pad != 5));
    let cases = [
        (full(level(), 2), 416, Some(3.750)),
        (full(level(), 3), 590, Some(3.149)),
        (twice, 708, Some(2.874)),
        (once, 0, None),
    ];
    for (notes, thousandths, seen_from) in cases {
        let job = notes.job();
        let levelled = reduce(&job);
        let reading = &levelled.reliabilities()[5];
        assert_eq!(reading.checked, thousandths);
        assert_eq!(reading.seen_from.is_some(), seen_from.is_some());
        if let (Some(found), Some(wanted)) = (reading.seen_from, seen_from) {
            assert_abs_diff_eq!(found.nm() as f64 / 1e6, wanted, epsilon = 6e-4);
        }
        let shares: f64 = levelled.reliabilities().iter().map(|it| f64::from(it.checked) / 1e3).sum();
        assert_relative_eq!(shares, levelled.redundancy() as f64, max_relative = 2e-3);
    }
}

#[test]
fn the_pads_are_where_the_tests_say() {
    let pads = pads();
    assert_eq!((pads.len(), pads[3], pads[8]), (12, [22.5, 0.0], [0.0, 18.0]));
}

#[test]
fn a_line_of_sight_that_hangs_on_a_slope_nothing_tells_has_no_height() {
    let line = |instrument: Instrument| {
        reduce(&full(instrument, 1).benchmark("P0", "100 m").job()).lines()[0].height.is_some()
    };
    assert!(line(level()));
    assert!(!line(sloping()));
}
