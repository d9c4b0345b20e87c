//! Pages for the engineer: whole, in every format, for every column that must be asked about, and harmless to open.

mod small_plan;
mod tool;

use proptest::prelude::*;
use serde_json::Value;
use small_plan::any::{Flavour, any_case};
use small_plan::job::{arguments, job, shown};
use std::collections::BTreeSet;
use tool::clean::{levels_job, walk_job};
use tool::{Job, item, rodreach};

const DEMOS: [&str; 4] = ["tractor-shed", "packing-hall", "grain-dryer", "seed-store"];

/// Marks of the pages, in their order.
fn pages(answer: &Value) -> Vec<String> {
    answer["pages"].as_array().unwrap().iter().map(|page| page["mark"].as_str().unwrap().to_owned()).collect()
}

/// Tells whether a finding of `check` asks or stops about the whole job.
fn is_of_the_job(check: &Value, finding: &Value) -> bool {
    let (named, all) =
        (finding["columns"].as_array().unwrap().len(), check["columns"].as_array().unwrap().len());
    let every = all > 1 && named == all && finding["line"].is_null() && finding["rod"].is_null();
    finding["level"] != "note" && (named == 0 || every)
}

/// Marks that `check` holds, refers, has no pad of, or names in a finding that asks or stops, in job order; what is
/// asked about the whole job left out.
fn to_be_asked(check: &Value) -> Vec<String> {
    let mut named = BTreeSet::new();
    for finding in check["findings"].as_array().unwrap() {
        if finding["level"] != "note" && !is_of_the_job(check, finding) {
            named.extend(finding["columns"].as_array().unwrap().iter().map(|mark| mark.as_str().unwrap()));
        }
    }
    let columns = check["columns"].as_array().unwrap().iter();
    let open = columns
        .filter(|column| column["may_set"] != true || named.contains(column["mark"].as_str().unwrap()));
    open.map(|column| column["mark"].as_str().unwrap().to_owned()).collect()
}

fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_page_of_the_demo_jobs_stands_as_it_was_looked_at() {
    for demo in DEMOS {
        for format in ["table", "md", "html", "json", "csv"] {
            let ran = rodreach(&["ask", &format!("demo-data/{demo}"), "--format", format]);
            assert_eq!(ran.status, 1, "{}", ran.err);
            insta::assert_snapshot!(format!("{}_{format}", demo.replace('-', "_")), ran.out);
        }
    }
}

#[test]
fn the_pages_are_those_of_the_columns_that_check_holds_or_asks_about() {
    for demo in DEMOS {
        let path = format!("demo-data/{demo}");
        let check = rodreach(&["check", &path, "--format", "json"]).json();
        let ask = rodreach(&["ask", &path, "--format", "json"]).json();
        assert_eq!(pages(&ask), to_be_asked(&check));
        assert!(!pages(&ask).is_empty());
        for page in ask["pages"].as_array().unwrap() {
            let mark = page["mark"].as_str().unwrap();
            assert_eq!(
                &page["column"],
                item(&check["columns"], "mark", mark),
                "the figures are those of check"
            );
        }
    }
}

#[test]
fn a_clean_job_asks_nothing_and_says_so() {
    for job in [walk_job(), levels_job()] {
        for format in ["table", "md", "html"] {
            let ran = job.run("ask", &["--format", format]);
            assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
            assert!(ran.out.contains("Nothing has to be asked"), "{}", ran.out);
        }
        let ran = job.run("ask", &["--format", "json"]);
        assert_eq!((ran.status, ran.json()["pages"].as_array().unwrap().len()), (0, 0));
    }
}

#[test]
fn readings_that_disagree_are_asked_about_on_a_page_of_the_whole_job_whatever_column_is_wanted() {
    let job = levels_job();
    let more = "2,C1,BS,1.1330\n2,C2,IS,1.1340\n2,D1,IS,1.1420\n2,D2,IS,1.1350\n";
    job.write("levels.csv", job.read("levels.csv") + more);
    for more in [&[][..], &["--column", "C1"]] {
        let ran = job.run("ask", more);
        assert_eq!(ran.status, 1, "{}", ran.err);
        assert!(ran.out.contains("The whole job") && ran.out.contains("level-notes-disagree"), "{}", ran.out);
    }
    let answer = job.run("ask", &["--format", "json"]).json();
    assert_eq!(item(&answer["whole_job"]["findings"], "rule", "level-notes-disagree")["level"], "ask");
}

