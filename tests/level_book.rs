//! `level --book` from the job folder to the answer: a published book to its last digit, units, width, exit status.

mod tool;

use rodreach::input::{Override, load};
use rodreach::levels::{level_book, reduce};
use rodreach::output::table;
use rodreach::report::level_book_answer;
use serde_json::Value;
use tool::Job;
use tool::clean::{LEVELS_JOB, elevations_job, levels_job, walk_job};

/// R. Rode, handout on the collimation method: point, sight, reading, line, elevation, adjusted, in millimetres.
const RODE: [(&str, &str, &str, i64, i64, i64, i64); 18] = [
    ("1", "BM1", "BS", 1_216, 107_582, 106_366, 106_366),
    ("1", "a", "IS", 25, 107_582, 107_557, 107_564),
    ("1", "b", "IS", 1_555, 107_582, 106_027, 106_034),
    ("1", "CP1", "FS", 2_508, 107_582, 105_074, 105_081),
    ("2", "CP1", "BS", 1_386, 106_460, 105_074, 105_081),
    ("2", "bd1", "IS", 3_625, 106_460, 102_835, 102_849),
    ("2", "c", "FS", 1_196, 106_460, 105_264, 105_278),
    ("3", "c", "BS", 1_235, 106_499, 105_264, 105_278),
    ("3", "bd2", "FS", 3_566, 106_499, 102_933, 102_954),
    ("4", "bd2", "BS", 3_655, 106_588, 102_933, 102_954),
    ("4", "d", "FS", 506, 106_588, 106_082, 106_110),
    ("5", "d", "BS", 2_126, 108_208, 106_082, 106_110),
    ("5", "e", "IS", 2_605, 108_208, 105_603, 105_638),
    ("5", "f", "IS", 1_094, 108_208, 107_114, 107_149),
    ("5", "g", "FS", 3_628, 108_208, 104_580, 104_615),
    ("6", "g", "BS", 1_125, 105_705, 104_580, 104_615),
    ("6", "h", "IS", 1_394, 105_705, 104_311, 104_353),
    ("6", "BM2", "FS", 484, 105_705, 105_221, 105_263),
];

/// A job that is level notes and nothing else.
fn notes(units: &str, measure: &str, benchmarks: &[(&str, &str)], levels: &str) -> Job {
    let marks = benchmarks.iter().map(|(point, elevation)| {
        format!("[[benchmark]]\npoint = \"{point}\"\nelevation = \"{elevation}\"\n")
    });
    let toml = format!(
        "[job]\nname = \"Notes (invented)\"\nunits = \"{units}\"\nlimits = \"low-rise\"\n[measure]\nlevels = \"levels.csv\"\n{measure}\n{}",
        marks.collect::<String>()
    );
    Job::of(&[("job.toml", &toml), ("levels.csv", &format!("setup,point,sight,reading\n{levels}"))])
}

/// The published notes; a reading is called good to 25 mm, so that 42 mm over 6 setups pass the test.
fn rode() -> Job {
    let rows = RODE.iter().map(|(setup, point, sight, mm, ..)| {
        format!("{setup},{point},{sight},{}.{:03}\n", mm / 1000, mm % 1000)
    });
    let measure = "levels_units = \"m\"\nlevels_plus_minus = \"25\"";
    notes("mm", measure, &[("BM1", "106.366 m"), ("BM2", "105.263 m")], &rows.collect::<String>())
}

fn nm(value: &Value) -> i64 {
    value.as_i64().unwrap_or_else(|| panic!("{value} is no whole number"))
}

#[test]
fn rode_comes_through_the_program_to_its_last_digit() {
    let ran = rode().run("level", &["--book", "--format", "json"]);
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
    let answer = ran.json();
    let rows = answer["rows"].as_array().unwrap();
    assert_eq!(rows.len(), RODE.len());
    for (row, (setup, point, sight, reading, line, elevation, adjusted)) in rows.iter().zip(RODE) {
        assert_eq!([&row["setup"], &row["point"], &row["sight"]], [setup, point, sight]);
        let keys = ["reading_nm", "line_nm", "elevation_nm", "adjusted_nm", "correction_nm"];
        let expected = [reading, line, elevation, adjusted, adjusted - elevation].map(|mm| mm * 1_000_000);
        assert_eq!(keys.map(|key| nm(&row[key])), expected, "{row}");
    }
    let keys: Vec<&String> = rows[0].as_object().unwrap().keys().collect();
    assert_eq!(
        keys,
        ["setup", "point", "sight", "reading_nm", "line_nm", "elevation_nm", "correction_nm", "adjusted_nm"]
    );
    let section = &answer["book"]["sections"][0];
    // published as known less measured, +0.042
    assert_eq!(
        (nm(&section["misclosure_nm"]), section["setups"].as_array().unwrap().len()),
        (-42_000_000, 6)
    );
    let checks = answer["book"]["checks"].as_array().unwrap();
    let sides: Vec<(i64, i64)> = checks.iter().map(|it| (nm(&it["left_nm"]), nm(&it["right_nm"]))).collect();
    assert_eq!(sides, [-1_145, -1_145, 1_284_787, 105_263].map(|mm| (mm * 1_000_000, mm * 1_000_000)));
    // what stands in the answer of `level` stands here too
    let usual = rode().run("level", &["--format", "json"]).json();
    for (key, value) in usual.as_object().unwrap() {
        assert_eq!(&answer[key], value, "{key}");
    }
}

