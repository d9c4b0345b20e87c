//! The report: whole, harmless to open, the same every time, and never more certain than `check`.

mod tool;

use tool::clean::{levels_job, walk_job};
use tool::{Job, item, rodreach};

const DEMOS: [&str; 4] = ["tractor-shed", "packing-hall", "grain-dryer", "seed-store"];

fn demo(name: &str) -> String {
    format!("demo-data/{name}")
}

fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The drawings of a page, in their order.
fn drawings(page: &str) -> Vec<String> {
    let found = page.split("<svg ").skip(1).filter_map(|rest| rest.split("</svg>").next());
    found.map(|rest| format!("<svg {rest}</svg>\n")).collect()
}

#[test]
fn the_drawings_of_one_demo_job_stand_as_they_were_looked_at() {
    let page = rodreach(&["report", &demo("seed-store")]).out;
    let all = drawings(&page);
    let of = |words: &str| all.iter().find(|svg| svg.contains(words)).unwrap_or_else(|| panic!("no {words}"));
    insta::assert_snapshot!("plan_of_the_seed_store", of(">Plan view: what goes under each column</title>"));
    insta::assert_snapshot!("profile_of_line_b", of(">Line B (frame): pads before, seats after</title>"));
    insta::assert_snapshot!("section_of_base_g1", of(">Base G1, as the drawing has it</title>"));
}

#[test]
fn the_report_of_a_demo_job_in_words_stands_as_it_was_looked_at() {
    insta::assert_snapshot!(
        "report_seed_store_table",
        rodreach(&["report", &demo("seed-store"), "--format", "table"]).out
    );
}

#[test]
fn a_report_is_html_unless_something_else_is_asked_and_ends_as_check_does() {
    for name in DEMOS {
        let (report, check) = (rodreach(&["report", &demo(name)]), rodreach(&["check", &demo(name)]));
        assert_eq!((report.status, check.status), (1, 1), "{}", report.err);
        assert!(report.out.starts_with("<!DOCTYPE html>"), "{name}");
        assert_eq!(report.out, rodreach(&["report", &demo(name)]).out, "the same bytes again");
    }
    for job in [walk_job(), levels_job()] {
        assert_eq!(job.run("report", &["-o", "a.html"]).status, 0);
        assert_eq!(job.run("report", &["-o", "a.md"]).status, 0);
        assert!(job.read("a.html").starts_with("<!DOCTYPE html>") && job.read("a.md").starts_with("# "));
        assert_eq!(job.read("a.html"), job.run("report", &[]).out);
        assert!(job.run("report", &["--format", "table"]).out.contains("Drawing: Plan view"));
        let csv = job.run("report", &["--format", "csv"]).out;
        assert_eq!(csv, job.run("check", &["--format", "csv"]).out);
        let ran = job.run("report", &["-o", "a.pdf"]);
        assert_eq!((ran.status, job.names().contains(&"a.pdf".to_owned())), (2, false), "{}", ran.err);
    }
}

#[test]
fn its_values_are_those_of_check_and_beside_them_what_it_was_made_of() {
    for name in DEMOS {
        let mut report = rodreach(&["report", &demo(name), "--format", "json"]).json();
        let check = rodreach(&["check", &demo(name), "--format", "json"]).json();
        let made = report.as_object_mut().unwrap().remove("report").expect("there is a report");
        assert_eq!(report, check);
        assert_eq!((&made["program"], &made["command"]), (&"rodreach".into(), &"rodreach report JOB".into()));
        for input in made["inputs"].as_array().unwrap() {
            let path =
                format!("{}/{}/{}", env!("CARGO_MANIFEST_DIR"), demo(name), input["name"].as_str().unwrap());
            assert_eq!(input["bytes"], std::fs::metadata(path).unwrap().len());
            assert_eq!(input["sha256"].as_str().unwrap().len(), 64);
        }
        // a drawing of the plan, of every line, of every base and of every column that may not be set
        let titles: Vec<&str> =
            made["figures"].as_array().unwrap().iter().map(|it| it["title"].as_str().unwrap()).collect();
        assert!(titles[0].starts_with("Plan view"), "{titles:?}");
        for column in check["columns"].as_array().unwrap() {
            let mark = column["mark"].as_str().unwrap();
            let drawn = titles.iter().any(|title| title.starts_with(&format!("Column {mark} on base")));
            assert_eq!(drawn, column["may_set"] == false, "{mark}");
        }
    }
}

