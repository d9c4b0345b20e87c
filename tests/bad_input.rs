//! Bad input: a clear error with its place, exit status 2, nothing on standard output, nothing written, no panic.

mod tool;

use proptest::prelude::*;
use tool::clean::{levels_job, walk_job};
use tool::{Job, Ran};

/// Runs `check` with an output file and holds that it was refused whole.
fn refused(job: &Job) -> Ran {
    let before = job.names();
    let ran = job.run("check", &["--format", "json", "-o", "answer.json"]);
    assert_eq!(ran.status, 2, "{}{}", ran.out, ran.err);
    assert_eq!(ran.out, "");
    assert!(!ran.err.contains("panicked"), "{}", ran.err);
    assert_eq!(job.names(), before, "nothing is written");
    ran
}

#[track_caller]
fn says(ran: &Ran, words: &[&str]) {
    for word in words {
        assert!(ran.err.contains(word), "no {word:?} in:\n{}", ran.err);
    }
}

fn walk(rows: &str) -> Job {
    let job = walk_job();
    job.write("walk.csv", format!("mark,reading,low,high\n{rows}A2,4.53,3,3\nA3,4.54,3,3\n"));
    job
}

#[test]
fn an_unreadable_length_is_shown_at_its_line_and_column() {
    says(&refused(&walk("A1,4.5x,3,3\n")), &["walk.csv:2:4", "A1,4.5x,3,3", "^^^^"]);
}

#[test]
fn a_wrong_unit_is_named() {
    says(&refused(&walk("A1,4.5 yd,3,3\n")), &["walk.csv:2:4", "unit"]);
    let job = walk_job();
    job.replace("job.toml", "levels_units = \"ft\"", "levels_units = \"feet\"");
    says(&refused(&job), &["job.toml", "levels_units", "ft"]);
}

#[test]
fn a_bare_reading_without_its_unit_is_never_guessed() {
    let job = walk_job();
    job.replace("job.toml", "levels_units = \"ft\"\n", "");
    says(&refused(&job), &["walk.csv:2:4", "no unit", "levels_units"]);
}

#[test]
fn a_missing_column_is_named() {
    let job = walk_job();
    job.write("walk.csv", "mark,low,high\nA1,3,3\n");
    says(&refused(&job), &["walk.csv:1", "reading"]);
}

#[test]
fn an_unknown_mark_gets_its_nearest() {
    let job = levels_job();
    job.replace("rods.csv", "D2,4", "D9,4");
    says(&refused(&job), &["rods.csv:17:1", "D9"]);
    let job = levels_job();
    job.replace("levels.csv", "1,C2,IS", "1,C22,IS");
    says(&refused(&job), &["levels.csv:4:3", "C22", "C2"]);
}

#[test]
fn the_same_rod_twice_is_an_error() {
    let job = levels_job();
    job.replace("rods.csv", "C1,2,82", "C1,1,82");
    says(&refused(&job), &["rods.csv:3", "C1"]);
}

#[test]
fn a_negative_projection_is_an_error() {
    says(&refused(&walk("A1,4.52,-3,3\n")), &["walk.csv:2:9"]);
}

#[test]
fn a_plate_of_no_thickness_is_an_error() {
    let job = walk_job();
    job.replace("job.toml", "thickness = \"1/2\"", "thickness = \"0\"");
    says(&refused(&job), &["job.toml:13", "more than 0"]);
}

#[test]
fn a_line_of_ten_megabytes_is_refused_in_few_words() {
    let long = "9".repeat(10_000_000);
    let ran = refused(&walk(&format!("A1,{long},3,3\n")));
    says(&ran, &["walk.csv:2:4"]);
    assert!(ran.err.len() < 5_000, "{} bytes of message", ran.err.len());
    let job = walk_job();
    job.write("walk.csv", "x".repeat(10_000_000));
    assert!(refused(&job).err.len() < 5_000);
}

#[test]
fn bytes_that_are_not_utf_8_are_shown_with_their_place() {
    let job = walk_job();
    job.write("walk.csv", b"mark,reading,low,high\nA1,4\xbd,3,3\n");
    says(&refused(&job), &["walk.csv:2:5", "UTF-8"]);
    let job = walk_job();
    job.write("job.toml", b"[job]\nname = \"\xff\"\n");
    says(&refused(&job), &["job.toml:2:9", "UTF-8"]);
}

