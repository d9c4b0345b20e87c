//! What a crew and a surveyor expect of the answer, worked by hand.

use super::grid::{instrument, mm_a_metre};
use super::sample::{Notes, Reduced};
use crate::length::{Length, Unit};
use crate::levels::{Datum, Levelled};
use crate::model::{Instrument, LineOfSight, Sense, Tilt};

const EIGHTH: i64 = 3_175_000;

/// Common practice: a lower reading on the rod is a higher pad.
#[test]
fn four_six_and_a_quarter_is_three_eighths_higher_than_four_six_and_five_eighths() {
    let notes = || Notes::of(Unit::Inch).setup("1", &[("A1", "4'-6 1/4\""), ("A2", "4'-6 5/8\"")]);
    let reduced = notes().columns(&["A1", "A2"]).reduce();
    assert_eq!((reduced.elevation("A1"), reduced.elevation("A2")), (Some(0), Some(-3 * EIGHTH)));
    let reduced = notes().columns(&["A1", "A2"]).sense(Sense::Height).reduce();
    assert_eq!((reduced.elevation("A1"), reduced.elevation("A2")), (Some(-3 * EIGHTH), Some(0)));
}

/// Two readings of +- 1/16 in: the difference is good to 1/16 in times the root of two,
/// 1 587 500 x 1.414 213 562 = 2 245 064.03 nm, rounded up.
#[test]
fn one_setup_gives_each_difference_the_uncertainty_of_two_readings() {
    let reduced = Notes::of(Unit::Inch)
        .setup("1", &[("A1", "50"), ("A2", "50.125"), ("TP", "40")])
        .columns(&["A1", "A2"])
        .reduce();
    assert_eq!(reduced.height("A1"), Some((0, 0)));
    assert_eq!(reduced.height("A2"), Some((-EIGHTH, 2_245_065)));
    // What is no column pad may stand above 0.
    assert_eq!(reduced.height("TP"), Some((254_000_000, 2_245_065)));
    assert_eq!(reduced.difference_plus_minus("A2", "TP"), Some(2_245_065));
    assert_eq!(reduced.difference_plus_minus("A2", "A2"), Some(0));
    assert_eq!(reduced.levelled.datum_words(), "relative");
}

/// Two setups read A and B, the second also C. First: A 1.000 000 m, B 1.001 000. Second:
/// A 1.500 000, B 1.501 003, C 1.502 000. A to B is 1 000 000 nm down, then 1 003 000: the
/// mean is 1 001 500. The second line stands above the first by 500 000 000 at A and
/// 500 003 000 at B: the mean is 500 001 500. C under A: the second line puts it
/// 1 502 000 000 down, that is 1 001 998 500 under the first line; A, the mean of
/// -1 000 000 000 and -999 998 500, is at -999 999 250. So C is 1 999 250 under A.
/// Residuals are 750 nm each: 4 x 750^2 / (U / 1.96)^2 with U = 1 500 000 is 3.841 6e-6.
#[test]
fn two_setups_worked_by_hand_to_the_nanometre() {
    let reduced = Notes::of(Unit::Metre)
        .plus_minus("0.0015")
        .setup("1", &[("A", "1.000"), ("B", "1.001")])
        .setup("2", &[("A", "1.500"), ("B", "1.501003"), ("C", "1.502")])
        .columns(&["A", "B", "C"])
        .reduce();
    assert_eq!(reduced.elevation("A"), Some(0));
    assert_eq!(reduced.elevation("B"), Some(-1_001_500));
    assert_eq!(reduced.elevation("C"), Some(-1_999_250));
    // A to B by two setups side by side: U x 1. C to A: its own reading 1, the line against
    // A: two ways, one direct (1), one over B and the first line (3): 3/4. U x root of 1.75.
    assert_eq!(reduced.difference_plus_minus("A", "B"), Some(1_500_000));
    assert_eq!(reduced.difference_plus_minus("A", "C"), Some(1_984_314));
    assert_eq!(reduced.closures(), [("B", "B", 2, -3_000)]);
    assert_eq!(reduced.levelled.redundancy(), 1);
    let test = reduced.levelled.test().unwrap();
    approx::assert_relative_eq!(test.statistic, 3.8416e-6, max_relative = 1e-9);
    let readings = |point: &str| reduced.levelled.readings(reduced.point(point));
    assert_eq!((readings("A"), readings("C")), (2, 1));
}

