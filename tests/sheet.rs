//! The field sheet: walked once, blank, and read back exactly as it was filled in.

mod tool;

use proptest::collection::{btree_set, vec};
use proptest::option;
use proptest::prelude::*;
use rodreach::input::{Override, load, load_blank};
use rodreach::model::{Condition, Job as Model, RodLabel};
use rodreach::output::csv_to_fill_in;
use rodreach::report::{SheetFor, sheet_answer};
use std::collections::BTreeSet;
use tool::clean::{levels_job, walk_job};
use tool::{Job, rodreach};

const DEMOS: [&str; 4] = ["tractor-shed", "packing-hall", "grain-dryer", "seed-store"];

/// A job without any measurement, and what is measured of it.
#[derive(Clone, Debug)]
struct Case {
    metric: bool,
    short: bool,
    marks: Vec<String>,
    /// Which of the two bases each column stands on.
    bases: Vec<bool>,
    positions: Option<Vec<(i64, i64)>>,
    benchmarks: usize,
    setups: usize,
    values: Vec<Option<i64>>,
    words: Vec<String>,
}

/// Marks with what CSV, TOML and spreadsheets take for their own.
fn marks() -> impl Strategy<Value = BTreeSet<String>> {
    btree_set("[A-C=+@,;'\"#é-][A-C1-9 =+@,;'\"#|/.-]{0,5}[A-C1-9,'\"=-]", 1..9)
}

prop_compose! {
    fn cases()(marks in marks())(
        metric in any::<bool>(),
        short in any::<bool>(),
        bases in vec(any::<bool>(), marks.len()),
        positions in option::of(Just(()).prop_flat_map({
            let many = marks.len();
            move |()| btree_set((0..4_i64, 0..4_i64), many).prop_map(|it| it.into_iter().collect::<Vec<_>>()).prop_shuffle()
        })),
        benchmarks in 0..3_usize,
        setups in 1..=marks.len(),
        values in vec(option::weighted(0.85, 1..3_000_000_000_i64), 96),
        words in vec(prop_oneof![3 => Just(String::new()), 1 => Just("ok".to_owned()), 1 => "[a-c,\"'= ]{0,4}[a-c]"], 96),
        marks in Just(marks.into_iter().collect::<Vec<_>>()).prop_shuffle(),
    ) -> Case {
        Case { metric, short, marks, bases, positions, benchmarks, setups, values, words }
    }
}

/// Writes a length to the nanometre.
fn millimetres(nm: i64) -> String {
    format!("{}.{:06} mm", nm / 1_000_000, nm % 1_000_000)
}

fn csv_text(rows: &[Vec<String>]) -> String {
    let mut writer = csv::Writer::from_writer(Vec::new());
    rows.iter().for_each(|row| writer.write_record(row).unwrap());
    String::from_utf8(writer.into_inner().unwrap()).unwrap()
}

/// Writes the job without the files of its measurements.
fn job(case: &Case) -> Job {
    let (units, rods, nuts, washers) = match case.metric {
        true => ("mm", "M24", "iso-4032", "iso-7089"),
        false => ("in", "3/4", "heavy-hex", "wide"),
    };
    let files = match case.short {
        true => "walk = \"walk.csv\"",
        false => "levels = \"levels.csv\"\nrods = \"rods.csv\"",
    };
    let mut toml = format!(
        "[job]\nname = \"Blank\"\nunits = \"{units}\"\nlimits = \"low-rise\"\ncolumns = \"columns.csv\"\n[measure]\n{files}\n"
    );
    for (mark, count) in [("B1", 4), ("B2", 2)] {
        toml.push_str(&format!(
            "[[base]]\nmark = \"{mark}\"\nplate = {{ thickness = \"12 mm\" }}\n\
             rods = {{ diameter = \"{rods}\", count = {count} }}\nnuts = [\"{nuts}\"]\nwashers = [\"{washers}\"]\n"
        ));
    }
    for number in 0..case.benchmarks {
        toml.push_str(&format!("[[benchmark]]\npoint = \"BM{number}\"\nelevation = \"100 m\"\n"));
    }
    let mut rows = vec![["mark", "base", "x", "y"].map(str::to_owned).to_vec()];
    for (at, mark) in case.marks.iter().enumerate() {
        let base = if case.bases[at] { "B1" } else { "B2" };
        let place = case.positions.as_ref().map(|it| it[at]);
        let [x, y] =
            place.map_or([String::new(), String::new()], |(x, y)| [x, y].map(|it| format!("{} m", it * 6)));
        rows.push(vec![mark.clone(), base.to_owned(), x, y]);
    }
    Job::of(&[("job.toml", &toml), ("columns.csv", &csv_text(&rows))])
}

