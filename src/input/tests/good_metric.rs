//! A good metric job with level notes, field by field; level notes without columns; files of the command line.
//! The jobs are invented.

use super::{JOB as INCH, Job, WALK, told};
use crate::catalog::{Extent, Standing};
use crate::input::{Override, load};
use crate::length::{Bare, Length, Unit, read};
use crate::model::{LineKind, Sense, Setup, SightKind, Units};
use std::fs;

const JOB: &str = r#"
[job]
name = "Hall"
units = "mm"
limits = "en-1090"
seat = "100.2 m"
columns = "columns.csv"

[measure]
levels = "levels.csv"
levels_units = "m"
levels_plus_minus = 1
rods_plus_minus = "0.5"
rods = "rods.csv"
sense = "height"

[[benchmark]]
point = "BM1"
elevation = "100 m"

[[base]]
mark = "P1"
plate = { size = ["300", "400"], thickness = "25", tolerance = ["-0.7", "1.3"], holes = "30" }
rods = { diameter = "m24", count = 4 }
washers = ["iso-7089"]
nuts = ["iso-4032"]
"#;

const COLUMNS: &str = "seat,mark,x,y,base\n,C1,0,0,\n99200,C2,6 m,120,P1\n,C3,6000,5 m,\n,C4,,,\n";

const LEVELS: &str = "setup,point,sight,reading,distance,spot
a,BM1,bs,1.4320,,
a,C1,,1.2335,,pad
a,TP,FS,1.2350,,PAD
b,TP,BS,900 mm,,
b,C2,IS,0.8320,,
b,C3,IS,,,
";

fn mm(text: &str) -> Length {
    read(text, Bare::of(Unit::Millimetre)).unwrap()
}

#[test]
fn every_field_of_a_metric_job_is_as_written() {
    let rods = "column,rod,projection\nC1,,84\nC2,4,3-1/8 in\n";
    let files = [("job.toml", JOB), ("columns.csv", COLUMNS), ("levels.csv", LEVELS), ("rods.csv", rods)];
    let job = Job::new(&files).load().map_err(|refused| told(&refused)).unwrap().job;

    assert_eq!((job.units, job.fraction, job.seat), (Units::Millimetre, 16, Some(mm("100200"))));
    assert_eq!(job.limits.name, "en-1090");
    assert_eq!(job.files, ["job.toml", "columns.csv", "levels.csv", "rods.csv"]);
    assert_eq!((job.readings.plus_minus, job.readings.plus_minus_assumed), (mm("1"), false));
    assert_eq!((job.rods_plus_minus, job.rods_plus_minus_assumed), (mm("0.5"), false));
    assert_eq!(job.readings.sense, Sense::Height);
    assert!(job.measured.is_empty());

    let base = &job.bases[0];
    assert_eq!((base.rods.size.as_str(), base.rods.diameter), ("M24", mm("24")));
    assert_eq!(base.plate.thickness, Extent { least: mm("24.3"), nominal: mm("25"), most: mm("26.3") });
    // ISO 724: M24, pitch 3; one pitch beyond and one clear by the limit set
    assert_eq!((base.rods.pitch.times(1), base.beyond.value, base.clear.value), (mm("3"), mm("3"), mm("3")));
    // ISO 4032, M24: 20.2 to 21.5
    assert_eq!((base.nuts[0].height.least, base.nuts[0].height.most), (mm("20.2"), mm("21.5")));
    // ISO 7089, 24: 3.7 to 4.3, nominal 4
    assert_eq!(base.washers[0].thickness, Extent { least: mm("3.7"), nominal: mm("4"), most: mm("4.3") });
    assert_eq!(base.extra.as_ref().unwrap().series, "iso-7089");

    assert_eq!(job.shims.series.as_deref(), Some("plate-mm"));
    assert_eq!(job.shims.most_pieces, 3);
    assert!(job.shims.pieces.windows(2).all(|pair| pair[0].thickness.nominal > pair[1].thickness.nominal));
}

#[test]
fn the_level_notes_and_positions_of_a_metric_job_are_as_written() {
    let files = [
        ("job.toml", JOB),
        ("columns.csv", COLUMNS),
        ("levels.csv", LEVELS),
        ("rods.csv", "column,rod,projection\n"),
    ];
    let job = Job::new(&files).load().map_err(|refused| told(&refused)).unwrap().job;
    assert_eq!(job.readings.setups, ["a", "b"].map(Setup::named));
    assert_eq!(job.readings.points, ["BM1", "C1", "TP", "C2"]);
    let sights: Vec<(usize, usize, SightKind, Length)> =
        job.readings.sights.iter().map(|s| (s.setup, s.point, s.kind, s.reading)).collect();
    assert_eq!(
        sights,
        [
            (0, 0, SightKind::Back, mm("1432")),
            (0, 1, SightKind::Intermediate, mm("1233.5")),
            (0, 2, SightKind::Fore, mm("1235")),
            (1, 2, SightKind::Back, mm("900")),
            (1, 3, SightKind::Intermediate, mm("832")),
        ]
    );
    let points: Vec<Option<usize>> = job.columns.iter().map(|column| column.point).collect();
    assert_eq!(points, [Some(1), Some(3), None, None]);
    assert_eq!(job.columns[1].seat, Some(mm("99200")));
    assert_eq!((job.columns[1].at, job.columns[3].at), (Some([mm("6000"), mm("120")]), None));
    // C1 and C2 stand within 300 mm in y, C2 and C3 in x
    let told: Vec<(&str, &[usize], bool)> =
        job.lines.iter().map(|line| (line.name.as_str(), line.columns.as_slice(), line.found)).collect();
    assert_eq!(told, [("x1", [1, 2].as_slice(), true), ("y1", [0, 1].as_slice(), true)]);
    // the root of 6000^2 + 120^2, cut: 6001.199880023
    assert_eq!(job.lines[1].spacing, [Length::from_nm(6_001_199_880)]);
    assert_eq!(job.lines[0].kind, LineKind::Wall);
    assert!(job.columns[2].rods.len() == 4 && job.columns[2].rods.iter().all(|rod| rod.projection.is_none()));
}

