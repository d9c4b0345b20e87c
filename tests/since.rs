//! What changed since an earlier answer, worked by hand and held against other ways to the same figures.
//!
//! Heights are in sixteenths of an inch from the highest pad, A1: A2 and A3 stood at -4. Next columns may be 3 apart,
//! the wall 4 from high to low. The earlier plan puts one 1/8 in shim (2) under A2, which comes to -2.

mod tool;

use rodreach::check::{judge, plan_then, since};
use rodreach::input::{Override, load, read_earlier};
use rodreach::levels::reduce;
use rodreach::output::{csv, json as json_text, table};
use rodreach::plan::{Aim, Wish, plan_to};
use rodreach::report::{Against, check_answer};
use rodreach::source::render;

use proptest::prelude::*;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use tool::clean::{levels_job, walk_job};
use tool::{Job, Ran, item, rodreach};

const SIXTEENTH: i64 = 1_587_500;

/// The readings of the three pads, and the rods of A2.
fn walk(pads: [&str; 3], rods_of_a2: &str) -> String {
    format!(
        "mark,reading,low,high,condition\nA1,{},4,4,\nA2,{},{rods_of_a2}\nA3,{},4,4,\n",
        pads[0], pads[1], pads[2]
    )
}

const PADS: [&str; 3] = ["54 in", "54-1/4 in", "54-1/4 in"];

/// The job with its earlier answer beside it, read anew.
fn read_anew(pads: [&str; 3], rods_of_a2: &str) -> Job {
    let job = walk_job();
    job.write("walk.csv", walk(PADS, "4,4,"));
    answered(&job);
    job.write("walk.csv", walk(pads, rods_of_a2));
    job
}

/// Writes the answer of a job beside it.
fn answered(job: &Job) {
    let ran = job.run("check", &["-o", "old.json"]);
    assert!(ran.status < 2, "{}", ran.err);
}

fn held_against(job: &Job, more: &[&str]) -> Ran {
    let ran = job.run("check", &[&["--since", "old.json"], more].concat());
    assert!(ran.status < 2, "{}", ran.err);
    ran
}

fn changes(job: &Job) -> Value {
    held_against(job, &["--format", "json"]).json()["since"].clone()
}

fn column<'v>(since: &'v Value, mark: &str) -> &'v Value {
    item(&since["columns"], "mark", mark)
}

#[test]
fn nothing_changed_is_one_line_and_the_exit_status_stays_that_of_check() {
    for demo in ["tractor-shed", "packing-hall", "grain-dryer", "seed-store"] {
        let job = Job::demo(demo);
        answered(&job);
        let ran = held_against(&job, &[]);
        assert_eq!(ran.status, job.run("check", &[]).status);
        assert!(ran.out.contains("\nWHAT CHANGED since old.json: nothing\n\nUNDER EACH"), "{}", ran.out);
        let answer = held_against(&job, &["--format", "json"]).json();
        let since = &answer["since"];
        assert_eq!(
            (&since["changed"], &since["came"], &since["went"]),
            (&json!(false), &json!([]), &json!([]))
        );
        for it in answer["columns"].as_array().unwrap() {
            // what is planned anew is judged as what was planned then
            let then = column(since, it["mark"].as_str().unwrap());
            assert_eq!(then["moved_nm"].as_i64(), it["pad_nm"].as_i64().map(|_| 0));
            assert_eq!(
                then["hold_now"],
                if it["raise_nm"].is_null() { json!([]) } else { it["hold"].clone() }
            );
        }
        let without = job.run("check", &["--format", "json"]).json();
        let mut with = answer.clone();
        with.as_object_mut().unwrap().remove("since");
        assert_eq!(with, without, "all else is as without --since");
    }
}

