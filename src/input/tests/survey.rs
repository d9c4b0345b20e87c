//! A surveyor's file: which pad, rod or benchmark each row is, and what is wrong with one.

use super::{JOB, Job, assert_told, told};
use crate::length::Length;
use crate::model::{RodLabel, SpotKind};

/// A job in feet with four columns, one of them a number, and a benchmark.
fn job(measure: &str) -> String {
    let columns: String = ["A1", "A2", "b1", "B1", "3"]
        .map(|mark| format!("[[column]]\nmark = \"{mark}\"\nbase = \"B1\"\n"))
        .concat();
    JOB.replace("walk = \"walk.csv\"", &format!("elevations = \"s.csv\"\n{measure}"))
        + &columns
        + "[[benchmark]]\npoint = \"BM1\"\nelevation = \"100'\"\n"
}

fn files(csv: &str) -> Job {
    Job::new(&[("job.toml", &job("levels_units = \"ft\"")), ("s.csv", csv)])
}

fn good(csv: &str) -> crate::model::Job {
    files(csv).load().map_err(|refused| told(&refused)).unwrap().job
}

/// Gives every elevation that was taken as point and hundredths of a foot, then what was left over.
fn taken(csv: &str) -> (Vec<(String, i64)>, Vec<String>) {
    let readings = good(csv).readings;
    let hundredth = 3_048_000;
    let name = |point: usize| readings.points[point].clone();
    let elevations = readings.elevations.iter().map(|it| (name(it.point), it.elevation.nm() / hundredth));
    (elevations.collect(), readings.unmatched.iter().map(crate::model::Unmatched::called).collect())
}

fn pairs(pairs: &[(&str, i64)]) -> Vec<(String, i64)> {
    pairs.iter().map(|(name, it)| ((*name).to_owned(), *it)).collect()
}

#[test]
fn with_or_without_a_header_row_points_and_descriptions_name_pads_rods_and_benchmarks() {
    let rows = "A1,5000.00,5000.00,99.98,\n102,5020.1,5000,99.97,A2\n103,,,100.18,A2 rod 2\n\
                104,1,2,100.2,a1  ROD  high\nBM1,0,0,100.01,\n106,0,0,99.5,edge of slab\n";
    let wanted = pairs(&[
        ("A1", 9_998),
        ("A2", 9_997),
        ("A2 rod 2", 10_018),
        ("A1 rod high", 10_020),
        ("BM1", 10_001),
    ]);
    let header = "Point,Northing,Easting,Elevation,Description\n";
    for csv in [rows.to_owned(), format!("{header}{rows}"), format!("\n\n{rows}")] {
        let (elevations, left) = taken(&csv);
        assert_eq!(elevations, wanted, "{csv}");
        assert_eq!(left, ["106 (edge of slab)"]);
    }
    let readings = good(rows).readings;
    assert_eq!(readings.spots[0].what, SpotKind::Rod(RodLabel::Number(2)));
    assert_eq!((readings.spots[0].column, readings.spots[1].column), (1, 0));
    assert!(readings.elevations.iter().all(|it| it.plus_minus == Length::from_nm(1_587_500)));
}

#[test]
fn columns_may_stand_in_any_order_behind_a_header_row_and_coordinates_may_be_missing() {
    let csv = "description,elevation,plus_minus,easting,point\nA1,99.9,0.01,5,1\n,99.8,,6,A2\n";
    let readings = good(csv).readings;
    let good_to: Vec<i64> = readings.elevations.iter().map(|it| it.plus_minus.nm()).collect();
    assert_eq!(good_to, [3_048_000, 1_587_500]);
}

#[test]
fn capitals_do_not_matter_where_one_mark_alone_is_meant() {
    let (elevations, left) = taken("1,0,0,99,a1\n2,0,0,98,b1\n3a,0,0,97,B1\n4a,0,0,96,bm1\n");
    assert_eq!(elevations, pairs(&[("A1", 9_900), ("b1", 9_800), ("B1", 9_700), ("BM1", 9_600)]));
    assert!(left.is_empty());
}

#[test]
fn a_rod_may_stand_in_the_description_behind_the_column_as_point() {
    let (elevations, left) =
        taken("A1,0,0,99,\nA1,0,0,99.2,rod 1\nA1,0,0,99.3,A1 rod 2\nA2 rod low,0,0,99.1,\n");
    let wanted = [("A1", 9_900), ("A1 rod 1", 9_920), ("A1 rod 2", 9_930), ("A2 rod low", 9_910)];
    assert_eq!(elevations, pairs(&wanted));
    assert!(left.is_empty());
}

#[test]
fn what_only_looks_like_a_mark_is_never_guessed() {
    let rows = [
        "A1 rod 0",
        "A1 rod x",
        "BM1 rod 1",
        "A9 rod 1",
        "rod 1",
        "A1 pad",
        "near A1",
        "A11",
        "A 1",
        "",
        "  ",
    ];
    let csv: String = rows.iter().enumerate().map(|(at, it)| format!("{},0,0,99,{it}\n", 900 + at)).collect();
    let (elevations, left) = taken(&format!("A2,0,0,99,\n{csv}"));
    assert_eq!(elevations, pairs(&[("A2", 9_900)]));
    assert_eq!(left.len(), rows.len(), "{left:?}");
    assert_eq!(left[0], "900 (A1 rod 0)");
}

