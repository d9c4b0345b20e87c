//! Columns on designed beds of grout, worked by hand.

mod tool;

use serde_json::{Value, json};
use tool::{Job, Ran, item};

/// A millimetre.
const MM: i64 = 1_000_000;

/// A job of columns on one frame line: mark, base, elevation of the pad in millimetres, projection of its rods.
///
/// Base P is designed with a bed of 30 mm, base N with none. Plate, washer and nut are 50 mm together and exact, and 3 mm of
/// thread are wanted beyond: a rod of 53 mm + n is full up to a bed of n, scant for 3 mm more, and short beyond.
/// By `en-1090` a bed is 25 to 50 mm in steps of 1 mm, and next columns may be 5 mm apart.
fn job(columns: &[(&str, &str, i64, i64)], seat: &str, more: &str) -> Job {
    let marks: Vec<String> = columns.iter().map(|(mark, ..)| format!("\"{mark}\"")).collect();
    let base = |mark: &str, bed: &str| {
        format!(
            "[[base]]\nmark = \"{mark}\"\nplate = {{ size = [\"300\", \"400\"], thickness = \"25\", tolerance = [\"0\", \"0\"], \
             holes = \"30\" }}\nrods = {{ diameter = \"M24\", count = 4 }}\n\
             washers = [{{ thickness = [\"4\", \"4\", \"4\"], outer = \"60\" }}]\n\
             nuts = [{{ height = [\"21\", \"21\", \"21\"] }}]\n{bed}"
        )
    };
    let listed =
        columns.iter().map(|(mark, base, ..)| format!("[[column]]\nmark = \"{mark}\"\nbase = \"{base}\"\n"));
    let measured = if seat.is_empty() {
        "levels = \"levels.csv\"\nsense = \"height\"\nlevels_plus_minus = \"0.1\""
    } else {
        "elevations = \"levels.csv\""
    };
    let toml = format!(
        "[job]\nname = \"beds by hand\"\nunits = \"mm\"\nlimits = \"en-1090\"\n{seat}\n[measure]\n{measured}\n\
         levels_units = \"mm\"\nrods = \"rods.csv\"\nrods_plus_minus = \"0\"\n{}{}{}\
         [[line]]\nname = \"A\"\nkind = \"frame\"\ncolumns = [{}]\nspacing = \"6 m\"\n{more}",
        base("P", "bed = \"30\"\n"),
        base("N", ""),
        listed.collect::<String>(),
        marks.join(", "),
    );
    let head = if seat.is_empty() { "point,reading\n" } else { "point,elevation,plus_minus\n" };
    let tail = if seat.is_empty() { "" } else { ",0.1" };
    let pads = columns.iter().map(|(mark, _, pad, _)| format!("{mark},{pad}{tail}\n"));
    let rods = columns.iter().map(|(mark, _, _, rod)| format!("{mark},,{rod},{rod}\n"));
    Job::of(&[
        ("job.toml", &toml),
        ("levels.csv", &(head.to_owned() + &pads.collect::<String>())),
        ("rods.csv", &("column,rod,projection,thread\n".to_owned() + &rods.collect::<String>())),
    ])
}

fn check(job: &Job, more: &[&str]) -> Value {
    let mut arguments = vec!["--format", "json"];
    arguments.extend(more);
    let ran: Ran = job.run("check", &arguments);
    assert!(ran.status <= 1, "{}", ran.err);
    ran.json()
}

/// Gives the raises in whole millimetres, a referred column as none.
fn raises(answer: &Value) -> Vec<Option<i64>> {
    let all = answer["columns"].as_array().unwrap().iter();
    all.map(|column| column["raise_nm"].as_i64().map(|nm| nm / MM)).collect()
}

fn findings<'a>(answer: &'a Value, rule: &str) -> Vec<&'a Value> {
    answer["findings"].as_array().unwrap().iter().filter(|it| it["rule"] == rule).collect()
}

const SEAT: &str = "seat = \"100 m\"";

/// Pads 30, 35, 28 and 33 mm under the seat of 100 m: so thick are their beds, all seats stand at their design, and
/// nothing is left to count. By EN 1090-2 concrete may lie 5 mm above to 15 mm below the seat less 30 mm.
#[test]
fn where_elevations_are_absolute_the_beds_bring_every_seat_to_its_design() {
    let columns = [
        ("A1", "P", 99_970, 120),
        ("A2", "P", 99_965, 120),
        ("A3", "P", 99_972, 120),
        ("A4", "P", 99_967, 120),
    ];
    let job = job(&columns, SEAT, "");
    let answer = check(&job, &[]);
    assert_eq!(raises(&answer), [Some(30), Some(35), Some(28), Some(33)]);
    for column in answer["columns"].as_array().unwrap() {
        assert_eq!(
            [
                &column["action"],
                &column["seat_nm"],
                &column["bed_design_nm"],
                &column["hold"],
                &column["may_set"]
            ],
            [&json!("grout"), &json!(100_000 * MM), &json!(30 * MM), &json!([]), &json!(true)]
        );
    }
    let totals = &answer["totals"];
    assert_eq!((&totals["grout"], &totals["held"], &totals["pieces"]), (&json!(4), &json!(0), &json!(0)));
    assert_eq!((&totals["thickness_nm"], &totals["steps_nm"]), (&json!(0), &json!(0)));
    assert!(findings(&answer, "grout-planned").is_empty() && findings(&answer, "pad-top-off").is_empty());
    assert_eq!(answer["optimum"], json!({ "proven": true, "gap": null }));
    assert_eq!(job.run("check", &[]).status, 0);
}

