//! Reading lengths: every form, every fault, and what is printed reads back.

use proptest::prelude::*;
use rodreach::length::{Bare, Length, Rounding, Unit, Unreadable, read};
use rodreach::text::{Style, System};

const INCH: Bare = Bare { number: Some(Unit::Inch), fraction: Some(Unit::Inch) };
const FEET: Bare = Bare { number: Some(Unit::Foot), fraction: Some(Unit::Inch) };
const METRIC: Bare = Bare { number: Some(Unit::Millimetre), fraction: None };
const NOTHING: Bare = Bare { number: None, fraction: None };

fn nm(text: &str, bare: Bare) -> Result<i64, Unreadable> {
    read(text, bare).map(Length::nm)
}

#[test]
fn one_eighth_is_the_same_in_every_form() {
    for text in [
        "1/8",
        "0.125",
        ".125",
        "0.125 in",
        "1/8\"",
        "3.175 mm",
        "0.3175 cm",
        "0.003175 m",
        "⅛",
        "1⁄8",
        "2/16",
    ] {
        assert_eq!(nm(text, INCH), Ok(3_175_000), "{text}");
    }
}

#[test]
fn every_form_of_a_length_is_read() {
    for (text, wanted) in [
        ("3/8", 9_525_000),
        ("1-1/2", 38_100_000),
        ("1 1/2\"", 38_100_000),
        ("1½", 38_100_000),
        ("1 ½ in", 38_100_000),
        ("2'-11 3/4\"", 908_050_000),
        ("2′-11 3/4″", 908_050_000),
        ("2' 11 3/4", 908_050_000),
        ("2'11-3/4\"", 908_050_000),
        ("2'-6", 762_000_000),
        ("2'-6.5\"", 774_700_000),
        ("3'", 914_400_000),
        ("2.98 ft", 908_304_000),
        ("2.98'", 908_304_000),
        ("0.375 in", 9_525_000),
        ("12 mm", 12_000_000),
        ("1.2 cm", 12_000_000),
        ("0.896 m", 896_000_000),
        ("-1/2", -12_700_000),
        ("\u{2212}1/2", -12_700_000),
        ("+1/2", 12_700_000),
        ("-0'-6\"", -152_400_000),
        (" 7 ", 177_800_000),
        ("0", 0),
        ("1/64", 396_875),
    ] {
        assert_eq!(nm(text, INCH), Ok(wanted), "{text}");
    }
}

#[test]
fn a_bare_number_takes_the_unit_that_holds_there_and_a_fraction_is_inches() {
    assert_eq!(nm("0.01", FEET), Ok(3_048_000));
    assert_eq!(nm("3/8", FEET), Ok(9_525_000));
    assert_eq!(nm("12", METRIC), Ok(12_000_000));
    assert_eq!(nm("3/8", METRIC), Err(Unreadable::FractionNeedsUnit));
    assert_eq!(nm("3/8 in", METRIC), Ok(9_525_000));
    assert_eq!(nm("4.52", NOTHING), Err(Unreadable::NeedsUnit));
    assert_eq!(nm("4'-6 1/4\"", NOTHING), Ok(1_377_950_000));
}

#[test]
fn what_is_finer_than_a_nanometre_goes_to_the_nearest_and_ties_away_from_zero() {
    assert_eq!(nm("0.0000005 mm", INCH), Ok(1));
    assert_eq!(nm("-0.0000005 mm", INCH), Ok(-1));
    assert_eq!(nm("0.0000004999 mm", INCH), Ok(0));
    assert_eq!(nm("1/128", INCH), Ok(198_438));
    assert_eq!(nm("1/3", INCH), Ok(8_466_667));
}

#[test]
fn whatever_is_not_a_length_says_why() {
    use Unreadable as U;
    for (text, why) in [
        ("", U::Empty),
        ("  ", U::Empty),
        ("8-Jan", U::Date),
        ("Jan-8", U::Date),
        ("1/8/2026", U::Date),
        ("2026-01-08", U::Date),
        ("8.1.2026", U::Date),
        ("4,52", U::DecimalComma),
        ("1e3", U::NotPlain),
        ("1.5E-3", U::NotPlain),
        ("0x10", U::NotPlain),
        ("inf", U::NotPlain),
        ("nan", U::NotPlain),
        ("1/0", U::ZeroDenominator),
        ("1-5/4", U::FractionTooLarge),
        ("2'-14", U::InchesTooLarge),
        ("3 yd", U::UnknownUnit),
        ("12 MM", U::UnknownUnit),
        ("--3", U::Form),
        ("3..5", U::Form),
        ("5.", U::Form),
        ("3 4", U::Form),
        ("1/2/", U::Form),
        ("2.5'-6", U::Form),
        ("three", U::Form),
        ("10000.000001 m", U::OutOfRange),
        ("1000000000000000000000000000 m", U::TooManyDigits),
        ("999999999999999999999999 m", U::OutOfRange),
    ] {
        assert_eq!(nm(text, INCH), Err(why), "{text:?}");
    }
}

#[test]
fn ten_kilometres_is_the_last_length_that_is_read() {
    assert_eq!(nm("10000 m", NOTHING), Ok(10_000_000_000_000));
    assert_eq!(nm("-10000 m", NOTHING), Ok(-10_000_000_000_000));
}

proptest! {
    #[test]
    fn no_text_makes_the_reader_panic(text in "\\PC{0,60}") {
        let _ = read(&text, INCH);
    }

    #[test]
    fn no_scramble_of_what_lengths_are_made_of_makes_it_panic(text in "[0-9'\"/. mcinft+-]{0,40}") {
        let _ = read(&text, NOTHING);
    }

    #[test]
    fn what_is_written_reads_back(steps in -100_000_i64..100_000, metric: bool) {
        let system = if metric { System::Metric } else { System::Inch };
        let style = Style::new(system, 16);
        let length = Length::from_nm(style.step().nm() * steps);
        let text = style.write(length, Rounding::Nearest);
        prop_assert_eq!(read(&text, NOTHING), Ok(length), "{}", &text);
        let text = style.exact(length);
        prop_assert_eq!(read(&text, NOTHING), Ok(length), "{}", &text);
        let text = style.elevation(length);
        prop_assert_eq!(read(&text, NOTHING), Ok(length), "{}", &text);
    }

    #[test]
    fn rounding_never_goes_the_wrong_way(nm in -10_000_000_000_i64..10_000_000_000, step in 1_i64..5_000_000) {
        let (length, step) = (Length::from_nm(nm), Length::from_nm(step));
        prop_assert!(length.to_step(step, Rounding::Down) <= length);
        prop_assert!(length.to_step(step, Rounding::Up) >= length);
        let nearest = length.to_step(step, Rounding::Nearest);
        prop_assert!((nearest - length).abs() * 2 <= step);
    }
}