#[test]
fn a_point_number_is_not_the_column_of_that_number_unless_something_says_so() {
    let (elevations, left) = taken("A1,0,0,99,\n3,0,0,98,top of curb\n");
    assert_eq!((elevations.len(), left), (1, vec!["3 (top of curb)".to_owned()]));
    for csv in ["3,0,0,98,\n", "3,0,0,98,3\n", "3,0,0,98,pad 3\n", "77,0,0,98,3\n"] {
        assert_eq!(taken(csv).0, pairs(&[("3", 9_800)]), "{csv}");
    }
}

#[test]
fn readings_of_one_point_are_all_kept_and_a_row_exported_twice_counts_once() {
    let (elevations, _) = taken("1,0,0,99,A1\n2,0,0,99.02,A1\n2,0,0,99.02,A1\n7,0,0,99.02,A1\n");
    assert_eq!(elevations, pairs(&[("A1", 9_900), ("A1", 9_902), ("A1", 9_902)]));
}

#[test]
fn coordinates_of_a_whole_state_are_no_fault_and_words_in_their_place_are() {
    assert_eq!(taken("1,12345678.901,-9876543.21,99,A1\n").0.len(), 1);
    assert_told(
        &files("1,12345678.901,north,99,A1\n2,5000,5000,90000,A2\n").faults(),
        &["s.csv:1:16: `north`: this is not a length", "s.csv:2:13: `90000`: this is beyond 10 km"],
    );
}

#[test]
fn feet_are_never_guessed() {
    let csv = "1,5000,5000,99,A1\n2,5000,5000,99,A2\n";
    let found = Job::new(&[("job.toml", &job("")), ("s.csv", csv)]).faults();
    assert_told(
        &found,
        &["s.csv:1:3: this surveyor's file may be in feet or in metres, and the job does not say which | \
           add levels_units = \"ft\" or \"m\" under [measure]; the unit is never guessed"],
    );
    let with_units = "1,5000 ft,5000 ft,99 ft,A1\n";
    assert!(Job::new(&[("job.toml", &job("")), ("s.csv", with_units)]).load().is_ok());
    let metric = Job::new(&[("job.toml", &job("levels_units = \"m\"")), ("s.csv", "1,0,0,30.5,A1\n")]);
    assert_eq!(metric.load().unwrap().job.readings.elevations[0].elevation.nm(), 30_500_000_000);
}

#[test]
fn a_point_and_a_description_that_name_two_things_are_told() {
    assert_told(
        &files("A1,0,0,99,A2\nA1,0,0,99,A2 rod 1\nBM1,0,0,100,A1\n").faults(),
        &[
            "s.csv:1:11: the point says `A1` and its description `A2`: which is it? | leave the mark in one of the two",
            "s.csv:2:11: the point says `A1` and its description `A2 rod 1`: which is it?",
            "s.csv:3:13: the point says `BM1` and its description `A1`: which is it?",
        ],
    );
}

#[test]
fn a_file_that_has_nothing_to_do_with_the_job_is_told() {
    assert_told(
        &files("1,0,0,99,curb\n2,0,0,99,tree\n").faults(),
        &["s.csv:1:1: no point of this surveyor's file is a column or a benchmark of this job | \
           write the mark of the column, or the mark and its rod as in A1 rod 2, as point or as description; \
           known are 3, A1, A2, B1, BM1, b1"],
    );
    assert_told(
        &files("point,northing,easting,elevation,description\n").faults(),
        &["s.csv:1:1: this surveyor's file has no points | write one row for each point"],
    );
}

#[test]
fn rows_with_too_many_or_too_few_cells_are_told_with_or_without_a_header_row() {
    assert_told(
        &files("1,0,0,99,A1\n2,0,0,99,A2,x\n3,0,0,99\n").faults(),
        &[
            "s.csv:2:13: this row has 6 cells, and without a header row it needs 5 | write decimals with a point",
            "s.csv:3:1: this row has 4 cells, and without a header row it needs 5 | write a comma for every cell",
        ],
    );
    assert_told(
        &files("1,0,0,99,A1,x\n").faults(),
        &["s.csv:1:13: this row has 6 cells, and without a header row it needs 5"],
    );
    assert_told(
        &files("point,northng,easting,elevtion,description\nA1,0,0,99,\n").faults(),
        &[
            "s.csv:1:7: `northng` is not a column of this file | did you mean `northing`?",
            "s.csv:1:23: `elevtion` is not a column of this file | did you mean `elevation`?",
        ],
    );
}

#[test]
fn a_bad_cell_in_the_first_row_is_told_as_a_cell() {
    assert_told(
        &files("101,5000,5000,9O.5,A1\n102,5000,5000,8-Jan,A2\n").faults(),
        &["s.csv:1:15: `9O.5`: this", "s.csv:2:15: `8-Jan`: this is a date"],
    );
}

#[test]
fn a_plain_file_of_elevations_still_refuses_points_it_does_not_know() {
    assert_told(
        &files("point,elevation\nA1,99\nA7,98\n").faults(),
        &["s.csv:3:1: `A7` is no column, no benchmark and no point of the level notes | did you mean `A1`?"],
    );
}