#[test]
fn one_column_can_be_asked_about_alone_and_the_others_are_not_forgotten() {
    let shed = "demo-data/tractor-shed";
    let ran = rodreach(&["ask", shed, "--column", "B2", "--column", "A4"]);
    assert_eq!(ran.status, 1);
    let text = flat(&ran.out);
    assert!(text.contains("Column A4 on base") && text.contains("Column B2 on base"), "{text}");
    assert!(!text.contains("Column B4 on base") && text.contains("1 column more to ask about"), "{text}");
    let answer = rodreach(&["ask", shed, "--column", "B2", "--format", "json"]).json();
    assert_eq!(
        (pages(&answer), &answer["left_out"]),
        (vec!["B2".to_owned()], &serde_json::json!(["A4", "B4"]))
    );
    let ran = rodreach(&["ask", shed, "--column", "A1"]);
    assert_eq!(ran.status, 0);
    assert!(flat(&ran.out).contains("nothing asks about A1. 3 columns more to ask about"), "{}", ran.out);
    let ran = rodreach(&["ask", shed, "--column", "A44"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("did you mean A4?"), "{}", ran.err);
}

#[test]
fn a_page_says_what_a_signer_must_know() {
    let text = flat(&rodreach(&["ask", "demo-data/tractor-shed"]).out);
    for words in [
        "engineer of record, the drawings and local codes decide",
        "29 CFR 1926.755(b)",
        "29 CFR 1926.752(a)(1) and (b)",
        "29 CFR 1926.755(a)(4)",
        "29 CFR 1926.758",
        "29 CFR 1926.1153",
        "75 percent",
        "loads not given",
        "by an invented crew, date 2026-05-04, instrument optical level",
        "walk.csv line 5",
        "raise of 0\" to +3/16\" from its pad",
        "rod low stands ~7/16\" less",
        "nothing is set on it",
    ] {
        assert!(text.contains(words), "no {words} in\n{text}");
    }
    // the question can be answered, and nothing unknown is told as known
    let answer = rodreach(&["ask", "demo-data/tractor-shed", "--format", "json"]).json();
    for page in answer["pages"].as_array().unwrap() {
        let question = page["question"].as_str().unwrap();
        assert!(question.ends_with('?') && question.contains(page["mark"].as_str().unwrap()), "{question}");
        assert_eq!(page["drawing"]["loads"], Value::Null);
        assert_eq!(page["answer"]["decision"], Value::Null);
    }
    let rods = &item(&answer["pages"], "mark", "B4")["rods_measured"];
    assert_eq!(item(rods, "rod", "low")["projection_nm"], Value::Null);
}

#[test]
fn a_pad_that_was_not_read_has_a_page_that_does_not_pass_it() {
    let job = walk_job();
    job.replace("walk.csv", "A2,4.53,", "A2,,");
    let ran = job.run("ask", &[]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    let text = flat(&ran.out);
    assert!(text.contains("The pad of A2 has no elevation yet"), "{text}");
    assert!(text.contains("where its seat must come cannot be told"), "{text}");
    let answer = job.run("ask", &["--format", "json"]).json();
    let range = &item(&answer["pages"], "mark", "A2")["range"];
    assert_eq!((&range["seat_range_nm"], &range["planned_seat_nm"]), (&Value::Null, &Value::Null));
}

/// What a name could hold to do harm.
const NASTY: &str = "<script>alert(1)</script>|`x`*b*_i_[a](f://b)&amp;~~s~~\\'";

fn nasty_job() -> Job {
    let name = NASTY.replace('\\', "\\\\");
    let toml = format!(
        r#"
[job]
name = "{name}"
units = "in"
limits = "low-rise"

[measure]
walk = "walk.csv"
levels_units = "ft"
by = "{name}"
instrument = "{name}"

[[base]]
mark = "{name}"
plate = {{ size = ["10", "14"], thickness = "1/2", holes = "15/16" }}
rods = {{ diameter = "3/4", count = 4, projection = "2-1/2", thread = "4" }}
washers = ["wide"]
nuts = ["heavy-hex"]

[[line]]
name = "{name}"
kind = "wall"
columns = ["A1{name}", "A2", "A3"]
spacing = "20'"

[shims]
catalog = "plate"
"#
    );
    let quoted = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
    let (mark, note) = (quoted(&format!("A1{NASTY}")), quoted(&format!("{NASTY}\"")));
    let walk = format!(
        "mark,reading,low,high,condition,note\n{mark},4.52,2-1/2,2-5/8,{note},{note}\nA2,,2-1/2,,{note},# {NASTY}\nA3,4.9,1,1,,1. a\n"
    );
    Job::of(&[("job.toml", &toml), ("walk.csv", &walk)])
}

#[test]
fn names_that_hold_markup_are_inert_in_html() {
    let ran = nasty_job().run("ask", &["--format", "html"]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    let text = &ran.out;
    assert!(text.contains("&lt;script&gt;alert(1)&lt;/script&gt;"), "the name is shown");
    let known = [
        "!DOCTYPE", "html", "head", "meta", "title", "style", "body", "main", "article", "section", "div",
        "span", "h1", "h2", "h3", "p", "dl", "dt", "dd", "ul", "li", "table", "thead", "tbody", "tr", "th",
        "td",
    ];
    let attributes = ["lang", "charset", "name", "content", "http-equiv", "class", "scope"];
    for tag in text.split('<').skip(1) {
        let tag = tag.split('>').next().unwrap();
        let name = tag.trim_start_matches('/').split(' ').next().unwrap();
        assert!(known.contains(&name), "<{tag}>");
        for attribute in tag.split('"').step_by(2).filter_map(|it| it.trim().strip_suffix('=')) {
            let attribute = attribute.rsplit(' ').next().unwrap();
            assert!(attributes.contains(&attribute), "<{tag}>");
        }
    }
    // one file, nothing fetched, nothing run
    let head_and_style = text.split("</head>").next().unwrap();
    assert!(!head_and_style.contains("url(") && !head_and_style.contains("@import"), "{head_and_style}");
    assert!(text.contains("default-src 'none'"));
    assert_eq!(
        text.matches("<script").count() + text.matches("<img").count() + text.matches("<link").count(),
        0
    );
}

/// Counts the pipes of a row that part its cells.
fn pipes(row: &str) -> usize {
    let mut escaped = false;
    let mut found = 0;
    for c in row.chars() {
        found += usize::from(c == '|' && !escaped);
        escaped = c == '\\' && !escaped;
    }
    found
}

#[test]
fn names_that_hold_markup_are_inert_in_markdown() {
    let job = nasty_job();
    let mark = format!("A1{NASTY}");
    for args in [vec!["ask"], vec!["check"], vec!["hardware"], vec!["level"], vec!["explain", &mark]] {
        let mut more = args[1..].to_vec();
        more.extend(["--format", "md"]);
        let ran = job.run(args[0], &more);
        assert!(ran.status < 2, "{}", ran.err);
        assert!(!ran.out.contains(['<', '>']), "{}", ran.out);
        assert!(!ran.out.contains("://"), "{}", ran.out);
        let mut width = None;
        for line in ran.out.lines() {
            let mut escaped = false;
            // ours are **name**, | cells |, [ ] and nothing else
            let ours = line.replace("**", "").replace("- [ ] ", "");
            for c in ours.chars() {
                assert!(escaped || !['`', '*', '_', '[', ']', '~', '$'].contains(&c), "{c} in {line}");
                escaped = c == '\\' && !escaped;
            }
            let count = pipes(line);
            if count > 0 {
                assert!(line.starts_with('|') && line.ends_with('|'), "{line}");
                assert_eq!(count, *width.get_or_insert(count), "{line}");
            } else {
                width = None;
            }
        }
    }
}

#[test]
fn no_page_is_wider_than_80_columns_or_carries_colour_into_a_pipe() {
    let mut all: Vec<String> =
        DEMOS.iter().map(|demo| rodreach(&["ask", &format!("demo-data/{demo}")]).out).collect();
    all.push(rodreach(&["ask", "demo-data/packing-hall", "--aim", "level"]).out);
    all.push(rodreach(&["ask", "demo-data/tractor-shed", "--hold-at", "A3=1/4", "--without", "1/8"]).out);
    all.push(rodreach(&["ask", "--help"]).out);
    all.push(nasty_job().run("ask", &[]).out);
    for text in all {
        assert!(!text.contains('\u{1b}'), "{text}");
        for line in text.lines() {
            assert!(line.chars().count() <= 80, "{} columns: {line}", line.chars().count());
        }
    }
}

#[test]
fn what_was_tried_is_said_on_every_page() {
    let tried = ["ask", "demo-data/tractor-shed", "--hold-at", "A3=1/4"];
    let text = flat(&rodreach(&tried).out);
    let pages = text.matches("Column ").count();
    assert!(pages > 1 && text.matches("A3 held at 1/4\"").count() == pages + 1, "{text}");
}

#[test]
fn every_command_with_a_document_writes_markdown_and_only_ask_writes_html() {
    let shed = "demo-data/tractor-shed";
    for args in [
        vec!["check", shed],
        vec!["level", shed],
        vec!["level", shed, "--book"],
        vec!["explain", shed, "A4"],
        vec!["hardware", shed],
        vec!["rules"],
        vec!["catalog"],
    ] {
        let with = |format: &'static str| rodreach(&[&args[..], &["--format", format]].concat());
        let md = with("md");
        assert!(md.status < 2 && md.out.starts_with("# "), "{args:?}\n{}{}", md.out, md.err);
        assert!(md.out.contains("\n| --- ") || args[0] == "rules", "{args:?} has a table\n{}", md.out);
        let html = with("html");
        assert_eq!((html.status, html.out.as_str()), (2, ""), "{args:?}");
        assert!(html.err.contains("only ask, report and sheet write html"), "{}", html.err);
    }
    let job = walk_job();
    assert_eq!(job.run("check", &["-o", "answer.html"]).status, 2);
    assert_eq!(job.run("check", &["-o", "answer.md"]).status, 0);
    assert_eq!(job.run("ask", &["-o", "answer.html"]).status, 0);
    assert!(
        job.read("answer.md").starts_with("# ") && job.read("answer.html").starts_with("<!DOCTYPE html>")
    );
    assert_eq!(job.names(), ["answer.html", "answer.md", "job.toml", "walk.csv"]);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn every_column_that_is_held_or_referred_in_a_random_small_job_has_a_page(
        case in prop_oneof![
            any_case(Flavour::Refers, 2..=6), any_case(Flavour::Beds, 2..=6), any_case(Flavour::Grinding, 2..=6), any_case(Flavour::Designs, 2..=6)
        ]
    ) {
        let with = |command: &str| job(&case).run(command, &arguments(&case));
        let (check, ask) = (with("check"), with("ask"));
        prop_assert!(check.status < 2 && ask.status < 2, "{}{}\n{}", check.err, ask.err, shown(&case));
        prop_assert_eq!(check.status, ask.status, "{}", shown(&case));
        let (check, ask) = (check.json(), ask.json());
        prop_assert_eq!(pages(&ask), to_be_asked(&check), "{}", shown(&case));
        let whole_job = check["findings"].as_array().unwrap().iter().any(|it| is_of_the_job(&check, it));
        prop_assert_eq!(ask["whole_job"].is_object(), whole_job, "{}", shown(&case));
        for page in ask["pages"].as_array().unwrap() {
            let range = &page["range"];
            if page["column"]["action"] == "refer" {
                prop_assert_eq!(&range["seat_range_nm"], &page["column"]["seat_range_nm"]);
                prop_assert_eq!(&range["planned_raise_nm"], &Value::Null);
            } else {
                prop_assert_eq!(&range["needs"][0]["projection_nm"], &page["column"]["needs_projection_nm"]);
            }
        }
    }
}
