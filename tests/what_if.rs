//! What a crew tries with `--hold-at` and `--without`, and what it does to the rest; worked by hand.
//!
//! Heights are in sixteenths of an inch from the highest pad, A1: A2 and A3 stand at -4. Next columns may be 3 apart, the
//! wall 4 from high to low. Left alone, A2 needs one 1/8 in shim (2): it comes to -2, and A3 stays at -4.

mod tool;

use serde_json::{Value, json};
use tool::clean::{levels_job, walk_job};
use tool::{Job, item, rodreach};

const SIXTEENTH: i64 = 1_587_500;

/// The three pads; the rods stand 4 in, but those of A2 as they are given.
fn job(rods_of_a2: &str) -> Job {
    let job = walk_job();
    job.write(
        "walk.csv",
        format!("mark,reading,low,high\nA1,54 in,4,4\nA2,54-1/4 in,{rods_of_a2}\nA3,54-1/4 in,4,4\n"),
    );
    job
}

fn answer(job: &Job, more: &[&str]) -> Value {
    let ran = job.run("check", &[&["--format", "json"], more].concat());
    assert!(ran.status < 2, "{}", ran.err);
    ran.json()
}

/// What is done at A1, A2 and A3, and how far each is raised, in sixteenths.
fn done(answer: &Value) -> Vec<(&str, Option<i64>)> {
    let columns = answer["columns"].as_array().unwrap().iter();
    columns
        .map(|column| {
            let raise = column["raise_nm"].as_i64();
            assert!(raise.is_none_or(|raise| raise % SIXTEENTH == 0));
            (column["action"].as_str().unwrap(), raise.map(|raise| raise / SIXTEENTH))
        })
        .collect()
}

const LEFT: (&str, Option<i64>) = ("no-shim", Some(0));

fn shim(sixteenths: i64) -> (&'static str, Option<i64>) {
    ("shim", Some(sixteenths))
}

#[test]
fn a_column_is_held_at_a_raise_and_the_rest_is_planned_around_it() {
    let job = job("4,4");
    let free = answer(&job, &[]);
    assert_eq!(done(&free), [LEFT, shim(2), LEFT]);
    assert_eq!((free.get("hold_at"), free.get("without_nm")), (None, None), "only where something is tried");
    // A2 comes up to 0: A3, at -4, must follow to -3 at least, and the least shim brings it to -2
    let held = answer(&job, &["--hold-at", "A2=1/4"]);
    assert_eq!(done(&held), [LEFT, shim(4), shim(2)]);
    assert_eq!(held["hold_at"], json!([{ "mark": "A2", "raise_nm": 4 * SIXTEENTH }]));
    assert_eq!(held["optimum"], json!({ "proven": true, "gap": null }));
    // A2 stays at -4: A1 must come down to -1
    let held = answer(&job, &["--hold-at", "A2=0"]);
    assert_eq!(done(&held), [("grind", Some(-1)), LEFT, LEFT]);
    // two at once; A1 at 2 and A2 at -1, so A3 at -4 need not be touched, but the wall wants it at -2
    let held = answer(&job, &["--hold-at", "A2=3/16", "--hold-at", "A1=1/8"]);
    assert_eq!(done(&held), [shim(2), shim(3), shim(2)]);
    assert_eq!(
        held["hold_at"],
        json!([{ "mark": "A1", "raise_nm": 2 * SIXTEENTH }, { "mark": "A2", "raise_nm": 3 * SIXTEENTH }])
    );
}

/// A2 ground by 2 stands at -6. A1 may be ground by 2 at most and is 4 away: it is referred. Its seat must lie within 3 of
/// A2, -9 to -3, and within 4 of A2 and of A3 at -4, -8 to -2: from -8 to -3.
#[test]
fn a_negative_raise_is_grinding() {
    let held = answer(&job("4,4"), &["--hold-at", "A2=-1/8"]);
    assert_eq!(done(&held), [("refer", None), ("grind", Some(-2)), LEFT]);
    let a1 = item(&held["columns"], "mark", "A1");
    assert_eq!(a1["seat_range_nm"], json!([-8 * SIXTEENTH, -3 * SIXTEENTH]));
}

/// The parts over a plate come to 1.382375 in, 1.465 at their most: a rod of 1.6 in is short by more than the tape under
/// 3/8 in, and the column is planned so all the same. It comes to +2; A3 must follow from -4 to -1.
#[test]
fn what_the_rods_forbid_is_planned_and_stays_on_hold() {
    let held = answer(&job("1.6 in,4"), &["--hold-at", "A2=3/8"]);
    assert_eq!(done(&held), [LEFT, shim(6), shim(3)]);
    let a2 = item(&held["columns"], "mark", "A2");
    assert_eq!((&a2["hold"], &a2["may_set"]), (&json!(["rod-short"]), &json!(false)));
    assert!(held["findings"].as_array().unwrap().iter().any(|it| it["rule"] == "nut-not-full"));
}

