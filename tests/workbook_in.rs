//! Workbooks in place of CSV files: the same answers, and screens that say what a spreadsheet has made of a reading.
#![cfg(feature = "xlsx")]

mod tool;

use rust_xlsxwriter::{Format, Formula, Workbook};
use serde_json::Value;
use tool::{Job, Ran};

/// Puts every CSV file of a job into one workbook, a sheet each, and names the sheets in the job file.
fn as_workbook(job: &Job, numbers: bool) {
    let mut book = Workbook::new();
    for name in job.names().iter().filter(|name| name.ends_with(".csv")) {
        let stem = name.strip_suffix(".csv").unwrap();
        let sheet = book.add_worksheet().set_name(stem).unwrap();
        let mut reader =
            csv::ReaderBuilder::new().has_headers(false).flexible(true).from_path(job.path(name)).unwrap();
        for (row, record) in (0..).zip(reader.records()) {
            for (column, cell) in (0..).zip(record.unwrap().iter()) {
                let number =
                    serde_json::from_str::<Value>(cell).ok().and_then(|it| it.as_f64()).filter(|_| numbers);
                match number {
                    Some(number) => sheet.write_number(row, column, number).unwrap(),
                    None => sheet.write_string(row, column, cell).unwrap(),
                };
            }
        }
        job.replace("job.toml", &format!("\"{name}\""), &format!("\"book.xlsx#{stem}\""));
        std::fs::remove_file(job.path(name)).unwrap();
    }
    job.write("book.xlsx", book.save_to_buffer().unwrap());
}

/// Takes out of an answer where in the files something stands.
fn without_places(value: &mut Value) {
    match value {
        Value::Object(keys) => {
            for key in ["file", "line", "cell", "files"] {
                if key != "line" || keys.contains_key("file") {
                    keys.remove(key);
                }
            }
            keys.remove("line");
            keys.values_mut().for_each(without_places);
        }
        Value::Array(items) => items.iter_mut().for_each(without_places),
        _ => {}
    }
}

fn answer(ran: &Ran) -> Value {
    let mut value = ran.json();
    without_places(&mut value);
    value
}

#[test]
fn every_demo_job_gives_the_same_answers_from_a_workbook() {
    for demo in ["tractor-shed", "packing-hall", "grain-dryer", "seed-store"] {
        for numbers in [false, true] {
            let csv = Job::demo(demo);
            let book = Job::demo(demo);
            as_workbook(&book, numbers);
            assert!(book.names().iter().all(|name| !name.ends_with(".csv")));
            for command in ["check", "level", "ask", "hardware"] {
                let [one, other] = [&csv, &book].map(|job| job.run(command, &["--format", "json"]));
                assert_eq!(other.status, one.status, "{demo} {command}: {}", other.err);
                assert_eq!(answer(&other), answer(&one), "{demo} {command}");
            }
        }
    }
}

#[test]
fn an_answer_says_the_cell_where_a_reading_stands() {
    let job = Job::demo("tractor-shed");
    as_workbook(&job, false);
    let ask = job.run("ask", &["--format", "json", "--column", "A4"]).json();
    let reading = &ask["pages"][0]["readings"][0];
    assert_eq!(
        (&reading["file"], &reading["line"], &reading["cell"]),
        (&"book.xlsx#walk".into(), &5.into(), &"walk!B5".into())
    );
    assert!(job.run("ask", &["--column", "A4"]).out.contains("walk!B5"));
}

/// A walk of two columns with cells that a spreadsheet has changed.
fn trapped() -> Job {
    let job = tool::clean::walk_job();
    let mut book = Workbook::new();
    let sheet = book.add_worksheet().set_name("Walk of 8 May").unwrap();
    for (column, head) in (0..).zip(["mark", "reading", "low", "high", "note"]) {
        sheet.write_string(0, column, head).unwrap();
    }
    for (row, mark) in (1..).zip(["A1", "A2", "A3", "A4"]) {
        sheet.write_string(row, 0, mark).unwrap();
        sheet.write_number(row, 1, 4.52).unwrap();
        sheet.write_string(row, 2, "2-1/2").unwrap();
        sheet.write_string(row, 3, "2-5/8").unwrap();
    }
    let date = Format::new().set_num_format("d-mmm");
    sheet.write_number_with_format(1, 2, 46_030, &date).unwrap();
    sheet.write_formula(2, 1, Formula::new("=B2+0.01")).unwrap();
    sheet.write_number(3, 1, 4.529_999_999_999_999).unwrap();
    sheet.write_boolean(3, 4, true).unwrap();
    sheet.write_string(3, 3, "2-5/8x").unwrap();
    sheet.write_number_with_format(4, 1, 0.0452, &Format::new().set_num_format("0.00%")).unwrap();
    job.write("book.xlsx", book.save_to_buffer().unwrap());
    job
}

#[test]
fn what_a_spreadsheet_has_made_of_a_reading_is_told_on_one_screen() {
    let job = trapped();
    job.replace("job.toml", "\"walk.csv\"", "\"book.xlsx\"");
    let before = job.names();
    let ran = job.run("check", &["-o", "answer.xlsx"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert_eq!(job.names(), before, "nothing is written");
    insta::assert_snapshot!("workbook_in_traps", ran.err);
}

#[test]
fn a_workbook_that_cannot_be_used_is_told_on_the_screen() {
    let job = tool::clean::walk_job();
    job.write("book.xlsx", &b"PK\x03\x04 and no more"[..]);
    job.replace("job.toml", "\"walk.csv\"", "\"book.xlsx#rods\"");
    let damaged = job.run("check", &[]).err;
    let job = trapped();
    let no_sheet = job.run("check", &["--walk", "book.xlsx#Walk of 9 May"]).err;
    let old = job.run("check", &["--walk", "book.xls"]).err;
    insta::assert_snapshot!("workbook_in_refused", [damaged, no_sheet, old].join("\n"));
}
