//! What is known by name and not built yet is refused, never ignored.

use super::{JOB, Job, assert_told, changed, same};

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