/// 48 mm under the seat is 18 mm under the design of the concrete, 3 mm more than EN 1090-2 allows; its bed is 48 mm all the
/// same. 56 mm under it the thickest bed, 50 mm, leaves the seat 6 mm low, and 5 mm is accepted.
#[test]
fn concrete_that_lies_too_low_is_asked_about_and_at_last_for_the_engineer() {
    let columns = [("A1", "P", 99_970, 140), ("A2", "P", 99_952, 140), ("A3", "P", 99_944, 140)];
    let answer = check(&job(&columns, SEAT, ""), &[]);
    assert_eq!(raises(&answer), [Some(30), Some(48), None]);
    let told = findings(&answer, "pad-top-off");
    let of = |mark: &str| told.iter().find(|it| it["columns"] == json!([mark])).unwrap();
    assert_eq!(told.len(), 2);
    assert_eq!((&of("A2")["actual_nm"], &of("A2")["limit_nm"]), (&json!(-18 * MM), &json!(-15 * MM)));
    assert_eq!((&of("A3")["actual_nm"], &of("A3")["level"]), (&json!(-26 * MM), &json!("ask")));
    assert!(of("A2")["source"]["text"].as_str().unwrap().starts_with("EN 1090-2, Annex B"));
    assert_eq!(answer["totals"]["refer"], json!(1));
}

/// A seat 3 mm low costs 3 mm, as if 3 mm of shims lay there: 30 + 50 mm under, the bed is 50 and the seat 30 mm low.
#[test]
fn what_a_bed_counts_is_how_far_the_seat_is_from_its_design() {
    let columns = [("A1", "P", 99_947, 140), ("A2", "P", 99_970, 140)];
    let answer = check(&job(&columns, SEAT, ""), &[]);
    assert_eq!(raises(&answer), [Some(50), Some(30)], "3 mm low, and 3 mm apart, which is accepted");
    assert_eq!(answer["totals"]["thickness_nm"], json!(3 * MM));
    assert_eq!(answer["totals"]["steps_nm"], json!(3 * MM));
}

/// In a relative job nothing is counted: pads 0, -2 and -4 mm are flat with beds of b, b + 2 and b + 4 mm. From the designed 30 mm
/// these are |b - 30| + |b - 28| + |b - 26|, least at b = 28.
#[test]
fn in_a_relative_job_the_flattest_beds_nearest_to_the_designed_ones_are_taken() {
    let three = [("A1", "P", 1000, 140), ("A2", "P", 998, 140), ("A3", "P", 996, 140)];
    let answer = check(&job(&three, "", ""), &[]);
    assert_eq!(raises(&answer), [Some(28), Some(30), Some(32)]);
    assert_eq!(answer["totals"]["thickness_nm"], json!(0));
    // with a fourth at -6 mm all of b = 26 to 28 are as near, and the lowest is taken
    let four = [three[0], three[1], three[2], ("A4", "P", 994, 140)];
    let answer = check(&job(&four, "", ""), &[]);
    assert_eq!(raises(&answer), [Some(26), Some(28), Some(30), Some(32)]);
}

/// A rod of 81 mm is full up to a bed of 28 mm. Beds of 28 under all three are flat and hold nothing; 30 would hold A2.
#[test]
fn a_short_rod_brings_the_beds_beside_it_down() {
    let columns = [("A1", "P", 0, 140), ("A2", "P", 0, 81), ("A3", "P", 0, 140)];
    let answer = check(&job(&columns, "", ""), &[]);
    assert_eq!(raises(&answer), [Some(28); 3]);
    assert_eq!(item(&answer["columns"], "mark", "A2")["hold"], json!([]));
    // a rod of 77 mm is full up to 24 mm and short above 27 mm: the column is held, as a rod would hold any
    let columns = [columns[0], ("A2", "P", 0, 77), columns[2]];
    let answer = check(&job(&columns, "", ""), &[]);
    assert_eq!(item(&answer["columns"], "mark", "A2")["hold"], json!(["rod-scant"]));
    assert_eq!((raises(&answer)[1], &answer["totals"]["held"]), (Some(27), &json!(1)));
}

