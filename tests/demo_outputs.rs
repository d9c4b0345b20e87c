//! Every output of the demo jobs as it was looked at, one file a job, command and format in `snapshots/demo`.
//!
//! Pages for the engineer stand beside `ask.rs`; workbooks are read back by `workbook_against_openpyxl.py`.

mod tool;

use tool::{Job, rodreach};

const DEMOS: [&str; 4] = ["tractor-shed", "packing-hall", "grain-dryer", "seed-store"];
const MEASURED: [&str; 3] = ["hay-barn", "machine-shed", "wash-bay"];

/// Holds a text against the file of its name.
fn holds(name: &str, text: &str) {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path("snapshots/demo");
    settings.set_prepend_module_to_snapshot(false);
    settings.bind(|| insta::assert_snapshot!(name, text));
}

/// Sees that no line is wider than a screen.
fn fits(screen: &str) {
    let wide = screen.lines().find(|line| line.chars().count() > 80);
    assert!(wide.is_none(), "wider than 80 columns: {wide:?}");
}

/// Holds a command's answer about every demo job in every one of the formats.
fn every(command: &[&str], formats: &[&str]) {
    for demo in DEMOS {
        every_format(&format!("demo-data/{demo}"), demo, command, formats);
    }
}

fn every_format(path: &str, demo: &str, command: &[&str], formats: &[&str]) {
    let words: Vec<&str> = command.iter().map(|word| word.trim_start_matches('-')).collect();
    for format in formats {
        let mut args = vec![command[0], path];
        args.extend(&command[1..]);
        args.extend(["--format", format]);
        let ran = rodreach(&args);
        assert!(ran.status < 2, "{args:?}: {}", ran.err);
        if *format == "table" {
            fits(&ran.out);
        }
        holds(&format!("{demo}-{}.{format}", words.join("-")), &ran.out);
    }
}

#[test]
fn check_stands_as_it_was_looked_at() {
    every(&["check"], &["table", "json", "csv", "md"]);
}

#[test]
fn level_and_its_book_stand_as_they_were_looked_at() {
    every(&["level"], &["table", "json", "csv", "md"]);
    every(&["level", "--book"], &["table", "json", "csv", "md"]);
}

#[test]
fn explain_stands_as_it_was_looked_at_for_every_column() {
    for demo in DEMOS {
        let path = format!("demo-data/{demo}");
        let answer = rodreach(&["check", &path, "--format", "json"]).json();
        let columns = answer["columns"].as_array().unwrap();
        let marks: Vec<&str> = columns.iter().map(|column| column["mark"].as_str().unwrap()).collect();
        let texts: Vec<String> = marks.iter().map(|mark| rodreach(&["explain", &path, mark]).out).collect();
        let texts = texts.join("\n");
        fits(&texts);
        holds(&format!("{demo}-explain.table"), &texts);
    }
}

#[test]
fn hardware_stands_as_it_was_looked_at() {
    every(&["hardware"], &["table", "json", "csv", "md"]);
}

#[test]
fn order_stands_as_it_was_looked_at() {
    every(&["order"], &["table", "json", "csv", "md"]);
}

#[test]
fn what_is_cut_stands_as_it_was_looked_at() {
    for demo in DEMOS {
        let job = Job::demo(demo);
        let ran = job.run("order", &["--cut", "-o", "cut"]);
        assert!(ran.status < 2, "{demo}: {}", ran.err);
        let mut out = ran.out;
        let mut names: Vec<String> = std::fs::read_dir(job.path("cut")).map_or_else(
            |_| Vec::new(),
            |files| files.map(|it| it.unwrap().file_name().into_string().unwrap()).collect(),
        );
        names.sort();
        for name in names {
            out.push_str(&format!("\n==== {name}\n{}", job.read(&format!("cut/{name}")).replace('\r', "")));
        }
        holds(&format!("{demo}-order-cut"), &out);
    }
}

#[test]
fn the_report_stands_as_it_was_looked_at() {
    // its JSON and CSV are those of `check`, see report.rs
    every(&["report"], &["html", "md"]);
}

#[test]
fn the_field_sheet_stands_as_it_was_looked_at() {
    every(&["sheet"], &["table", "html", "md", "json"]);
    every(&["sheet", "--for", "levels"], &["csv"]);
    every(&["sheet", "--for", "rods"], &["csv"]);
    every(&["sheet", "--for", "walk"], &["csv"]);
}

#[test]
fn what_to_specify_stands_as_it_was_looked_at() {
    every(&["detail"], &["table", "json", "csv", "md"]);
    for demo in MEASURED {
        every_format(
            &format!("demo-data/measured/{demo}"),
            demo,
            &["detail"],
            &["table", "json", "csv", "md"],
        );
        every_format(&format!("demo-data/measured/{demo}"), demo, &["check"], &["table", "json"]);
    }
}