#[test]
fn what_it_was_made_of_changes_with_a_byte_and_names_every_option() {
    let job = walk_job();
    let page = |job: &Job, more: &[&str]| job.run("report", more).out;
    let before = page(&job, &[]);
    let text = job.read("walk.csv");
    job.write("walk.csv", format!("{text}\n"));
    let after = page(&job, &[]);
    assert_ne!(before, after, "a blank line more is another file");
    job.write("walk.csv", format!("\u{feff}{text}"));
    let marked = job.run("report", &["--format", "json"]).json();
    let walk = item(&marked["report"]["inputs"], "name", "walk.csv");
    assert_eq!(walk["bytes"], text.len() + 3, "the byte order mark is a part of the file");
    job.write("walk.csv", &text);
    let tried =
        ["--to", "desired", "--guarded", "--hold-at", "A1=1/8", "--without", "3/16", "--limits", "low-rise"];
    let made = job.run("report", &[&tried[..], &["--format", "json"]].concat());
    let made = made.json()["report"]["command"].clone();
    assert_eq!(
        made,
        "rodreach report JOB --limits low-rise --to desired --guarded --hold-at A1=1/8 --without 3/16"
    );
    let page = page(&job, &tried);
    assert!(page.contains("A1 held at 1/8&quot;"), "what was tried is said at the top");
    assert!(!page.contains(job.path("").to_str().unwrap()), "no path of this machine is in it");
}

#[test]
fn the_files_it_carries_make_the_same_report_again() {
    for name in DEMOS {
        let page = rodreach(&["report", &demo(name)]).out;
        let carried: Vec<(String, String)> = page
            .split("<summary>")
            .skip(1)
            .map(|rest| {
                let (title, rest) = rest.split_once(", as it was read").unwrap();
                let text = rest.split_once("<pre>").unwrap().1.split_once("</pre>").unwrap().0;
                (plain(title), plain(text))
            })
            .collect();
        let files: Vec<(&str, &str)> =
            carried.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        assert!(files.len() > 1, "{name}");
        assert_eq!(Job::of(&files).run("report", &[]).out, page, "{name}");
    }
}

/// Turns a text of a page back into what it was.
fn plain(text: &str) -> String {
    let text = text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&#39;", "'");
    text.replace("&amp;", "&")
}

#[test]
fn a_busy_person_finds_the_answer_first_and_the_engineer_the_rest() {
    let page = flat(&rodreach(&["report", &demo("tractor-shed"), "--format", "table"]).out);
    let at = |words: &str| page.find(words).unwrap_or_else(|| panic!("no {words} in\n{page}"));
    assert!(at("6 of 9 columns may be set") < at("MAY BE SET"));
    assert!(at("MAY BE SET") < at("DO NOT SET"));
    assert!(at("DO NOT SET") < at("Drawing: Plan view"));
    for words in [
        "Shims in this plan: 1 x 3/8\" and 1 x 1/8\"",
        "engineer of record, the drawings and local codes decide",
        "1-1/8\" - 0\" - 0.53\" - 0.177\" - 0.758\" - 1/16\" = -0.4025\"",
        "source, published: RCSC Specification",
        "beyond, nominal = stands - raise - plate, washers, nuts = 1-1/8\" - 0\" - 1/2\" - 0.148\" - 47/64\" = -6.537325 mm",
        "29 CFR 1926.752(a)(1)",
        "heights 3:1, drawn 432 times larger than distances",
        "thread on the drawing 4\", not measured",
        "measure rod low; each must stand",
    ] {
        at(words);
    }
}

#[test]
fn every_finding_that_stops_or_asks_is_told_with_its_subject_and_its_source() {
    for name in DEMOS {
        let check = rodreach(&["check", &demo(name), "--format", "json"]).json();
        let page = flat(&rodreach(&["report", &demo(name), "--format", "table"]).out);
        let part = page.split("Findings, with arithmetic and sources").last().unwrap();
        for finding in check["findings"].as_array().unwrap().iter().filter(|it| it["level"] != "note") {
            let text = flat(finding["text"].as_str().unwrap());
            let (subject, said) = text.split_once(": ").unwrap_or(("", &text));
            assert!(part.contains(subject) && part.contains(said), "{text}");
            assert!(
                part.contains(&flat(finding["source"]["text"].as_str().unwrap())),
                "{}",
                finding["source"]
            );
            for line in finding["arithmetic"].as_array().unwrap() {
                assert!(part.contains(&flat(line.as_str().unwrap())), "{line}");
            }
        }
    }
}

/// The pit column is 4 ft lower by design, and its profile is drawn from its own seat.
#[test]
fn a_profile_counts_each_column_from_its_own_design_seat() {
    let report = rodreach(&["report", &demo("tractor-shed"), "--format", "json"]).json();
    let figure = item(&report["report"]["figures"], "title", "Line 2 (frame): pads before, seats after");
    let alt = figure["alt"].as_str().unwrap();
    assert!(alt.contains("P1: pad -1/16\", nothing, seat -1/16\""), "{alt}");
}