#[test]
fn the_published_book_stands_on_a_screen_as_it_was_looked_at() {
    insta::assert_snapshot!("level_book_rode", rode().run("level", &["--book"]).out);
    insta::assert_snapshot!("level_book_rode_csv", rode().run("level", &["--book", "--format", "csv"]).out);
}

#[test]
fn a_loop_in_feet_is_written_in_feet_and_what_is_rounded_says_so() {
    let levels =
        "1,A,BS,4.21\n1,p,IS,4.5\n1,T1,FS,3.08\n2,T1,BS,5.5\n2,T2,FS,4.44\n3,T2,BS,2.16\n3,A,FS,4.36\n";
    let job = notes("in", "levels_units = \"ft\"\nlevels_plus_minus = \"1/2\"", &[], levels);
    let ran = job.run("level", &["--book"]);
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
    insta::assert_snapshot!("level_book_feet", ran.out);
}

#[test]
fn sections_branches_and_odd_marks_are_told() {
    let levels = "1,BM1,BS,1.000\n1,BM3,BS,0.703\n1,T,FS,0.950\n2,T,BS,1.000\n2,BM2,FS,0.946\n3,T,BS,1.000\n\
                  3,p,,0.990\n3,U,,0.900\n4,U,BS,1.000\n4,T,FS,1.096\n5,X,BS,1.000\n5,Y,FS,1.000\n";
    let marks = [("BM1", "100 mm"), ("BM2", "200 mm"), ("BM3", "400 mm")];
    let job = notes("mm", "levels_units = \"m\"\nlevels_plus_minus = \"10\"", &marks, levels);
    let ran = job.run("level", &["--book"]);
    assert_eq!(ran.status, 1, "what has no elevation is no pass: {}", ran.err);
    insta::assert_snapshot!("level_book_sections", ran.out);
    let answer = job.run("level", &["--book", "--format", "json"]).json();
    let last = &answer["rows"][11];
    assert_eq!((&last["elevation_nm"], &last["adjusted_nm"]), (&Value::Null, &Value::Null));
    assert_eq!((&last["line_nm"], &last["correction_nm"]), (&Value::Null, &Value::Null));
    assert_eq!(answer["book"]["not_reached"], serde_json::json!(["5"]));
}

#[test]
fn a_book_of_heights_comes_out_as_that_of_a_rod() {
    let rod = "1,A,BS,1.000\n1,p,IS,1.200\n1,B,FS,0.900\n2,B,BS,1.100\n2,A,FS,1.206\n";
    let height = "1,A,BS,1.000\n1,p,IS,0.800\n1,B,FS,1.100\n2,B,BS,0.900\n2,A,FS,0.794\n";
    let measure = "levels_units = \"m\"\nlevels_plus_minus = \"10\"";
    let adjusted = |measure: &str, levels: &str| {
        let ran = notes("mm", measure, &[], levels).run("level", &["--book", "--format", "json"]);
        assert_eq!(ran.status, 0, "{}", ran.err);
        let rows = ran.json()["rows"].as_array().unwrap().clone();
        rows.iter().map(|row| nm(&row["adjusted_nm"])).collect::<Vec<_>>()
    };
    let expected = [0, -197, 103, 103, 0].map(|mm| mm * 1_000_000);
    assert_eq!(adjusted(measure, rod), expected);
    let turned = format!("{measure}\nsense = \"height\"");
    assert_eq!(adjusted(&turned, height), expected);
    let screen = notes("mm", &turned, &[], height).run("level", &["--book"]).out;
    let screen = screen.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        screen.contains("elevation = HI + reading") && screen.contains("FS - BS = last - first"),
        "{screen}"
    );
}

