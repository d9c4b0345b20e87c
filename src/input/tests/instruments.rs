//! Instruments, setups, peg tests, sight lengths, spots and benchmarks with a +-: good ones and bad ones.

use super::{JOB, Job, assert_told, told};
use crate::length::Length;
use crate::model::{LineOfSight, Readings, RodLabel, Slope, SpotKind, Tilt};

/// Level notes of two setups.
const LEVELS: &str = "setup,point,reading\n1,A1,4.5\n1,A2,4.6\n2,A1,4.4\n2,A2,4.5\n";

/// A job with two columns on positions, this under `[measure]`, these tables behind it, and these level notes.
fn files(measure: &str, tables: &str, levels: &str) -> Job {
    let columns =
        "[[column]]\nmark = \"A1\"\nat = [\"0\", \"0\"]\n[[column]]\nmark = \"A2\"\nat = [\"20'\", \"0\"]\n";
    let measure = format!("levels = \"levels.csv\"\nlevels_units = \"ft\"\n{measure}");
    let job = JOB.replace("walk = \"walk.csv\"", &measure) + columns + tables;
    Job::new(&[("job.toml", &job), ("levels.csv", levels)])
}

fn good(measure: &str, tables: &str, levels: &str) -> Readings {
    files(measure, tables, levels).load().map_err(|refused| told(&refused)).unwrap().job.readings
}

/// Gives the faults of these tables without their places, which the other tests look at.
fn faults(tables: &str) -> Vec<String> {
    let found = files("", tables, LEVELS).faults();
    found.iter().map(|line| line.splitn(4, ':').nth(3).unwrap().trim().to_owned()).collect()
}

fn instrument(keys: &str) -> String {
    format!("[[instrument]]\n{keys}\n")
}

fn mm(text: &str) -> Length {
    use crate::length::{Bare, Unit, read};
    read(text, Bare::of(Unit::Millimetre)).unwrap()
}

fn over(rise: &str, run: &str) -> Slope {
    Slope { rise: mm(rise), run: mm(run) }
}

#[test]
fn an_instrument_that_is_not_described_has_the_figures_of_its_kind() {
    let laser = instrument("kind = \"Rotary laser\"");
    for readings in [good("", &laser, LEVELS), good("instrument = \"rotary laser\"", "", LEVELS)] {
        let it = &readings.instruments[0];
        assert_eq!(it.kind.as_deref(), Some("rotary-laser"));
        assert_eq!((it.reading, it.per_sight), (mm("2"), Some(over("2", "30 m"))));
        assert_eq!(it.without_sight, mm("1/8 in"));
        assert_eq!((&it.line, it.tilt), (&LineOfSight::Level, Tilt::Level));
        assert_eq!(readings.kinds_assumed, ["rotary-laser"]);
        assert!(readings.plus_minus_assumed);
        assert!(
            readings.setups.iter().all(|setup| setup.instrument == Some(0)),
            "the only one was at all setups"
        );
    }
}

#[test]
fn what_the_job_says_goes_before_the_kind_and_what_the_instrument_says_before_both() {
    let states = "levels_plus_minus = \"1/32\"\ninstrument = \"rotary laser\"";
    for readings in [good(states, "", LEVELS), good(states, &instrument("kind = \"rotary-laser\""), LEVELS)] {
        let it = &readings.instruments[0];
        assert_eq!((it.reading, it.per_sight, it.without_sight), (mm("1/32 in"), None, mm("1/32 in")));
        assert!(readings.kinds_assumed.is_empty() && !readings.plus_minus_assumed);
    }
    let own = instrument("kind = \"rotary-laser\"\nplus_minus = \"1 mm\"");
    let it = &good(states, &own, LEVELS).instruments[0];
    assert_eq!((it.reading, it.per_sight, it.without_sight), (mm("1"), None, mm("1")));
    assert!(good("", &own, LEVELS).kinds_assumed.is_empty());
}