#[test]
fn what_is_not_measured_is_a_question_on_every_drawing() {
    let job = walk_job();
    job.replace("walk.csv", "A2,4.53,2-1/2,2-9/16", "A2,,,");
    let page = job.run("report", &[]);
    assert_eq!(page.status, 1, "{}", page.err);
    let all = drawings(&page.out);
    let of = |words: &str| all.iter().find(|svg| svg.contains(words)).unwrap_or_else(|| panic!("no {words}"));
    assert!(of(">Plan view").contains("read the pad</text>"));
    let section = of(">Column A2 on base B1");
    for words in ["raise ?", "stands ?", "beyond ?"] {
        assert!(section.contains(&format!(">{words}</text>")), "no {words} in\n{section}");
    }
    let profile = of(">Line A (wall)");
    assert!(profile.contains(">?</text>"), "{profile}");
}

/// What a name could hold to do harm.
const NASTY: &str = "<script>a(1)</script>\"'&amp;<img src=x onerror=a()>";

fn nasty_job() -> Job {
    let job = walk_job();
    let name = NASTY.replace('"', "\\\"");
    job.replace("job.toml", "Clean (invented)", &name);
    job.replace("job.toml", "name = \"A\"", &format!("name = \"{name}\""));
    job.replace("job.toml", "\"A1\", ", &format!("\"A1{name}\", "));
    let cell = NASTY.replace('"', "\"\"");
    job.replace("walk.csv", "mark,reading,low,high", "mark,reading,low,high,condition,note");
    job.replace(
        "walk.csv",
        "A1,4.52,2-1/2,2-5/8",
        &format!("\"A1{cell}\",4.52,2-1/2,2-5/8,\"{cell}\",\"{cell}\""),
    );
    for row in ["A2,4.53,2-1/2,2-9/16", "A3,4.54,2-9/16,2-5/8"] {
        job.replace("walk.csv", row, &format!("{row},,"));
    }
    job
}

#[test]
fn names_that_hold_markup_are_inert_in_the_page_and_in_its_drawings() {
    let ran = nasty_job().run("report", &[]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    let known = [
        "!DOCTYPE",
        "html",
        "head",
        "meta",
        "title",
        "style",
        "body",
        "main",
        "nav",
        "ol",
        "a",
        "section",
        "h1",
        "h2",
        "h3",
        "p",
        "dl",
        "dt",
        "dd",
        "ul",
        "li",
        "table",
        "thead",
        "tbody",
        "tr",
        "th",
        "td",
        "figure",
        "figcaption",
        "div",
        "svg",
        "desc",
        "path",
        "rect",
        "circle",
        "text",
        "details",
        "summary",
        "pre",
    ];
    let attributes = [
        "lang",
        "charset",
        "name",
        "content",
        "http-equiv",
        "class",
        "scope",
        "id",
        "href",
        "aria-label",
        "aria-labelledby",
        "xmlns",
        "viewBox",
        "width",
        "height",
        "font-family",
        "role",
        "d",
        "x",
        "y",
        "cx",
        "cy",
        "r",
        "fill",
        "stroke",
        "stroke-width",
        "stroke-dasharray",
        "font-size",
        "font-weight",
        "text-anchor",
        "textLength",
        "lengthAdjust",
    ];
    for tag in ran.out.split('<').skip(1) {
        let tag = tag.split('>').next().unwrap();
        let name = tag.trim_start_matches('/').trim_end_matches('/').split(' ').next().unwrap();
        assert!(known.contains(&name), "<{tag}>");
        for attribute in tag.split('"').step_by(2).filter_map(|it| it.trim().strip_suffix('=')) {
            let attribute = attribute.rsplit(' ').next().unwrap();
            assert!(attributes.contains(&attribute), "<{tag}>");
        }
        assert!(!tag.contains("href=") || tag.contains("href=\"#s"), "<{tag}>");
    }
    assert!(ran.out.contains("&lt;script&gt;a(1)&lt;/script&gt;"), "the name is shown");
    assert!(ran.out.contains("default-src 'none'"));
    let style = ran.out.split("</style>").next().unwrap();
    assert!(!style.contains("url(") && !style.contains("@import"));
}

#[test]
fn no_report_is_wider_than_80_columns_on_a_screen() {
    for name in DEMOS {
        let text = rodreach(&["report", &demo(name), "--format", "table"]).out;
        assert!(!text.contains('\u{1b}'));
        for line in text.lines() {
            assert!(line.chars().count() <= 80, "{} columns: {line}", line.chars().count());
        }
    }
}
