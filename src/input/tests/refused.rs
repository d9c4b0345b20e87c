//! What is known by name and not built yet is refused, never ignored.

use super::{JOB, Job, assert_told, changed, same};

#[test]
fn spreadsheets_that_are_not_read_are_refused_by_their_ending() {
    for name in ["walk.xlsb", "WALK.XLS", "walk.ods"] {
        let found = changed(|job| job.replace("walk.csv", name), same);
        let wanted = format!("job.toml:7:8: `{name}` is a spreadsheet of a kind that is not read");
        assert_told(&found, &[&wanted]);
    }
    let text = JOB
        .replace("[job]\n", "[job]\ncolumns = \"c.ods\"\n")
        .replace("walk = \"walk.csv\"", "levels = \"l.xlsb\"\nrods = \"r.xls\"\nelevations = \"e.ods\"");
    let found = Job::new(&[("job.toml", &text)]).faults();
    assert_eq!(found.len(), 4, "{found:?}");
    assert!(found.iter().all(|line| line.contains("is a spreadsheet")), "{found:?}");
}
