//! `--guarded`: limits kept by value and +-. Worked by hand.

mod hand_job;
mod tool;

use hand_job::{SIXTEENTH, job};
use serde_json::{Value, json};
use tool::item;

fn raise(answer: &Value, mark: &str) -> i64 {
    item(&answer["columns"], "mark", mark)["raise_nm"].as_i64().unwrap() / SIXTEENTH
}

/// A2 lies 2/16 below A1 and 3/16 is accepted. Either pad is good to +-1/16, their difference to the root of two of that,
/// +-1.41/16: together 3.41/16, too much. Less 1.41/16 the limit is 1.59/16: A2 takes 1/8".
#[test]
fn a_difference_that_is_within_by_value_alone_is_not_planned() {
    let job = job(&[("A1", 0, 16), ("A2", -2, 16)], 1);
    let simple = job.run("check", &["--format", "json"]).json();
    assert_eq!(raise(&simple, "A2"), 0);
    assert_eq!(item(&simple["differences"], "kind", "neighbours")["verdict"], "unsure");
    assert_eq!(simple.get("guarded"), None);
    let guarded = job.run("check", &["--format", "json", "--guarded"]).json();
    assert_eq!((raise(&guarded, "A1"), raise(&guarded, "A2")), (0, 2));
    assert_eq!(item(&guarded["differences"], "kind", "neighbours")["verdict"], "within");
    assert_eq!((&guarded["guarded"], &guarded["optimum"]["proven"]), (&json!(true), &json!(true)));
    let level = job.run("check", &["--format", "json", "--guarded", "--aim", "level"]).json();
    assert_eq!(item(&level["differences"], "kind", "neighbours")["verdict"], "within");
}

/// Either pad is good to +-3/16: the difference to +-4.24/16, more than the limit of 3/16.
#[test]
fn a_limit_closer_than_the_levels_are_good_to_is_refused_with_both_figures() {
    let job = job(&[("A1", 0, 16), ("A2", 0, 16)], 3);
    for aim in ["fewest", "level"] {
        let ran = job.run("check", &["--guarded", "--aim", aim]);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""));
        assert!(ran.err.contains("the limit between next columns on line A is 3/16\""), "{}", ran.err);
        assert!(ran.err.contains("A1 and A2 is good to +-~5/16\" only"), "{}", ran.err);
    }
    assert!(job.run("check", &[]).status < 2);
}

/// Of three pads in a row the outer ones are farther apart than either is from the middle: over the building every pair is
/// kept by its own +-.
#[test]
fn every_pair_of_a_spread_is_kept_by_its_own_plus_minus() {
    let job = job(&[("A1", 0, 16), ("A2", -1, 16), ("A3", -2, 16)], 1);
    job.replace("job.toml", "[limits.building]\noff = true", "[limits.building]\naccept = \"3/16\"");
    let simple = job.run("check", &["--format", "json"]).json();
    assert_eq!(simple["totals"]["pieces"], 0);
    assert_eq!(item(&simple["differences"], "kind", "building")["verdict"], "unsure");
    let guarded = job.run("check", &["--format", "json", "--guarded"]).json();
    // one 1/8" under A3: then A2 is the lowest, 1/16 below the others
    assert_eq!((raise(&guarded, "A1"), raise(&guarded, "A2"), raise(&guarded, "A3")), (0, 0, 2));
    assert_eq!(item(&guarded["differences"], "kind", "building")["verdict"], "within");
}
