//! A good inch job, field by field. The job is invented.

use super::{Job, told};
use crate::catalog::{Extent, Standing};
use crate::length::{Bare, Length, Unit, read};
use crate::model::{Condition, Duty, LineKind, RodLabel, Sense, Setup, SightKind, Units};

const JOB: &str = r#"
[job]
name   = " Gull Point "
units  = "in"
limits = "low-rise"
seat   = "100'"
fraction = 32

[measure]
walk = "walk.csv"
rods = "./rods.csv"
elevations = "asbuilt.csv"
levels_units = "ft"
rods_origin = "1/4"
by = "the crew"
date = 2026-05-04
instrument = "level 7"

[[benchmark]]
point = "BM1"
elevation = "100'"

[[base]]
mark   = "B1"
plate  = { size = ["8", 12], thickness = "1/2", tolerance = ["-0.01", "0.03"], holes = "15/16" }
rods   = { diameter = "3/4", count = 4, pattern = ["4", "8"], projection = "2-1/2", thread = "3" }
washers = ["wide", { thickness = ["0.1", "1/8"], outer = "2" }]
nuts   = ["heavy-hex", { height = ["0.6", "0.7", "0.8"] }]
extra  = "wide"
beyond = "1/8"
bed    = 0

[[base]]
mark   = "B2"
plate  = { thickness = 0.75 }
rods   = { diameter = 0.75, count = 2 }
nuts   = ["hex"]
duty   = "post"

[[column]]
mark = "A1"
base = "B1"
at   = ["0", "0"]
seat = "96'"

[[column]]
mark = "A2"
base = "B1"

[[column]]
mark = "A3"
base = "B2"

[[column]]
mark = "A4"
base = "B1"

[[line]]
name = "A"
kind = "wall"
columns = ["A1", "A2", "A3"]
spacing = ["20'", "18'-6"]
accept = "1/4"

[[line]]
name = "F"
kind = "frame"
columns = ["A4", "A1"]

[shims]
thicknesses = ["1/8", "1/4", "1/16"]
tolerance = ["-0.005", "0.01"]
pieces = 2

[limits.neighbours]
accept = "1/4"
"#;

const WALK: &str = "\u{feff} Mark ,HIGH,low,reading,Base,thread,condition,note\r
A2,2-5/8,\"2-1/2\",4.52,B1,2-3/4,,by the door\r
A1,,,\"4'-6 1/4\"\"\",,,bent,\r
\r
A3,,2.25,,,,,\r
";

const RODS: &str = "column,rod,projection,thread,condition
A1,,2,3,
A1,2,2-1/4,,OK
A1,3,,,cut
A4,HIGH,3,,
A4,,2-7/8,2,
";

fn inch(text: &str) -> Length {
    read(text, Bare::of(Unit::Inch)).unwrap()
}

/// Label, projection, thread, sound, one for all.
type RodRow = (String, Option<Length>, Option<Length>, bool, bool);

#[test]
fn every_field_of_an_inch_job_is_as_written() {
    let elevations = "point,elevation,plus_minus\nA1,99.5,1/8\nBM1,100',\n";
    let files = [("job.toml", JOB), ("walk.csv", WALK), ("rods.csv", RODS), ("asbuilt.csv", elevations)];
    let job = Job::new(&files).load().map_err(|refused| told(&refused)).unwrap().job;

    assert_eq!((job.name.as_str(), job.units, job.fraction), ("Gull Point", Units::Inch, 32));
    assert_eq!(job.seat, Some(inch("100'")));
    assert_eq!(job.files, ["job.toml", "walk.csv", "asbuilt.csv", "./rods.csv"]);
    let measured: Vec<(&str, &str)> = job.measured.iter().map(|(key, said)| (*key, said.as_str())).collect();
    assert_eq!(measured, [("by", "the crew"), ("date", "2026-05-04"), ("instrument", "level 7")]);

    assert_eq!(job.limits.name, "low-rise");
    let neighbours = job.limits.tables.neighbours.as_ref().unwrap();
    assert_eq!((neighbours.accept.value, neighbours.accept.authority.kind), (inch("1/4"), Standing::ThisJob));
    assert_eq!(neighbours.desired.as_ref().unwrap().value, inch("1/8"));

    // the piece and its sum are worked by hand: 1/4 - 0.005, 1/4 + 0.01
    assert_eq!((job.shims.series.as_deref(), job.shims.most_pieces), (None, 2));
    let shims: Vec<Extent> = job.shims.pieces.iter().map(|piece| piece.thickness).collect();
    assert_eq!(shims[0], Extent { least: inch("0.245"), nominal: inch("1/4"), most: inch("0.26") });
    assert_eq!([shims[1].nominal, shims[2].nominal], [inch("1/8"), inch("1/16")]);
    assert_eq!(job.shims.pieces[0].authority.kind, Standing::ThisJob);

    assert_eq!(job.rods_plus_minus, inch("1/16"));
    assert!(job.rods_plus_minus_assumed && job.readings.plus_minus_assumed);
}

