//! The same notes in feet, inches, metres and millimetres give identical answers; readings that agree do not
//! flip a verdict at its limit.

mod tool;

use serde_json::Value;
use tool::clean::{WALK_JOB, levels_job, walk_job};
use tool::{Job, item};

fn written(nm: i64, unit: &str) -> String {
    let unit_nm: i64 = match unit {
        "ft" => 304_800_000,
        "in" => 25_400_000,
        "m" => 1_000_000_000,
        _ => 1_000_000,
    };
    // 12 decimals are exact for what is written here
    let scaled = i128::from(nm) * 1_000_000_000_000 / i128::from(unit_nm);
    assert_eq!(scaled * i128::from(unit_nm), i128::from(nm) * 1_000_000_000_000, "{nm} in {unit}");
    format!("{}.{:012}", scaled / 1_000_000_000_000, scaled % 1_000_000_000_000)
}

/// Readings that are exact in all four units: whole hundredths of a foot, in nanometres.
const READINGS: [(&str, i64); 4] =
    [("A1", 452 * 3_048_000), ("A2", 453 * 3_048_000), ("A3", 455 * 3_048_000), ("A1", 452 * 3_048_000)];

fn notes(unit: &str) -> String {
    let rows = READINGS.iter().map(|(point, nm)| format!("1,{point},IS,{}\n", written(*nm, unit)));
    format!("setup,point,sight,reading\n{}", rows.collect::<String>())
}

fn job_with_notes(levels_units: &str) -> Job {
    let rods = "column,rod,projection\nA1,,2-1/2\nA2,,2-1/2\nA3,,2-1/2\n";
    let toml = WALK_JOB
        .replace("walk = \"walk.csv\"", "levels = \"levels.csv\"\nrods = \"rods.csv\"")
        .replace("levels_units = \"ft\"", levels_units)
        .replace(
            "[[line]]",
            "[[column]]\nmark = \"A1\"\n[[column]]\nmark = \"A2\"\n[[column]]\nmark = \"A3\"\n[[line]]",
        );
    Job::of(&[("job.toml", &toml), ("rods.csv", rods)])
}

#[test]
fn the_same_notes_in_four_units_give_the_same_bytes() {
    for command in ["check", "level", "hardware"] {
        let answers: Vec<String> = ["ft", "in", "m", "mm"]
            .iter()
            .map(|unit| {
                let job = job_with_notes(&format!("levels_units = \"{unit}\""));
                job.write("levels.csv", notes(unit));
                let ran = job.run(command, &["--format", "json"]);
                assert!(ran.status < 2, "{unit}: {}", ran.err);
                ran.out
            })
            .collect();
        assert!(answers.iter().all(|answer| *answer == answers[0]), "{command}");
        assert!(answers[0].len() > 200, "an answer is there");
    }
}

#[test]
fn the_unit_may_stand_behind_each_number_instead() {
    let stated = job_with_notes("levels_units = \"mm\"");
    stated.write("levels.csv", notes("mm"));
    let behind = job_with_notes("");
    let rows = READINGS.iter().map(|(point, nm)| format!("1,{point},IS,{} m\n", written(*nm, "m")));
    behind.write("levels.csv", format!("setup,point,sight,reading\n{}", rows.collect::<String>()));
    let json = ["--format", "json"];
    assert_eq!(stated.run("check", &json).out, behind.run("check", &json).out);
}

#[test]
fn a_sense_turned_round_with_its_readings_gives_the_same_answer() {
    let rod = job_with_notes("levels_units = \"m\"");
    rod.write("levels.csv", notes("m"));
    let height = job_with_notes("levels_units = \"m\"\nsense = \"height\"");
    let rows = READINGS.iter().map(|(point, nm)| {
        let turned = 10_000_000_000 - nm;
        format!("1,{point},IS,{}\n", written(turned, "m"))
    });
    height.write("levels.csv", format!("setup,point,sight,reading\n{}", rows.collect::<String>()));
    let json = ["--format", "json"];
    assert_eq!(rod.run("check", &json).out, height.run("check", &json).out);
}

/// Common practice: on a level rod 4'-6 1/4" against 4'-6 5/8" is a pad 3/8" higher.
#[test]
fn a_lower_rod_reading_is_a_higher_pad() {
    let job = walk_job();
    job.write("walk.csv", "mark,reading,low,high\nA1,4'-6 1/4\",3,3\nA2,4'-6 5/8\",3,3\nA3,4'-6 5/8\",3,3\n");
    let answer = job.run("check", &["--format", "json"]).json();
    let pad = |mark: &str| item(&answer["columns"], "mark", mark)["pad_nm"].as_i64().unwrap();
    assert_eq!(pad("A1") - pad("A2"), 9_525_000);
}

fn difference(answer: &Value, a: &str, b: &str) -> (i64, i64) {
    let all = answer["differences"].as_array().unwrap();
    let it = all
        .iter()
        .find(|it| it["kind"] == "neighbours" && it["columns"] == serde_json::json!([a, b]))
        .unwrap();
    (it["value_nm"].as_i64().unwrap(), it["limit_nm"].as_i64().unwrap())
}

/// C1 and C2 stand exactly 5 mm apart, the limit, and both are read from a second setup too: its readings agree,
/// or differ by nanometres that cancel. No shim may be added, and no verdict may change.
#[test]
fn two_redundant_readings_do_not_flip_a_difference_that_stands_at_its_limit() {
    let first = "1,BM1,BS,1.4320\n1,D1,IS,1.2320\n1,D2,IS,1.2320\n1,C1,IS,1.2320\n1,C2,IS,1.2370\n";
    for second in [
        "",
        "2,D1,BS,1.1320\n2,C1,IS,1.1320\n2,C2,IS,1.1370\n",
        "2,D1,BS,1.132000001\n2,C1,IS,1.132000001\n2,C2,IS,1.137000001\n",
        "2,D1,BS,0.777777777\n2,D2,IS,0.777777777\n2,C1,IS,0.777777777\n2,C2,IS,0.782777777\n",
        "2,C1,BS,1.132000003\n2,C2,IS,1.137000003\n2,D1,IS,1.132000001\n2,D2,IS,1.132000005\n",
        "2,C2,BS,1.1370\n2,C1,IS,1.1320\n3,C1,BS,1.5\n3,C2,IS,1.505\n",
    ] {
        let job = levels_job();
        job.write("levels.csv", format!("setup,point,sight,reading\n{first}{second}"));
        // nothing but leaving the pads as they are, so that the difference stands
        job.replace("job.toml", "catalog = \"plate-mm\"", "thicknesses = [\"20\"]");
        let ran = job.run("check", &["--format", "json"]);
        assert!(ran.status < 2, "{}", ran.err);
        let answer = ran.json();
        assert_eq!(difference(&answer, "C1", "C2"), (-5_000_000, 5_000_000), "{second}");
        let out = answer["findings"]
            .as_array()
            .unwrap()
            .iter()
            .any(|it| it["rule"] == "neighbours-out" && it["level"] == "ask");
        assert!(!out, "at its limit a difference is kept: {second}");
    }
    // one nanometre more is out
    let job = levels_job();
    job.write("levels.csv", format!("setup,point,sight,reading\n{}", first.replace("1.2370", "1.237000001")));
    job.replace("job.toml", "catalog = \"plate-mm\"", "thicknesses = [\"20\"]");
    let answer = job.run("check", &["--format", "json"]).json();
    let c2 = item(&answer["columns"], "mark", "C2");
    assert_eq!(c2["action"], "refer", "nothing brings it back into the band");
}