#[test]
fn every_key_of_an_instrument_and_a_setup_is_read() {
    let tables = r#"
[[instrument]]
name = "dumpy"
plus_minus = "0.8 mm"
per_sight = ["1 mm", "30 m"]
slope = ["-0.4 mm", "10 m"]
slope_plus_minus = ["0.2 mm", "10 m"]
tilt = ["0.1 mm", "1 m"]
[[instrument.peg]]
first = { a = 4.33, to_a = 130, b = 5.12, to_b = 130 }
second = { a = "3.64", to_a = "33 ft", b = "4.56", to_b = "295 ft" }
[[instrument]]
name = "laser"
kind = "rotary-laser"
slope = "free"
tilt = "free"
[[setup]]
name = "1"
instrument = "dumpy"
at = ["-10'", "5'"]
tilt = "free"
turned = 180
[[setup]]
name = "2"
instrument = "laser"
at = ["30'", "5'"]
"#;
    let readings = good("", tables, LEVELS);
    let [dumpy, laser] = &readings.instruments[..] else { panic!("{:?}", readings.instruments) };
    assert_eq!((dumpy.reading, dumpy.per_sight), (mm("0.8"), Some(over("1", "30 m"))));
    let LineOfSight::Found { stated, pegs } = &dumpy.line else { panic!("{:?}", dumpy.line) };
    assert_eq!(*stated, Some((over("-0.4", "10 m"), over("0.2", "10 m"))));
    assert_eq!(pegs[0].first[0].reading, mm("4.33 ft"), "bare numbers take levels_units");
    assert_eq!(pegs[0].first[1].sight, mm("130 ft"));
    assert_eq!(pegs[0].lever(), mm("262 ft"));
    assert_eq!(dumpy.tilt, Tilt::Within(over("0.1", "1 m")));
    assert_eq!(laser.line, LineOfSight::Found { stated: None, pegs: Vec::new() });
    assert_eq!(laser.tilt, Tilt::Free);
    let [one, two] = &readings.setups[..] else { panic!("{:?}", readings.setups) };
    assert_eq!((one.instrument, one.turned, one.tilt), (Some(0), 180, Tilt::Free));
    assert_eq!(one.at, Some([mm("-10 ft"), mm("5 ft")]));
    assert_eq!((two.instrument, two.turned, two.tilt), (Some(1), 0, Tilt::Level));
}

#[test]
fn a_kind_that_is_not_known_is_told_with_the_nearest_or_with_all() {
    assert_told(
        &faults(&instrument("kind = \"optical-lvel\"")),
        &["`optical-lvel` is not a kind of instrument | did you mean `optical-level`?"],
    );
    assert_told(
        &faults(&instrument("kind = \"theodolite\"")),
        &["`theodolite` is not a kind of instrument | known are optical-level, rotary-laser, digital-level"],
    );
    let words = good("instrument = \"theodolite, shop no. 3\"", "", LEVELS);
    assert!(words.instruments.is_empty(), "under [measure] it may be anything");
}

