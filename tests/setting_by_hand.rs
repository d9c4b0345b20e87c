//! How a plate is set, each way through a whole job, worked by hand; and what every screen has of it.

mod tool;

use serde_json::{Value, json};
use tool::{Job, Ran, item};

/// A thousandth of an inch.
const MIL: i64 = 25_400;

/// A millimetre.
const MM: i64 = 1_000_000;

/// An inch job: the seat is 100 ft, pads are good to 1/16", rods of 3/4" stand so many mils above their pads and have 4" of
/// thread. A bed of 1-1/2" is designed, `low-rise` has 1" to 2" of it.
///
/// Plate and parts by the catalog: plate 1/2" exact; heavy hex nut 0.710, 47/64 and 0.758" (ASME B18.2.2); plate washer 0.24,
/// 1/4 and 0.28" (AISC hole table, ASTM A6); thread of 10 to the inch.
fn inch_job(columns: &[(&str, &str, &str)], setting: &str) -> Job {
    let marks: Vec<String> = columns.iter().map(|(mark, ..)| format!("\"{mark}\"")).collect();
    let listed: String =
        columns.iter().map(|(mark, ..)| format!("[[column]]\nmark = \"{mark}\"\nbase = \"B1\"\n")).collect();
    let toml = format!(
        "[job]\nname = \"set by hand\"\nunits = \"in\"\nlimits = \"low-rise\"\nseat = \"100'\"\n[measure]\n\
         elevations = \"asbuilt.csv\"\nrods = \"rods.csv\"\nrods_plus_minus = \"1/16\"\n[[base]]\nmark = \"B1\"\n\
         plate = {{ size = [\"14\", \"14\"], thickness = \"1/2\", tolerance = [\"0\", \"0\"], holes = \"1-5/16\" }}\n\
         rods = {{ diameter = \"3/4\", count = 4, pattern = [\"10\", \"10\"], projection = \"4\", thread = \"4\" }}\n\
         washers = [\"plate\"]\nnuts = [\"heavy-hex\"]\n{setting}\n{listed}\
         [[line]]\nname = \"A\"\nkind = \"frame\"\ncolumns = [{}]\nspacing = \"20'\"\n",
        marks.join(", "),
    );
    let pads: String = columns.iter().map(|(mark, pad, _)| format!("{mark},{pad},1/16 in\n")).collect();
    let rods: String = columns.iter().map(|(mark, _, rod)| format!("{mark},,{rod},4\n")).collect();
    Job::of(&[
        ("job.toml", &toml),
        ("asbuilt.csv", &("point,elevation,plus_minus\n".to_owned() + &pads)),
        ("rods.csv", &("column,rod,projection,thread\n".to_owned() + &rods)),
    ])
}

const NUTS: &str =
    "bed = \"1-1/2\"\nseat_on = \"nuts\"\nlevelling = { nut = \"heavy-hex\", washer = \"plate\" }\n";

/// Pads 1-1/2" and 1-1/4" under the seat: so thick are their beds.
const PADS: [(&str, &str, &str); 2] = [("A1", "99'-10 1/2\"", "4"), ("A2", "99'-10 3/4\"", "3-3/4")];

/// A job of columns on beds, seat 100 m, M24 rods to 100 mm over it: mark, pad in mm. A bed of 30 mm is designed, `en-1090` has 25 to 50 mm.
fn metric_job(columns: &[(&str, i64)], setting: &str) -> Job {
    let marks: Vec<String> = columns.iter().map(|(mark, _)| format!("\"{mark}\"")).collect();
    let listed: String =
        columns.iter().map(|(mark, _)| format!("[[column]]\nmark = \"{mark}\"\nbase = \"P1\"\n")).collect();
    let toml = format!(
        "[job]\nname = \"set by hand\"\nunits = \"mm\"\nlimits = \"en-1090\"\nseat = \"100 m\"\n[measure]\n\
         elevations = \"asbuilt.csv\"\nlevels_units = \"mm\"\nrods = \"rods.csv\"\nrods_plus_minus = \"1\"\n[[base]]\n\
         mark = \"P1\"\nplate = {{ size = [\"400\", \"400\"], thickness = \"25\", tolerance = [\"0\", \"0\"], holes = \"30\" }}\n\
         rods = {{ diameter = \"M24\", count = 4, pattern = [\"300\", \"300\"], projection = \"130\", thread = \"150\" }}\n\
         washers = [{{ thickness = [\"4\", \"4\", \"4\"], outer = \"60\" }}]\nnuts = [\"iso-4032\"]\n{setting}\n{listed}\
         [[line]]\nname = \"A\"\nkind = \"frame\"\ncolumns = [{}]\nspacing = \"6 m\"\n[shims]\ncatalog = \"plate-mm\"\npieces = 3\n",
        marks.join(", "),
    );
    let pads: String = columns.iter().map(|(mark, pad)| format!("{mark},{pad},0.5\n")).collect();
    let rods: String = columns.iter().map(|(mark, pad)| format!("{mark},,{},125\n", 100_100 - pad)).collect();
    Job::of(&[
        ("job.toml", &toml),
        ("asbuilt.csv", &("point,elevation,plus_minus\n".to_owned() + &pads)),
        ("rods.csv", &("column,rod,projection,thread\n".to_owned() + &rods)),
    ])
}

