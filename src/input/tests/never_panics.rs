//! Random and mutated files: a clear answer, never a panic.

use super::{JOB, Job, WALK};
use proptest::prelude::*;
use std::fs;

/// A job that reads every kind of file.
const ALL: &str = r#"[job]
name = "All"
units = "in"
limits = "low-rise"
columns = "columns.csv"
[measure]
levels = "levels.csv"
elevations = "asbuilt.csv"
differences = "diff.csv"
rods = "rods.csv"
levels_units = "ft"
[[benchmark]]
point = "BM1"
elevation = "100'"
plus_minus = "1/8"
at = ["-9'", "0"]
[[instrument]]
name = "L"
kind = "optical-level"
plus_minus = "1/16"
per_sight = ["1/16", "100'"]
slope = ["0", "10 m"]
slope_plus_minus = ["0.5 mm", "10 m"]
tilt = ["0.1 mm", "1 m"]
[[instrument.peg]]
first = { a = 4.33, to_a = 130, b = 5.12, to_b = 130 }
second = { a = 3.64, to_a = 33, b = 4.56, to_b = 295 }
[[setup]]
name = "1"
instrument = "L"
at = ["0", "-20'"]
turned = 180
[[base]]
mark = "B1"
plate = { size = ["8", "12"], thickness = "1/2", tolerance = ["-0.01", "0.03"], holes = "15/16" }
rods = { diameter = "3/4", count = 4, pattern = ["4", "8"], projection = "2-1/2", thread = "3" }
washers = ["wide", { thickness = ["0.1", "1/8"], outer = "2" }]
nuts = ["heavy-hex"]
extra = "wide"
[[line]]
name = "A"
kind = "wall"
columns = ["A1", "A2"]
spacing = "20'"
[shims]
thicknesses = ["1/8", "1/4"]
pieces = 2
[limits.neighbours]
accept = "1/4"
"#;

/// A job folder that reads `ALL` with one of its files changed.
fn files() -> [(&'static str, Vec<u8>); 6] {
    [
        ("job.toml", ALL.into()),
        ("columns.csv", "mark,base,x,y,seat\nA1,B1,0,0,96'\nA2,,20',0,\n".into()),
        (
            "levels.csv",
            "setup,point,sight,reading,distance,spot\n1,BM1,BS,4.52,,\n1,A1,IS,\"4'-6 1/4\"\"\",60,rod low\n1,A2,FS,4.5,,\n".into(),
        ),
        (
            "asbuilt.csv",
            "101,5000.1,1234567.8,99.98,A1\nA2,5000,5000,99.9,rod low\n103,,,99,curb\n".into(),
        ),
        ("diff.csv", "from,to,difference,plus_minus\nA1,A2,1/8,1/16\nA2,BM1,0.02,\n".into()),
        ("rods.csv", "column,rod,projection,thread,condition\nA1,,2-1/2,3,ok\nA2,low,2,,bent\n".into()),
    ]
}

fn answers(files: &[(&str, Vec<u8>)]) {
    let job = Job::new(&[]);
    for (name, bytes) in files {
        fs::write(job.path().join(name), bytes).unwrap();
    }
    job.answers();
}

/// One change of a file.
#[derive(Clone, Debug)]
enum Change {
    Replace(usize, u8),
    Insert(usize, Vec<u8>),
    Cut(usize, usize),
    Repeat(usize, usize),
}

fn change() -> impl Strategy<Value = Change> {
    let at = || 0..2_000_usize;
    let pieces = prop::sample::select(vec![
        "\"",
        ",",
        "\n",
        "\r",
        "\r\n",
        "'",
        "-",
        "[",
        "]",
        "{",
        "}",
        "=",
        "#",
        "\u{feff}",
        "½",
        "9999999999999999999",
        "-1",
        "8-Jan",
        "1e9",
        "mm",
        " ",
        "\0",
        ";",
        "\t",
        "nan",
        "..",
    ]);
    prop_oneof![
        (at(), any::<u8>()).prop_map(|(at, byte)| Change::Replace(at, byte)),
        (at(), pieces).prop_map(|(at, piece)| Change::Insert(at, piece.into())),
        (at(), 1..40_usize).prop_map(|(at, size)| Change::Cut(at, size)),
        (at(), 1..40_usize).prop_map(|(at, size)| Change::Repeat(at, size)),
    ]
}

fn apply(bytes: &mut Vec<u8>, change: &Change) {
    let size = bytes.len();
    let within = |at: usize| if size == 0 { 0 } else { at % size };
    match change {
        Change::Replace(at, byte) => {
            if let Some(found) = bytes.get_mut(within(*at)) {
                *found = *byte;
            }
        }
        Change::Insert(at, piece) => {
            let at = within(*at);
            bytes.splice(at..at, piece.iter().copied());
        }
        Change::Cut(at, length) => {
            let at = within(*at);
            bytes.drain(at..(at + length).min(size));
        }
        Change::Repeat(at, length) => {
            let at = within(*at);
            let piece = bytes[at..(at + length).min(size)].to_vec();
            bytes.splice(at..at, piece);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_changed_file_of_a_job_gets_an_answer(which in 0..6_usize, changes in prop::collection::vec(change(), 1..6)) {
        let mut files = files();
        for change in &changes {
            apply(&mut files[which].1, change);
        }
        answers(&files);
    }

    #[test]
    fn random_bytes_in_place_of_a_file_get_an_answer(
        which in 0..6_usize,
        bytes in prop::collection::vec(any::<u8>(), 0..300),
    ) {
        let mut files = files();
        files[which].1 = bytes;
        answers(&files);
    }

    #[test]
    fn random_text_in_a_walk_gets_an_answer(text in "[ -~\n½\"',]{0,200}") {
        answers(&[("job.toml", JOB.into()), ("walk.csv", text.into())]);
    }

    #[test]
    fn a_random_cell_in_a_walk_gets_an_answer(cell in "[0-9'\" /.,;a-z½+-]{0,12}") {
        let walk = WALK.replace("2-1/2", &cell);
        answers(&[("job.toml", JOB.into()), ("walk.csv", walk.into())]);
    }
}

#[test]
fn the_unchanged_job_is_good() {
    let files = files().map(|(name, bytes)| (name, String::from_utf8(bytes).unwrap()));
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, text.as_str())).collect();
    let loaded = Job::new(&files).load().map_err(|refused| super::told(&refused)).unwrap();
    assert_eq!(loaded.job.readings.unmatched.len(), 1);
}

#[test]
fn deeply_nested_tables_get_an_answer() {
    let deep = [
        format!("{}x = 1\n", "a.".repeat(200_000)),
        format!("x = {}{}\n", "[".repeat(200_000), "]".repeat(200_000)),
        format!("x = {}", "{a=".repeat(200_000)),
        format!("[{}a]\n", "a.".repeat(200_000)),
    ];
    for text in deep {
        answers(&[("job.toml", text.into())]);
    }
}
