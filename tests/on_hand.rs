//! Shims on hand: what the plan takes of them and what is missing. Worked by hand.

mod hand_job;
mod tool;

use hand_job::{SIXTEENTH, job};
use serde_json::json;
use tool::{Job, item};

/// A2 and A3 lie 4/16 below A1, and next columns may be 3/16 apart.
fn low_pair(stock: &str) -> Job {
    let job = job(&[("A1", 0, 16), ("A2", -4, 16), ("A3", -4, 16)], 0);
    job.replace("job.toml", "pieces = 2\n", &format!("pieces = 2\nstock = {stock}\n"));
    job
}

/// One 1/8" under A2 does it: A2 at -2/16, A3 at -4/16. With a single 1/4" A2 comes level with A1, but A3 is then 4/16 below
/// it and nothing is left for it: 1/16" is ground off A1.
#[test]
fn what_is_missing_for_the_plan_of_all_thicknesses_is_listed_with_what_that_plan_needs() {
    let job = low_pair("{ \"1/4\" = 1 }");
    let answer = job.run("check", &["--format", "json"]).json();
    assert_eq!(answer["totals"]["grind"], 1);
    assert_eq!(answer["totals"]["pieces"], 0);
    assert_eq!(answer["optimum"], json!({ "proven": true, "gap": null }));
    let (quarter, eighth) = (4 * SIXTEENTH, 2 * SIXTEENTH);
    assert_eq!(
        answer["stock"],
        json!({
            "pieces": [
                { "thickness_nm": quarter, "on_hand": 1, "used": 0, "missing": 0 },
                { "thickness_nm": eighth, "on_hand": 0, "used": 0, "missing": 0 },
            ],
            "shortage": {
                "pieces": [{ "thickness_nm": eighth, "count": 1 }],
                "cost": {
                    "refer": 0, "grind": 0, "grout": 0, "held": 0, "pieces": 1, "thickness_nm": eighth,
                },
            },
        })
    );
    let screen = job.run("check", &[]).out;
    assert!(
        screen.contains("With 1 more of 1/8\" the plan would need only: 1 shim piece, 1/8\" of thickness."),
        "{screen}"
    );
}

#[test]
fn a_stock_that_does_changes_nothing_and_without_one_nothing_is_said() {
    let plenty = low_pair("{ \"1/8\" = 9, \"1/4\" = 9 }").run("check", &["--format", "json"]).json();
    assert_eq!(plenty["stock"]["shortage"], json!(null));
    let all =
        job(&[("A1", 0, 16), ("A2", -4, 16), ("A3", -4, 16)], 0).run("check", &["--format", "json"]).json();
    assert_eq!(all.get("stock"), None);
    assert_eq!((&plenty["columns"], &plenty["optimum"]), (&all["columns"], &all["optimum"]));
}

/// Two columns are held at 1/8", and one piece is there.
#[test]
fn columns_held_by_wish_beyond_the_stock_are_asked_for() {
    let job = low_pair("{ \"1/8\" = 1 }");
    let held = ["--format", "json", "--hold-at", "A2=1/8", "--hold-at", "A3=1/8"];
    let ran = job.run("check", &held);
    assert_eq!(ran.status, 1);
    let answer = ran.json();
    let told = item(&answer["findings"], "rule", "not-enough-on-hand");
    assert_eq!((&told["level"], &told["columns"]), (&json!("ask"), &json!(["A2", "A3"])));
    assert_eq!(answer["stock"]["pieces"][1]["missing"], 1);
}

/// The plan that brings every column up to one level does not look at the stock; the rule does.
#[test]
fn a_level_plan_beyond_the_stock_is_asked_for() {
    let job = low_pair("{ \"1/4\" = 1 }");
    let answer = job.run("check", &["--format", "json", "--aim", "level"]).json();
    let told = item(&answer["findings"], "rule", "not-enough-on-hand");
    assert!(told["text"].as_str().unwrap().contains("2 planned, 1 on hand, 1 missing"), "{told}");
}

/// Two columns are held at 1/8" and three pieces are there: one is left, and what is held does not take from it again.
#[test]
fn columns_held_by_wish_take_from_the_stock_once() {
    for there in [2, 3, 4] {
        let job = low_pair(&format!("{{ \"1/8\" = {there} }}"));
        let ran = job.run("check", &["--format", "json", "--hold-at", "A2=1/8", "--hold-at", "A3=1/8"]);
        assert!(ran.status < 2, "{there}: {}", ran.err);
        let eighth = ran.json()["stock"]["pieces"][1].clone();
        assert_eq!((&eighth["used"], &eighth["missing"]), (&json!(2), &json!(0)), "{there}");
    }
}