#[test]
fn two_readings_that_leave_a_difference_exactly_at_its_limit_give_exactly_that() {
    for (first, second) in [("50.125", "50.125"), ("50.12", "50.13"), ("50.13", "50.12"), ("49", "51.25")] {
        let sights = [("A1", "50"), ("A2", first), ("A2", second)];
        let reduced = Notes::of(Unit::Inch).setup("1", &sights).columns(&["A1", "A2"]).reduce();
        assert_eq!(reduced.elevation("A2"), Some(-EIGHTH), "{first} and {second}");
        assert_eq!(reduced.closures().len(), 1);
        let (from, to, setups, _) = reduced.closures()[0];
        assert_eq!((from, to, setups), ("A2", "A2", 1));
    }
}

#[test]
fn a_pad_read_three_times_is_rounded_once_and_does_not_move_the_others() {
    let reduced = Notes::of(Unit::Millimetre)
        .setup("1", &[("A", "100"), ("A", "100"), ("A", "100.000001"), ("B", "101"), ("C", "102.000001")])
        .columns(&["B", "A", "C"])
        .reduce();
    // A stands 1/3 nm below 100: B and C are 999 999 2/3 and 2 000 000 2/3 nm below it.
    let elevations = ["A", "B", "C"].map(|point| reduced.elevation(point).unwrap());
    assert_eq!(elevations, [0, -1_000_000, -2_000_001]);
}

#[test]
fn pads_that_share_no_point_with_the_largest_block_are_unconnected() {
    let reduced = Notes::of(Unit::Inch)
        .setup("1", &[("A1", "50"), ("TP", "40"), ("TP2", "40"), ("TP3", "40")])
        .setup("2", &[("A2", "50"), ("A3", "49")])
        .setup("3", &[("A3", "60"), ("A4", "62")])
        .columns(&["A1", "A2", "A3", "A4", "A5"])
        .reduce();
    let inch = 25_400_000;
    assert_eq!(reduced.unconnected(), ["A1", "TP", "TP2", "TP3"]);
    assert_eq!(reduced.elevation("A1"), None);
    assert_eq!(reduced.elevation("A3"), Some(0));
    assert_eq!((reduced.elevation("A2"), reduced.elevation("A4")), (Some(-inch), Some(-2 * inch)));
    assert_eq!(reduced.difference_plus_minus("A1", "A3"), None);
    assert_eq!(reduced.levelled.readings(reduced.point("A1")), 1);
}

#[test]
fn of_two_blocks_with_as_many_pads_the_one_with_the_first_column_counts() {
    let notes = Notes::of(Unit::Inch)
        .setup("1", &[("A1", "50"), ("A2", "49")])
        .setup("2", &[("B1", "50"), ("B2", "49")]);
    assert_eq!(notes.clone().columns(&["A1", "B1", "B2", "A2"]).reduce().unconnected(), ["B1", "B2"]);
    assert_eq!(notes.columns(&["B2", "A2", "A1", "B1"]).reduce().unconnected(), ["A1", "A2"]);
}

#[test]
fn of_two_pads_as_high_the_first_in_the_job_is_zero() {
    let notes = Notes::of(Unit::Inch).setup("1", &[("A1", "50"), ("A2", "50")]);
    let reduced = notes.clone().columns(&["A2", "A1"]).reduce();
    assert_eq!((reduced.height("A2"), reduced.height("A1")), (Some((0, 0)), Some((0, 2_245_065))));
    let reduced = notes.columns(&["A1", "A2"]).reduce();
    assert_eq!(reduced.height("A1"), Some((0, 0)));
}

#[test]
fn with_a_benchmark_only_what_is_connected_to_it_has_an_elevation() {
    let reduced = Notes::of(Unit::Inch)
        .benchmark("BM", "100'")
        .setup("1", &[("A1", "50"), ("A2", "49"), ("A3", "49")])
        .setup("2", &[("B1", "50"), ("BM", "48")])
        .columns(&["A1", "A2", "A3", "B1"])
        .reduce();
    assert_eq!(reduced.unconnected(), ["A1", "A2", "A3"]);
    // B1 is 2 in under the benchmark, by two readings.
    assert_eq!(reduced.height("B1"), Some((1198 * 25_400_000, 2_245_065)));
    assert_eq!(reduced.height("BM"), Some((1200 * 25_400_000, 0)));
    assert_eq!(*reduced.levelled.datum(), Datum::Absolute(vec!["BM".to_owned()]));
}