#[test]
fn figures_of_an_instrument_that_cannot_be_are_told() {
    let cases = [
        ("plus_minus = \"-1/16\"", "this length cannot be less than 0"),
        ("per_sight = \"1 mm\"", "expected a list, found"),
        ("per_sight = [\"1 mm\"]", "expected 2 lengths, found 1"),
        (
            "per_sight = [\"1 mm\", \"0\"]",
            "the second length of a slope is the run, and it must be more than 0 | write so much over so much",
        ),
        (
            "per_sight = [\"-1 mm\", \"30 m\"]",
            "what a reading is good to cannot shrink with the sight | write so much more",
        ),
        (
            "per_sight = [\"30 m\", \"1 mm\"]",
            "this is steeper than 1 in 100, which no instrument in use is | write the rise first",
        ),
        (
            "slope = [\"10 m\", \"0.5 mm\"]\nslope_plus_minus = [\"0.5 mm\", \"10 m\"]",
            "this is steeper than 1 in 100",
        ),
        (
            "slope = [\"0\", \"10 m\"]",
            "the slope of this instrument's line of sight has no +- | add slope_plus_minus",
        ),
        (
            "slope_plus_minus = [\"0.5 mm\", \"10 m\"]",
            "`slope_plus_minus` stands here without a slope | add slope",
        ),
        (
            "slope = \"free\"\nslope_plus_minus = [\"1 mm\", \"10 m\"]",
            "a slope that is to be found from the readings has no +- | take slope_plus_minus out",
        ),
        (
            "slope = [\"0\", \"10 m\"]\nslope_plus_minus = [\"0\", \"10 m\"]",
            "what the slope is good to must be more than 0",
        ),
        (
            "slope = \"level\"",
            "`level` is not known here | use \"free\" to find it from the readings, or give a slope [rise, run]",
        ),
        (
            "tilt = \"none\"",
            "`none` is not known here | use \"free\" to find it from the readings, or give what it is level to",
        ),
        ("tilt = [\"0\", \"1 m\"]", "what a setup is level to must be more than 0 | leave tilt out"),
        (
            "perp_sight = [\"1 mm\", \"30 m\"]",
            "`perp_sight` is not a key of [[instrument]] | did you mean `per_sight`?",
        ),
        ("kind = \" \"", "a name is needed here, this is blank"),
    ];
    for (keys, wanted) in cases {
        let found = faults(&instrument(keys));
        assert_eq!(found.len(), 1, "{keys}: {found:?}");
        assert!(found[0].starts_with(wanted), "{keys}: {found:?}");
    }
}

#[test]
fn several_instruments_need_names_that_differ_and_a_setup_each() {
    let two = instrument("name = \"L\"") + &instrument("name = \"L\"");
    let setups = "[[setup]]\nname = \"1\"\ninstrument = \"L\"\n[[setup]]\nname = \"2\"\ninstrument = \"L\"\n";
    assert_told(
        &faults(&(two + setups)),
        &["the instrument `L` stands here a second time | it stands first at job.toml"],
    );
    let unnamed = instrument("name = \"L\"") + &instrument("kind = \"water-level\"");
    assert_told(&faults(&unnamed), &["`name` is missing in [[instrument]] | add name = \"level 1\""]);
    let who = instrument("name = \"L\"") + &instrument("name = \"R\"");
    assert_told(
        &faults(&who),
        &[
            "with which of the instruments was setup `1` read? | add [[setup]] with name = \"1\" and its instrument",
        ],
    );
}

#[test]
fn a_setup_must_be_one_of_the_notes_and_name_an_instrument_that_is_there() {
    let named = instrument("name = \"laser\"");
    let cases = [
        ("[[setup]]\nname = \"3\"\n", "`3` is no setup of the level notes"),
        (
            "[[setup]]\ntilt = \"free\"\n",
            "`name` is missing in [[setup]] | add name = \"1\", as the level notes call it",
        ),
        ("[[setup]]\nname = 1\n", "expected a text in quotes, found"),
        (
            "[[setup]]\nname = \"1\"\ninstrument = \"lasr\"\n",
            "`lasr` is no [[instrument]] | did you mean `laser`?",
        ),
        ("[[setup]]\nname = \"1\"\nat = [\"1'\"]\n", "expected 2 lengths, found 1"),
        ("[[setup]]\nname = \"1\"\nturned = \"180\"\n", "expected a whole number, found"),
        ("[[setup]]\nname = \"1\"\nturned = 400\n", "expected a whole number from -360 to 360, found `400`"),
        (
            "[[setup]]\nname = \"1\"\ntilted = \"free\"\n",
            "`tilted` is not a key of [[setup]] | did you mean `tilt`?",
        ),
        ("[[setup]]\nname = \"1\"\n[[setup]]\nname = \"1\"\n", "the setup `1` stands here a second time"),
    ];
    for (setup, wanted) in cases {
        let found = faults(&format!("{named}{setup}"));
        assert!(found.iter().any(|line| line.starts_with(wanted)), "{setup}: {found:?}");
    }
    let setup = "[[setup]]\nname = \"1\"\ninstrument = \"laser\"\n";
    assert_told(
        &faults(setup),
        &["`laser` is no [[instrument]] | add an [[instrument]] of this name, or take the key out"],
    );
    assert_told(
        &faults(&(instrument("kind = \"rotary-laser\"") + setup)),
        &[
            "`laser` is no [[instrument]] | give the [[instrument]] this name, or take the key out: there is only one",
        ],
    );
    assert_told(
        &faults("[setup]\nname = \"1\"\n"),
        &["`setup` is one table, a list of them is expected | write [[setup]] with two brackets"],
    );
}