#[test]
fn what_else_was_measured_is_not_in_the_book_and_that_is_said() {
    let job = levels_job();
    job.replace(
        "job.toml",
        "levels = \"levels.csv\"",
        "levels = \"levels.csv\"\nelevations = \"asbuilt.csv\"\ndifferences = \"diff.csv\"",
    );
    job.write("asbuilt.csv", "point,elevation,plus_minus\nC1,100.199,1 mm\n");
    job.write("diff.csv", "from,to,difference,plus_minus\nC1,C2,-0.001,1 mm\nC1,D1,0.001,1 mm\n");
    let ran = job.run("level", &["--book"]);
    let screen = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    let words =
        "Not in this book, which holds the level notes alone: 1 elevation and 2 differences of other files.";
    assert!(screen.contains(words), "{screen}{}", ran.err);
    // nothing but elevations is no book
    let ran = elevations_job().run("level", &["--book"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("no level notes to book"), "{}", ran.err);
}

#[test]
fn notes_that_disagree_and_pads_nobody_read_end_with_status_1_and_say_why() {
    let far = notes("mm", "levels_units = \"m\"", &[("A", "1 m"), ("B", "2 m")], "1,A,BS,1\n1,B,FS,1\n");
    let ran = far.run("level", &["--book"]);
    assert_eq!(ran.status, 1);
    assert!(ran.out.contains("do NOT agree within their +-"), "{}", ran.out);
    let job = levels_job();
    job.write("levels.csv", "setup,point,sight,reading\n1,BM1,BS,1.4320\n1,C1,IS,1.2330\n");
    let ran = job.run("level", &["--book"]);
    assert_eq!(ran.status, 1);
    assert!(ran.out.contains("Not read: C2, D1 and D2."), "{}", ran.out);
    assert_eq!(walk_job().run("level", &["--book"]).status, 0);
}

/// No readings are known that do this; the book is bent by hand.
#[test]
fn a_check_that_fails_is_said_before_all_rows_and_is_never_a_pass() {
    let job = rode();
    let loaded =
        load(&job.path("job.toml"), &Override::default()).unwrap_or_else(|_| panic!("the job is read"));
    let levels = reduce(&loaded.job);
    let mut book = level_book(&loaded.job);
    assert!(level_book_answer(&loaded.job, &levels, &book, &loaded.files).clear);
    book.checks[2].holds = false;
    let answer = level_book_answer(&loaded.job, &levels, &book, &loaded.files);
    assert!(!answer.clear);
    let screen = table(&answer);
    let at = |words: &str| screen.find(words).unwrap_or_else(|| panic!("no {words} in\n{screen}"));
    assert!(at("THIS BOOK IS WRONG") < at("BM1    1.216") && at("BM1    1.216") < at("FAILS"));
    assert!(screen.contains("1 of 4 checks FAILED"), "{screen}");
}

#[test]
fn no_book_is_wider_than_80_columns_whatever_the_names_and_numbers() {
    let long = "a very long name of a point or a setup, as a surveyor types";
    let hard = "North/East-cornerpoint_without_any_blank_in_its_whole_name60";
    for (units, elevation, readings) in [
        ("in", "1234'-11 63/64\"", ["4'-6 13/64\"", "5'-11 63/64\"", "3'-7 1/64\""]),
        ("in", "1234.567 ft", ["4.12 ft", "15.11 ft", "3.07 ft"]),
        ("in", "100'", ["1/3", "2/7", "5/9"]),
        ("mm", "4807.8123456 m", ["1.123456 m", "2.1 m", "0.1 mm"]),
        ("mm", "4807.8123456 m", ["1.1234567 m", "2.1 m", "0.1 mm"]),
    ] {
        for (one, other) in [("A", "1"), (long, "1"), (hard, hard)] {
            let cell = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
            let [a, b, c] = readings.map(cell);
            let levels = format!(
                "{s},BM,BS,{a}\n{s},{p},IS,{b}\n{s},T,FS,{c}\n2,T,BS,{b}\n2,BM,FS,{c}\n3,T,BS,{a}\n",
                s = cell(other),
                p = cell(one)
            );
            let elevation = elevation.replace('"', "\\\"");
            let ran = notes(units, "levels_plus_minus = \"900\"", &[("BM", &elevation)], &levels)
                .run("level", &["--book"]);
            assert!(ran.status < 2, "{}", ran.err);
            for line in ran.out.lines() {
                assert!(line.chars().count() <= 80, "{} columns: {line}\n{}", line.chars().count(), ran.out);
            }
        }
    }
}

#[test]
fn the_notes_in_four_units_make_the_same_book() {
    let books = [("m", "1.524", "1.2192"), ("mm", "1524", "1219.2"), ("ft", "5", "4"), ("in", "60", "48")]
        .map(|(unit, back, fore)| {
            let levels = format!("1,A,BS,{back}\n1,B,FS,{fore}\n");
            let job = notes("mm", &format!("levels_units = \"{unit}\""), &[("A", "1 m")], &levels);
            job.run("level", &["--book", "--format", "json"]).out
        });
    assert!(books.iter().all(|book| *book == books[0]), "{books:?}");
    assert!(LEVELS_JOB.contains("[[benchmark]]") && books[0].contains("1304800000"), "{}", books[0]);
}