/// The blank sheet as a person gets it.
fn blank(job: &Job, what: SheetFor, setups: usize) -> String {
    let blank =
        load_blank(&job.path("")).map_err(|it| rodreach::source::render(&it.problems, &it.files)).unwrap();
    csv_to_fill_in(&sheet_answer(&blank.loaded.job, what, setups, &[]))
}

/// Fills columns of a sheet in, row after row, and gives what was written beside all other cells.
fn fill(case: &Case, text: &str, lengths: &[&str], words: &[&str]) -> (String, Vec<Vec<String>>) {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
    let mut rows: Vec<Vec<String>> =
        reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
    let heads = rows[0].clone();
    let (mut values, mut said) = (case.values.iter().cycle(), case.words.iter().cycle());
    for row in &mut rows[1..] {
        for (head, cell) in heads.iter().zip(row) {
            if lengths.contains(&head.as_str()) {
                assert!(cell.is_empty(), "{head} is blank");
                *cell = values.next().unwrap().map(millimetres).unwrap_or_default();
            } else if words.contains(&head.as_str()) {
                assert!(cell.is_empty(), "{head} is blank");
                cell.clone_from(said.next().unwrap());
            }
        }
    }
    (csv_text(&rows), rows)
}

fn read_back(job: &Job) -> Model {
    load(&job.path(""), &Override::default())
        .map_err(|it| rodreach::source::render(&it.problems, &it.files))
        .unwrap()
        .job
}

fn written(length: Option<rodreach::length::Length>) -> String {
    length.map(|it| millimetres(it.nm())).unwrap_or_default()
}

fn condition(condition: &Condition) -> String {
    match condition {
        Condition::Sound => String::new(),
        Condition::Noted(text) => text.clone(),
    }
}

