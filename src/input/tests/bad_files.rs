//! Files that cannot be read, are no CSV, or stand outside the job's folder.

use super::{JOB, Job, WALK, assert_told, changed, same, told};
use crate::input::{Override, load};
use crate::source::render;
use crate::text::quoted;
use std::fs;
use std::path::Path;

/// Gives the faults of `JOB` with another walk.
fn walk(text: &str) -> Vec<String> {
    changed(same, |_| text.to_owned())
}

#[test]
fn a_missing_job_is_told_by_its_path() {
    let job = Job::new(&[]);
    let at = |path: &Path| told(&load(path, &Override::default()).unwrap_err()).join("\n");
    let wanted =
        format!("the job file {} was not found", quoted(&job.path().join("job.toml").display().to_string()));
    assert!(at(job.path()).starts_with(&wanted), "{}", at(job.path()));
    assert!(at(Path::new("no/such/job.toml")).starts_with("the job file `no/such/job.toml` was not found"));
    assert!(at(Path::new("")).starts_with("the job file `` was not found"));
    assert!(at(Path::new("/dev/null")).starts_with("the job file `/dev/null` is not an ordinary file"));
}

#[test]
fn a_missing_file_and_a_folder_in_place_of_a_file_are_told_at_the_key() {
    let job = Job::new(&[("job.toml", JOB)]);
    assert_told(
        &job.faults(),
        &["job.toml:7:8: `walk.csv` was not found | correct the name, or put the file there"],
    );
    fs::create_dir(job.path().join("walk.csv")).unwrap();
    assert_told(
        &job.faults(),
        &["job.toml:7:8: `walk.csv` is a folder, a file is needed here | name the file itself"],
    );
}

#[test]
fn a_folder_in_place_of_the_job_file_is_told() {
    let job = Job::new(&[]);
    fs::create_dir(job.path().join("job.toml")).unwrap();
    let found = job.faults();
    assert!(found[0].contains("is a folder, a file is needed here"), "{found:?}");
}

#[test]
fn a_path_outside_the_folder_is_told_at_the_key() {
    let outside = Job::new(&[("walk.csv", WALK)]);
    let absolute = outside.path().join("walk.csv").display().to_string();
    let written = [
        "../walk.csv",
        absolute.as_str(),
        "a/../../walk.csv",
        "./../walk.csv",
        "/etc/passwd",
        "sub/../walk.csv",
    ];
    for path in written {
        let found = changed(|job| job.replace("walk.csv", path), same);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(
            found[0].starts_with("job.toml:7:8: `") && found[0].contains("is not in the job's folder"),
            "{found:?}"
        );
    }
    let found = changed(|job| job.replace("\"low-rise\"", "\"../low-rise.toml\""), same);
    assert_told(&found, &["job.toml:4:10: `../low-rise.toml` is not in the job's folder"]);
}

#[cfg(unix)]
#[test]
fn a_link_out_of_the_folder_is_refused_and_a_link_inside_is_followed() {
    use std::os::unix::fs::symlink;
    let outside = Job::new(&[("walk.csv", WALK)]);
    let job = Job::new(&[("job.toml", JOB)]);
    symlink(outside.path().join("walk.csv"), job.path().join("walk.csv")).unwrap();
    assert_told(&job.faults(), &["job.toml:7:8: `walk.csv` is not in the job's folder"]);

    let job = Job::new(&[("job.toml", &JOB.replace("walk.csv", "link/walk.csv"))]);
    symlink(outside.path(), job.path().join("link")).unwrap();
    assert_told(&job.faults(), &["job.toml:7:8: `link/walk.csv` is not in the job's folder"]);

    let job = Job::new(&[("job.toml", JOB), ("other.csv", WALK)]);
    symlink("other.csv", job.path().join("walk.csv")).unwrap();
    assert!(job.load().is_ok());
}

#[cfg(unix)]
#[test]
fn a_socket_in_place_of_a_file_is_not_opened() {
    let job = Job::new(&[("job.toml", JOB)]);
    let _socket = std::os::unix::net::UnixListener::bind(job.path().join("walk.csv")).unwrap();
    assert_told(&job.faults(), &["job.toml:7:8: `walk.csv` is not an ordinary file"]);
}

#[test]
fn a_file_larger_than_64_mib_is_not_read() {
    let job = Job::new(&[("job.toml", JOB)]);
    let file = fs::File::create(job.path().join("walk.csv")).unwrap();
    file.set_len(64 * 1024 * 1024 + 1).unwrap();
    assert_told(
        &job.faults(),
        &["job.toml:7:8: `walk.csv` is larger than 64 MiB | check that this is the right file"],
    );
}