#[test]
fn the_parts_of_an_inch_base_are_found_in_the_catalog_or_taken_as_measured() {
    let files =
        [("job.toml", JOB), ("walk.csv", WALK), ("rods.csv", RODS), ("asbuilt.csv", "point,elevation\n")];
    let job = Job::new(&files).load().map_err(|refused| told(&refused)).unwrap().job;
    let [one, two] = job.bases.as_slice() else { panic!("two bases") };

    assert_eq!((one.mark.as_str(), one.duty, two.duty), ("B1", Duty::Column, Duty::Post));
    assert_eq!(one.plate.size, Some([inch("8"), inch("12")]));
    assert_eq!(one.plate.thickness, Extent { least: inch("0.49"), nominal: inch("1/2"), most: inch("0.53") });
    assert_eq!((one.plate.tolerance.kind, one.plate.holes), (Standing::ThisJob, Some(inch("15/16"))));
    // ASTM A6, plate 48 in wide and under: 0.01 under for all, 0.03 over below 1 in
    assert_eq!(two.plate.thickness, Extent { least: inch("0.74"), nominal: inch("3/4"), most: inch("0.78") });
    assert_ne!(two.plate.tolerance.kind, Standing::ThisJob);

    assert_eq!((one.rods.size.as_str(), two.rods.size.as_str()), ("3/4", "3/4"));
    assert_eq!((one.rods.diameter, one.rods.count, two.rods.count), (inch("3/4"), 4, 2));
    assert_eq!(one.rods.pattern, Some([inch("4"), inch("8")]));
    assert_eq!((one.rods.projection, one.rods.thread), (Some(inch("2-1/2")), Some(inch("3"))));
    assert_eq!((two.rods.projection, two.rods.pattern), (None, None));
    // ASME B1.1: 3/4-10 UNC
    assert_eq!(one.rods.pitch.times(1), inch("0.1"));

    // ASME B18.21.1 type A wide, 3/4: 0.122, 0.148, 0.177
    let wide = Extent { least: inch("0.122"), nominal: inch("0.148"), most: inch("0.177") };
    let measured = Extent { least: inch("0.1"), nominal: inch("1/8"), most: inch("1/8") };
    let told: Vec<(&str, Extent)> =
        one.washers.iter().map(|part| (part.series.as_str(), part.thickness)).collect();
    assert_eq!(told, [("wide", wide), ("as measured", measured)]);
    assert_eq!(one.washers[1].outer, Some(inch("2")));
    assert_eq!(one.extra.as_ref().unwrap().series, "wide");
    assert!(two.washers.is_empty() && two.extra.is_none());
    // ASME B18.2.2 heavy hex, 3/4: 0.710 to 0.758, basic 47/64
    let heavy = Extent { least: inch("0.710"), nominal: inch("47/64"), most: inch("0.758") };
    assert_eq!((one.nuts[0].series.as_str(), one.nuts[0].height), ("heavy-hex", heavy));
    assert_eq!(one.nuts[1].height, Extent { least: inch("0.6"), nominal: inch("0.7"), most: inch("0.8") });

    assert_eq!((one.beyond.value, one.beyond.authority.kind), (inch("1/8"), Standing::ThisJob));
    assert_eq!((two.beyond.value, two.clear.value, two.most_extra.value), (Length::ZERO, inch("0.1"), 2));
    assert_eq!(one.hole_table.as_ref().unwrap().hole, inch("1-5/16"));
}