/// What a condition is read as: `ok` and blanks say nothing.
fn as_read(word: &str) -> String {
    let word = word.trim();
    if word == "ok" { String::new() } else { word.to_owned() }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn level_notes_and_rods_are_read_back_exactly_as_they_were_filled_in(case in cases()) {
        let case = Case { short: false, ..case };
        let job = job(&case);
        let (levels, level_rows) = fill(&case, &blank(&job, SheetFor::Levels, case.setups), &["reading"], &[]);
        let (rods, rod_rows) =
            fill(&case, &blank(&job, SheetFor::Rods, case.setups), &["projection", "thread"], &["condition"]);
        job.write("levels.csv", levels);
        job.write("rods.csv", rods);
        let read = read_back(&job);
        let readings = &read.readings;
        let sights: Vec<Vec<String>> = readings.sights.iter().map(|sight| vec![
            readings.setups[sight.setup].name.clone(),
            readings.points[sight.point].clone(),
            sight.kind.short().to_owned(),
            written(Some(sight.reading)),
        ]).collect();
        let wanted: Vec<Vec<String>> =
            level_rows[1..].iter().filter(|row| !row[3].is_empty()).map(|row| row[..4].to_vec()).collect();
        prop_assert_eq!(sights, wanted);
        let mut found = Vec::new();
        for row in &rod_rows[1..] {
            let column = read.columns.iter().find(|column| column.mark == row[0]).unwrap();
            let label = RodLabel::Number(row[1].parse().unwrap());
            let rod = column.rods.iter().find(|rod| rod.label == label).unwrap();
            found.push((written(rod.projection), written(rod.thread), condition(&rod.condition)));
        }
        let wanted: Vec<_> =
            rod_rows[1..].iter().map(|row| (row[2].clone(), row[3].clone(), as_read(&row[4]))).collect();
        prop_assert_eq!(found.len(), read.columns.iter().map(|it| it.rods.len()).sum::<usize>(), "every rod once");
        prop_assert_eq!(found, wanted);
    }

    #[test]
    fn a_walk_is_read_back_exactly_as_it_was_filled_in(case in cases()) {
        let case = Case { short: true, ..case };
        let job = job(&case);
        let lengths = ["reading", "low", "high", "thread"];
        let (walk, rows) = fill(&case, &blank(&job, SheetFor::Walk, 1), &lengths, &["condition", "note"]);
        job.write("walk.csv", walk);
        let read = read_back(&job);
        prop_assert_eq!(rows.len() - 1, read.columns.len());
        let heads = &rows[0];
        for row in &rows[1..] {
            let cell = |head: &str| row[heads.iter().position(|it| it == head).unwrap()].clone();
            let column = read.columns.iter().find(|column| column.mark == cell("mark")).unwrap();
            prop_assert_eq!(&read.base_of(column).mark, &cell("base"));
            let sight = read.readings.sights.iter().find(|sight| Some(sight.point) == column.point);
            prop_assert_eq!(written(sight.map(|it| it.reading)), cell("reading"));
            prop_assert_eq!(column.note.clone().unwrap_or_default(), cell("note").trim().to_owned());
            let rod = |wanted: RodLabel| column.rods.iter().find(|rod| rod.label == wanted);
            let of = |label: RodLabel| written(rod(label).and_then(|rod| rod.projection));
            prop_assert_eq!([of(RodLabel::Low), of(RodLabel::High)], [cell("low"), cell("high")]);
            for rod in &column.rods {
                prop_assert_eq!(written(rod.thread), cell("thread"));
                prop_assert_eq!(condition(&rod.condition), as_read(&cell("condition")));
            }
        }
    }

    #[test]
    fn every_pad_is_walked_once_and_every_setup_ends_where_it_began(case in cases()) {
        let job = job(&case);
        let blank = load_blank(&job.path("")).unwrap();
        let value = sheet_answer(&blank.loaded.job, SheetFor::All, case.setups, &[]).value;
        let mut walked: Vec<&str> =
            value["columns"].as_array().unwrap().iter().map(|it| it["mark"].as_str().unwrap()).collect();
        let setups = value["setups"].as_array().unwrap();
        prop_assert_eq!(setups.len(), case.setups);
        let mut read = Vec::new();
        for (at, setup) in setups.iter().enumerate() {
            let sights = setup["sights"].as_array().unwrap();
            let (first, last) = (&sights[0], &sights[sights.len() - 1]);
            prop_assert_eq!(&last["point"], &first["point"]);
            prop_assert_eq!(sights.iter().filter(|it| it["check"] == true).count(), 1);
            prop_assert_eq!(&last["check"], true);
            // what is carried over from the setup before is no new pad
            let skip = usize::from(at > 0 || case.benchmarks > 0);
            let pads = sights[skip..sights.len() - 1].iter().map(|it| it["point"].as_str().unwrap());
            read.extend(pads.filter(|it| !it.starts_with("BM")));
            if at > 0 {
                let before = setups[at - 1]["sights"].as_array().unwrap();
                let carried = before.iter().rev().find(|it| it["sight"] == "FS").unwrap();
                prop_assert_eq!((&carried["point"], &first["sight"]), (&first["point"], &"BS".into()));
            }
        }
        prop_assert_eq!(&read, &walked, "the setups share the walk, in its order");
        walked.sort_unstable();
        let mut marks: Vec<&str> = case.marks.iter().map(String::as_str).collect();
        marks.sort_unstable();
        prop_assert_eq!(walked, marks);
    }
}