#[test]
fn bytes_that_are_not_utf_8_are_told_where_the_first_stands() {
    let job = Job::new(&[("job.toml", JOB)]);
    fs::write(job.path().join("walk.csv"), b"mark,reading,low,high\nA\xe9,54 in,2,\nB\xe9,,,\n").unwrap();
    assert_told(
        &job.faults(),
        &["walk.csv:2:2: this file is not UTF-8: the byte here is 0xE9 | save it as CSV UTF-8"],
    );
    let refused = job.load().unwrap_err();
    assert!(render(&refused.problems, &refused.files).contains("A\u{fffd},54 in"));

    // with a byte order mark the column does not shift
    fs::write(job.path().join("walk.csv"), b"\xef\xbb\xbfm\xff,").unwrap();
    assert_told(&job.faults(), &["walk.csv:1:2: this file is not UTF-8: the byte here is 0xFF"]);

    fs::write(job.path().join("job.toml"), b"[job]\nname = \"\xe9\"\n").unwrap();
    assert_told(
        &job.faults(),
        &["job.toml:2:9: this file is not UTF-8: the byte here is 0xE9 | save it as UTF-8"],
    );
}

#[test]
fn an_empty_file_has_no_header_row() {
    let fix = "write the names of the columns into its first row: mark,reading,low,high,";
    for empty in ["", "\u{feff}", "\n\r\n"] {
        assert_told(
            &walk(empty),
            &[&format!("walk.csv:1:1: this file is empty: it has no header row | {fix}")],
        );
    }
    assert_told(&walk(" , ,\n"), &[&format!("walk.csv:1:1: this file has no header row | {fix}")]);
    let found = changed(|_| String::new(), same);
    assert_told(&found, &["job.toml:1:1: `job` is missing in the job file"]);
}

#[test]
fn a_header_without_rows_is_told() {
    assert_told(&walk("mark,reading,low,high\n"), &["walk.csv:1:22: this file has a header row and no rows"]);
}

#[test]
fn columns_that_are_missing_unknown_or_double_are_told_with_the_nearest_name() {
    assert_told(
        &walk("mark,reading,low\nA1,,\n"),
        &["walk.csv:1:1: the column `high` is missing | add a column named high"],
    );
    // the misspelt column is read on as what it stands for, so that the row's fault is told too
    assert_told(
        &walk("mark,reading,low,heigh\nA1,,,-1\n"),
        &[
            "walk.csv:1:18: `heigh` is not a column of this file | did you mean `high`?",
            "walk.csv:2:6: `-1`: a rod cannot stand out less than 0",
        ],
    );
    assert_told(
        &walk("mark,reading,low,high,colour\nA1,,,,red\n"),
        &[
            "walk.csv:1:23: `colour` is not a column of this file | its columns are mark, reading, low, high, base, thread, condition, note",
        ],
    );
    assert_told(
        &walk("mark,reading,low,high, LOW \nA1,,,,\n"),
        &["walk.csv:1:24: `low` is a column of this file already | take one of the two columns out"],
    );
    assert_told(
        &walk("mark,reading,low,high,\nA1,,,,\nA2,,,,x\n"),
        &["walk.csv:3:7: `x` stands in a column without a name"],
    );
}

#[test]
fn other_separators_are_told() {
    assert_told(
        &walk("mark;reading;low;high\nA1;4,52;;\n"),
        &["walk.csv:1:1: the columns of this file are separated by semicolons | save it as CSV with commas"],
    );
    assert_told(
        &walk("mark\treading\tlow\thigh\n"),
        &["walk.csv:1:1: the columns of this file are separated by tabs"],
    );
}

#[test]
fn rows_with_too_many_or_too_few_cells_are_told_and_blank_rows_are_not() {
    assert_told(
        &walk("mark,reading,low,high\nA1,4,52,2,\n\nA2,54-1/2\n,,,\n , \nA3,,,\n"),
        &[
            "walk.csv:2:11: this row has 5 cells, the header has 4 | write decimals with a point",
            "walk.csv:4:1: this row has 2 cells, the header has 4 | write a comma for every cell",
        ],
    );
}