const PACKS: &str = "bed = \"30\"\nseat_on = \"packs\"\n\
                     packs = { size = [\"100\", \"100\"], count = 4, left_in = true, cover = \"30\" }\n";

fn json_of(job: &Job, command: &str) -> Value {
    let ran: Ran = job.run(command, &["--format", "json"]);
    assert!(ran.status <= 1, "{}", ran.err);
    ran.json()
}

fn asked(answer: &Value) -> Vec<(String, String)> {
    let all = answer["findings"].as_array().unwrap().iter().filter(|it| it["level"] != "note");
    all.map(|it| (it["rule"].as_str().unwrap().to_owned(), it["level"].as_str().unwrap().to_owned()))
        .collect()
}

/// Room under A1: 1.5 - 0.0625 - (0.28 + 0.758) = 0.3995"; up to 1.5 + 0.0625 - (0.24 + 0.710) = 0.6125" of rod, a rod is 0.75.
/// Thread: the rod stands 4 - 1.5 = 2.5" above the underside of the plate, and 4 - 0.1 - (2.5 + 1.038) - 0.0625 = 0.2995".
/// Under A2 the bed is 0.25" thinner and the rod as much shorter: 0.1495", 0.3625" and the same thread.
#[test]
fn levelling_nuts_in_an_inch_job_come_out_as_worked_by_hand() {
    let job = inch_job(&PADS, NUTS);
    let answer = json_of(&job, "check");
    assert_eq!(asked(&answer), [], "nothing asks");
    for (mark, bed, room, stand_off) in [("A1", 1_500, 3_995, 6_125), ("A2", 1_250, 1_495, 3_625)] {
        let column = item(&answer["columns"], "mark", mark);
        let tenths = |tenths: i64| json!(tenths * MIL / 10);
        assert_eq!(column["raise_nm"], json!(bed * MIL));
        assert_eq!(column["seat_on"], json!("nuts"));
        assert_eq!(
            column["levelling"],
            json!({ "room_nm": tenths(room), "stand_off_nm": tenths(stand_off) })
        );
        assert_eq!(column["rods"][0]["levelling_thread_left_nm"], tenths(2_995));
        assert_eq!((&column["hold"], &column["may_set"]), (&json!([]), &json!(true)));
    }
    assert_eq!(job.run("check", &[]).status, 0, "only notes");
    let row = &json_of(&job, "hardware")["columns"][0];
    assert_eq!(row["levelling"], json!({ "nut": "heavy-hex", "washer": "plate", "count": 4 }));
}

/// Thread of 3.7" is 0.1 + 2.5 + 1.038 + 0.0625 = 3.7005" less half a mil; 3.5" ends above 0.1 + 2.5 + 0.984375 = 3.584375".
#[test]
fn a_thread_that_does_not_reach_holds_its_column_and_one_nobody_measured_is_asked_for() {
    let with = |thread: &str| {
        let job = inch_job(&PADS, NUTS);
        job.replace("rods.csv", "A1,,4,4", &format!("A1,,4,{thread}"));
        let answer = json_of(&job, "check");
        let held = item(&answer["columns"], "mark", "A1")["hold"].clone();
        let told = asked(&answer)
            .into_iter()
            .filter(|(rule, _)| rule == "levelling-nut-off-thread")
            .collect::<Vec<_>>();
        (held, told.first().map(|(_, level)| level.clone()), job.run("check", &[]).status)
    };
    let said = |level: &str| Some(level.to_owned());
    assert_eq!(with("3.7005"), (json!([]), None, 0));
    assert_eq!(with("3.7"), (json!([]), said("ask"), 1));
    assert_eq!(with("3.584375"), (json!([]), said("ask"), 1));
    assert_eq!(with("3.584374"), (json!(["levelling-nut"]), said("stop"), 1));
    assert_eq!(with(""), (json!([]), said("ask"), 1));
}