#[test]
fn an_elevation_is_an_observation_and_a_benchmark_holds_over_it() {
    // Two elevations of one pad, as good as each other: the mean, good to 1/16 in over the root of 2.
    let notes = Notes::of(Unit::Inch).elevation("A1", "100", "1/16").elevation("A1", "100.25", "1/16");
    let reduced = notes.clone().reduce();
    assert_eq!(reduced.height("A1"), Some((2_543_175_000, 1_122_533)));
    assert_eq!(reduced.closures(), [("A1", "A1", 0, 6_350_000)]);
    let reduced = notes.benchmark("A1", "100").reduce();
    assert_eq!(reduced.height("A1"), Some((2_540_000_000, 0)));
    assert_eq!(reduced.closures().len(), 2);
    assert_eq!(reduced.levelled.redundancy(), 2);
    assert!(!reduced.levelled.test().unwrap().passed);
    assert_eq!(reduced.levelled.suspects().len(), 1);
}

#[test]
fn elevations_alone_are_given_back_with_their_own_plus_minus() {
    let reduced = Notes::of(Unit::Millimetre)
        .elevation("A1", "30000.123456", "2")
        .elevation("A2", "30001", "0")
        .columns(&["A1", "A2"])
        .reduce();
    assert_eq!(reduced.height("A1"), Some((30_000_123_456, 2_000_000)));
    assert_eq!(reduced.height("A2"), Some((30_001_000_000, 0)));
    assert_eq!(reduced.difference_plus_minus("A1", "A2"), Some(2_000_000));
    assert_eq!(reduced.levelled.redundancy(), 0);
}

#[test]
fn elevations_and_readings_are_weighed_against_each_other() {
    // A and B by elevation (+- 2 mm), and 10 mm apart by one setup (+- 1 mm a reading): the
    // elevations say 14. Variances 4 + 4 against 1 + 1: of the 4 mm left over, the elevations
    // take 4 x 4/10 each, the readings 4 x 1/10 each.
    let reduced = Notes::of(Unit::Millimetre)
        .plus_minus("1")
        .elevation("A", "1000", "2")
        .elevation("B", "1014", "2")
        .setup("1", &[("A", "510"), ("B", "500")])
        .reduce();
    assert_eq!((reduced.elevation("A"), reduced.elevation("B")), (Some(1_001_600_000), Some(1_012_400_000)));
    assert_eq!(reduced.closures(), [("A", "B", 1, -4_000_000)]);
}

#[test]
fn readings_called_exact_are_adjusted_but_not_tested() {
    let sights = [("A", "100"), ("B", "101"), ("B", "103")];
    let reduced = Notes::of(Unit::Millimetre).plus_minus("0").setup("1", &sights).columns(&["A"]).reduce();
    assert_eq!(reduced.height("B"), Some((-2_000_000, 0)));
    assert_eq!((reduced.levelled.redundancy(), reduced.levelled.test()), (1, None));
}

#[test]
fn exact_readings_keep_their_digits_beside_elevations_that_are_not() {
    let reduced = Notes::of(Unit::Millimetre)
        .plus_minus("0")
        .elevation("A", "1000", "25")
        .elevation("B", "1014.000001", "25")
        .setup("1", &[("A", "510"), ("B", "500"), ("C", "0")])
        .reduce();
    // The readings leave the elevations no choice but to share 4.000 001 mm equally.
    let elevations = ["A", "B", "C"].map(|point| reduced.elevation(point).unwrap());
    assert_eq!(elevations, [1_002_000_001, 1_012_000_001, 1_512_000_001]);
    let (_, plus_minus) = reduced.height("A").unwrap();
    assert_eq!(plus_minus, 17_677_670); // 25 mm over the root of 2
}