#[test]
fn a_pad_that_sank_is_told_with_its_plus_minus_its_stack_and_the_pieces_that_are_missing() {
    // A3 is read 1/4 in lower: at -8 it is 6 from A2 and 8 from A1, so it needs 1/4 in more
    let job = read_anew(["54 in", "54-1/4 in", "54-1/2 in"], "4,4,");
    let since = changes(&job);
    assert_eq!(
        (&since["changed"], &since["fits"], &since["moved_from"]),
        (&json!(true), &json!("no"), &json!("A1"))
    );
    let a3 = column(&since, "A3");
    assert_eq!((&a3["moved_nm"], &a3["moved_for_sure"]), (&json!(-4 * SIXTEENTH), &json!(true)));
    // two readings of +-1/16 in each then and now: their root sum of squares is 1/8 in, all rounded up
    let plus_minus = a3["moved_plus_minus_nm"].as_i64().unwrap();
    assert!((2 * SIXTEENTH..2 * SIXTEENTH + 4).contains(&plus_minus), "{plus_minus}");
    assert_eq!(
        (&a3["action_then"], &a3["raise_then_nm"], &a3["changed"]),
        (&json!("no-shim"), &json!(0), &json!(true))
    );
    let why = |mark: &str| column(&since, mark)["fits_not"].to_string();
    assert_eq!(
        why("A3"),
        json!([
            "A2 - A3 3/8\" apart, 3/16\" accepted",
            "along the wall A1 - A3 1/2\" high to low, 1/4\" accepted"
        ])
        .to_string()
    );
    assert_eq!(why("A2"), json!(["A2 - A3 3/8\" apart, 3/16\" accepted"]).to_string());
    let a2 = column(&since, "A2");
    assert_eq!((&a2["changed"], &a2["moved_nm"]), (&json!(false), &json!(0)));
    assert_eq!(a2["stack_then"], json!([{ "thickness_nm": 2 * SIXTEENTH, "count": 1 }]));
    let piece = |thickness: i64, then: u32, now: u32, missing: u32| json!({ "base": "B1", "thickness_nm": thickness * SIXTEENTH, "then": then, "now": now, "missing": missing, "left_over": 0 });
    assert_eq!(since["pieces"], json!([piece(4, 0, 1, 1), piece(2, 1, 1, 0)]));
    assert_eq!(since["pieces_suffice"], false);
    let screen = held_against(&job, &[]).out;
    for words in
        ["still fits as it is: NO.", "Not in the earlier plan: 1 x 1/4\" for base B1.", "compared from A1"]
    {
        assert!(screen.contains(words), "no {words} in\n{screen}");
    }
}

#[test]
fn the_highest_pad_read_anew_moves_alone_though_all_heights_count_from_it() {
    let job = read_anew(["54-1/8 in", "54-1/4 in", "54-1/4 in"], "4,4,");
    let since = changes(&job);
    let moved = |mark: &str| column(&since, mark)["moved_nm"].as_i64().unwrap() / SIXTEENTH;
    assert_eq!(["A1", "A2", "A3"].map(moved), [-2, 0, 0]);
    assert_eq!(since["moved_from"], "A2");
    assert_eq!(column(&since, "A1")["moved_for_sure"], false, "1/8 in is what the readings are good to");
    let screen = held_against(&job, &[]).out;
    assert!(screen.contains("Moved no more than the readings are good to: A1."), "{screen}");
}

#[test]
fn on_a_datum_every_pad_moves_by_itself_and_both_plus_minus_go_in() {
    let job = levels_job();
    answered(&job);
    let old: Value = serde_json::from_str(&job.read("old.json")).unwrap();
    job.replace("levels.csv", "1,C2,IS,1.2340", "1,C2,IS,1.2300");
    let answer = held_against(&job, &["--format", "json"]).json();
    let since = &answer["since"];
    assert_eq!(since["moved_from"], Value::Null);
    for mark in ["C1", "C2", "D1", "D2"] {
        let moved = column(since, mark);
        assert_eq!(moved["moved_nm"], if mark == "C2" { 4_000_000 } else { 0 });
        let good_to =
            |answer: &Value| item(&answer["columns"], "mark", mark)["plus_minus_nm"].as_i64().unwrap();
        let (then, now) = (i128::from(good_to(&old)), i128::from(good_to(&answer)));
        let plus_minus = i128::from(moved["moved_plus_minus_nm"].as_i64().unwrap());
        // the least whole number whose square is no less than the sum
        assert!(plus_minus * plus_minus >= then * then + now * now);
        assert!((plus_minus - 1) * (plus_minus - 1) < then * then + now * now);
    }
}