#[test]
fn a_peg_test_that_tells_nothing_or_lacks_a_reading_is_told() {
    let peg = |first: &str, second: &str| {
        instrument(&format!("[[instrument.peg]]\nfirst = {first}\nsecond = {second}"))
    };
    let middle = "{ a = 4.33, to_a = 130, b = 5.12, to_b = 130 }";
    assert_told(
        &faults(&peg(middle, "{ a = 4.3, to_a = 90, b = 5.1, to_b = 90 }")),
        &[
            "this peg test tells nothing: its sights are alike from both places | read the pegs once from between them",
        ],
    );
    assert_told(
        &faults(&peg(middle, "{ a = 4.3, b = 5.1, to_b = -9, c = 1 }")),
        &[
            "`to_a` is missing in a place of a peg test | add to_a = \"40 m\"",
            "this length cannot be less than 0",
            "`c` is not a key of a place of a peg test",
        ],
    );
    assert_told(
        &faults(&instrument("[instrument.peg]\nfirst = 1\nsecond = 2")),
        &["`peg` is one table, a list of peg tests is expected | write [[instrument.peg]] with two brackets"],
    );
    assert_told(
        &faults(&instrument(&format!("[[instrument.peg]]\nfirst = {middle}"))),
        &["`second` is missing in [[instrument.peg]] | add second = { a = \"1.32\", to_a = \"40 m\""],
    );
}

#[test]
fn sight_lengths_take_the_unit_of_the_readings() {
    let levels = "setup,point,reading,distance\n1,A1,4.5,120\n1,A2,4.6,30 m\n2,A1,4.4,\n2,A2,4.5,12'-6\n";
    let found: Vec<_> = good("", "", levels).sights.iter().map(|sight| sight.distance).collect();
    assert_eq!(found, [Some(mm("120 ft")), Some(mm("30 m")), None, Some(mm("3.81 m"))]);
    let bad = levels.replace("120", "-120").replace("30 m", "far");
    assert_told(
        &files("", "", &bad).faults(),
        &[
            "levels.csv:2:10: `-120`: this cannot be less than 0",
            "levels.csv:3:10: `far`: this is not a length",
        ],
    );
}

#[test]
fn a_sight_length_is_needed_only_where_nothing_can_stand_in_for_it() {
    let grows = instrument("plus_minus = \"1 mm\"\nper_sight = [\"1 mm\", \"30 m\"]");
    let wanted =
        "levels.csv:2:6: the sight length of this reading is needed and not known, as of 3 readings more";
    assert_told(&files("", &grows, LEVELS).faults(), &[wanted]);
    assert_told(&files("", &instrument("slope = \"free\""), LEVELS).faults(), &[wanted]);
    let placed =
        "[[setup]]\nname = \"1\"\nat = [\"0\", \"9'\"]\n[[setup]]\nname = \"2\"\nat = [\"0\", \"-9'\"]\n";
    assert_eq!(good("", &(grows + placed), LEVELS).setups.len(), 2);
    assert_eq!(
        good("", &instrument("kind = \"optical-level\""), LEVELS).setups.len(),
        2,
        "a kind has a figure without"
    );
}

