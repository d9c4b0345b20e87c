//! Values in CSV files that cannot be used, each told at its cell.

use super::{JOB, Job, WALK, assert_told, changed, same};

/// Gives the faults of `JOB` with one cell of its walk replaced, after checking that they stand at that cell.
fn cell(old: &str, new: &str, at: &str, message: &str) {
    let found = changed(same, |walk| walk.replacen(old, new, 1));
    assert_told(&found, &[&format!("walk.csv:{at}: `{new}`: {message}")]);
}

#[test]
fn a_length_that_cannot_be_read_is_told_at_its_cell() {
    cell("4'-6 1/4\"", "4 feet", "2:4", "this unit is not known");
    cell("4'-6 1/4\"", "4'-6 1/4\"x", "2:4", "this is not a length");
    cell("2-1/2", "two", "2:14", "this is not a length");
    cell("2-5/8", "2-5/0", "2:20", "a fraction cannot be divided by 0");
    cell("2-5/8", "2.5e3", "2:20", "this number is not written in plain digits");
    cell("54-3/8", "4.52 yd", "3:4", "this unit is not known");
    cell("54-3/8", "20 km", "3:4", "this unit is not known");
    cell("54-3/8", "20000 m", "3:4", "this is beyond 10 km");
}

/// Text copied from a page or a PDF brings them along: `A1` with one is another column than `A1`.
#[test]
fn a_mark_with_a_character_that_nobody_sees_is_told() {
    for unseen in ['\u{200b}', '\u{202e}', '\u{2066}', '\u{feff}', '\u{ad}'] {
        let found = changed(same, |walk| walk.replacen("A1,", &format!("A{unseen}1,"), 1));
        assert_told(&found, &["walk.csv:2:1: this name holds a character that nobody sees"]);
    }
}

#[test]
fn a_fraction_that_a_spreadsheet_made_a_date_is_told() {
    for date in ["8-Jan", "1/8/2026", "2026-01-08", "Jan-08"] {
        cell(
            "4'-6 1/4\"",
            date,
            "2:4",
            "this is a date: a spreadsheet has turned a fraction into it | read the measurement again",
        );
        cell("2-5/8", date, "2:20", "this is a date");
    }
    let rods = "column,rod,projection,thread\nA1,1,8-Jan,1/8/2026\n";
    let text = JOB.replace("walk = \"walk.csv\"", "walk = \"walk.csv\"\nrods = \"rods.csv\"");
    let walk = "mark,reading,low,high\nA1,,,\n";
    assert_told(
        &Job::new(&[("job.toml", &text), ("walk.csv", walk), ("rods.csv", rods)]).faults(),
        &["rods.csv:2:6: `8-Jan`: this is a date", "rods.csv:2:12: `1/8/2026`: this is a date"],
    );
}

#[test]
fn a_bare_number_of_a_reading_needs_its_unit_and_a_fraction_is_inches() {
    cell("54-3/8", "54.375", "3:4", "this number has no unit, and none is stated for it");
    cell("54-3/8", "4", "3:4", "this number has no unit");
    // projections take the unit of the job
    assert!(Job::new(&[("job.toml", JOB), ("walk.csv", &WALK.replace("2-1/2", "2.5"))]).load().is_ok());
}

#[test]
fn many_numbers_without_a_unit_are_told_five_by_one_and_the_others_by_number() {
    let rows: String = (1..=9).map(|n| format!("A{n},4.5{n},,\n")).collect();
    let found = changed(same, |_| format!("mark,reading,low,high\n{rows}"));
    assert_eq!(found.len(), 6, "{found:?}");
    assert!(found[4].starts_with("walk.csv:6:4: `4.55`: this number has no unit"), "{found:?}");
    assert_eq!(found[5], "walk.csv:7:4: from here on 4 more cells of this file without a unit");
}