#[test]
fn what_was_planned_then_is_held_as_check_holds_it_when_it_is_tried() {
    // full, scant or unsure, short, not measured, bent: whatever the rods are, both ways come to the same
    let mut seen = Vec::new();
    for rods in
        ["4,4,", "1-1/4,4,", "1-9/16,4,", "1-5/8,4,", "1-11/16,4,", "1-3/4,4,", ",4,", "4,4,bent", "6,6,"]
    {
        let job = read_anew(PADS, rods);
        let since = changes(&job);
        let tried = ["--hold-at", "A1=0", "--hold-at", "A2=1/8", "--hold-at", "A3=0", "--format", "json"];
        let tried = job.run("check", &tried);
        let columns = &tried.json()["columns"];
        for mark in ["A1", "A2", "A3"] {
            assert_eq!(column(&since, mark)["hold_now"], item(columns, "mark", mark)["hold"], "{rods}");
        }
        let fits = column(&since, "A2")["fits"].as_str().unwrap().to_owned();
        assert_eq!(fits == "yes", item(columns, "mark", "A2")["may_set"] == true, "{rods}");
        // the worst of all columns; and where the engineer is asked for another reason, not a plain yes
        let whole = if fits == "yes" && tried.status != 0 { "ask" } else { fits.as_str() };
        assert_eq!(since["fits"], whole, "{rods}");
        seen.push(fits);
    }
    for fit in ["yes", "no", "unknown", "ask"] {
        assert!(seen.iter().any(|it| it == fit), "{fit} is not among {seen:?}");
    }
}

#[test]
fn what_is_not_known_is_no_yes() {
    // the pad that was read is not read any more
    let job = read_anew(["54 in", "", "54-1/4 in"], "4,4,");
    let since = changes(&job);
    assert_eq!((&since["fits"], &column(&since, "A2")["fits"]), (&json!("unknown"), &json!("unknown")));
    assert_eq!(column(&since, "A2")["moved_nm"], Value::Null);
    // and the other way round: nothing was planned there then
    let job = walk_job();
    job.write("walk.csv", walk(["54 in", "", "54-1/4 in"], "4,4,"));
    answered(&job);
    job.write("walk.csv", walk(PADS, "4,4,"));
    let since = changes(&job);
    assert_eq!(
        column(&since, "A2")["fits_not"],
        json!(["its pad was not measured: nothing was planned for it"])
    );
    assert_eq!(since["fits"], "unknown");
    // shims that the job has no more: their tolerance is not known
    let job = read_anew(PADS, "4,4,");
    let without = held_against(&job, &["--without", "1/8", "--format", "json"]).json();
    let a2 = column(&without["since"], "A2");
    assert_eq!(a2["fits"], "unknown");
    assert!(a2["fits_not"].to_string().contains("tolerance is not known"), "{a2}");
}

#[test]
fn columns_that_came_and_went_are_told_and_what_was_sent_for_them_is_left_over() {
    let job = read_anew(PADS, "4,4,");
    job.replace("walk.csv", "A2,", "A9,");
    job.replace("job.toml", "\"A2\"", "\"A9\"");
    let since = changes(&job);
    assert_eq!(
        (&since["added"], &since["removed"], &since["fits"]),
        (&json!(["A9"]), &json!(["A2"]), &json!("unknown"))
    );
    let ran = held_against(&job, &[]);
    for words in ["A9      not in the earlier answer", "gone", "not in the job"] {
        assert!(ran.out.contains(words), "no {words} in\n{}", ran.out);
    }
    let rows = held_against(&job, &["--format", "csv"]).out;
    let of = |mark: &str| rows.lines().find(|line| line.starts_with(mark)).unwrap().to_owned();
    assert!(of("A2").contains(",gone,"), "{rows}");
    assert!(of("A9").contains(",new,"), "{rows}");
    assert!(of("A1").contains(",no,"), "{rows}");
    let mut cells = rows.lines().map(|line| csv_cells(line).len());
    let head = cells.next().unwrap();
    assert!(cells.all(|it| it == head), "{rows}");
}

fn csv_cells(line: &str) -> Vec<String> {
    let mut reader = ::csv::ReaderBuilder::new().has_headers(false).from_reader(line.as_bytes());
    reader.records().next().unwrap().unwrap().iter().map(str::to_owned).collect()
}

