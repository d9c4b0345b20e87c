//! Whole screens as they leave the program, with flags and of the catalog, and what holds for every one of them.
//!
//! What the demo jobs give without flags stands in `demo_outputs.rs`.

mod tool;

use tool::clean::{levels_job, walk_job};
use tool::{Job, rodreach};

const SHED: &str = "demo-data/tractor-shed";
const HALL: &str = "demo-data/packing-hall";

const MEASURED: [&str; 3] =
    ["demo-data/measured/hay-barn", "demo-data/measured/machine-shed", "demo-data/measured/wash-bay"];

fn screens() -> Vec<(&'static str, Vec<&'static str>)> {
    vec![
        ("check_tractor_shed_level", vec!["check", SHED, "--aim", "level", "--to", "desired"]),
        ("check_tractor_shed_tried", vec!["check", SHED, "--hold-at", "A3=1/4", "--without", "1/8"]),
        ("explain_a3_tried", vec!["explain", SHED, "A3", "--hold-at", "A3=1/4"]),
        ("order_tractor_shed_level", vec!["order", SHED, "--aim", "level"]),
        ("catalog_grouts", vec!["catalog", "grouts"]),
        ("rules_low_rise", vec!["rules"]),
        ("rules_en_1090", vec!["rules", "--set", "en-1090"]),
        ("catalog_heavy_hex", vec!["catalog", "heavy-hex"]),
        ("catalog_grades", vec!["catalog", "grades"]),
        ("catalog_unverified", vec!["catalog", "--unverified"]),
        ("catalog_instruments", vec!["catalog", "instruments"]),
        ("catalog_limits", vec!["catalog", "limits"]),
        ("detail_measured", vec!["detail", MEASURED[0], MEASURED[1], MEASURED[2]]),
        ("detail_tractor_shed", vec!["detail", SHED, "--bearing", "uniform", "--probability", "99.9"]),
        ("rules_framed", vec!["rules", "--set", "framed"]),
    ]
}

#[test]
fn every_screen_stands_as_it_was_looked_at() {
    for (name, args) in screens() {
        insta::assert_snapshot!(name, rodreach(&args).out);
    }
}

#[test]
fn no_screen_is_wider_than_80_columns_or_carries_colour_into_a_pipe() {
    let mut all: Vec<String> = screens().into_iter().map(|(_, args)| rodreach(&args).out).collect();
    all.push(rodreach(&["catalog"]).out);
    all.push(rodreach(&["--help"]).out);
    for command in [
        "new", "level", "check", "explain", "ask", "report", "hardware", "order", "detail", "sheet", "rules",
        "catalog",
    ] {
        all.push(rodreach(&[command, "--help"]).out);
    }
    for text in all {
        assert!(!text.contains('\u{1b}'), "{text}");
        for line in text.lines() {
            assert!(line.chars().count() <= 80, "{} columns: {line}", line.chars().count());
        }
    }
}

#[test]
fn every_screen_a_crew_acts_on_stands_back_behind_the_engineer() {
    for command in
        [["check", SHED].as_slice(), &["hardware", SHED], &["order", SHED], &["explain", SHED, "A2"]]
    {
        let screen = rodreach(command).out.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(screen.contains("engineer of record, the drawings and local codes decide"), "{screen}");
    }
}

#[test]
fn the_first_thing_check_says_is_what_may_not_be_set_and_why() {
    let screen = rodreach(&["check", SHED]).out;
    let at = |words: &str| screen.find(words).unwrap_or_else(|| panic!("no {words} in\n{screen}"));
    assert!(at("may be set") < at("DO NOT SET"));
    assert!(at("DO NOT SET") < at("UNDER EACH COLUMN"));
    assert!(at("UNDER EACH COLUMN") < at("STILL TO MEASURE"));
    // rows stand in the order of the readings, not of the marks
    let order: Vec<usize> =
        ["\n A1", "\n P1", "\n B4", "\n B3", "\n B1"].iter().map(|mark| at(mark)).collect();
    assert!(order.is_sorted(), "{order:?}");
}