/// The marks of a sheet in walking order.
fn walked(job: &Job) -> Vec<String> {
    let value = job.run("sheet", &["--format", "json"]).json();
    value["columns"].as_array().unwrap().iter().map(|it| it["mark"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn the_walk_goes_along_the_lines_there_and_back_and_turns_to_the_nearer_end() {
    assert_eq!(walked(&Job::demo("tractor-shed")), ["A1", "A2", "A3", "A4", "B4", "B3", "B2", "B1", "P1"]);
    assert_eq!(walked(&Job::demo("seed-store")), ["A1", "A2", "A3", "B3", "B2", "B1"]);
    // line B is listed from its far end: the walk takes it as it comes
    let job = Job::demo("seed-store");
    job.replace("job.toml", "[\"B1\", \"B2\", \"B3\"]", "[\"B3\", \"B2\", \"B1\"]");
    assert_eq!(walked(&job), ["A1", "A2", "A3", "B3", "B2", "B1"]);
    // without positions it is there and back as the lines are written
    job.write("columns.csv", "mark,base\nA1,G1\nA2,G1\nA3,G1\nB1,G1\nB2,G1\nB3,G1\n");
    assert_eq!(walked(&job), ["A1", "A2", "A3", "B1", "B2", "B3"]);
}

#[test]
fn a_sheet_filled_in_with_the_readings_of_a_demo_job_gives_the_same_plan() {
    let job = Job::demo("seed-store");
    let planned = |job: &Job| {
        let answer = job.run("check", &["--format", "json"]).json();
        (answer["columns"].clone(), answer["totals"].clone())
    };
    let wanted = planned(&job);
    let (levels, rods) = (job.read("levels.csv"), job.read("rods.csv"));
    for file in ["levels.csv", "rods.csv"] {
        std::fs::remove_file(job.path(file)).unwrap();
    }
    let ran = job.run("sheet", &["--for", "levels", "-o", "levels.csv"]);
    assert_eq!((ran.status, ran.out.as_str()), (0, ""), "{}", ran.err);
    let mut filled = String::new();
    for line in job.read("levels.csv").lines() {
        let cells: Vec<&str> = line.split(',').collect();
        let reading = levels.lines().find(|it| it.split(',').next() == Some(cells[1]));
        match reading.and_then(|it| it.split(',').nth(2)) {
            // the demo has no check shot: it stays blank
            Some(reading) if !filled.contains(&format!(",{},", cells[1])) => {
                filled.push_str(&format!("{},{},{},{reading},,\n", cells[0], cells[1], cells[2]));
            }
            _ => filled.push_str(&format!("{line}\n")),
        }
    }
    job.write("levels.csv", filled);
    job.write("rods.csv", rods);
    assert_eq!(planned(&job), wanted);
}

#[test]
fn a_job_without_any_measurement_has_its_sheet_in_every_format() {
    for demo in DEMOS {
        let job = Job::demo(demo);
        for file in ["levels.csv", "rods.csv"].into_iter().filter(|file| job.path(file).exists()) {
            std::fs::remove_file(job.path(file)).unwrap();
        }
        for format in ["table", "md", "html", "json"] {
            let ran = job.run("sheet", &["--format", format]);
            assert_eq!(ran.status, 0, "{demo}, {format}: {}", ran.err);
            assert!(ran.out.contains("(invented)"), "{demo}, {format}");
        }
        let screen = job.run("sheet", &[]).out;
        assert!(screen.lines().all(|line| line.chars().count() <= 80), "{screen}");
        let words = screen.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(words.contains("engineer of record, the drawings and local codes decide"), "{screen}");
        for what in ["levels", "rods", "walk"] {
            assert_eq!(job.run("sheet", &["--for", what, "--format", "csv"]).status, 0, "{demo}, {what}");
        }
    }
    // the walk itself may be missing where the columns stand elsewhere
    let job = Job::demo("tractor-shed");
    std::fs::remove_file(job.path("walk.csv")).unwrap();
    assert!(job.run("sheet", &[]).out.contains("CHECK SHOT"));
    // and where the marks stand in the walk alone it is read for them, filled in or not
    assert_eq!(walked(&walk_job()), ["A1", "A2", "A3"]);
    let folder = Job::of(&[]);
    for units in ["in", "mm"] {
        let run = |args: &[&str]| tool::rodreach_in(folder.path("").as_path(), args);
        assert_eq!(run(&["new", units, "--units", units]).status, 0);
        let blank = run(&["sheet", units, "--format", "csv"]);
        assert_eq!(
            blank.out,
            "mark,reading,low,high,thread,condition,note\nA1,,,,,,\nA2,,,,,,\nA3,,,,,,\nA4,,,,,,\n"
        );
    }
    let missing = walk_job();
    std::fs::remove_file(missing.path("walk.csv")).unwrap();
    let ran = missing.run("sheet", &[]);
    assert!(ran.status == 2 && ran.err.contains("walk.csv"), "{}", ran.err);
}

#[test]
fn a_page_has_a_box_for_every_figure_and_no_name_of_a_job_can_form_markup() {
    let job = levels_job();
    job.replace("job.toml", "Clean, metric (invented)", "<script>alert(1)</script>");
    job.replace("columns.csv", "C1,P1", "<b>C1</b>,P1");
    let page = job.run("sheet", &["--format", "html"]).out;
    assert!(
        !page.contains("<script") && !page.contains("<b>") && page.contains("&lt;b&gt;C1&lt;/b&gt;"),
        "{page}"
    );
    // the name of the format of a drawing is no address that is fetched
    let rest = page.replace(" xmlns=\"http://www.w3.org/2000/svg\"", "");
    assert!(rest.contains("default-src 'none'") && !rest.contains("http://") && !rest.contains("https://"));
    // 8 for who and when; BM1 twice; 4 pads; 16 rods with projection, thread and condition
    assert_eq!(page.matches("<td class=\"box\"></td>").count(), 8 + 2 + 4 + 16 * 3);
    let walk = walk_job().run("sheet", &["--format", "html"]).out;
    // 3 columns with reading, low, high, thread and condition; the check shot with reading and note
    assert_eq!(walk.matches("<td class=\"box\"></td>").count(), 8 + 3 * 5 + 2);
    // pages without boxes carry no style for them
    assert!(!rodreach(&["ask", "demo-data/tractor-shed", "--format", "html"]).out.contains("table.boxes"));
}

#[test]
fn a_mark_that_a_spreadsheet_takes_for_a_formula_is_left_as_it_is() {
    let job = levels_job();
    job.replace("columns.csv", "C1,P1", "=C1,P1");
    let csv = job.run("sheet", &["--for", "rods", "--format", "csv"]).out;
    assert!(csv.contains("\n=C1,1,,,\n"), "{csv}");
}

#[test]
fn the_setups_that_a_job_describes_are_those_of_its_sheet() {
    let value = rodreach(&["sheet", "demo-data/grain-dryer", "--format", "json"]).json();
    let names: Vec<&str> =
        value["setups"].as_array().unwrap().iter().map(|it| it["name"].as_str().unwrap()).collect();
    assert_eq!(names, ["1", "2", "3"]);
    let more = rodreach(&["sheet", "demo-data/grain-dryer", "--setups", "4", "--format", "json"]).json();
    assert_eq!(more["setups"][3]["name"], "4");
}

#[test]
fn what_cannot_be_made_is_refused_and_nothing_that_is_filled_in_is_ever_replaced() {
    let job = levels_job();
    for (args, said) in [
        (
            &["--format", "csv"][..],
            "pads and rods are two CSV files: write one with --for levels and one with --for rods",
        ),
        (&["--setups", "0"], "--setups 0: 4 columns cannot be shared among so many setups; use 1 to 4"),
        (&["--setups", "5"], "use 1 to 4"),
        (
            &["--for", "rods", "-o", "rods.csv"],
            "rods.csv is there already and may hold readings; nothing was written",
        ),
        (&["--format", "table", "-o", "rods.csv"], "may hold readings; nothing was written"),
        (&["-o", "sheet.xlsx"], "only check, hardware and order write .xlsx"),
    ] {
        let rods = job.read("rods.csv");
        let ran = job.run("sheet", args);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{args:?}");
        assert!(ran.err.contains(said), "{}", ran.err);
        assert_eq!(job.read("rods.csv"), rods);
    }
    let ran = rodreach(&["sheet", "demo-data/grain-dryer", "--setups", "2"]);
    assert!(ran.status == 2 && ran.err.contains("the job describes 3 setups"), "{}", ran.err);
    let none = levels_job();
    none.replace("job.toml", "columns = \"columns.csv\"", "");
    let ran = none.run("sheet", &[]);
    assert!(ran.status == 2 && ran.err.contains("the job has no columns to walk"), "{}", ran.err);
    // faults of the job file are told as everywhere
    job.replace("job.toml", "units = \"mm\"", "units = \"yards\"");
    let ran = job.run("sheet", &[]);
    assert!(ran.status == 2 && ran.err.contains("job.toml:4"), "{}", ran.err);
}

/// The texts that are drawn on a page.
fn drawn(page: &str) -> Vec<String> {
    let texts = page.split("<text ").skip(1).filter_map(|rest| rest.split("</text>").next());
    texts.filter_map(|rest| rest.split('>').nth(1)).map(str::to_owned).collect()
}

#[test]
fn the_plan_on_a_sheet_numbers_every_column_in_walking_order_and_shows_nothing_of_a_plan() {
    let without_positions = Job::demo("seed-store");
    without_positions.write("columns.csv", "mark,base\nA1,G1\nA2,G1\nA3,G1\nB1,G1\nB2,G1\nB3,G1\n");
    for job in [Job::demo("seed-store"), Job::demo("tractor-shed"), without_positions, walk_job()] {
        let marks = walked(&job);
        let page = job.run("sheet", &["--format", "html"]).out;
        let texts = drawn(&page);
        for (at, mark) in marks.iter().enumerate() {
            let number = match at {
                0 => "no. 1, start".to_owned(),
                last if last + 1 == marks.len() => format!("no. {}, end", last + 1),
                at => format!("no. {}", at + 1),
            };
            let beside = texts.windows(2).any(|pair| pair[0] == *mark && pair[1] == number);
            assert!(beside, "{mark} has no {number} in {texts:?}");
        }
        for planned in ["under the plate", "shims", "ringed", "limit", "grout"] {
            assert!(!texts.iter().any(|text| text.contains(planned)), "{planned} in {texts:?}");
        }
    }
}

#[test]
fn rods_are_shown_by_number_where_rods_are_on_the_sheet_and_never_where_they_cannot_be_known() {
    let job = Job::demo("seed-store");
    let numbers = |job: &Job, what: &str| {
        let page = job.run("sheet", &["--for", what, "--format", "html"]).out;
        let texts = drawn(&page);
        let numbers = ["1", "2", "3", "4"].iter().filter(|it| texts.iter().any(|text| text == *it)).count();
        (numbers, page.contains("not to scale"), page.contains("sketch its rods here"))
    };
    for what in ["all", "walk", "rods"] {
        assert_eq!(numbers(&job, what), (4, false, false), "{what}");
    }
    assert_eq!(numbers(&job, "levels").0, 0);
    // without their spacing four rods are shown at the corners, and six nowhere
    let toml = job.read("job.toml");
    let start = toml.find("pattern = ").expect("the demo gives the spacing");
    let end = start + toml[start..].find(']').unwrap() + 1;
    let rest = toml[end..].trim_start_matches([',', ' ']);
    job.write("job.toml", format!("{}{}", &toml[..start], rest));
    assert_eq!(numbers(&job, "rods"), (4, true, false));
    job.replace("job.toml", "count = 4", "count = 6");
    assert_eq!(numbers(&job, "rods"), (0, false, true));
}