#[test]
fn the_columns_rods_and_readings_of_an_inch_job_are_as_written() {
    let files = [
        ("job.toml", JOB),
        ("walk.csv", WALK),
        ("rods.csv", RODS),
        ("asbuilt.csv", "point,elevation\nA4,99.5\n"),
    ];
    let loaded = Job::new(&files).load().map_err(|refused| told(&refused)).unwrap();
    let job = &loaded.job;
    let marks: Vec<(&str, usize)> =
        job.columns.iter().map(|column| (column.mark.as_str(), column.base)).collect();
    assert_eq!(marks, [("A1", 0), ("A2", 0), ("A3", 1), ("A4", 0)]);
    assert_eq!((job.columns[0].at, job.columns[0].seat), (Some([Length::ZERO; 2]), Some(inch("96'"))));
    assert_eq!((job.columns[1].at, job.columns[1].seat), (None, None));
    assert_eq!(job.columns[1].note.as_deref(), Some("by the door"));

    // A2 was read first; A3 was not read; A4 has an elevation; the benchmark comes last
    assert_eq!(job.readings.points, ["A2", "A1", "A4", "BM1"]);
    let points: Vec<Option<usize>> = job.columns.iter().map(|column| column.point).collect();
    assert_eq!(points, [Some(1), Some(0), None, Some(2)]);
    assert_eq!(job.readings.setups, [Setup::named("walk")]);
    let sights: Vec<(usize, Length)> =
        job.readings.sights.iter().map(|sight| (sight.point, sight.reading)).collect();
    assert_eq!(sights, [(0, inch("4.52 ft")), (1, inch("54-1/4"))]);
    assert!(
        job.readings.sights.iter().all(|sight| sight.kind == SightKind::Intermediate && sight.setup == 0)
    );
    // the place is the cell: line 3, behind `A1,,,`
    assert_eq!(loaded.files.line_and_column(job.readings.sights[1].place), (3, 6));
    assert_eq!(job.readings.sense, Sense::Rod);
    assert_eq!(job.readings.elevations[0].elevation, inch("99.5 ft"));
    assert_eq!(job.readings.elevations[0].plus_minus, inch("1/16"));
    assert_eq!((job.readings.benchmarks[0].point, job.readings.benchmarks[0].elevation), (3, inch("100'")));

    // 1/4 of rods_origin is in every projection
    let rods = |column: usize| -> Vec<RodRow> {
        let rods = job.columns[column].rods.iter();
        rods.map(|rod| {
            let sound = rod.condition == Condition::Sound;
            (rod.label.to_string(), rod.projection, rod.thread, sound, rod.one_for_all)
        })
        .collect()
    };
    let some = |text: &str| Some(inch(text));
    assert_eq!(
        rods(0),
        [
            ("1".to_owned(), some("2-1/4"), some("3"), false, true),
            // its own row says it is sound, and gives no thread
            ("2".to_owned(), some("2-1/2"), None, true, false),
            ("3".to_owned(), None, None, false, false),
            ("4".to_owned(), some("2-1/4"), some("3"), false, true),
        ]
    );
    assert_eq!(job.columns[0].rods[0].condition, Condition::Noted("bent".to_owned()));
    assert_eq!(job.columns[0].rods[2].condition, Condition::Noted("cut".to_owned()));
    assert_eq!(
        rods(1),
        [
            ("low".to_owned(), some("2-3/4"), some("2-3/4"), true, false),
            ("high".to_owned(), some("2-7/8"), some("2-3/4"), true, false),
        ]
    );
    assert_eq!(
        rods(2),
        [("low".to_owned(), some("2.5"), None, true, false), ("high".to_owned(), None, None, true, false)]
    );
    // the row for all stands for the low rod
    assert_eq!(
        rods(3),
        [
            ("low".to_owned(), some("3-1/8"), some("2"), true, true),
            ("high".to_owned(), some("3-1/4"), None, true, false),
        ]
    );
    assert_eq!(job.columns[3].rods[0].label, RodLabel::Low);
}

#[test]
fn the_lines_of_an_inch_job_are_as_written() {
    let files =
        [("job.toml", JOB), ("walk.csv", WALK), ("rods.csv", RODS), ("asbuilt.csv", "point,elevation\n")];
    let job = Job::new(&files).load().map_err(|refused| told(&refused)).unwrap().job;
    let [wall, frame] = job.lines.as_slice() else { panic!("two lines") };
    assert_eq!((wall.name.as_str(), wall.kind, wall.found), ("A", LineKind::Wall, false));
    assert_eq!((wall.columns.as_slice(), wall.accept), ([0, 1, 2].as_slice(), Some(inch("1/4"))));
    assert_eq!(wall.spacing, [inch("20'"), inch("18'-6")]);
    assert_eq!(
        (frame.kind, frame.columns.as_slice(), frame.accept),
        (LineKind::Frame, [3, 0].as_slice(), None)
    );
    assert!(frame.spacing.is_empty());
}