#[test]
fn in_a_millimetre_job_a_fraction_needs_its_unit_everywhere() {
    let job = r#"[job]
name = "Hall"
units = "mm"
limits = "en-1090"
seat = "1/2"
[measure]
walk = "walk.csv"
levels_units = "mm"
rods_plus_minus = "1/16"
[[base]]
mark = "B1"
plate = { thickness = "1-1/4" }
rods = { diameter = "M24", count = 4 }
nuts = ["iso-4032"]
"#;
    let walk = "mark,reading,low,high\nA1,54-1/4,3-1/8,80\nA2,1378,80 mm,3 in\n";
    let message = "this fraction has no unit in a job in millimetres | write the unit behind it";
    assert_told(
        &Job::new(&[("job.toml", job), ("walk.csv", walk)]).faults(),
        &[
            &format!("job.toml:5:8: `1/2`: {message}"),
            &format!("job.toml:9:19: `1/16`: {message}"),
            &format!("job.toml:12:23: `1-1/4`: {message}"),
            &format!("walk.csv:2:4: `54-1/4`: {message}"),
            &format!("walk.csv:2:11: `3-1/8`: {message}"),
        ],
    );
}

#[test]
fn a_negative_projection_is_told_also_where_the_origin_makes_it_so() {
    cell("2-1/2", "-2-1/2", "2:14", "a rod cannot stand out less than 0 | measure it again");
    let origin = |job: &str| job.replace("[measure]\n", "[measure]\nrods_origin = \"-2-9/16\"\n");
    assert_told(
        &changed(origin, same),
        &[
            "walk.csv:2:14: `2-1/2`: with rods_origin this rod ends below its pad | check this projection, and rods_origin",
            "walk.csv:3:11: `2-1/2`: with rods_origin this rod ends below its pad",
        ],
    );
    let origin = |job: &str| job.replace("[measure]\n", "[measure]\nrods_origin = \"2\"\n");
    assert_told(
        &changed(origin, |walk| walk.replacen("2-1/2", "-1", 1)),
        &["walk.csv:2:14: `-1`: a rod cannot"],
    );
}

#[test]
fn a_mark_that_is_missing_or_stands_twice_is_told() {
    let twice = "walk.csv:3:1: the column `A1` stands here a second time | it stands first at walk.csv:2:1";
    assert_told(&changed(same, |walk| walk.replace("A2", "A1")), &[twice]);
    assert_told(
        &changed(same, |walk| walk.replace("A2", " ")),
        &["walk.csv:3:1: a name is needed here, this is blank"],
    );
    let columns = |job: &str| format!("{job}[[column]]\nmark = \"A1\"\n[[column]]\nmark = \"A2\"\n");
    assert_told(&changed(columns, |walk| walk.replace("A2", "A1")), &[twice]);
    assert_told(
        &changed(columns, |walk| walk.replace("A2", "A3")),
        &["walk.csv:3:1: `A3` is not a column of this job | did you mean `A1`?"],
    );
    assert_told(
        &changed(columns, |walk| walk.replace("A2", "gate")),
        &["walk.csv:3:1: `gate` is not a column of this job | known are A1, A2"],
    );
}

/// `JOB` with three columns, of two bases, and these files under `[measure]`.
fn job_with(measure: &str) -> String {
    JOB.replace("walk = \"walk.csv\"", measure)
        + "[[base]]\nmark = \"B2\"\nplate = { thickness = 1 }\nrods = { diameter = 1, count = 2 }\nnuts = [\"hex\"]\n"
        + "[[column]]\nmark = \"A1\"\nbase = \"B1\"\n[[column]]\nmark = \"A2\"\nbase = \"B2\"\n[[column]]\nmark = \"A3\"\nbase = \"B1\"\n"
}

fn rods(text: &str) -> Vec<String> {
    let text = format!("column,rod,projection,thread,condition\n{text}");
    Job::new(&[("job.toml", &job_with("rods = \"rods.csv\"")), ("rods.csv", &text)]).faults()
}

