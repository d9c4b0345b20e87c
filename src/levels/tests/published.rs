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
