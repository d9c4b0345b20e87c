//! The workbook as it leaves the program: what is in its cells, and that a text is never a formula.
#![cfg(feature = "xlsx")]

mod tool;

use calamine::{Data, Reader, Xlsx, open_workbook};
use tool::Job;
use tool::clean::walk_job;

const DEMOS: [&str; 4] = ["tractor-shed", "packing-hall", "grain-dryer", "seed-store"];

fn written(job: &Job, command: &str) -> Xlsx<std::io::BufReader<std::fs::File>> {
    let ran = job.run(command, &["-o", "answer.xlsx"]);
    assert!(ran.status < 2 && ran.out.is_empty(), "{}{}", ran.out, ran.err);
    open_workbook(job.path("answer.xlsx")).unwrap()
}

#[test]
fn a_workbook_has_a_sheet_for_each_thing_and_is_the_same_again() {
    for demo in DEMOS {
        let job = Job::demo(demo);
        let book = written(&job, "check");
        let names = ["Read first", "Columns", "Hardware", "Order", "Rods", "Readings", "Findings"];
        assert_eq!(book.sheet_names(), names);
        let first = std::fs::read(job.path("answer.xlsx")).unwrap();
        written(&job, "check");
        assert!(first == std::fs::read(job.path("answer.xlsx")).unwrap(), "{demo}: not the same bytes");
        assert!(!job.names().iter().any(|name| name.starts_with(".rodreach")), "nothing is left beside it");
    }
}

#[test]
fn the_exit_status_is_that_of_the_answer() {
    let job = walk_job();
    for command in ["check", "hardware", "order"] {
        assert_eq!(job.run(command, &["-o", "a.xlsx"]).status, 0);
        assert_eq!(Job::demo("tractor-shed").run(command, &["-o", "a.xlsx"]).status, 1);
    }
}

#[test]
fn text_that_looks_like_a_formula_stays_text() {
    let job = walk_job();
    let marks = ["=1+1", "+A2", "-A3", "@SUM(A1)", "=HYPERLINK(\"http://x\")"];
    job.replace("job.toml", "columns = [\"A1\", \"A2\", \"A3\"]", "columns = [\"=1+1\", \"+A2\", \"-A3\"]");
    let mut walk = "mark,reading,low,high,condition\n".to_owned();
    for mark in marks {
        walk.push_str(&format!("\"{}\",4.52,2-1/2,2-5/8,=cmd|' /C calc'!A0\n", mark.replace('"', "\"\"")));
    }
    job.write("walk.csv", walk);
    let mut book = written(&job, "check");
    let mut seen = 0;
    for name in book.sheet_names() {
        let formulas = book.worksheet_formula(&name).unwrap();
        assert!(formulas.used_cells().next().is_none(), "{name} has a formula");
        for (_, _, cell) in book.worksheet_range(&name).unwrap().used_cells() {
            if let Data::String(text) = cell {
                seen += usize::from(text.starts_with(['=', '+', '-', '@']));
            }
        }
    }
    assert!(seen >= marks.len() * 3, "{seen}");
    let columns = book.worksheet_range("Columns").unwrap();
    for (row, mark) in (1..).zip(marks) {
        assert_eq!(columns.get_value((row, 0)), Some(&Data::String(mark.to_owned())));
    }
    // a CSV file has no types, so there an apostrophe says that it is a text
    let csv = job.run("check", &["--format", "csv"]).out;
    for mark in &marks[..4] {
        assert!(csv.contains(&format!("\n'{mark},")), "{mark} in\n{csv}");
    }
}

#[test]
fn what_is_not_known_is_a_blank_cell_and_never_0() {
    let job = walk_job();
    job.write("walk.csv", "mark,reading,low,high\nA1,4.52,2-1/2,2-5/8\nA2,,,\nA3,4.54,2-9/16,2-5/8\n");
    let mut book = written(&job, "check");
    let columns = book.worksheet_range("Columns").unwrap();
    let heads: Vec<String> = columns.rows().next().unwrap().iter().map(ToString::to_string).collect();
    let of = |row: u32, head: &str| {
        let at = heads.iter().position(|it| it == head).unwrap();
        columns.get_value((row, u32::try_from(at).unwrap())).cloned().unwrap_or_default()
    };
    for head in ["pad", "pad_in", "pad_nm", "raise", "raise_in", "raise_nm", "seat_nm", "spare_in"] {
        assert_eq!(of(2, head), Data::Empty, "{head}");
        assert_ne!(of(1, head), Data::Empty, "{head}");
    }
    assert_eq!(of(2, "may_set"), Data::String("NO".to_owned()));
    assert_eq!(of(2, "action"), Data::String("unmeasured".to_owned()));
}

#[test]
fn a_job_that_was_tried_says_so_before_anything_else() {
    let job = Job::demo("tractor-shed");
    let ran = job.run("check", &["--hold-at", "A3=1/4", "-o", "answer.xlsx"]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    let mut book: Xlsx<_> = open_workbook(job.path("answer.xlsx")).unwrap();
    let first = book.worksheet_range("Read first").unwrap();
    assert_eq!(first.get_value((2, 0)), Some(&Data::String("Tried: A3 held at 1/4\".".to_owned())));
}

#[test]
fn only_check_and_hardware_write_workbooks_and_no_format_stands_beside() {
    let job = walk_job();
    for (command, more, words) in [
        ("level", vec![], "only check, hardware and order write .xlsx"),
        ("ask", vec![], "only check, hardware and order write .xlsx"),
        ("check", vec!["--format", "csv"], "leave --format away"),
        ("check", vec!["--since", "then.json"], "a workbook does not hold what changed"),
        ("sheet", vec![], "only check, hardware and order write .xlsx"),
    ] {
        let ran = job.run(command, &[vec!["-o", "a.xlsx"], more].concat());
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{command}");
        assert!(ran.err.contains(words), "{}", ran.err);
    }
    for ending in ["xls", "xlsb", "ods", "pdf"] {
        let ran = job.run("check", &["-o", &format!("a.{ending}")]);
        assert!(ran.status == 2 && ran.err.contains("an answer is not written as"), "{}", ran.err);
    }
    assert_eq!(job.names(), ["job.toml", "walk.csv"]);
}