/// A bed of 1" has no room for a nut of 47/64" and a washer of 0.27": 1.004375". With one of 0.26" it is too close to call.
#[test]
fn a_bed_without_room_for_its_nuts_holds_the_column() {
    let with = |washer: &str| {
        let nuts = NUTS.replace(
            "washer = \"plate\"",
            &format!("washer = {{ thickness = [\"0.2\", \"{washer}\", \"0.3\"], outer = \"2\" }}"),
        );
        let job = inch_job(&[("A1", "99'-11\"", "3-1/2"), PADS[1]], &nuts);
        let answer = json_of(&job, "check");
        let column = item(&answer["columns"], "mark", "A1");
        assert_eq!(column["raise_nm"], json!(1_000 * MIL));
        let told = item(&answer["findings"], "rule", "levelling-nut-no-room").clone();
        (column["hold"].clone(), column["may_set"].clone(), told["level"].clone(), job)
    };
    let (hold, may_set, level, job) = with("0.27");
    assert_eq!((hold, may_set, level), (json!(["levelling-nut"]), json!(false), json!("stop")));
    let screen = job.run("check", &[]).out;
    assert!(screen.contains("no room for the levelling nuts in the bed"), "{screen}");
    let (hold, may_set, level, _) = with("0.26");
    assert_eq!((hold, may_set, level), (json!([]), json!(true), json!("ask")));
}

/// Beds of 30, 33 and 44 mm. Fewest pieces, thickest first: 20 + 10, 20 + 10 + 3; three of 20, 15, 10, 5, 3, 2 and 1 mm make 43
/// (20 + 20 + 3) and 45 (20 + 20 + 5), and not 44. Four packs take four times that.
#[test]
fn packs_in_a_metric_job_are_composed_and_counted_as_worked_by_hand() {
    let job = metric_job(&[("A1", 99_970), ("A2", 99_967), ("A3", 99_956)], PACKS);
    let answer = json_of(&job, "check");
    let piece = |mm: i64, count: u32| json!({ "thickness_nm": mm * MM, "count": count });
    let packs = |mark: &str| item(&answer["columns"], "mark", mark)["packs"].clone();
    // 4 x 100 x 100 x 30 mm are 1200 cm3, of 7.85 g
    assert_eq!(
        packs("A1"),
        json!({ "count": 4, "size_nm": [100 * MM, 100 * MM], "height_nm": 30 * MM,
                "each": [piece(20, 1), piece(10, 1)], "pieces": [piece(20, 4), piece(10, 4)], "mass_kg": 9.42 })
    );
    assert_eq!(packs("A2")["pieces"], json!([piece(20, 4), piece(10, 4), piece(3, 4)]));
    assert_eq!(
        packs("A3"),
        json!({ "count": 4, "size_nm": [100 * MM, 100 * MM], "height_nm": 44 * MM, "each": null,
                "nearest_nm": [43 * MM, 45 * MM], "pieces": null, "mass_kg": null })
    );
    assert_eq!(asked(&answer), [("pack-not-made".to_owned(), "ask".to_owned())]);
    let hardware = json_of(&job, "hardware");
    assert_eq!(item(&hardware["columns"], "mark", "A2")["packs"], packs("A2"), "one home of the count");
    let totals = &answer["totals"];
    assert_eq!(
        (&totals["pieces"], &totals["held"]),
        (&json!(0), &json!(0)),
        "packs are no shims of the plan"
    );
    let csv = job.run("hardware", &["--format", "csv"]).out;
    let second = csv.lines().nth(2).unwrap();
    assert!(
        csv.lines().next().unwrap().ends_with(",packs,pack_height_nm,pack_stack,pack_pieces,pack_mass_kg"),
        "{csv}"
    );
    assert!(
        second.ends_with(",packs,,,,4,33000000,20 mm + 10 mm + 3 mm,4 x 20 mm + 4 x 10 mm + 4 x 3 mm,10.362"),
        "{csv}"
    );
}