#[test]
fn an_empty_file_and_a_folder_in_place_of_a_file_are_errors() {
    let job = walk_job();
    job.write("walk.csv", "");
    says(&refused(&job), &["walk.csv", "empty"]);
    let job = walk_job();
    std::fs::remove_file(job.path("walk.csv")).unwrap();
    says(&refused(&job), &["job.toml:8", "walk.csv"]);
    std::fs::create_dir(job.path("walk.csv")).unwrap();
    says(&refused(&job), &["job.toml:8", "walk.csv", "folder"]);
}

#[test]
fn an_unclosed_quote_is_shown_where_it_opens() {
    says(&refused(&walk("A1,\"4.52,3,3\n")), &["walk.csv:2:4", "quote"]);
}

#[test]
fn a_mistyped_sight_names_the_three() {
    let job = levels_job();
    job.replace("levels.csv", "1,C1,IS", "1,C1,SI");
    says(&refused(&job), &["levels.csv:3:6", "BS", "IS", "FS"]);
}

#[test]
fn a_fraction_that_a_spreadsheet_turned_into_a_date_is_never_converted() {
    for date in ["8-Jan", "1/8/2026", "2026-01-08"] {
        says(&refused(&walk(&format!("A1,{date},3,3\n"))), &["walk.csv:2:4", "date"]);
        says(&refused(&walk(&format!("A1,4.52,{date},3\n"))), &["walk.csv:2:9", "date"]);
    }
}

#[test]
fn a_job_that_points_outside_its_folder_is_refused() {
    for path in ["../walk.csv", "/etc/passwd", "sub/../../walk.csv"] {
        let job = walk_job();
        job.replace("job.toml", "walk = \"walk.csv\"", &format!("walk = \"{path}\""));
        says(&refused(&job), &["job.toml:8", "folder"]);
    }
}

#[cfg(unix)]
#[test]
fn a_link_out_of_the_folder_is_refused() {
    let outside = tempfile::tempdir().unwrap();
    std::fs::write(outside.path().join("walk.csv"), tool::clean::WALK).unwrap();
    let job = walk_job();
    std::fs::remove_file(job.path("walk.csv")).unwrap();
    std::os::unix::fs::symlink(outside.path().join("walk.csv"), job.path("walk.csv")).unwrap();
    says(&refused(&job), &["job.toml:8", "folder"]);
}

#[test]
fn every_fault_of_a_job_is_told_in_one_run() {
    let job = walk_job();
    job.replace("job.toml", "thickness = \"1/2\"", "thicknes = \"1/2\"");
    job.replace("job.toml", "kind = \"wall\"", "kind = \"fence\"");
    job.replace("job.toml", "nuts = [\"heavy-hex\"]", "nuts = [\"heavy-hexx\"]");
    job.write("walk.csv", "mark,reading,low,high\nA1,4.5x,3,3\nA2,4.53,-3,3\nA3,4.54,3,8-Jan\n");
    let ran = refused(&job);
    says(
        &ran,
        &[
            "thicknes",
            "did you mean `thickness`",
            "fence",
            "heavy-hexx",
            "walk.csv:2:4",
            "walk.csv:3:9",
            "walk.csv:4:11",
        ],
    );
}