#[test]
fn a_shim_cut_for_one_base_is_missing_at_another_and_every_piece_of_a_stack_counts() {
    let job = walk_job();
    job.replace("job.toml", "catalog = \"plate\"", "thicknesses = [\"1/8\"]");
    let base = job.read("job.toml");
    let second =
        base[base.find("[[base]]").unwrap()..base.find("[[line]]").unwrap()].replace("\"B1\"", "\"B2\"");
    job.write("job.toml", base + &second);
    // a pad at -6 needs two shims of 1/8 in to come to -2; A1 and A2 stand on B1, A3 on B2
    let walk = |a2: &str, a3: &str| {
        format!("mark,base,reading,low,high\nA1,B1,54 in,4,4\nA2,B1,{a2},4,4\nA3,B2,{a3},4,4\n")
    };
    job.write("walk.csv", walk("54-3/8 in", "54 in"));
    answered(&job);
    job.write("walk.csv", walk("54 in", "54-3/8 in"));
    let since = changes(&job);
    let piece = |base: &str, then: u32, now: u32| json!({ "base": base, "thickness_nm": 2 * SIXTEENTH, "then": then, "now": now, "missing": now.saturating_sub(then), "left_over": then.saturating_sub(now) });
    assert_eq!(since["pieces"], json!([piece("B1", 2, 0), piece("B2", 0, 2)]));
    assert_eq!((&since["pieces_suffice"], &since["fits"]), (&json!(false), &json!("no")));
    let screen = held_against(&job, &[]).out;
    assert!(screen.contains("Not in the earlier plan: 2 x 1/8\" for base B2."), "{screen}");
    // the same two columns on one kind of base: the pieces only change places
    job.write("walk.csv", walk("54-3/8 in", "54 in").replace("B2", "B1"));
    answered(&job);
    job.write("walk.csv", walk("54 in", "54-3/8 in").replace("B2", "B1"));
    let since = changes(&job);
    assert_eq!(since["pieces"], json!([piece("B1", 2, 2)]));
    assert_eq!((&since["pieces_suffice"], &since["fits"]), (&json!(true), &json!("no")));
    assert!(held_against(&job, &[]).out.contains("Every piece of this plan was in the earlier one."));
}

#[test]
fn washers_added_under_nuts_are_counted_for_all_rods_of_a_group() {
    // a rod of A2 stands so high that its thread would end under the nut
    let job = read_anew(PADS, "4,4,");
    job.write(
        "walk.csv",
        walk(PADS, "4,4,").replace("condition", "thread").replace("A2,54-1/4 in,4,4,", "A2,54-1/4 in,4,4,3"),
    );
    let answer = held_against(&job, &["--format", "json"]).json();
    let rods = item(&answer["columns"], "mark", "A2")["rods"].as_array().unwrap();
    let most = rods.iter().map(|rod| rod["extra_washers"].as_u64().unwrap()).max().unwrap();
    assert!(most > 0, "{rods:?}");
    let washers = &answer["since"]["washers"];
    assert_eq!(
        washers,
        &json!([{ "base": "B1", "then": 0, "now": 4 * most, "missing": 4 * most, "left_over": 0 }])
    );
    assert_eq!(answer["since"]["pieces_suffice"], false);
}

/// Findings by what they are told apart by, and how many there are.
fn counted<'v>(findings: impl IntoIterator<Item = &'v Value>) -> BTreeMap<String, i32> {
    let mut counts = BTreeMap::new();
    for it in findings {
        let key = ["rule", "level", "columns", "rod", "line"].map(|key| it[key].to_string()).join(" ");
        *counts.entry(key).or_default() += 1;
    }
    counts
}