fn three_setups(blunder: &str) -> Reduced {
    Notes::of(Unit::Inch)
        .setup("1", &[("A", "50"), ("B", "51"), ("C", "52"), ("D", "53")])
        .setup("2", &[("A", "60"), ("B", blunder), ("C", "62"), ("D", "63")])
        .setup("3", &[("A", "70"), ("B", "71"), ("C", "72"), ("D", "73")])
        .columns(&["A", "B", "C", "D"])
        .reduce()
}

#[test]
fn with_three_setups_a_reading_that_is_an_inch_off_is_found_and_measured() {
    let levelled = three_setups("62").levelled;
    assert!(!levelled.test().unwrap().passed);
    let suspects = levelled.suspects();
    assert_eq!(suspects.len(), 1);
    assert_eq!((suspects[0].place.start, suspects[0].point), (5, 1));
    assert_eq!(suspects[0].size, Length::from_nm(25_400_000));
    assert_eq!(suspects[0].tied_with, []);
    let levelled = three_setups("61").levelled;
    assert!(levelled.test().unwrap().passed && levelled.suspects().is_empty());
}

#[test]
fn with_two_setups_the_reading_that_is_off_cannot_be_told_from_its_pair() {
    let levelled = Notes::of(Unit::Inch)
        .setup("1", &[("A", "50"), ("B", "51"), ("C", "52")])
        .setup("2", &[("A", "60"), ("B", "62"), ("C", "62"), ("D", "70")])
        .columns(&["A", "B", "C", "D"])
        .reduce()
        .levelled;
    let suspects = levelled.suspects();
    assert_eq!(suspects.len(), 1);
    assert_eq!((suspects[0].place.start, suspects[0].point), (1, 1));
    assert_eq!(suspects[0].tied_with.iter().map(|place| place.start).collect::<Vec<_>>(), [4]);
}

/// B is read nine times, once 3.6 mm off, each good to a standard deviation of 1 mm: the standardised
/// residual of that one is 3.6 x root of 8/9, 3.39; the statistic is its square, 11.52, below 17.53.
#[test]
fn one_bad_reading_among_many_good_ones_is_suspect_though_the_test_of_all_passes() {
    let read = |off: &str| {
        let mut notes =
            Notes::of(Unit::Millimetre).plus_minus("1.96").setup("1", &[("A", "100"), ("B", off)]);
        for _ in 0..8 {
            notes = notes.sight("1", "B", "100");
        }
        notes.columns(&["A", "B"]).reduce().levelled
    };
    let levelled = read("103.6");
    let test = levelled.test().unwrap();
    approx::assert_relative_eq!(test.statistic, 11.52, max_relative = 1e-9);
    assert!(test.passed);
    let suspects = levelled.suspects();
    assert_eq!((suspects.len(), suspects[0].standardised, suspects[0].too_high), (1, 339, false));
    // 3.4 mm off is 3.21 standard deviations, which 1 in 1000 good readings exceeds
    assert!(read("103.4").suspects().is_empty());
    let levelled = read("105");
    assert!(!levelled.test().unwrap().passed);
    assert_eq!(levelled.suspects()[0].size, Length::from_nm(5_000_000));
}

#[test]
fn closures_name_the_run_that_closes() {
    // BM1 - 1 - P - 2 - Q, BM2 - 3 - Q, then 4 reads P and Q, and P again.
    let reduced = Notes::of(Unit::Millimetre)
        .benchmark("BM1", "1000")
        .benchmark("BM2", "1001")
        .setup("1", &[("BM1", "500"), ("P", "500")])
        .setup("2", &[("P", "500"), ("Q", "500")])
        .setup("3", &[("BM2", "500"), ("Q", "502")])
        .setup("4", &[("P", "600"), ("Q", "603"), ("P", "604")])
        .reduce();
    let mm = 1_000_000;
    assert_eq!(reduced.closures(), [("BM2", "BM1", 3, -mm), ("Q", "Q", 2, -3 * mm), ("P", "P", 1, -4 * mm)]);
    assert_eq!(reduced.levelled.redundancy(), 3);
}

#[test]
fn setups_that_come_before_their_connection_wait_for_it() {
    let reduced = Notes::of(Unit::Millimetre)
        .benchmark("BM", "1000")
        .setup("1", &[("A", "500"), ("B", "510")])
        .setup("2", &[("C", "500"), ("A", "520")])
        .setup("3", &[("D", "505"), ("C", "500"), ("BM", "500")])
        .reduce();
    let mm = |point: &str| reduced.elevation(point).map(|nm| nm / 1_000_000);
    assert_eq!([mm("A"), mm("B"), mm("C"), mm("D")], [Some(980), Some(970), Some(1000), Some(995)]);
    assert_eq!(reduced.closures(), []);
}

