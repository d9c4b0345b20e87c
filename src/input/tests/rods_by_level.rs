//! Rods whose tops were read with the level must be rods that their column lists.

use super::{JOB, Job, assert_told, told};
use crate::model::RodLabel;

/// The inch job with level notes in place of its walk, and what was measured by tape.
fn job(spots: &[&str], rods: &str) -> Job {
    let toml = JOB.replace("walk = \"walk.csv\"", "levels = \"levels.csv\"\nrods = \"rods.csv\"");
    let toml = toml + "[[column]]\nmark = \"A1\"\nbase = \"B1\"\n";
    let spots: String = spots.iter().map(|spot| format!("A1,52 in,{spot}\n")).collect();
    let levels = format!("point,reading,spot\nA1,54 in,\n{spots}");
    Job::new(&[
        ("job.toml", &toml),
        ("levels.csv", &levels),
        ("rods.csv", &format!("column,rod,projection\n{rods}")),
    ])
}

fn labels(spots: &[&str], rods: &str) -> Vec<RodLabel> {
    let loaded = job(spots, rods).load().map_err(|refused| told(&refused)).unwrap();
    loaded.job.columns[0].rods.iter().map(|rod| rod.label).collect()
}

#[test]
fn a_numbered_top_beside_low_and_high_is_refused() {
    assert_told(
        &job(&["rod 2"], "A1,low,2\nA1,high,3\n").faults(),
        &[
            "levels.csv:3:10: rod 2: the rods of this column are listed as low and high | write rod low or rod high",
        ],
    );
}

#[test]
fn a_low_top_beside_numbered_rods_is_refused() {
    assert_told(
        &job(&["rod low"], "A1,1,2\n").faults(),
        &[
            "levels.csv:3:10: rod low: the rods of this column are listed by their numbers | write rod and its number",
        ],
    );
    assert_told(
        &job(&["rod 1", "rod high"], "").faults(),
        &["levels.csv:4:10: rod high: the rods of this column are listed by their numbers"],
    );
}

#[test]
fn a_top_beyond_the_count_of_the_base_is_refused() {
    assert_told(
        &job(&["rod 4", "rod 5"], "").faults(),
        &["levels.csv:4:10: rod 5: this column has 4 rods | write rod and a number from 1 to 4"],
    );
}

#[test]
fn tops_that_fit_decide_how_rods_are_listed_where_the_tape_does_not() {
    let group = [RodLabel::Low, RodLabel::High];
    assert_eq!(labels(&["rod low"], ""), group);
    assert_eq!(labels(&["rod low"], "A1,,2-1/2\n"), group, "one value for all says nothing of it");
    assert_eq!(labels(&["rod high"], "A1,low,2-1/2\n"), group);
    assert_eq!(labels(&["rod 3"], "A1,,2-1/2\n"), [1, 2, 3, 4].map(RodLabel::Number));
    assert_eq!(labels(&["NW"], ""), [1, 2, 3, 4].map(RodLabel::Number));
}