#[test]
fn the_same_rod_twice_is_told_with_the_first_place() {
    assert_told(
        &rods(
            "A1,1,2,,\nA1,1,3,,\nA1,,2,,\nA1,,2,,\nA2,low,2,,\nA2,LOW,2,,\nA3,high,2,,\nA3,High,2,,\nA1,01,2,,\n",
        ),
        &[
            "rods.csv:3:4: rod 1 of this column stands here a second time | it stands first at rods.csv:2:4",
            "rods.csv:5:1: a row for all rods of this column stands here a second time | it stands first at rods.csv:4:1",
            "rods.csv:7:4: the low rod of this column stands here a second time | it stands first at rods.csv:6:4",
            "rods.csv:9:4: the high rod of this column stands here a second time | it stands first at rods.csv:8:4",
            "rods.csv:10:4: rod 1 of this column stands here a second time | it stands first at rods.csv:2:4",
        ],
    );
    let text = job_with("walk = \"walk.csv\"\nrods = \"rods.csv\"");
    let files =
        [("job.toml", text.as_str()), ("walk.csv", WALK), ("rods.csv", "column,rod,projection\nA1,low,2\n")];
    assert_told(
        &Job::new(&files).faults(),
        &[
            "rods.csv:2:4: the low rod of this column stands here a second time | it stands first at walk.csv:2:14",
        ],
    );
}

#[test]
fn rods_that_the_base_does_not_have_are_told() {
    let fix = "is not a rod of this column | write a number from 1 to";
    assert_told(
        &rods("A1,5,2,,\nA2,3,2,,\nA1,0,2,,\nA1,top,2,,\nA1,+1,2,,\nA1,1.0,2,,\nA9,1,2,,\n,1,2,,\n"),
        &[
            &format!("rods.csv:2:4: `5` {fix} 4, low, high, or leave it blank"),
            &format!("rods.csv:3:4: `3` {fix} 2"),
            &format!("rods.csv:4:4: `0` {fix} 4"),
            &format!("rods.csv:5:4: `top` {fix} 4"),
            &format!("rods.csv:6:4: `+1` {fix} 4"),
            &format!("rods.csv:7:4: `1.0` {fix} 4"),
            "rods.csv:8:1: `A9` is not a column of this job | did you mean `A1`?",
            "rods.csv:9:1: a name is needed here, this is blank",
        ],
    );
}

#[test]
fn numbered_rods_beside_low_or_high_are_told() {
    let message =
        "this column has numbered rods beside low or high | give numbered rods or low/high, not both";
    assert_told(
        &rods("A1,low,2,,\nA1,2,2,,\nA1,3,2,,\nA2,1,2,,\n"),
        &[&format!("rods.csv:3:4: {message}"), &format!("rods.csv:4:4: {message}")],
    );
    let text = job_with("walk = \"walk.csv\"\nrods = \"rods.csv\"");
    let files =
        [("job.toml", text.as_str()), ("walk.csv", WALK), ("rods.csv", "column,rod,projection\nA1,2,2\n")];
    assert_told(&Job::new(&files).faults(), &[&format!("rods.csv:2:4: {message}")]);
}

#[test]
fn a_negative_thread_is_told() {
    assert_told(&rods("A1,1,2,-3,\n"), &["rods.csv:2:8: `-3`: this cannot be less than 0"]);
}

#[test]
fn a_base_in_a_walk_must_be_known_agree_and_be_given_where_there_are_two() {
    let text = job_with("walk = \"walk.csv\"");
    let (alone, _) = text.split_once("[[column]]").unwrap();
    let walk = "mark,reading,low,high,base\nA1,,,,B2\nA2,,,,B3\nA3,,,,\n";
    assert_told(
        &Job::new(&[("job.toml", &text), ("walk.csv", walk)]).faults(),
        &[
            "walk.csv:2:7: `A1` stands on base `B1`, not on `B2` | correct this cell, or the column at job.toml:",
            "walk.csv:3:7: `B3` is not a base of this job | did you mean `B1`?",
        ],
    );
    assert_told(
        &Job::new(&[("job.toml", alone), ("walk.csv", walk)]).faults(),
        &[
            "walk.csv:3:7: `B3` is not a base of this job",
            "walk.csv:4:7: the base of this column is missing, and there is more than one kind | name its base: B1, B2",
        ],
    );
}

