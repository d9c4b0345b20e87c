//! What is known by name and not built yet is refused, never ignored.

use super::{JOB, Job, WALK, assert_told, changed, same};

#[test]
fn every_key_that_is_not_built_is_refused_by_name() {
    let cases = [
        ("bed = \"1\"\n", "job.toml:15:7: `bed` cannot be used yet: designed beds are not built"),
        ("[limits.pad]\ntilt = \"1/16\"\n", "job.toml:15:9: `pad` cannot be used yet"),
    ];
    for (text, wanted) in cases {
        assert_told(&changed(|job| format!("{job}{text}"), same), &[wanted]);
    }
    let found = changed(|job| job.replace("[measure]\n", "[measure]\ndifferences = \"diff.csv\"\n"), same);
    assert_told(
        &found,
        &[
            "job.toml:7:1: `differences` cannot be used yet: measured differences are not built | take the key out",
        ],
    );
}

#[test]
fn a_bed_of_nothing_is_good() {
    let job = format!("{JOB}bed = 0\n");
    assert!(Job::new(&[("job.toml", &job), ("walk.csv", WALK)]).load().is_ok());
}

#[test]
fn spreadsheets_are_refused_by_their_ending() {
    for name in ["walk.xlsx", "WALK.XLS", "walk.ods", "walk.xlsm"] {
        let found = changed(|job| job.replace("walk.csv", name), same);
        let wanted = format!(
            "job.toml:7:8: `{name}` is a spreadsheet, and spreadsheets cannot be read yet | save the sheet as CSV UTF-8"
        );
        assert_told(&found, &[&wanted]);
    }
    let text = JOB
        .replace("[job]\n", "[job]\ncolumns = \"c.ods\"\n")
        .replace("walk = \"walk.csv\"", "levels = \"l.xlsx\"\nrods = \"r.xls\"\nelevations = \"e.ods\"");
    let found = Job::new(&[("job.toml", &text)]).faults();
    assert_eq!(found.len(), 4, "{found:?}");
    assert!(found.iter().all(|line| line.contains("is a spreadsheet")), "{found:?}");
}

#[test]
fn distances_and_spots_are_refused_a_few_by_one_and_the_others_by_number() {
    let text = JOB.replace("walk = \"walk.csv\"", "levels = \"levels.csv\"") + "[[column]]\nmark = \"A1\"\n";
    let levels = "point,reading,distance,spot\nA1,54 in,,rod 2\nA1,54 in,60',pad\nA1,54 in,,NE corner\n";
    let found = Job::new(&[("job.toml", &text), ("levels.csv", levels)]).faults();
    assert_told(
        &found,
        &[
            "levels.csv:2:11: the spot `rod 2` cannot be used yet: only the pad itself is read",
            "levels.csv:3:10: `distance` cannot be used yet: sight lengths are not built | take the column out, or leave its cells blank",
            "levels.csv:4:11: the spot `NE corner` cannot be used yet",
        ],
    );
    let rows = "A1,54 in,60',\n".repeat(9);
    let levels = format!("point,reading,distance,spot\n{rows}");
    let found = Job::new(&[("job.toml", &text), ("levels.csv", &levels)]).faults();
    assert_eq!(found.len(), 6, "{found:?}");
    assert_eq!(found[5], "levels.csv:7:10: from here on 4 more cells of this file with a distance");
}