#[test]
fn a_raise_takes_its_fewest_pieces_and_a_bed_of_grout_only_where_no_stack_reaches() {
    let job = job("4,4");
    let stack = |more: &[&str]| {
        let held = answer(&job, more);
        let a2 = item(&held["columns"], "mark", "A2");
        let pieces = a2["stack"].as_array().unwrap().iter();
        let pieces: Vec<(i64, i64)> = pieces
            .map(|it| (it["thickness_nm"].as_i64().unwrap() / SIXTEENTH, it["count"].as_i64().unwrap()))
            .collect();
        (a2["action"].as_str().unwrap().to_owned(), pieces)
    };
    assert_eq!(stack(&["--hold-at", "A2=3/8"]), ("shim".to_owned(), vec![(6, 1)]));
    // 1/4 + 1/8 and 2 x 3/16 are two pieces: the thickest piece first
    assert_eq!(
        stack(&["--hold-at", "A2=3/8", "--without", "3/8"]),
        ("shim".to_owned(), vec![(4, 1), (2, 1)])
    );
    let two = ["--hold-at", "A2=3/8", "--without", "3/8", "--without", "1/4"];
    assert_eq!(stack(&two), ("shim".to_owned(), vec![(3, 2)]));
    // no stack is higher than 3/4, and grout starts at 1 in
    assert_eq!(stack(&["--hold-at", "A2=1-1/4"]), ("grout".to_owned(), vec![]));
}

/// Without 1/8 the least that brings A2 to -3 is 3/16 (to -1), and A3 at -4 may stay. Without any shim, and without grout,
/// A1 is ground by 1.
#[test]
fn a_thickness_is_left_out_and_even_the_last_one() {
    let job = job("4,4");
    let without = answer(&job, &["--without", "1/8"]);
    assert_eq!(done(&without), [LEFT, shim(3), LEFT]);
    assert_eq!(without["without_nm"], json!([2 * SIXTEENTH]));
    job.write("job.toml", job.read("job.toml") + "[limits.grout]\noff = true\n");
    let all: Vec<&str> =
        ["1/8", "3/16", "1/4", "3/8", "1/2", "3/4"].iter().flat_map(|it| ["--without", it]).collect();
    assert_eq!(done(&answer(&job, &all)), [("grind", Some(-1)), LEFT, LEFT]);
}

/// The level is A1; A2 is held 4 below it, beyond the 3 that are accepted, and check says so.
#[test]
fn a_level_plan_holds_a_column_too() {
    let held = answer(&job("4,4"), &["--aim", "level", "--hold-at", "A2=0"]);
    assert_eq!(done(&held), [LEFT, LEFT, shim(4)]);
    assert_eq!(held["optimum"], Value::Null);
    assert!(held["findings"].as_array().unwrap().iter().any(|it| it["rule"] == "neighbours-out"));
}

#[test]
fn every_answer_says_what_was_tried_before_anything_else() {
    let job = job("4,4");
    let tried = ["--hold-at", "A2=1/4", "--without", "1/8", "--without", "3/4"];
    let said = "Tried: A2 held at 1/4\"; without 1/8\" and 3/4\".";
    for (command, first) in [("check", vec![]), ("hardware", vec![]), ("explain", vec!["A2"])] {
        let ran = job.run(command, &[&first[..], &tried].concat());
        assert!(ran.status < 2, "{}", ran.err);
        assert_eq!(ran.out.lines().nth(1), Some(said), "{command}\n{}", ran.out);
        let json = job.run(command, &[&first[..], &tried, &["--format", "json"]].concat()).json();
        assert_eq!(json["hold_at"], json!([{ "mark": "A2", "raise_nm": 4 * SIXTEENTH }]), "{command}");
        assert_eq!(json["without_nm"], json!([2 * SIXTEENTH, 12 * SIXTEENTH]), "{command}");
        assert!(!job.run(command, &first).out.contains("Tried"), "{command}");
    }
}

fn refused(job: &Job, more: &[&str], words: &[&str]) {
    let ran = job.run("check", more);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{more:?}\n{}", ran.err);
    let said = ran.err.split_whitespace().collect::<Vec<_>>().join(" ");
    for word in words {
        assert!(said.contains(word), "{more:?}: no {word:?} in:\n{}", ran.err);
    }
}

