//! What is known by name and not built yet is refused, never ignored.

use super::{JOB, Job, WALK, assert_told, changed, same};

#[test]
fn every_key_that_is_not_built_is_refused_by_name() {
    let cases = [
        ("bed = \"1\"\n", "job.toml:15:7: `bed` cannot be used yet: designed beds are not built"),
        (
            "[limits.pad]\ntop = [\"-1\", \"1\"]\n",
            "job.toml:16:1: `top` cannot be used yet: concrete from its design is not built",
        ),
    ];
    for (text, wanted) in cases {
        assert_told(&changed(|job| format!("{job}{text}"), same), &[wanted]);
    }
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