#[test]
fn pieces_add_up_to_both_totals_and_findings_to_both_lists() {
    let change: [(&str, &str, &str, &str); 4] = [
        ("tractor-shed", "walk.csv", "4'-6 5/8\"\"", "4'-6 7/8\"\""),
        ("tractor-shed", "walk.csv", "1-1/8,2-1/2", "2-1/2,2-1/2"),
        ("packing-hall", "levels.csv", "C2,IS,1.2360", "C2,IS,1.2290"),
        ("seed-store", "rods.csv", "A2,low,101,70", "A2,low,109,70"),
    ];
    for (demo, file, old, new) in change {
        let job = Job::demo(demo);
        answered(&job);
        job.replace(file, old, new);
        let then: Value = serde_json::from_str(&job.read("old.json")).unwrap();
        let now = held_against(&job, &["--format", "json"]).json();
        let since = &now["since"];
        assert_eq!(since["changed"], true, "{demo}");
        let sum = |key: &str| {
            since["pieces"].as_array().unwrap().iter().map(|it| it[key].as_i64().unwrap()).sum::<i64>()
        };
        assert_eq!(Some(sum("then")), then["totals"]["pieces"].as_i64(), "{demo}");
        assert_eq!(Some(sum("now")), now["totals"]["pieces"].as_i64(), "{demo}");
        assert_eq!(sum("now") - sum("then"), sum("missing") - sum("left_over"), "{demo}");
        let mut balance = counted(then["findings"].as_array().unwrap());
        for (key, count) in counted(since["came"].as_array().unwrap()) {
            *balance.entry(key).or_default() += count;
        }
        for (key, count) in counted(since["went"].as_array().unwrap()) {
            *balance.entry(key).or_default() -= count;
        }
        balance.retain(|_, count| *count != 0);
        assert_eq!(balance, counted(now["findings"].as_array().unwrap()), "{demo}");
    }
}

#[test]
fn other_plus_minus_alone_is_a_change_that_is_said() {
    for job in [read_anew(PADS, "4,4,"), levels_job()] {
        answered(&job);
        job.replace("job.toml", "[measure]", "[measure]\nlevels_plus_minus = \"1/4 in\"");
        let ran = held_against(&job, &["--format", "json"]);
        assert_eq!(ran.json()["since"]["changed"], true);
        let out = held_against(&job, &[]).out;
        assert!(out.contains("What a pad is good to (+-) is not what it was: "), "{out}");
    }
}

#[test]
fn long_names_and_many_changes_keep_the_screen_80_columns_wide() {
    let job = read_anew(["54 in", "54-1/4 in", "54-1/2 in"], "1-1/4,4,bent");
    let long = "A2 of the long north-east wall, behind the old silo by the";
    let screens = |job: &Job| {
        let screen = held_against(job, &[]).out;
        let since =
            screen[screen.find("WHAT CHANGED").unwrap()..screen.find("UNDER EACH").unwrap()].to_owned();
        let sheets = ["walk", "levels", "rods", "all"].map(|what| job.run("sheet", &["--for", what]).out);
        for line in sheets.iter().chain([&since]).flat_map(|screen| screen.lines()) {
            assert!(line.chars().count() <= 80, "{} columns: {line}", line.chars().count());
        }
        since
    };
    for file in ["walk.csv", "job.toml", "old.json"] {
        let named = job
            .read(file)
            .replace("\"A2\"", &format!("\"{long}\""))
            .replace("\nA2,", &format!("\n\"{long}\","));
        job.write(file, named);
    }
    let out = screens(&job);
    assert!(out.contains("might be set then, NOT to be set now"), "{out}");
}