#[test]
fn nothing_read_gives_nothing() {
    let levelled: Levelled = Notes::of(Unit::Inch).columns(&["A1"]).reduce().levelled;
    assert_eq!(levelled.height(0), None);
    assert_eq!(levelled.difference_plus_minus(0, 0), None);
    assert!(levelled.unconnected().is_empty() && levelled.closures().is_empty());
    assert_eq!((levelled.redundancy(), levelled.datum()), (0, &Datum::Relative));
}

#[test]
fn a_run_of_many_setups_over_many_pads_comes_out_exact() {
    let mut notes = Notes::of(Unit::Millimetre).sight("0", "P0", "1000");
    for setup in 0..300 {
        for pad in 0..17 {
            let point = format!("P{}", setup * 16 + pad);
            notes = notes.sight(&setup.to_string(), &point, &format!("{}", 1000 + pad));
        }
    }
    let reduced = notes.columns(&["P0", "P4800"]).reduce();
    assert_eq!(reduced.elevation("P4800"), Some(-300 * 16 * 1_000_000));
    assert_eq!(reduced.levelled.redundancy(), 1);
    // 300 setups of two readings, one of them read twice: U x root of 599.5.
    assert_eq!(reduced.difference_plus_minus("P0", "P4800"), Some(38_869_444));
}

/// Three differences in a row, each good to 2 mm: 2 x root of 3 at the end, 3.4642 mm; the error grows along the chain.
/// Closed by a fourth, each difference from the start is two ways side by side: 1 against 3, 2 against 2.
#[test]
fn without_an_instrument_the_error_grows_along_the_chain_until_it_is_closed() {
    let chain = || {
        Notes::of(Unit::Millimetre)
            .difference("A", "B", "-3", "2")
            .difference("B", "C", "1", "2")
            .difference("C", "D", "-4", "2")
            .columns(&["A", "B", "C", "D"])
    };
    let reduced = chain().reduce();
    let mm = |point: &str| reduced.elevation(point).map(|nm| nm / 1_000_000);
    assert_eq!([mm("A"), mm("B"), mm("C"), mm("D")], [Some(0), Some(-3), Some(-2), Some(-6)]);
    assert_eq!(reduced.difference_plus_minus("A", "B"), Some(2_000_000));
    assert_eq!(reduced.difference_plus_minus("A", "D"), Some(3_464_102));
    assert_eq!((reduced.levelled.redundancy(), reduced.levelled.test()), (0, None));
    // back from D to A: 6.4 up, 0.4 over; a quarter of it each
    let closed = chain().difference("D", "A", "6.4", "2").reduce();
    assert_eq!(closed.closures(), [("A", "A", 4, 400_000)]);
    assert_eq!(closed.elevation("B"), Some(-3_100_000));
    assert_eq!(closed.elevation("D"), Some(-6_300_000));
    assert_eq!(closed.difference_plus_minus("A", "B"), Some(1_732_051));
    assert_eq!(closed.difference_plus_minus("A", "C"), Some(2_000_000));
}

/// A is a benchmark good to 3 mm, B one that is held; one setup (2 readings, each good to 1 mm) puts A 4 mm lower than
/// its benchmark says. Variances 9 against 1 + 1: A keeps 4 x 2/11 of it.
#[test]
fn a_benchmark_with_a_plus_minus_of_its_own_gives_way() {
    let reduced = Notes::of(Unit::Millimetre)
        .plus_minus("1")
        .benchmark_good_to("A", "1000", "3")
        .benchmark("B", "1010")
        .setup("1", &[("A", "514"), ("B", "500")])
        .reduce();
    assert_eq!(reduced.elevation("B"), Some(1_010_000_000));
    assert_eq!(reduced.elevation("A"), Some(996_727_273));
    assert_eq!(reduced.levelled.redundancy(), 1);
    assert_eq!(*reduced.levelled.datum(), Datum::Absolute(vec!["A".to_owned(), "B".to_owned()]));
    // alone it is a datum, and every height is as uncertain as it is and a reading more
    let alone = Notes::of(Unit::Millimetre)
        .plus_minus("1")
        .benchmark_good_to("A", "1000", "3")
        .setup("1", &[("A", "514"), ("B", "500")])
        .reduce();
    assert_eq!(alone.height("A"), Some((1_000_000_000, 3_000_000)));
    assert_eq!(alone.height("B"), Some((1_014_000_000, 3_316_625)));
    assert_eq!(alone.difference_plus_minus("A", "B"), Some(1_414_214));
}