/// A base without a bed stands on the pad at 0; pads of -32 and -27 mm are level with it on beds of 32 and 27 mm.
#[test]
fn bases_with_and_without_a_bed_come_to_one_level() {
    let columns = [("A1", "N", 0, 120), ("A2", "P", -32, 120), ("A3", "P", -27, 120)];
    let answer = check(&job(&columns, "", ""), &[]);
    assert_eq!(raises(&answer), [Some(0), Some(32), Some(27)]);
    let actions: Vec<&Value> = answer["columns"].as_array().unwrap().iter().map(|it| &it["action"]).collect();
    assert_eq!(actions, [&json!("no-shim"), &json!("grout"), &json!("grout")]);
    assert_eq!(item(&answer["columns"], "mark", "A1")["bed_design_nm"], Value::Null);
    assert_eq!(findings(&answer, "grout-planned").len(), 0);
}

/// The level is a pad and its bed: 30, 28 or 26 mm. All can be reached with nothing held, so the highest is taken.
#[test]
fn the_level_plan_counts_a_pad_with_its_bed() {
    let columns = [("A1", "P", 1000, 140), ("A2", "P", 998, 140), ("A3", "P", 996, 140)];
    let answer = check(&job(&columns, "", ""), &["--aim", "level"]);
    assert_eq!(raises(&answer), [Some(30), Some(32), Some(34)]);
}

#[test]
fn a_bed_can_be_held_and_nothing_but_a_bed() {
    let columns = [("A1", "P", 0, 140), ("A2", "P", 0, 140)];
    let job = job(&columns, "", "");
    let answer = check(&job, &["--hold-at", "A2=33"]);
    assert_eq!(raises(&answer), [Some(33), Some(33)]);
    let refused = job.run("check", &["--hold-at", "A2=0"]);
    assert_eq!(refused.status, 2);
    assert!(refused.err.contains("the nearest that can be made is 25 mm"), "{}", refused.err);
}

#[test]
fn every_screen_tells_the_bed_and_the_designed_one() {
    let columns = [("A1", "P", 99_970, 120), ("A2", "P", 99_965, 120)];
    let job = job(&columns, SEAT, "");
    for command in ["check", "hardware"] {
        let ran = job.run(command, &[]);
        let told =
            ran.out.contains(" grout bed 35 mm  ") && ran.out.contains("on the drawings: 30 mm under P");
        assert!(told, "{}", ran.out);
    }
    let ran = job.run("explain", &["A2"]);
    for words in [
        "grout bed 35 mm (designed 30",
        "BED OF GROUT",
        "25 mm to 50 mm, planned in steps of 1 mm",
        "25 mm to 45 mm where the concrete is within its limits",
        "25.4 mm for flowable grout across this plate, 300 mm",
        "ACI 351.1R-99, 5.5",
        "for 35 mm: fluid mortar, not leaner than 1:1",
        "EN 1090-2:2018, 5.9",
        "as quoted by a second",
    ] {
        assert!(ran.out.contains(words), "{words}\n{}", ran.out);
    }
    let sheet = job.run("check", &["--format", "csv"]).out;
    let mut lines = sheet.lines();
    assert!(lines.next().unwrap().ends_with(",bed_design_nm"), "{sheet}");
    assert!(lines.all(|line| line.ends_with(",30000000")), "{sheet}");
}

/// With neither a seat of its own nor of the job a column's design seat is 0, and that is said.
#[test]
fn without_a_design_seat_elevation_0_stands_for_it_and_is_noted() {
    let columns = [("A1", "P", -31, 120), ("A2", "P", -29, 120)];
    let job = job(&columns, SEAT, "");
    job.replace("job.toml", SEAT, "");
    let answer = check(&job, &[]);
    assert_eq!(raises(&answer), [Some(31), Some(29)]);
    let told = findings(&answer, "grout-planned");
    assert_eq!((told.len(), &told[0]["level"]), (2, &json!("note")));
    assert!(findings(&answer, "pad-top-off").iter().all(|it| it["level"] == "note"));
}

#[test]
fn shims_on_hand_do_not_change_what_a_bed_counts() {
    let columns = [
        ("A1", "N", 99_998, 120),
        ("A2", "P", 99_965, 120),
        ("A3", "P", 99_972, 120),
        ("A4", "N", 99_996, 120),
    ];
    let shims = "[shims]\nthicknesses = [\"2\", \"4\"]\npieces = 2\n";
    let free = check(&job(&columns, SEAT, shims), &[]);
    let short = check(&job(&columns, SEAT, &format!("{shims}stock = {{ \"2\" = 1 }}\n")), &[]);
    assert_eq!(raises(&free), raises(&short));
    assert_eq!((&free["totals"], &free["optimum"]), (&short["totals"], &short["optimum"]));
}