#[test]
fn an_unclosed_quote_is_told_where_it_opens_and_loses_no_other_row() {
    assert_told(
        &walk("mark,reading,low,high\nA1,\"54-1/4,2,\nA2,54-1/4,-2,\nA3,\"54\",2,\nA4,\"4'-6 1/4\"\",2,\n"),
        &[
            "walk.csv:2:4: this quote is not closed on its line | close it",
            "walk.csv:3:11: `-2`: a rod cannot stand out",
            // a bare number needs its unit, in quotes too
            "walk.csv:4:4: `54`: this number has no unit",
            "walk.csv:5:4: this quote is not closed on its line",
        ],
    );
    assert_told(
        &walk("mark,reading,low,high\nA1,\"54\"-1/4,2,\n"),
        &[
            "walk.csv:2:4: text stands behind the closing quote of this cell | put quotes around the whole cell",
        ],
    );
    assert_told(
        &walk("\"mark,reading,low,high\nA1,,,\n"),
        &["walk.csv:1:1: this quote is not closed on its line"],
    );
}

#[test]
fn carets_point_at_the_cell_behind_quotes_blanks_and_letters_of_two_bytes() {
    let text = "mark,reading,low,high,condition,note\r\n\r\nA1,  \"4'-6 1/4\" ,-1,,é,\r\n\"A,2\",\"4'-6 1/4\"\"\", -2 ,,ok,\r\n";
    let found = walk(text);
    // a quote behind blanks is text, and no length starts with one
    assert_told(
        &found,
        &[
            "walk.csv:3:6: `\"4'-6 1/4\"`: this is not a length",
            "walk.csv:3:18: `-1`: a rod",
            "walk.csv:4:21: `-2`: a rod",
        ],
    );
    let rendered = {
        let refused = Job::new(&[("job.toml", JOB), ("walk.csv", text)]).load().unwrap_err();
        render(&refused.problems, &refused.files)
    };
    assert!(rendered.contains("--> walk.csv:4:21"), "{rendered}");
}

#[test]
fn a_line_of_10_mb_is_no_trouble() {
    let long = "x".repeat(10_000_000);
    let commas = ",".repeat(10_000_000);
    assert_told(
        &walk(&format!("mark,reading,low,high\n{long},,,\nA1,4 ft,,-1\n")),
        &[
            "walk.csv:2:1: `xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx…` is longer than 60 characters",
            "walk.csv:3:10: `-1`: a rod cannot stand out",
        ],
    );
    assert_told(
        &walk(&format!("mark,reading,low,high\nA1{commas}\n")),
        &["walk.csv:2:7: this row has 10000001 cells, the header has 4"],
    );
    assert_told(
        &walk(&format!("mark,reading,low,high\nA1,\"{long}\n")),
        &["walk.csv:2:4: this quote is not closed"],
    );
}

#[test]
fn a_long_line_is_no_trouble_wherever_it_stands() {
    let long = "x".repeat(1_000_000);
    let digits = "1".repeat(1_000_000);
    assert_told(
        &walk(&format!("mark,reading,low,high\nA1,{digits},,-1\n")),
        &[
            "walk.csv:2:4: `1111111111111111111111111111111111111111…`: this number has more digits",
            "walk.csv:2:1000006: `-1`: a rod cannot stand out",
        ],
    );
    let header = walk(&format!("{long},mark,reading,low,high\n,A1,,,\n"));
    assert_told(&header, &["walk.csv:1:1: `xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx…` is not a column"]);
    assert_told(&walk(&",".repeat(1_000_000)), &["walk.csv:1:1: this file has no header row"]);
    let names = walk(&"a,".repeat(500_000));
    assert_eq!(names[0], "walk.csv: after 200 faults the rest of its header row was not read");
    assert_eq!(names.len(), 201);
    let found = changed(|job| format!("{job}{long} = 1\n"), same);
    assert_told(
        &found,
        &["job.toml:15:1: `xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx…` is not a key of [[base]]"],
    );
    let found = changed(|job| job.replace("1/2", &digits), same);
    assert_told(
        &found,
        &["job.toml:11:23: `1111111111111111111111111111111111111111…`: this number has more digits"],
    );
}

#[test]
fn a_file_of_nothing_but_faults_is_told_up_to_a_number() {
    let rows = "A1,,,\n".repeat(50_000);
    let found = walk(&format!("mark,reading,low,high\n{rows}"));
    assert_eq!(found[0], "walk.csv: after 200 faults the rest of this file was not read");
    assert_eq!(
        found[1],
        "walk.csv:3:1: the column `A1` stands here a second time | it stands first at walk.csv:2:1"
    );
    assert_eq!(found.len(), 201);
    let keys: String = (0..300).map(|key| format!("k{key} = 1\n")).collect();
    let found = changed(|job| format!("{job}{keys}"), same);
    assert_eq!(found.len(), 251);
    assert_eq!(found[250], "50 more faults of job.toml are not shown");
}
