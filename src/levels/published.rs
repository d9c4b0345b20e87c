//! Published level notes and networks, recomputed.

use super::sample::{Notes, Reduced};
use crate::length::{Bare, Unit, read};
use approx::assert_abs_diff_eq;

fn metres(text: &str) -> Option<i64> {
    Some(read(text, Bare::of(Unit::Metre)).unwrap().nm())
}

fn assert_elevations(reduced: &Reduced, published: &[(&str, &str)]) {
    for (point, elevation) in published {
        assert_eq!(reduced.elevation(point), metres(elevation), "{point}");
    }
}

/// NPTEL course 105107122 (Surveying), module 4, Table 13.3.
#[test]
fn nptel_table_13_3_a_run_over_turning_points() {
    let published = [("A", "100.000"), ("S1", "101.130"), ("S2", "98.245"), ("B", "97.650")];
    let reduced = Notes::of(Unit::Metre)
        .benchmark("A", "100.000")
        .setup("1", &[("A", "2.365"), ("S1", "1.235")])
        .setup("2", &[("S1", "0.685"), ("S2", "3.570")])
        .setup("3", &[("S2", "1.745"), ("B", "2.340")])
        .reduce();
    assert_elevations(&reduced, &published);
    assert_eq!(reduced.closures(), []);
    assert_eq!((reduced.levelled.redundancy(), reduced.levelled.test()), (0, None));
}

/// NPTEL course 105107122 (Surveying), module 4, Example 13-1; it closes on 150.535 for
/// 150.485. P7 is 149.400 (printed 149.450, a misprint: the next line goes on from 149.400).
#[test]
fn nptel_example_13_1_a_loop_closes_50_mm_high_after_8_setups() {
    let closure = ("BM", "BM", 8, 50_000_000);
    let notes = || {
        Notes::of(Unit::Metre)
            .setup("1", &[("BM", "1.205"), ("P1", "1.860")])
            .setup("2", &[("P1", "0.125"), ("P2", "1.915")])
            .setup("3", &[("P2", "0.395"), ("P3", "2.615")])
            .setup("4", &[("P3", "0.880"), ("P4", "1.760")])
            .setup("5", &[("P4", "1.960"), ("P5", "0.920")])
            .setup("6", &[("P5", "2.595"), ("P6", "0.915")])
            .setup("7", &[("P6", "2.255"), ("P7", "0.515")])
            .setup("8", &[("P7", "2.305"), ("BM", "1.170")])
    };
    let reduced = notes().benchmark("BM", "150.485").reduce();
    assert_eq!(reduced.closures(), [closure]);
    assert_eq!(reduced.levelled.redundancy(), 1);
    // Least squares with equal weights shares the misclosure equally by setup, 6.25 mm each.
    let shared = [("P1", "149.82375"), ("P2", "148.02750"), ("P4", "144.91500"), ("P7", "149.35625")];
    assert_elevations(&reduced, &shared);

    let relative = notes().columns(&["P1", "P7"]).reduce();
    assert_eq!(relative.closures(), [closure]);
}

/// NPTEL course 105107122 (Surveying), module 4, Example 14-1, the readings of its table.
#[test]
fn nptel_example_14_1_intermediate_sights() {
    let published = [
        ("1", "100.000"),
        ("2", "98.910"),
        ("3", "98.825"),
        ("4", "100.380"),
        ("5", "102.640"),
        ("6", "102.065"),
        ("7", "100.860"),
        ("8", "100.220"),
        ("9", "99.635"),
    ];
    let reduced = Notes::of(Unit::Metre)
        .benchmark("1", "100.000")
        .setup("1", &[("1", "2.655"), ("2", "3.745"), ("3", "3.830"), ("4", "2.275")])
        .setup("2", &[("4", "2.645"), ("5", "0.385"), ("6", "0.960")])
        .setup("3", &[("6", "1.640"), ("7", "2.845"), ("8", "3.485")])
        .setup("4", &[("8", "2.680"), ("9", "3.265")])
        .reduce();
    assert_elevations(&reduced, &published);
}

/// R. Rode, the collimation method (handout): misclosure 42 mm over 6 setups, known less
/// measured; 7 mm a setup; points read by intermediate sights take their setup's correction.
#[test]
fn rode_collimation_method_a_run_between_two_benchmarks() {
    let published = [
        ("a", "107.564"),
        ("b", "106.034"),
        ("CP1", "105.081"),
        ("bd1", "102.849"),
        ("c", "105.278"),
        ("bd2", "102.954"),
        ("d", "106.110"),
        ("e", "105.638"),
        ("f", "107.149"),
        ("g", "104.615"),
        ("h", "104.353"),
        ("BM2", "105.263"),
    ];
    let reduced = Notes::of(Unit::Metre)
        .benchmark("BM1", "106.366")
        .benchmark("BM2", "105.263")
        .setup("1", &[("BM1", "1.216"), ("a", "0.025"), ("b", "1.555"), ("CP1", "2.508")])
        .setup("2", &[("CP1", "1.386"), ("bd1", "3.625"), ("c", "1.196")])
        .setup("3", &[("c", "1.235"), ("bd2", "3.566")])
        .setup("4", &[("bd2", "3.655"), ("d", "0.506")])
        .setup("5", &[("d", "2.126"), ("e", "2.605"), ("f", "1.094"), ("g", "3.628")])
        .setup("6", &[("g", "1.125"), ("h", "1.394"), ("BM2", "0.484")])
        .reduce();
    assert_eq!(reduced.closures(), [("BM1", "BM2", 6, -42_000_000)]);
    assert_eq!(reduced.levelled.datum_words(), "BM1, BM2");
    // The handout shares by whole setups, so that its turning points are those of least squares;
    // an intermediate sight takes its line's correction, half a setup's share less.
    let half = 3_500_000;
    for (point, elevation) in published {
        let turning = ["CP1", "c", "bd2", "d", "g", "BM2"].contains(&point);
        let expected = metres(elevation).map(|nm| if turning { nm } else { nm - half });
        assert_eq!(reduced.elevation(point), expected, "{point}");
    }
}