/// A1 at 0 and A2 at -4 are 4 apart where 3 are accepted. A1 at 2 and A3 at -4 are 6 apart: a column between them could
/// stand 3 from both, but the wall allows 4.
#[test]
fn columns_that_cannot_be_held_together_are_named_with_the_limit_between_them() {
    let job = job("4,4");
    refused(
        &job,
        &["--hold-at", "A1=0", "--hold-at", "A2=0"],
        &["A1 at 0\"", "A2 at 0\"", "cannot be held together", "next columns on line A may be 3/16\" apart"],
    );
    refused(
        &job,
        &["--hold-at", "A1=1/8", "--hold-at", "A3=0"],
        &["A1 at 1/8\"", "A3 at 0\"", "cannot be held together", "columns of wall A may be 1/4\" apart"],
    );
}

/// C2 is 2 mm below its design and would stand 18 above it; C1, 1 below its own, could come to 5 above it at most, which
/// leaves 13 between them, where 5 are accepted: it would have to be raised by 13 + 1 = 14.
#[test]
fn a_column_held_too_far_from_the_design_of_its_neighbours_is_told_so() {
    refused(
        &levels_job(),
        &["--hold-at", "C2=20"],
        &[
            "C2 at 20 mm cannot be held",
            "C1 must stand 14 mm or more above its pad",
            "limit from the design seat",
        ],
    );
}

#[test]
fn a_raise_that_nothing_makes_names_the_nearest_on_either_side() {
    let job = job("4,4");
    for (wanted, nearest) in [
        ("A2=1/16", "are 0\" (nothing under the plate) and 1/8\""),
        ("A2=7/8", "are 3/4\" and 1\""),
        ("A2=-1/32", "are -1/16\" (grinding) and 0\""),
        ("A2=9", "is 2\""),
        ("A2=-1", "is -1/8\" (grinding)"),
    ] {
        refused(&job, &["--hold-at", wanted], &[wanted, "the nearest that can be made", nearest]);
    }
    // without 1/8 there is no 5/16 either: 1/8 + 3/16
    refused(&job, &["--hold-at", "A2=5/16", "--without", "1/8"], &["are 1/4\" and 3/8\""]);
}

#[test]
fn a_pad_that_is_not_measured_cannot_be_held() {
    let job = walk_job();
    job.write("walk.csv", "mark,reading,low,high\nA1,54 in,4,4\nA2,,4,4\nA3,54 in,4,4\n");
    refused(&job, &["--hold-at", "A2=1/8"], &["the pad of A2 is not measured", "read the pad first"]);
}

#[test]
fn a_bare_number_is_in_the_unit_of_the_job() {
    let job = levels_job();
    let ran = job.run("check", &["--hold-at", "C2=3", "--without", "20", "--format", "json"]);
    assert!(ran.status < 2, "{}", ran.err);
    assert_eq!(ran.json()["hold_at"], json!([{ "mark": "C2", "raise_nm": 3_000_000 }]));
    assert_eq!(ran.json()["without_nm"], json!([20_000_000]));
    refused(&job, &["--hold-at", "C2=1/8"], &["this fraction has no unit"]);
    refused(&job, &["--hold-at", "C2=1/8 in"], &["nearest that can be made are 3 mm and 4 mm"]);
}

/// Of the tractor shed: A3, at -6, is held at 4 and stands at -2, nothing else on its wall is moved; B3 keeps its 3/8 in.
#[test]
fn the_example_of_the_readme_is_what_comes_out() {
    let readme = include_str!("../README.md");
    let example =
        readme.lines().find(|line| line.starts_with("rodreach check") && line.contains("--hold-at"));
    let args: Vec<&str> = example.unwrap().split_whitespace().skip(1).chain(["--format", "json"]).collect();
    let ran = rodreach(&args);
    assert_eq!(ran.status, 1, "{}", ran.err);
    let answer = ran.json();
    assert_eq!(answer["hold_at"], json!([{ "mark": "A3", "raise_nm": 4 * SIXTEENTH }]));
    assert_eq!(answer["without_nm"], json!([2 * SIXTEENTH]));
    let columns = answer["columns"].as_array().unwrap().iter();
    let shimmed: Vec<(&str, i64)> = columns
        .filter(|column| column["action"] == "shim")
        .map(|column| (column["mark"].as_str().unwrap(), column["raise_nm"].as_i64().unwrap() / SIXTEENTH))
        .collect();
    assert_eq!(shimmed, [("A3", 4), ("B3", 6)]);
}