fn levels(text: &str) -> Vec<String> {
    Job::new(&[("job.toml", &job_with("levels = \"levels.csv\"")), ("levels.csv", text)]).faults()
}

#[test]
fn a_mistyped_sight_and_a_missing_setup_are_told() {
    assert_told(
        &levels("setup,point,sight,reading\n1,A1,BX,4 ft\n,A2,IS,4 ft\n1,A3,back,4 ft\n1,,IS,4 ft\n"),
        &[
            "levels.csv:2:6: `BX` is not a kind of sight | use BS (backsight), IS (intermediate sight) or FS (foresight)",
            "levels.csv:3:1: the setup of this reading is missing",
            "levels.csv:4:6: `back` is not a kind of sight",
            "levels.csv:5:3: a name is needed here, this is blank",
        ],
    );
}

#[test]
fn a_point_sighted_once_to_carry_nothing_on_is_an_unknown_mark() {
    assert_told(
        &levels(
            "setup,point,sight,reading\n1,A1,,4 ft\n1,A22,,4 ft\n1,TP1,FS,4 ft\n2,TP1,BS,4 ft\n2,TP2,,4 ft\n3,TP2,,4 ft\n3,Q,,\n",
        ),
        &[
            "levels.csv:3:3: `A22` is not a column of this job | did you mean `A2`?",
            "levels.csv:8:3: `Q` is not a column of this job",
        ],
    );
}

#[test]
fn elevations_of_unknown_points_and_negative_plus_minus_are_told() {
    let text = job_with("elevations = \"e.csv\"\nlevels = \"levels.csv\"\nlevels_units = \"ft\"");
    let text = text + "[[benchmark]]\npoint = \"BM1\"\nelevation = \"100'\"\n";
    let files = [
        ("job.toml", text.as_str()),
        ("levels.csv", "point,sight,reading\nTP,FS,4\n"),
        ("e.csv", "point,elevation,plus_minus\nA1,99.5,-1\nBM2,100,\nTP,98,0\nA2,8-Jan,\n"),
    ];
    assert_told(
        &Job::new(&files).faults(),
        &[
            "e.csv:2:9: `-1`: this cannot be less than 0",
            "e.csv:3:1: `BM2` is no column, no benchmark and no point of the level notes | did you mean `BM1`?",
            "e.csv:5:4: `8-Jan`: this is a date",
        ],
    );
}

#[test]
fn faults_of_a_file_of_columns_are_told() {
    let text = JOB.replace("[job]\n", "[job]\ncolumns = \"c.csv\"\n").replace("walk = \"walk.csv\"\n", "");
    let columns = "mark,base,x,y,seat\nA1,B1,0,0,\nA1,B1,1',1',\nA2,B2,2',,\nA3,,,x,high\nA4,,0,0,\n";
    assert_told(
        &Job::new(&[("job.toml", &text), ("c.csv", columns)]).faults(),
        &[
            "c.csv:3:1: the column `A1` stands here a second time | it stands first at c.csv:2:1",
            "c.csv:4:4: `B2` is not a base of this job | did you mean `B1`?",
            "c.csv:4:10: one of the two coordinates of this column is missing",
            "c.csv:5:5: one of the two coordinates of this column is missing",
            "c.csv:5:6: `x`: this is not a length",
            "c.csv:5:8: `high`: this is not a length",
            "c.csv:6:1: `A4` stands where `A1` stands | check both positions",
        ],
    );
}