/// German survey textbook vol. 1, p. 197: one knot point over four lines of weights 1.45, 0.68,
/// 1.00 and 2.50: 55.5398 m, residuals +6.2, -7.6, -13.4 and +3.8 mm. The lines stand here as
/// elevations of the knot, each good to 1 m over the root of its weight.
#[test]
fn one_knot_point_over_four_lines() {
    let reduced = Notes::of(Unit::Metre)
        .elevation("K", "55.5336", "0.830454799")
        .elevation("K", "55.5474", "1.212678125")
        .elevation("K", "55.5532", "1")
        .elevation("K", "55.5360", "0.632455532")
        .reduce();
    let (elevation, plus_minus) = reduced.height("K").unwrap();
    assert_abs_diff_eq!(elevation as f64 / 1e9, 55.5398, epsilon = 5e-5);
    assert_abs_diff_eq!(elevation as f64 / 1e9, 55.53981, epsilon = 5e-6); // recomputed
    let sum_of_weights: f64 = 1.45 + 0.68 + 1.00 + 2.50;
    assert_abs_diff_eq!(plus_minus as f64 / 1e9, 1.0 / sum_of_weights.sqrt(), epsilon = 1e-8);
    assert_eq!(reduced.levelled.redundancy(), 3);
    assert_eq!(reduced.levelled.datum_words(), "elevations");
}

/// J. Mahun, Open Access Surveying Library, Least Squares Lite, chapter B, eight lines of equal
/// weight, in feet: Q 815.418, R 802.962. Recomputed Q 815.418421, R 802.962105, standard
/// deviations 0.458831 and 0.512989 of one line's, v'Pv 0.005063 for a line good to 1 ft,
/// redundancy 6, bounds 1.2373 and 14.4494. A line stands here as a setup of two readings.
#[test]
fn mahun_chapter_b_two_points_over_eight_lines() {
    let lines = [
        ("A", "Q", "8.91", "0"),
        ("B", "Q", "0", "2.92"),
        ("C", "Q", "0", "4.67"),
        ("D", "Q", "0", "8.66"),
        ("A", "R", "0", "3.56"),
        ("C", "R", "0", "17.12"),
        ("D", "R", "0", "21.10"),
        ("Q", "R", "0", "12.47"),
    ];
    let mut notes = Notes::of(Unit::Foot).plus_minus("1.385929291"); // 1.96 / sqrt 2
    for (index, (from, to, back, fore)) in lines.iter().enumerate() {
        notes = notes.setup(&index.to_string(), &[(from, back), (to, fore)]);
    }
    for (point, elevation) in [("A", "806.52"), ("B", "818.32"), ("C", "820.12"), ("D", "824.04")] {
        notes = notes.benchmark(point, elevation);
    }
    let reduced = notes.reduce();
    let foot = 304_800_000.0;
    for (point, published, recomputed, deviation) in
        [("Q", 815.418, 815.418_421, 0.458_831), ("R", 802.962, 802.962_105, 0.512_989)]
    {
        let (elevation, plus_minus) = reduced.height(point).unwrap();
        assert_abs_diff_eq!(elevation as f64 / foot, published, epsilon = 5e-4);
        assert_abs_diff_eq!(elevation as f64 / foot, recomputed, epsilon = 6e-7);
        assert_abs_diff_eq!(plus_minus as f64 / foot / 1.96, deviation, epsilon = 6e-7);
    }
    assert_eq!(reduced.levelled.redundancy(), 6);
    let test = reduced.levelled.test().unwrap();
    assert_abs_diff_eq!(test.statistic, 0.005_063, epsilon = 6e-7);
    assert_abs_diff_eq!(test.lower, 1.2373, epsilon = 6e-5);
    assert_abs_diff_eq!(test.upper, 14.4494, epsilon = 6e-5);
    assert!(test.passed);
}

/// From memory: Ghilani and Wolf, Elementary Surveying, chapter 5, a loop of 7 setups in feet
/// that closes 0.03 ft high; BM Oak 2019.44, adjusted 2019.42 by equal shares.
#[test]
fn from_memory_ghilani_and_wolf_a_loop_of_seven_setups() {
    let sights = [
        ("Mil", "1.33", "TP1", "8.37"),
        ("TP1", "0.22", "TP2", "7.91"),
        ("TP2", "0.96", "TP3", "11.72"),
        ("TP3", "0.46", "Oak", "8.71"),
        ("Oak", "11.95", "TP4", "2.61"),
        ("TP4", "12.55", "TP5", "0.68"),
        ("TP5", "12.77", "Mil", "0.21"),
    ];
    let mut notes = Notes::of(Unit::Foot).benchmark("Mil", "2053.18");
    for (index, (back, on_back, fore, on_fore)) in sights.iter().enumerate() {
        notes = notes.setup(&index.to_string(), &[(back, on_back), (fore, on_fore)]);
    }
    let reduced = notes.reduce();
    assert_eq!(reduced.closures(), [("Mil", "Mil", 7, 9_144_000)]);
    let oak = reduced.elevation("Oak").unwrap() as f64 / 304_800_000.0;
    assert_abs_diff_eq!(oak, 2_019.422_86, epsilon = 5e-6);
}