#[test]
fn a_tilt_needs_to_know_where_its_points_stand() {
    let setup = "[[setup]]\nname = \"1\"\ntilt = \"free\"\n";
    let levels = "setup,point,sight,reading\n1,A1,BS,4.5\n1,A2,,4.6\n1,TP,FS,4\n2,TP,BS,4.4\n2,A2,,4.5\n";
    assert_told(
        &files("", setup, levels).faults(),
        &[
            "levels.csv:4:9: where this point stands in plan is needed, since its setup may be tilted, and not known | \
           give the column its position",
        ],
    );
    assert_eq!(good("", setup, LEVELS).setups[0].tilt, Tilt::Free);
}

#[test]
fn a_spot_is_the_pad_the_top_of_a_rod_or_another_place() {
    let levels = "point,reading,spot\nA1,4.5,\nA1,4.5,Pad\nA1,4.2,rod 2\nA1,4.2,Rod 02\nA2,4.2,rod  LOW\nA1,4.5,north edge\nA2,4.5,N\n";
    let readings = good("", "", levels);
    assert_eq!(readings.points, ["A1", "A1 rod 2", "A2 rod low", "A1 north edge", "A2", "A2 N"]);
    let points: Vec<usize> = readings.sights.iter().map(|sight| sight.point).collect();
    assert_eq!(points, [0, 0, 1, 1, 2, 3, 5]);
    let whats: Vec<&SpotKind> = readings.spots.iter().map(|spot| &spot.what).collect();
    assert_eq!(whats[0], &SpotKind::Rod(RodLabel::Number(2)));
    assert_eq!(whats[2], &SpotKind::Place("north edge".to_owned()));
}

#[test]
fn a_spot_that_is_no_rod_or_belongs_to_no_column_is_told() {
    let levels = "point,reading,spot\nA1,4.5,rod\nA1,4.5,rod 0\nA1,4.5,rod two\nA1,4.5,rod -1\nBM,4,rod 1\nA3,4,north\nA3,4,\n";
    let mark = "[[benchmark]]\npoint = \"BM\"\nelevation = \"100'\"\n";
    let fix = "which rod is this? | write rod and its number, such as rod 2, or rod low or rod high";
    assert_told(
        &files("", mark, levels).faults(),
        &[
            &format!("levels.csv:2:8: `rod`: {fix}"),
            &format!("levels.csv:3:8: `rod 0`: {fix}"),
            &format!("levels.csv:4:8: `rod two`: {fix}"),
            &format!("levels.csv:5:8: `rod -1`: {fix}"),
            "levels.csv:6:1: `BM` is a benchmark, and a spot belongs to a column | leave the spot blank",
            "levels.csv:7:1: `A3` is not a column of this job | did you mean `A1`?",
        ],
    );
}

#[test]
fn a_benchmark_may_have_its_own_plus_minus_and_its_place() {
    let mark = |more: &str| format!("[[benchmark]]\npoint = \"BM\"\nelevation = \"100'\"\n{more}");
    let levels = "point,reading\nBM,4\nA1,4.5\n";
    let known = &good("", &mark("plus_minus = \"1/8\"\nat = [\"-5'\", \"2'\"]\n"), levels).benchmarks[0];
    assert_eq!((known.plus_minus, known.at), (mm("1/8 in"), Some([mm("-5 ft"), mm("2 ft")])));
    assert_eq!(good("", &mark(""), levels).benchmarks[0].plus_minus, Length::ZERO, "held as it is");
    let bad = [
        ("plus_minus = \"-1\"\n", "this length cannot be less than 0"),
        ("at = \"5'\"\n", "expected a list, found"),
        ("at = [\"5'\", \"x\"]\n", "`x`: this is not a length"),
        ("plus_minsu = \"1\"\n", "`plus_minsu` is not a key of [[benchmark]] | did you mean `plus_minus`?"),
    ];
    for (more, wanted) in bad {
        let found = files("", &mark(more), levels).faults();
        assert!(found.len() == 1 && found[0].contains(wanted), "{more}: {found:?}");
    }
}