#[test]
fn level_notes_that_disagree_are_told_before_anything_else() {
    let job = levels_job();
    let more = "2,C1,BS,1.1330\n2,C2,IS,1.1340\n2,D1,IS,1.1420\n2,D2,IS,1.1350\n";
    job.write("levels.csv", job.read("levels.csv") + more);
    let ran = job.run("check", &[]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    let at = |words: &str| ran.out.find(words).unwrap_or_else(|| panic!("no {words} in\n{}", ran.out));
    assert!(at("may be set") < at("they disagree") && at("they disagree") < at("UNDER EACH COLUMN"));
    assert_eq!(job.run("level", &[]).status, 1);
}

#[test]
fn the_same_job_gives_the_same_bytes_again() {
    for args in [["check", SHED, "--format", "json"], ["check", HALL, "--format", "csv"]] {
        assert_eq!(rodreach(&args).out, rodreach(&args).out);
    }
}

#[test]
fn an_answer_goes_into_a_file_whole_and_without_colour() {
    let job = walk_job();
    job.write("answer.txt", "an old answer");
    let ran = job.run("check", &["-o", "answer.txt"]);
    assert_eq!((ran.status, ran.out.as_str()), (0, ""), "{}", ran.err);
    let written = job.read("answer.txt");
    assert!(written.contains("3 of 3 columns may be set") && !written.contains('\u{1b}'), "{written}");
    let ran = job.run("check", &["-o", "answer.json"]);
    assert_eq!(ran.status, 0);
    assert_eq!(job.read("answer.json"), job.run("check", &["--format", "json"]).out);
    assert_eq!(job.names(), ["answer.json", "answer.txt", "job.toml", "walk.csv"], "nothing else is left");
    // a folder that is not there: refused, and the old answer stays
    let ran = job.run("check", &["-o", "nowhere/answer.txt"]);
    assert_eq!(ran.status, 2);
    assert_eq!(job.read("answer.txt"), written);
}

#[test]
fn a_starter_job_is_complete_once_it_is_filled_in() {
    let folder = Job::of(&[]);
    for (units, row) in [("in", "4.52,3,3-1/8"), ("mm", "1.234,80,82")] {
        let name = format!("job-{units}");
        let ran = tool::rodreach_in(folder.path("").as_path(), &["new", &name, "--units", units]);
        assert_eq!(ran.status, 0, "{}", ran.err);
        let check = |status: i32| {
            let ran = tool::rodreach_in(folder.path("").as_path(), &["check", &name]);
            assert_eq!(ran.status, status, "{units}: {}{}", ran.out, ran.err);
            ran
        };
        assert!(check(1).out.contains("STILL TO MEASURE"));
        let file = format!("{name}/walk.csv");
        let filled = folder.read(&file).replace(",,,,,", &format!(",{row},,"));
        folder.write(&file, filled);
        check(0);
        let again = tool::rodreach_in(folder.path("").as_path(), &["new", &name]);
        assert_eq!(again.status, 2, "a job that is there is left alone");
    }
}

#[test]
fn files_on_the_command_line_stand_in_for_those_of_the_job() {
    let other = walk_job();
    other.write("walk.csv", "mark,reading,low,high\nA1,4.52,1,3\nA2,4.53,3,3\nA3,4.54,3,3\n");
    let job = walk_job();
    let path = other.path("walk.csv");
    let ran = job.run("check", &["--walk", path.to_str().unwrap(), "--format", "json"]);
    assert_eq!(ran.status, 1, "the short rod of the other walk is seen: {}", ran.err);
    let job = levels_job();
    let ran = job.run("check", &["--limits", "low-rise", "--format", "json"]);
    assert!(ran.status < 2, "{}", ran.err);
    assert_eq!(ran.json()["limits"], "low-rise");
}