#[test]
fn what_is_not_built_yet_is_refused_by_name() {
    let job = walk_job();
    job.replace("job.toml", "walk = \"walk.csv\"", "walk = \"walk.ods\"");
    says(&refused(&job), &["ods"]);
    let job = walk_job();
    let ran = job.run("check", &["-o", "answer.ods"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert_eq!(job.names(), ["job.toml", "walk.csv"]);
}

#[test]
fn what_is_tried_is_refused_whole_where_it_cannot_be_read() {
    let long = format!("A1={}", "9".repeat(100_000));
    for (args, words) in [
        (["--hold-at", "A1"].as_slice(), ["--hold-at `A1`", "as in A3=1/4"].as_slice()),
        (&["--hold-at", "A1="], &["there is no length here"]),
        (&["--hold-at", "=1/4"], &["there is no column ``"]),
        (&["--hold-at", "A9=1/4"], &["there is no column `A9`", "did you mean `A1`?"]),
        (&["--hold-at", "Q77=1/4"], &["there is no column `Q77`"]),
        (&["--hold-at", "A1=8-Jan"], &["date"]),
        (&["--hold-at", "A1=1/0"], &["divided by 0"]),
        (&["--hold-at", "A1=1/4 yd"], &["unit is not known"]),
        (&["--hold-at", "A1=0.5e1"], &["plain digits"]),
        (&["--hold-at", &long], &["more digits"]),
        (&["--hold-at", "A1=9 km"], &["unit"]),
        (&["--hold-at", "A1=1/8", "--hold-at", "A1=1/8"], &["this column stands here a second time"]),
        (
            &["--without", "5/16"],
            &["no shims of this thickness", "1/8\", 3/16\", 1/4\", 3/8\", 1/2\" and 3/4\""],
        ),
        (&["--without", "thin"], &["this is not a length"]),
        (&["--without", "0.125", "--without", "1/8"], &["this thickness stands here a second time"]),
        // all faults in one run
        (
            &["--without", "5/16", "--hold-at", "A9=1/4", "--hold-at", "A1"],
            &["`5/16`", "`A9=1/4`", "`A1`", "3 faults"],
        ),
    ] {
        let job = walk_job();
        for command in ["check", "hardware"] {
            let ran = job.run(command, args);
            assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{args:?}");
            assert!(ran.err.len() < 2_000 && !ran.err.contains("panicked"), "{}", ran.err);
            says(&ran, words);
        }
        assert_eq!(job.names(), ["job.toml", "walk.csv"]);
    }
    let ran = tool::rodreach(&["level", "demo-data/tractor-shed", "--hold-at", "A1=0"]);
    assert_eq!(ran.status, 2, "a command that does not plan has no such flag");
}

#[test]
fn wrong_commands_end_with_2_and_say_what_is_there() {
    let job = walk_job();
    let ran = job.run("explain", &["A9"]);
    assert_eq!(ran.status, 2);
    says(&ran, &["A9", "did you mean"]);
    let ran = tool::rodreach(&["check", "no-such-job"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    says(&ran, &["no-such-job"]);
    let ran = tool::rodreach(&["odrer", "demo-data/tractor-shed"]);
    assert_eq!(ran.status, 2);
    let ran = tool::rodreach(&["rules", "--set", "low-ris"]);
    assert_eq!(ran.status, 2);
    says(&ran, &["low-rise"]);
}

/// A change somewhere in a file: bytes put in, taken out, or doubled.
fn mangled(text: &str, at: usize, with: &[u8], cut: usize) -> Vec<u8> {
    let mut bytes = text.as_bytes().to_vec();
    let at = at % (bytes.len() + 1);
    let end = (at + cut).min(bytes.len());
    bytes.splice(at..end, with.iter().copied());
    bytes
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_text_that_is_tried_makes_it_panic(held in "[^\\x00]{0,12}", without in "[0-9/ .A=-]{0,8}") {
        let job = levels_job();
        let held = format!("--hold-at=C1={held}");
        let ran = job.run("check", &[&held, &format!("--without={without}"), "--format", "json"]);
        prop_assert!((0..=2).contains(&ran.status), "{}", ran.err);
        prop_assert!(!ran.err.contains("panicked"), "{}", ran.err);
        prop_assert_eq!(ran.status == 2, ran.out.is_empty(), "{}", ran.err);
    }

    #[test]
    fn no_mangled_file_makes_it_panic(
        which in 0_usize..4, at: usize, with in prop::collection::vec(any::<u8>(), 0..6), cut in 0_usize..12,
    ) {
        let job = levels_job();
        let name = ["job.toml", "columns.csv", "levels.csv", "rods.csv"][which];
        job.write(name, mangled(&job.read(name), at, &with, cut));
        let ran = job.run("check", &["--format", "json"]);
        prop_assert!((0..=2).contains(&ran.status), "{}", ran.err);
        prop_assert!(!ran.err.contains("panicked"), "{}", ran.err);
        prop_assert_eq!(ran.status == 2, ran.out.is_empty(), "{}", ran.err);
    }
}