/// A pad that was read only at its corners, 0, 2, 6 and 4 mm below the other pad: its centre 3 mm below, good to
/// half of one reading and the reading of the other: U x root of 1.25.
#[test]
fn a_pad_that_was_read_only_at_its_corners_has_the_height_of_its_centre() {
    let notes = Notes::of(Unit::Millimetre).plus_minus("1").columns(&["A", "B"]).sight("1", "A", "1000");
    let corners = [("NW", "1000"), ("NE", "1002"), ("SE", "1006"), ("SW", "1004")];
    let notes = corners.iter().fold(notes, |notes, (word, reading)| notes.spot("1", "B", word, reading));
    let reduced = notes.named("B").reduce();
    assert_eq!(reduced.elevation("B"), Some(-3_000_000));
    assert_eq!(reduced.difference_plus_minus("A", "B"), Some(1_118_034));
    assert_eq!(reduced.levelled.readings(reduced.point("B")), 4);
    assert!(reduced.levelled.unconnected().is_empty());
}

/// An instrument that is exact at no distance and good to 1 mm in 10 m is not exact: 10 m and 20 m, root of 5 mm.
#[test]
fn readings_whose_uncertainty_only_grows_with_the_sight_are_not_exact() {
    let instrument = Instrument {
        reading: Length::ZERO,
        without_sight: Length::ZERO,
        per_sight: Some(mm_a_metre(0.1)),
        ..instrument(LineOfSight::Level, Tilt::Level)
    };
    let reduced = Notes::of(Unit::Millimetre)
        .instrument(instrument)
        .sight_over("1", "A", "1000", "10000")
        .sight_over("1", "B", "1000", "20000")
        .set("1", |setup| setup.instrument = Some(0))
        .columns(&["A", "B"])
        .reduce();
    assert_eq!(reduced.difference_plus_minus("A", "B"), Some(2_236_068));
}

/// P is read from two setups that share four other pads, and has an elevation that is good to 60 mm only: which of its two
/// readings is 20 mm off hangs on that elevation, and so cannot be told.
#[test]
fn two_readings_that_only_a_weak_third_tells_apart_are_one_of_two() {
    let mut notes = Notes::of(Unit::Millimetre).plus_minus("1");
    for point in ["A", "B", "C", "D", "P"] {
        let off = if point == "P" { "520" } else { "500" };
        notes = notes.sight("1", point, "400").sight("2", point, off);
    }
    let known = ["A", "B", "C", "D"].iter().fold(notes, |notes, point| notes.elevation(point, "1000", "60"));
    let levelled = known.elevation("P", "1000", "60").columns(&["A", "B", "C", "D", "P"]).reduce().levelled;
    assert_eq!(levelled.suspects().len(), 1);
    assert_eq!(levelled.suspects()[0].tied_with.len(), 1);
}

/// Of two pads read once from one place, one near and one far, each is known as well as its own reading is good to: one
/// reading more tells as much on either, and the first is named, not the one that is known worse.
#[test]
fn the_reading_that_would_help_most_is_weighed_by_what_it_is_good_to() {
    let instrument =
        Instrument { per_sight: Some(mm_a_metre(0.1)), ..instrument(LineOfSight::Level, Tilt::Level) };
    let reduced = Notes::of(Unit::Millimetre)
        .instrument(instrument)
        .sight_over("1", "near", "1000", "5000")
        .sight_over("1", "far", "1000", "90000")
        .set("1", |setup| setup.instrument = Some(0))
        .columns(&["near", "far"])
        .reduce();
    let extra = reduced.levelled.extra().unwrap();
    assert_eq!((extra.point, extra.first_check), (reduced.point("near"), true));
}