/// EN 1090-2, 9.5.4: 25 mm of cover. NBS 440: no single central pack. What is not given is asked for.
#[test]
fn packs_that_are_few_thin_or_unknown_are_asked_about_and_hold_nothing() {
    let with = |packs: &str| {
        let setting = format!("bed = \"30\"\nseat_on = \"packs\"\npacks = {{ {packs} }}\n");
        let answer = json_of(&metric_job(&[("A1", 99_970), ("A2", 99_970)], &setting), "check");
        assert_eq!(answer["columns"][0]["hold"], json!([]));
        asked(&answer).into_iter().map(|(rule, _)| rule).collect::<Vec<_>>()
    };
    let size = "size = [\"100\", \"100\"]";
    assert_eq!(with(&format!("{size}, count = 4, left_in = true, cover = 25")), Vec::<String>::new());
    assert_eq!(
        with(&format!("{size}, count = 4, left_in = true, cover = \"24.999999\"")),
        ["packs-cover-thin"]
    );
    assert_eq!(with(&format!("{size}, count = 1, left_in = true, cover = 25")), ["packs-not-around"]);
    assert_eq!(with(&format!("{size}, count = 4, left_in = false")), Vec::<String>::new(), "a note");
    assert_eq!(with("size = [\"80\", \"100\"], count = 4, left_in = true, cover = 25"), ["pack-too-narrow"]);
    // 2 x 25 of cover and two packs of 160 leave 30 between them, and a pack is 160 wide
    let large = "size = [\"160\", \"160\"], count = 4, left_in = true, cover = 25";
    assert_eq!(with(large), ["packs-do-not-fit"]);
    assert_eq!(with(""), ["packs-not-around", "packs-do-not-fit", "packs-cover-thin"]);
}

const PLATE: &str = "bed = \"1-1/2\"\nseat_on = \"plate\"\nsetting_plate = { thickness = \"1/4\", size = [\"14\", \"14\"] }\n";

/// Beds of 1-1/2", 1-1/4" and 1-3/16" less a setting plate of 1/4": 1-1/4", 1" and 15/16" of grout, 1" is the least. What stands
/// on the rods does not change: the same job on nuts has the same rods.
#[test]
fn a_setting_plate_is_a_part_of_the_bed_and_of_nothing_else() {
    let pads = [PADS[0], PADS[1], ("A3", "99'-10 13/16\"", "3-3/4")];
    let answer = json_of(&inch_job(&pads, PLATE), "check");
    assert_eq!(asked(&answer), [("setting-plate-bed-thin".to_owned(), "ask".to_owned())]);
    let told = item(&answer["findings"], "rule", "setting-plate-bed-thin");
    assert_eq!((&told["columns"], &told["actual_nm"]), (&json!(["A3"]), &json!(15 * 1_587_500)));
    let on_nuts = json_of(&inch_job(&pads, NUTS), "check");
    for (plate, nuts) in
        answer["columns"].as_array().unwrap().iter().zip(on_nuts["columns"].as_array().unwrap())
    {
        assert_eq!(plate["needs_projection_nm"], nuts["needs_projection_nm"]);
        assert_eq!(plate["rods"][0]["beyond_nm"], nuts["rods"][0]["beyond_nm"]);
    }
}

/// Pads 1/4" apart, and 3/16" is accepted: A2 takes at least 1/8" of shims, which a plate drawn on the pad has not.
#[test]
fn shims_under_a_plate_that_is_drawn_on_the_pad_are_asked_about() {
    let pads = [("A1", "100'", "4"), ("A2", "99'-11 3/4\"", "4-1/4")];
    let rules = |setting: &str| {
        let answer = json_of(&inch_job(&pads, setting), "check");
        assert_eq!(item(&answer["columns"], "mark", "A2")["action"], json!("shim"));
        asked(&answer).into_iter().map(|(rule, _)| rule).collect::<Vec<_>>()
    };
    assert_eq!(rules("seat_on = \"pad\""), ["shims-not-drawn"]);
    assert_eq!(rules("seat_on = \"shims\""), Vec::<String>::new());
    assert_eq!(rules(""), Vec::<String>::new());
}

/// What is said of a base changes no plan and no rod: without it, the answer is the same but for what was said.
#[test]
fn what_a_plate_is_set_on_changes_no_plan_and_no_rod() {
    let bare = json_of(&inch_job(&PADS, "bed = \"1-1/2\"\n"), "check");
    for setting in [NUTS, PLATE] {
        let mut said = json_of(&inch_job(&PADS, setting), "check");
        for column in said["columns"].as_array_mut().unwrap() {
            let column = column.as_object_mut().unwrap();
            for key in ["seat_on", "levelling", "levelling_nuts", "packs"] {
                column.remove(key);
            }
            for rod in column["rods"].as_array_mut().unwrap() {
                rod.as_object_mut().unwrap().remove("levelling_thread_left_nm");
            }
        }
        for key in ["columns", "differences", "totals", "optimum", "compare"] {
            assert_eq!(said[key], bare[key], "{key}");
        }
    }
}