#[test]
fn level_notes_alone_are_a_job_without_bases_and_every_point_is_good() {
    let job = "[job]\nname = \"Run\"\nunits = \"in\"\nlimits = \"low-rise\"\n[measure]\nlevels = \"levels.csv\"\nlevels_units = \"ft\"\n";
    let job = Job::new(&[("job.toml", job), ("levels.csv", "point,reading\nanything,4.52\nelse,4 ft\n")]);
    let job = job.load().map_err(|refused| told(&refused)).unwrap().job;
    assert!(job.columns.is_empty() && job.bases.is_empty());
    assert_eq!(job.readings.setups, ["1"].map(Setup::named));
    assert_eq!(job.readings.points, ["anything", "else"]);
}

#[test]
fn a_job_that_is_not_measured_yet_is_good() {
    let text = INCH.replace("[measure]\nwalk = \"walk.csv\"\n", "[[column]]\nmark = \"A1\"\n");
    let job = Job::new(&[("job.toml", &text)]).load().map_err(|refused| told(&refused)).unwrap().job;
    assert_eq!((job.columns[0].point, job.columns[0].rods.len()), (None, 4));
    assert!(job.readings.sights.is_empty() && job.readings.setups.is_empty());
}

#[test]
fn the_tolerance_of_a_plate_comes_from_the_table_of_the_limit_set_and_thread_rules_may_be_off() {
    let text = INCH.to_owned() + "[limits]\nplates = \"en-10029-1991\"\n[limits.engagement]\noff = true\n";
    let job = Job::new(&[("job.toml", &text), ("walk.csv", WALK)]);
    let job = job.load().map_err(|refused| told(&refused)).unwrap().job;
    let base = &job.bases[0];
    // EN 10029:1991, class A, 12.7 mm lies in 8 to 15: -0.5 / +1.2
    let half = mm("12.7");
    assert_eq!(
        base.plate.thickness,
        Extent { least: half - mm("0.5"), nominal: half, most: half + mm("1.2") }
    );
    assert_eq!((base.beyond.value, base.clear.value, base.most_extra.value), (Length::ZERO, Length::ZERO, 0));
    assert_eq!(
        (base.clear.authority.kind, base.clear.authority.text.as_str()),
        (Standing::HouseRule, "no engagement limits in force")
    );
}

#[test]
fn the_command_line_may_point_anywhere() {
    let elsewhere = Job::new(&[
        (
            "strict.toml",
            "name = \"strict\"\ntitle = \"Strict\"\nunits = \"mm\"\nplates = \"astm-a6\"\nsource = { kind = \"house rule\", text = \"t\" }\n[shim]\npieces = 2\nsource = { kind = \"house rule\", text = \"t\" }\n",
        ),
        ("other.csv", "mark,reading,low,high\nZ9,54-1/4,2,\n"),
        ("rods.csv", "column,rod,projection\nZ9,high,3\n"),
    ]);
    let job = Job::new(&[("job.toml", INCH)]);
    let at = |name: &str| elsewhere.path().join(name);
    let with = Override {
        limits: Some(at("strict.toml").to_str().unwrap().to_owned()),
        walk: Some(at("other.csv")),
        rods: Some(at("rods.csv")),
        levels: None,
    };
    let loaded = load(&job.path().join("job.toml"), &with).map_err(|refused| told(&refused)).unwrap();
    assert_eq!((loaded.job.limits.name.as_str(), loaded.job.shims.most_pieces), ("strict", 2));
    assert_eq!(loaded.job.columns[0].mark, "Z9");
    assert_eq!(loaded.job.files[1], at("strict.toml").display().to_string());

    let named = Override { limits: Some("en-1090".to_owned()), ..with };
    assert_eq!(
        load(job.path(), &named).map_err(|refused| told(&refused)).unwrap().job.limits.name,
        "en-1090"
    );

    let unknown = Override { limits: Some("en-1091".to_owned()), ..Override::default() };
    fs::write(job.path().join("walk.csv"), WALK).unwrap();
    let found = told(&load(job.path(), &unknown).unwrap_err());
    assert_eq!(found, ["--limits: `en-1091` is not a limit set | did you mean `en-1090`?"]);
    let missing = Override { levels: Some("/no/such.csv".into()), walk: None, ..Override::default() };
    let found = told(&load(job.path(), &missing).unwrap_err());
    assert!(found.iter().any(|line| line.starts_with("--levels: `/no/such.csv` was not found")), "{found:?}");
}

#[test]
fn a_limit_set_of_the_job_folder_states_its_own_units() {
    let text = INCH.replace("\"low-rise\"", "\"mine.toml\"");
    let set = "name = \"mine\"\ntitle = \"Mine\"\nunits = \"mm\"\nplates = \"astm-a6\"\n[building]\naccept = 10\nsource = { kind = \"house rule\", text = \"t\" }\n[shim]\npieces = 1\nsource = { kind = \"house rule\", text = \"t\" }\n";
    let job = Job::new(&[("job.toml", &text), ("walk.csv", WALK), ("mine.toml", set)]);
    let job = job.load().map_err(|refused| told(&refused)).unwrap().job;
    assert_eq!(job.limits.tables.building.unwrap().accept.value, mm("10"));
    assert_eq!(job.files, ["job.toml", "mine.toml", "walk.csv"]);
    assert_eq!(job.bases[0].beyond.authority.text, "no engagement limits in force");
}
