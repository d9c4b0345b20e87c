//! Differences from point to point: which way they count, and what is wrong with one.

use super::{JOB, Job, assert_told, told};
use crate::model::Readings;
use proptest::prelude::*;

/// A job with three columns and a benchmark whose pads are compared with each other.
fn files(units: &str, csv: &str) -> Job {
    let columns = ["A1", "A2", "A3"].map(|mark| format!("[[column]]\nmark = \"{mark}\"\n")).concat();
    let job = JOB.replace("walk = \"walk.csv\"", &format!("differences = \"d.csv\"\n{units}"))
        + &columns
        + "[[benchmark]]\npoint = \"BM1\"\nelevation = \"100'\"\n";
    Job::new(&[("job.toml", &job), ("d.csv", csv)])
}

fn good(csv: &str) -> Readings {
    files("levels_units = \"in\"", csv).load().map_err(|refused| told(&refused)).unwrap().job.readings
}

/// Gives every difference as from, to and sixteenths of an inch.
fn steps(readings: &Readings) -> Vec<(&str, &str, i64)> {
    let name = |point: usize| readings.points[point].as_str();
    readings
        .differences
        .iter()
        .map(|it| (name(it.from), name(it.to), it.difference.nm() / 1_587_500))
        .collect()
}

#[test]
fn the_second_point_stands_so_much_above_the_first() {
    let readings =
        good("from,to,difference,plus_minus\nA1,A2,1/8,\nA2,A3,-1/4,1/32\nA3,A1,0.125,0\nBM1,A1,-2'-6,\n");
    assert_eq!(steps(&readings), [("A1", "A2", 2), ("A2", "A3", -4), ("A3", "A1", 2), ("BM1", "A1", -480)]);
    let good_to: Vec<i64> = readings.differences.iter().map(|it| it.plus_minus.nm()).collect();
    assert_eq!(good_to, [1_587_500, 793_750, 0, 1_587_500]);
    assert!(readings.is_absolute(), "there is a benchmark");
}

#[test]
fn a_difference_measured_again_or_the_other_way_round_is_kept_beside_the_first() {
    let readings = good("from,to,difference\nA1,A2,1/8\nA1,A2,3/16\nA2,A1,-1/8\n");
    assert_eq!(steps(&readings), [("A1", "A2", 2), ("A1", "A2", 3), ("A2", "A1", -2)]);
}

#[test]
fn the_fixed_end_of_a_hose_needs_no_elevation_if_it_stands_in_two_differences() {
    let readings = good("from,to,difference\npost,A1,4\npost,A2,4-1/16\nA3,post,-4\n");
    assert_eq!(readings.points, ["post", "A1", "A2", "A3", "BM1"]);
    assert_told(
        &files("", "from,to,difference\npost,A1,4-1/2\nA2,A33,1/8\n").faults(),
        &[
            "d.csv:2:1: `post` is no column, no benchmark and no point of the level notes | known are A1, A2, A3, BM1",
            "d.csv:3:4: `A33` is no column, no benchmark and no point of the level notes | did you mean `A3`?",
        ],
    );
}

#[test]
fn bare_numbers_take_the_unit_of_the_readings_and_are_never_guessed() {
    let csv = "from,to,difference\nA1,A2,0.02\n";
    let readings = files("levels_units = \"ft\"", csv).load().unwrap().job.readings;
    assert_eq!(readings.differences[0].difference.nm(), 6_096_000);
    assert_told(
        &files("", csv).faults(),
        &["d.csv:2:7: `0.02`: this number has no unit, and none is stated for it | write the unit behind it"],
    );
}

#[test]
fn every_fault_of_a_row_is_told_in_one_run() {
    let csv = "from,to,difference,plus_minus\nA1,A1,1/8,\n,A2,x,\nA1,A2,8-Jan,-1\nA1,A2,,\nA1,A2\n";
    assert_told(
        &files("", csv).faults(),
        &[
            "d.csv:2:4: `A1` is compared with itself | name two different points",
            "d.csv:3:1: a name is needed here, this is blank",
            "d.csv:3:5: `x`: this is not a length",
            "d.csv:4:7: `8-Jan`: this is a date",
            "d.csv:4:13: `-1`: this",
            "d.csv:6:1: this row has 2 cells, the header has 4",
        ],
    );
    assert_told(
        &files("", "from,two,difference\nA1,A2,1/8\n").faults(),
        &["d.csv:1:6: `two` is not a column of this file | did you mean `to`?"],
    );
    assert_told(
        &files("", "A1,A2,1/8\n").faults(),
        &[
            "d.csv:1:1: `A1` is not a column of this file",
            "d.csv:1:1: the column `from` is missing",
            "d.csv:1:1: the column `to` is missing",
            "d.csv:1:1: the column `difference` is missing",
            "d.csv:1:4: `A2` is not a column of this file",
            "d.csv:1:7: `1/8` is not a column of this file",
        ],
    );
}

#[test]
fn a_difference_that_was_not_taken_yet_is_a_blank_cell() {
    assert!(good("from,to,difference\nA1,A2,\n").differences.is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn random_differences_get_an_answer_and_what_is_taken_names_two_points(
        rows in prop::collection::vec(("(A1|A2|A9|BM1|post|[ -~½]{0,4})", "(A1|A3|BM1|post)", "[-0-9./ 'in½\"]{0,7}"), 0..8),
    ) {
        let cells = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
        let rows: String =
            rows.iter().map(|(from, to, it)| format!("{},{to},{}\n", cells(from), cells(it))).collect();
        match files("", &format!("from,to,difference\n{rows}")).load() {
            Ok(loaded) => {
                for step in &loaded.job.readings.differences {
                    prop_assert!(step.from != step.to && step.to < loaded.job.readings.points.len());
                }
            }
            Err(refused) => prop_assert!(!told(&refused).is_empty()),
        }
    }
}