#[test]
fn an_answer_for_a_job_of_another_name_is_asked_about_and_one_without_any_common_column_is_refused() {
    let job = read_anew(PADS, "4,4,");
    job.replace("job.toml", "Clean (invented)", "Another");
    let ran = held_against(&job, &[]);
    assert!(ran.out.contains("a job of another name, Clean (invented). Is it the right"), "{}", ran.out);
    assert_eq!(changes(&job)["other_job"], true);
    let other = levels_job();
    other.write("old.json", job.read("old.json"));
    let ran = other.run("check", &["--since", "old.json"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("none of its columns is a column of this job"), "{}", ran.err);
}

#[test]
fn a_plan_made_by_other_limits_or_another_aim_is_said() {
    let job = read_anew(PADS, "4,4,");
    let ran = held_against(&job, &["--aim", "level", "--to", "desired"]);
    for words in ["aim fewest then, level now", "to accept then, desired now"] {
        assert!(ran.out.contains(words), "no {words} in\n{}", ran.out);
    }
}

/// What is said of a file that is named with `--since`.
fn refused(text: &str) -> String {
    let job = walk_job();
    job.write("old.json", text);
    let ran = job.run("check", &["--since", "old.json"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{text}");
    assert!(ran.err.contains("nothing was written"), "{}", ran.err);
    ran.err
}

#[test]
fn a_file_that_is_no_answer_of_check_is_refused_with_its_place_and_the_fix() {
    let job = walk_job();
    answered(&job);
    let good = job.read("old.json");
    let changed = |old: &str, new: &str| {
        assert!(good.contains(old), "{old}");
        refused(&good.replacen(old, new, 1))
    };
    let fix = "name a file that `rodreach check JOB --format json -o FILE` wrote";
    let wrong = refused("{ \"format\": 1,\n  \"job\": oops }");
    assert!(
        wrong.contains("this file is not JSON") && wrong.contains("old.json:2:") && wrong.contains(fix),
        "{wrong}"
    );
    assert!(refused("").contains("this file is not JSON"));
    assert!(refused("[1, 2]").contains("it has no `columns`"));
    for (command, more) in [("level", None), ("hardware", None), ("ask", None), ("explain", Some("A1"))] {
        let args: Vec<&str> = more.into_iter().chain(["--format", "json"]).collect();
        let said = refused(&job.run(command, &args).out);
        assert!(
            said.contains(&format!("an answer of `rodreach {command}`, not of `rodreach check`")),
            "{said}"
        );
    }
    let format = changed("\"format\": 1", "\"format\": 2");
    assert!(
        format.contains("format 2; only format 1 is read") && format.contains("old.json:2:3"),
        "{format}"
    );
    let missing = changed("\"raise_nm\"", "\"raised_nm\"");
    assert!(missing.contains("missing field `raise_nm`"), "what is missing is not unknown: {missing}");
    assert!(changed("\"action\": \"no-shim\"", "\"action\": \"weld\"").contains("unknown variant `weld`"));
    assert!(changed("\"pad_nm\": ", "\"pad_nm\": 0.5, \"was\": ").contains("floating point"));
    assert!(changed("\"pad_nm\": ", "\"pad_nm\": 99999999999999999, \"was\": ").contains("beyond 10 km"));
    assert!(
        changed("\"mark\": \"A2\"", "\"mark\": \"A1\"").contains("column `A1`: stands there a second time")
    );
    assert!(changed("\"raise_nm\": 0", "\"raise_nm\": 7").contains("do not belong together"));
    assert!(changed("\"rod\": \"low\"", "\"rod\": \"middle\"").contains("`middle` is no rod"));
    let missing = job.run("check", &["--since", "nowhere.json"]);
    assert!(missing.status == 2 && missing.err.contains("`nowhere.json` was not found"), "{}", missing.err);
    assert_eq!(job.run("check", &["--since", "."]).status, 2);
}

#[test]
fn faults_of_the_job_and_of_the_earlier_answer_are_told_in_one_run() {
    let job = walk_job();
    job.replace("job.toml", "units = \"in\"", "units = \"yards\"");
    job.write("old.json", "{}");
    let ran = job.run("check", &["--since", "old.json"]);
    assert!(
        ran.status == 2 && ran.err.contains("yards") && ran.err.contains("it has no `columns`"),
        "{}",
        ran.err
    );
}

#[test]
fn keys_that_are_added_later_are_left_alone_and_names_cannot_change_the_screen() {
    let job = read_anew(["54 in", "54-1/4 in", "54-1/2 in"], "4,4,");
    let mut old: Value = serde_json::from_str(&job.read("old.json")).unwrap();
    old["later"] = json!({ "a": [1] });
    old["columns"][0]["later"] = json!(true);
    old["columns"][0]["rods"][0]["later"] = json!(null);
    let plain = changes(&job);
    job.write("old.json", old.to_string());
    assert_eq!(changes(&job), plain);
    old["job"] = json!("\u{1b}[31mred\nline");
    old["findings"] = json!([{ "rule": "r", "level": "stop", "columns": ["A1"], "rod": null, "line": null, "text": "\u{1b}[2Jgone" }]);
    job.write("old.json", old.to_string());
    let out = held_against(&job, &[]).out;
    assert!(!out.contains('\u{1b}') && out.contains("[31mred line"), "{out}");
}

#[test]
fn the_section_stands_as_it_was_looked_at_and_no_line_is_too_wide() {
    let job = Job::demo("tractor-shed");
    answered(&job);
    job.replace("walk.csv", "4'-6 5/8\"\"\",2-5/8,2-3/4", "4'-6 7/8\"\"\",2-5/8,2-3/8");
    job.replace("walk.csv", "2-1/2,2-9/16,,bent,hit by a skid steer", "2-1/2,2-9/16,,,");
    let screen = held_against(&job, &[]).out;
    assert!(screen.lines().all(|line| line.chars().count() <= 80), "{screen}");
    let from = screen.find("WHAT CHANGED").unwrap();
    let to = screen.find("UNDER EACH COLUMN").unwrap();
    insta::assert_snapshot!("since_tractor_shed", &screen[from..to]);
    let md = held_against(&job, &["--format", "md"]).out;
    assert!(md.contains("## WHAT CHANGED since old.json"), "{md}");
    insta::assert_snapshot!("since_tractor_shed_csv", held_against(&job, &["--format", "csv"]).out);
    insta::assert_snapshot!("since_tractor_shed_json", serde_json::to_string_pretty(&changes(&job)).unwrap());
    let help = rodreach(&["check", "--help"]).out;
    assert!(help.contains("--since <OLD.json>"), "{help}");
}

/// Lists the places of all values that are no object and no list.
fn leaves(value: &Value, at: String, found: &mut Vec<String>) {
    match value {
        Value::Object(values) => {
            values.iter().for_each(|(key, value)| leaves(value, format!("{at}/{key}"), found))
        }
        Value::Array(values) => {
            values
                .iter()
                .enumerate()
                .for_each(|(number, value)| leaves(value, format!("{at}/{number}"), found));
        }
        _ => found.push(at),
    }
}

fn anything() -> impl Strategy<Value = Value> {
    prop_oneof![
        Just(Value::Null),
        any::<i64>().prop_map(Value::from),
        (-40_i64..40).prop_map(|it| json!(it * 793_750)),
        Just(json!(1.5)),
        Just(json!(true)),
        Just(json!([])),
        Just(json!({})),
        "[A-C1-4=\u{1b}\"é ,]{0,6}".prop_map(Value::from),
        prop_oneof![Just("shim"), Just("refer"), Just("unmeasured"), Just("full"), Just("low"), Just("2")]
            .prop_map(Value::from),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(192))]

    #[test]
    fn whatever_stands_in_the_earlier_answer_it_is_told_or_used(
        demo in prop_oneof![Just("tractor-shed"), Just("seed-store")],
        changes in proptest::collection::vec((any::<prop::sample::Index>(), anything()), 0..4),
    ) {
        let job = Job::demo(demo);
        let loaded = load(&job.path(""), &Override::default()).unwrap();
        let levels = reduce(&loaded.job);
        let plan = plan_to(&loaded.job, &levels, Aim::Fewest, &Wish::default()).unwrap();
        let judged = judge(&loaded.job, &levels, &plan);
        let mut old = check_answer(&judged, &[], None).value;
        let mut places = Vec::new();
        leaves(&old, String::new(), &mut places);
        for (index, value) in changes {
            *old.pointer_mut(index.get(&places).as_str()).unwrap() = value;
            places.retain(|place| old.pointer(place).is_some());
        }
        job.write("old.json", old.to_string());
        match read_earlier(&job.path("old.json")) {
            Err(refused) => prop_assert!(render(&refused.problems, &refused.files).contains("nothing was written")),
            Ok(earlier) => {
                let plan = plan_then(&loaded.job, &earlier, &plan);
                let then = judge(&loaded.job, &levels, &plan);
                let since = since(&judged, &then, &earlier);
                let answer = check_answer(&judged, &[], Some(&Against { then: &then, since: &since }));
                for text in [table(&answer), csv(&answer), json_text(&answer)] {
                    prop_assert!(!text.is_empty());
                }
                prop_assert_eq!(answer.clear, judged.is_clear());
            }
        }
    }
}