/// Every screen of a small job of every way, as it was looked at.
#[test]
fn screens_of_every_way_stand_as_they_were_looked_at() {
    let short = inch_job(&PADS, NUTS);
    short.replace("rods.csv", "A1,,4,4", "A1,,4,3-1/2");
    short.replace("rods.csv", "A2,,3-3/4,4", "A2,,3-3/4,");
    let ways = [
        ("nuts", short),
        ("packs", metric_job(&[("A1", 99_967), ("A2", 99_956)], PACKS)),
        ("plate", inch_job(&PADS, PLATE)),
        ("pad", inch_job(&[("A1", "100'", "4"), ("A2", "99'-11 3/4\"", "4-1/4")], "seat_on = \"pad\"")),
        ("shims", inch_job(&[("A1", "100'", "4"), ("A2", "99'-11 3/4\"", "4-1/4")], "seat_on = \"shims\"")),
    ];
    for (name, job) in ways {
        for (command, more) in [
            ("check", vec![]),
            ("explain", vec!["A2"]),
            ("hardware", vec![]),
            ("ask", vec!["--column", "A2"]),
        ] {
            let ran = job.run(command, &more);
            assert!(ran.status <= 1, "{}", ran.err);
            for line in ran.out.lines() {
                assert!(line.chars().count() <= 80, "{line}");
            }
            insta::assert_snapshot!(format!("{name}_{command}"), ran.out);
        }
    }
}

/// What stands commented in the starter jobs is read as it stands there.
#[test]
fn the_lines_of_the_starter_jobs_are_read_once_they_are_taken_in() {
    let folder = tempfile::tempdir().unwrap();
    for (units, taken, seat_on) in [("in", "levelling", "nuts"), ("mm", "packs", "packs")] {
        assert_eq!(tool::rodreach_in(folder.path(), &["new", units, "--units", units]).status, 0);
        let path = folder.path().join(units).join("job.toml");
        let mut toml = std::fs::read_to_string(&path).unwrap();
        for key in ["bed     =", "seat_on =", &format!("{taken} =")] {
            let line = format!("\n# {key}");
            assert!(toml.contains(&line), "{key}");
            toml = toml.replace(&line, &format!("\n{key}"));
        }
        std::fs::write(&path, toml).unwrap();
        let ran = tool::rodreach_in(folder.path(), &["check", units, "--format", "json"]);
        assert_eq!(ran.status, 1, "{}", ran.err);
        assert_eq!(ran.json()["columns"][0]["seat_on"], json!(seat_on));
    }
}

/// What a setting comes to on the page: nut and washer 47/64 + 1/4" = 63/64", of a bed of 1-1/2" 33/64" is left under them, of
/// 1-1/4" 17/64"; packs of 30 mm are 20 + 10; a bed of 1-1/2" has 1-1/4" of grout under a setting plate of 1/4".
#[test]
fn the_report_draws_what_a_plate_is_set_on_and_says_what_is_left_of_its_bed() {
    let page = |job: &Job| {
        let ran = job.run("report", &[]);
        assert!(ran.status <= 1, "{}", ran.err);
        ran.out.replace("&quot;", "\"").replace("&#39;", "'")
    };
    let holds = |page: &str, wanted: &[&str]| {
        for words in wanted {
            assert!(page.contains(words), "no {words}");
        }
    };
    let nuts = page(&inch_job(&PADS, NUTS));
    holds(
        &nuts,
        &[
            ">washer under 1/4\"</text>",
            ">nut under 47/64\"</text>",
            "washer and nut under the plate 63/64\": 33/64\" left under them",
            "washer and nut under the plate 63/64\": 17/64\" left under them",
            "is the column only lightly loaded until its grout is hard",
        ],
    );
    let packs = page(&metric_job(&[("A1", 99_970), ("A2", 99_956)], PACKS));
    holds(
        &packs,
        &[
            ">packs 30 mm</text>",
            "4 packs of 20 mm + 10 mm",
            "no stack of the job's shims is so high; the nearest is 43 mm or 45 mm",
            "Drawn at the edges: where packs stand is for the drawings.",
        ],
    );
    let plate = page(&inch_job(&PADS, PLATE));
    holds(&plate, &[">setting plate 1/4\"</text>", "1-1/4\" of grout under the setting plate"]);
    let unknown = page(&inch_job(&PADS, &PLATE.replace("thickness = \"1/4\", ", "")));
    holds(&unknown, &["Not drawn, since its thickness is not known.", "its thickness is not given"]);
    assert!(!unknown.contains(">setting plate"));
    let bare = page(&inch_job(&PADS, "bed = \"1-1/2\"\n"));
    holds(
        &bare,
        &[
            "not given: the drawings say it",
            "not given, which is not 0",
            "specified not given; tested before steel not given",
        ],
    );
    for drawn in [">nut under", ">packs ", ">setting plate"] {
        assert!(!bare.contains(drawn), "{drawn}");
    }
}
