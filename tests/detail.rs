//! `rodreach detail` as a person runs it: figures by hand, what is unknown, what is pooled, what is refused.

mod tool;

use serde_json::Value;
use std::path::Path;
use tool::{Job, Ran, item, rodreach, rodreach_in};

const BARN: &str = "demo-data/measured/hay-barn";
const SHED: &str = "demo-data/measured/machine-shed";
const BAY: &str = "demo-data/measured/wash-bay";
const INCH: i64 = 25_400_000;

fn three(more: &[&str]) -> Ran {
    rodreach(&[&["detail", BARN, SHED, BAY], more].concat())
}

fn json(ran: &Ran) -> Value {
    assert!(ran.status < 2, "{}", ran.err);
    ran.json()
}

/// A job of bases alone, whose limits say everything.
const NEXT: &str = "[job]\nname = \"Next job (invented)\"\nunits = \"in\"\nlimits = \"low-rise\"\n\n[limits.pad]\n\
    top = [\"-1/2\", \"1/2\"]\n\n[measure]\nrods_plus_minus = \"1/16\"\n\n[[base]]\nmark = \"B1\"\n\
    plate = { size = [\"10\", \"14\"], thickness = \"1/2\", holes = \"15/16\" }\n\
    rods = { diameter = \"3/4\", count = 4, projection = \"2-1/2\", thread = \"4\" }\nwashers = [\"wide\"]\n\
    nuts = [\"heavy-hex\"]\n\n[shims]\ncatalog = \"plate\"\n";

fn next(changed: &[(&str, &str)]) -> Job {
    let job = Job::of(&[("job.toml", NEXT)]);
    for (old, new) in changed {
        job.replace("job.toml", old, new);
    }
    job
}

/// ASTM A6 plate 0.53 in, washer 0.177 in, heavy hex nut 0.758 in, all at their most; rod 1/2 in low (AISC 303), plate 1/2 in high,
/// two shims 0.03 in too thick each (no height to 1/2 in takes three), tape 1/16 in: 2.5875 in, so 2-3/4. With the rod 1/2 in high, the plate 1/2 in low, plate 0.49
/// and washer 0.122 at their least, 0.1 in clear and the tape the thread is 3.3005 in, so 3-1/2.
#[test]
fn the_specification_of_the_demo_base_is_the_one_by_hand() {
    let ran = three(&["--format", "json"]);
    assert_eq!(ran.status, 1, "2-1/2 in is too little: {}", ran.err);
    let answer = json(&ran);
    let base = &answer["bases"][0];
    assert_eq!(base["parts_nm"], INCH * 1_465 / 1_000);
    assert_eq!(base["at_design_nm"], INCH * 1_965 / 1_000);
    assert_eq!(base["worst_nm"], INCH * 25_875 / 10_000);
    let specified = &base["specify"];
    assert_eq!(specified["projection_nm"], INCH * 11 / 4);
    assert_eq!(specified["thread_least_nm"], INCH * 33_005 / 10_000);
    assert_eq!(specified["thread_nm"], INCH * 7 / 2);
    assert_eq!(specified["thread_advised_nm"], INCH * 13 / 2, "6.3005 in on the step");
    // 2-3/4 - 1/2 - 1.465 - 1/16 above, and 2-3/4 + 1/2 - 0.612 + 0.1 + 1/16 - 3-1/2 below
    assert_eq!(specified["allowed_nm"][1], INCH * 7_225 / 10_000);
    assert_eq!(specified["allowed_nm"][0], -(INCH * 6_995 / 10_000));
    let member = &base["members"][0];
    assert_eq!(
        (&member["projection_meets"], &member["thread_meets"]),
        (&Value::Bool(false), &Value::Bool(true))
    );
}

/// BM1 at 99 ft read 5.000: the line of sight is at 104 ft. W1 read 4.020 is at 99.980 ft, 0.02 ft or 6.096 mm low. Its rod 1 stands
/// 2-11/16 in, 3/16 in or 4.7625 mm more than drawn, so its top is 1.3335 mm low.
#[test]
fn pads_and_tops_of_the_wash_bay_are_those_by_hand() {
    let answer = json(&rodreach(&["detail", BAY, "--format", "json"]));
    let measured = &answer["bases"][0]["measured"];
    let column = item(&measured["columns"], "mark", "W1");
    assert_eq!(column["pad_off_nm"], -6_096_000);
    let rod = item(&column["rods"], "rod", "1");
    assert_eq!(
        (&rod["off_drawing_nm"], &rod["top_off_nm"]),
        (&Value::from(4_762_500), &Value::from(-1_333_500))
    );
    // a shim of 1/8 in, at most 0.155: 0.155 + 1.465 + 1/16 - 3/16, drawn for this rod alone
    assert_eq!(column["raise_nm"], INCH / 8);
    assert_eq!(rod["needs_nm"], INCH * 155 / 1_000 + INCH * 1_465 / 1_000 + INCH / 16 - INCH * 3 / 16);
    assert_eq!(measured["pads"]["count"], 6);
    assert_eq!(measured["tops"]["count"], 24);
    assert_eq!((&measured["pads_outside"], &measured["tops_outside"]), (&Value::from(0), &Value::from(0)));
    // the seed store: A2 read 1.223 from a line of sight at 13.5 m is 7 mm above 12.27 m, where 5 are allowed; one rod of B3 is 33 mm
    // low, where 5 are
    let answer = json(&rodreach(&["detail", "demo-data/seed-store", "--format", "json"]));
    let measured = &answer["bases"][0]["measured"];
    assert_eq!(item(&measured["columns"], "mark", "A2")["pad_off_nm"], 7_000_000);
    assert_eq!(measured["tops"]["least_nm"], -33_000_000);
    assert_eq!((&measured["pads_outside"], &measured["tops_outside"]), (&Value::from(1), &Value::from(1)));
}

#[test]
fn relative_jobs_compare_no_pad_with_its_design_and_say_so() {
    let screen = rodreach(&["detail", BARN]).out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(screen.contains("no pad and no top can be held against its design"), "{screen}");
    let answer = json(&rodreach(&["detail", BARN, "--format", "json"]));
    let measured = &answer["bases"][0]["measured"];
    assert_eq!(
        (&measured["pads"], &measured["tops"], &measured["pads_between"]),
        (&Value::Null, &Value::Null, &Value::Null)
    );
    assert!(measured["jobs"][0]["pad_spread_nm"].as_i64().unwrap() > 0);
    assert_eq!(measured["projections"]["count"], 20);
}

#[test]
fn a_column_that_is_not_wholly_measured_counts_as_needing_more_than_anything() {
    let answer = json(&three(&["--format", "json"]));
    let measured = &answer["bases"][0]["measured"];
    let column = item(&measured["columns"], "mark", "6");
    assert_eq!((&column["missed"], &column["needs_nm"]), (&Value::from("partly-measured"), &Value::Null));
    assert_eq!(
        (&measured["sample"], &measured["open"], &measured["not_measured"]),
        (&Value::from(23), &Value::from(1), &Value::from(1))
    );
    assert_eq!(measured["clears_all_nm"], Value::Null);
    assert_eq!(measured["clears_measured_nm"], INCH * 9 / 4);
    // 95 % of 23 are 22, which are known; 99 % are all
    assert_eq!(measured["clears_share_nm"], INCH * 9 / 4);
    let all = json(&three(&["--format", "json", "--share", "99"]));
    assert_eq!(all["bases"][0]["measured"]["clears_share_nm"], Value::Null);
}

#[test]
fn a_sample_that_is_too_small_claims_nothing_and_says_how_many_it_takes() {
    let ran = three(&[]);
    let screen = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(screen.contains(
        "THE SAMPLE IS TOO SMALL to claim 95 % at 95 % confidence: that takes 59 columns, these are 23"
    ));
    let answer = json(&three(&["--format", "json"]));
    let claim = &answer["bases"][0]["measured"]["claim"];
    assert_eq!(
        (&claim["rank"], &claim["projection_nm"], &claim["sample_needed"]),
        (&Value::Null, &Value::Null, &Value::from(59))
    );
    assert_eq!(answer["bases"][0]["measured"]["projections_between"]["sample_needed"], 93);
    // 22 columns claim 90 % at 90 %: with one open column of 23 the 23rd is not known
    let answer = json(&three(&["--format", "json", "--share", "90", "--confidence", "90"]));
    let claim = &answer["bases"][0]["measured"]["claim"];
    assert_eq!((&claim["rank"], &claim["projection_nm"]), (&Value::from(23), &Value::Null));
    let answer = json(&three(&["--format", "json", "--share", "80", "--confidence", "90"]));
    let claim = &answer["bases"][0]["measured"]["claim"];
    assert!(claim["rank"].as_u64().unwrap() < 23 && claim["projection_nm"].is_i64(), "{claim}");
}

/// The walk of the machine shed with only its low rods: a longer rod on the drawing never makes a rod worse while no
/// thread is known, and every rod that was measured is full from what clears it on.
#[test]
fn more_projection_makes_no_rod_worse_while_no_thread_is_measured() {
    let answer = json(&rodreach(&["detail", BARN, "--format", "json", "--step", "1/16"]));
    let measured = &answer["bases"][0]["measured"];
    let steps = measured["candidates"].as_array().unwrap();
    let full: Vec<u64> = steps.iter().map(|step| step["rods"]["full"].as_u64().unwrap()).collect();
    assert!(full.is_sorted() && full[0] < 20 && full[full.len() - 1] == 20, "{full:?}");
    let clears = measured["clears_all_nm"].as_i64().unwrap();
    for step in steps {
        let all = step["rods"]["full"] == 20;
        assert_eq!(all, step["projection_nm"].as_i64().unwrap() >= clears, "{step}");
        assert_eq!(step["cleared"] == 10, all, "{step}");
        assert_eq!(step["rods"]["thread_unknown"], 20);
        assert_eq!(step["thread_nm"], Value::Null, "no thread was measured");
    }
}

#[test]
fn jobs_with_the_same_parts_and_limits_are_pooled_and_others_are_not() {
    assert_eq!(json(&three(&["--format", "json"]))["bases"][0]["members"].as_array().unwrap().len(), 3);
    let kinds = |changed: &[(&str, &str)]| {
        let other = next(changed);
        let path = other.path("job.toml");
        json(&rodreach(&["detail", BARN, path.to_str().unwrap(), "--format", "json"]))["bases"]
            .as_array()
            .unwrap()
            .len()
    };
    assert_eq!(kinds(&[]), 1);
    assert_eq!(
        kinds(&[("projection = \"2-1/2\"", "projection = \"3\"")]),
        1,
        "what is drawn does not part them"
    );
    assert_eq!(kinds(&[("rods_plus_minus = \"1/16\"", "rods_plus_minus = \"1/8\"")]), 1, "nor does the tape");
    assert_eq!(kinds(&[("thickness = \"1/2\"", "thickness = \"5/8\"")]), 2);
    assert_eq!(kinds(&[("[\"-1/2\", \"1/2\"]", "[\"-1/2\", \"3/8\"]")]), 2);
    assert_eq!(kinds(&[("nuts = [\"heavy-hex\"]", "nuts = [\"hex\"]")]), 2);
    assert_eq!(kinds(&[("diameter = \"3/4\"", "diameter = \"5/8\"")]), 2);
    // the same lengths written in a metric job
    let metric = [
        ("units = \"in\"", "units = \"mm\""),
        ("top = [\"-1/2\", \"1/2\"]", "top = [\"-12.7\", \"12.7\"]"),
        (
            "[\"10\", \"14\"], thickness = \"1/2\", holes = \"15/16\"",
            "[\"254\", \"355.6\"], thickness = \"12.7\"",
        ),
        (
            "diameter = \"3/4\", count = 4, projection = \"2-1/2\", thread = \"4\"",
            "diameter = \"3/4 in\", count = 4",
        ),
        ("rods_plus_minus = \"1/16\"", "rods_plus_minus = \"1.5\""),
    ];
    assert_eq!(kinds(&metric), 1);
}

#[test]
fn of_pooled_jobs_the_worst_tape_counts() {
    let other = next(&[("rods_plus_minus = \"1/16\"", "rods_plus_minus = \"1/8\"")]);
    let path = other.path("job.toml");
    let answer = json(&rodreach(&["detail", BARN, path.to_str().unwrap(), "--format", "json"]));
    assert_eq!(answer["bases"][0]["worst_nm"], INCH * 265 / 100, "2.5875 in and 1/16 more");
}

#[test]
fn a_job_of_bases_alone_is_enough_before_the_concrete_is_poured() {
    let job = next(&[("projection = \"2-1/2\"", "projection = \"2-3/4\"")]);
    let ran = job.run("detail", &[]);
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
    assert!(!ran.out.contains("MEASURED"), "{}", ran.out);
    assert!(
        ran.out.contains("ANCHOR RODS 3/4: TOP OF ROD 2-3/4\" ABOVE DESIGN TOP OF CONCRETE"),
        "{}",
        ran.out
    );
    let check = job.run("check", &[]);
    assert_eq!(check.status, 2);
    assert!(check.err.contains("no columns and no level notes"), "{}", check.err);
}

#[test]
fn exit_status_tells_whether_the_drawing_meets_the_worst_case() {
    for (projection, thread, status) in
        [("2-5/8", "4", 0), ("2.587", "4", 1), ("2.5875", "4", 0), ("3", "3-1/2", 1), ("3", "3.5505", 0)]
    {
        let job = next(&[
            ("projection = \"2-1/2\"", &format!("projection = \"{projection}\"")),
            ("thread = \"4\"", &format!("thread = \"{thread}\"")),
        ]);
        let ran = job.run("detail", &[]);
        assert_eq!(ran.status, status, "{projection}, {thread}: {}{}", ran.out, ran.err);
    }
    let without = next(&[(", projection = \"2-1/2\", thread = \"4\"", "")]);
    assert_eq!(without.run("detail", &[]).status, 0, "nothing is drawn yet");
}

#[test]
fn without_a_limit_of_the_concrete_that_is_said_and_never_passed() {
    let job = next(&[
        ("projection = \"2-1/2\"", "projection = \"4\""),
        ("[limits.pad]\ntop = [\"-1/2\", \"1/2\"]\n", ""),
    ]);
    let ran = job.run("detail", &[]);
    assert_eq!(ran.status, 1, "{}", ran.out);
    assert!(ran.out.contains("NOT KNOWN") && ran.out.contains("TOP OF CONCRETE AS CAST"), "{}", ran.out);
    let answer = json(&job.run("detail", &["--format", "json"]));
    let base = &answer["bases"][0];
    assert_eq!((&base["from"], &base["unknown"][0]), (&Value::from("pad"), &Value::from("[limits.pad] top")));
    // raised by the highest stack without asking, 1/2 in; lowered by grinding, 1/8 in
    assert_eq!(base["plane"]["high"]["height_nm"], INCH / 2);
    assert_eq!(base["plane"]["low"]["height_nm"], -INCH / 8);
    assert_eq!(base["worst_nm"], INCH * 25_875 / 10_000);
}

#[test]
fn without_a_limit_that_it_hangs_on_nothing_is_specified() {
    for (table, said) in [
        ("[limits.rods]\noff = true\n", "set [limits.rods] top"),
        (
            "[limits.shim]\noff = true\n[limits.pad]\noff = true\n",
            "set [limits.pad] top, or [limits.shim] most",
        ),
    ] {
        let job = next(&[
            ("[limits.pad]\ntop = [\"-1/2\", \"1/2\"]\n", table),
            ("catalog = \"plate\"", "catalog = \"plate\"\npieces = 3"),
        ]);
        let ran = job.run("detail", &[]);
        assert_eq!(ran.status, 1, "{}", ran.err);
        assert!(
            ran.out.contains("NO SPECIFICATION") && !ran.out.contains("NOTE FOR THE DRAWING"),
            "{}",
            ran.out
        );
        assert!(ran.out.split_whitespace().collect::<Vec<_>>().join(" ").contains(said), "{}", ran.out);
        let base = &json(&job.run("detail", &["--format", "json"]))["bases"][0];
        assert_eq!(
            (&base["specify"], &base["note"], &base["worst_nm"]),
            (&Value::Null, &Value::Null, &Value::Null)
        );
    }
}

#[test]
fn how_figures_vary_is_asked_for_and_shown() {
    let convolved = |more: &[&str]| {
        let job = next(&[]);
        let answer = json(&job.run("detail", &[&["--format", "json"], more].concat()));
        answer["bases"][0]["likely"]["convolved_nm"].as_i64().unwrap()
    };
    let usual = convolved(&[]);
    assert!(convolved(&["--probability", "90"]) < usual);
    assert!(convolved(&["--probability", "99.99"]) > usual);
    assert!(convolved(&["--bearing", "uniform"]) < usual);
    let worst = convolved(&["--rod-tops", "worst", "--parts", "worst"]);
    assert_eq!(worst, INCH * 25_875 / 10_000);
    assert!(usual < worst);
    let screen = next(&[]).run("detail", &["--rod-tops", "normal", "--bearing", "uniform"]).out;
    let screen = screen.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(screen.contains("At 99 % rod tops are taken as normal"), "{screen}");
    assert!(screen.contains("the bearing plane uniform"), "{screen}");
}

fn refused(folder: &Path, args: &[&str]) -> String {
    let ran = rodreach_in(folder, args);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{args:?}: {}", ran.err);
    ran.err
}

#[test]
fn what_is_asked_for_wrongly_is_told_in_one_run() {
    let job = next(&[]);
    let folder = job.path("");
    let told = refused(
        &folder,
        &["detail", ".", "--step", "0", "--probability", "49", "--share", "100", "--confidence", "sure"],
    );
    for wanted in ["--step `0`", "--probability `49`", "--share `100`", "--confidence `sure`", "4 faults"] {
        assert!(told.contains(wanted), "{wanted} in {told}");
    }
    let told = refused(&folder, &["detail", ".", "--step", "a quarter"]);
    assert!(told.contains("--step `a quarter`"), "{told}");
    assert!(refused(&folder, &["detail", ".", "job.toml"]).contains("stands here twice"));
    assert!(refused(&folder, &["detail"]).contains("JOB"));
    assert!(
        refused(&folder, &["detail", ".", "--format", "html"])
            .contains("only ask, report and sheet write html")
    );
}

#[test]
fn the_faults_of_all_jobs_are_told_in_one_run() {
    let one = next(&[("heavy-hex", "heavy-hexx")]);
    let other = next(&[("\"wide\"", "\"wider\"")]);
    let (a, b) = (one.path("job.toml"), other.path("job.toml"));
    let told = refused(Path::new("."), &["detail", a.to_str().unwrap(), b.to_str().unwrap()]);
    assert!(told.contains("heavy-hexx") && told.contains("wider"), "{told}");
    let none = Job::of(&[("job.toml", "[job]\nname = \"x\"\nunits = \"in\"\nlimits = \"low-rise\"\n")]);
    assert!(none.run("detail", &[]).err.contains("no columns and no level notes"));
    let no_base = Job::of(&[
        (
            "job.toml",
            "[job]\nname = \"x\"\nunits = \"in\"\nlimits = \"low-rise\"\n[measure]\nlevels = \"l.csv\"\nlevels_units = \"ft\"\n",
        ),
        ("l.csv", "point,reading\nP,1\nQ,2\n"),
    ]);
    let ran = no_base.run("detail", &[]);
    assert_eq!(ran.status, 2, "{}", ran.out);
    assert!(ran.err.contains("no [[base]]"), "{}", ran.err);
}

#[test]
fn the_csv_has_a_row_a_kind_and_the_markdown_its_note() {
    let sheet = three(&["--format", "csv"]).out;
    let mut reader = csv::Reader::from_reader(sheet.as_bytes());
    let heads = reader.headers().unwrap().clone();
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 1, "{sheet}");
    let cell = |head: &str| rows[0][heads.iter().position(|it| it == head).unwrap()].to_owned();
    assert_eq!((cell("projection_nm").as_str(), cell("drawings_meet").as_str()), ("69850000", "no"));
    assert_eq!((cell("columns").as_str(), cell("claimed_nm").as_str()), ("23", ""));
    let md = three(&["--format", "md"]).out;
    assert!(md.contains("## NOTE FOR THE DRAWING") && md.contains("| plate |"), "{md}");
}

#[test]
fn every_figure_of_the_sum_has_its_source() {
    let answer = json(&three(&["--format", "json"]));
    for term in answer["bases"][0]["terms"].as_array().unwrap() {
        assert!(!term["source"]["text"].as_str().unwrap().is_empty(), "{term}");
        assert!(term["least_nm"].as_i64().unwrap() <= term["most_nm"].as_i64().unwrap(), "{term}");
    }
    assert!(answer["bases"][0]["thread_advice"]["text"].as_str().unwrap().contains("Design Guide 1"));
}

/// A base on levelling nuts: nut 0.758 and washer 0.28 in at their most go under the plate, 1.038 in. On concrete 1/2 in high
/// they take more than the thinnest bed, so the plate may come to 1.538 in, and the projection is 1-1/2 + 0.53 + 0.177 + 0.758 +
/// 1/2 + 0.038 + 1/16 = 3.5655 in, so 3-3/4. With the rod 1/2 in high and the plate at 1-7/16 in, thread must reach 1.038 in below
/// the plate, a pitch of 0.1 in and the tape more: 3.75 + 0.5 - 1.4375 + 1.038 + 0.1 + 0.0625 = 4.013 in, so 4-1/4.
#[test]
fn the_thread_of_a_base_on_levelling_nuts_reaches_below_them() {
    let nuts = "nuts = [\"heavy-hex\"]\nbed = \"1-1/2\"\nseat_on = \"nuts\"\nlevelling = { nut = \"heavy-hex\", washer = \"plate\" }";
    let job = next(&[("nuts = [\"heavy-hex\"]", nuts), ("thread = \"4\"", "thread = \"4-1/4\"")]);
    let ran = job.run("detail", &["--format", "json"]);
    let answer = json(&ran);
    let base = &answer["bases"][0];
    assert_eq!(
        base["levelling_nm"],
        serde_json::json!([INCH * 95 / 100, INCH * 63 / 64, INCH * 1_038 / 1_000])
    );
    assert_eq!(base["worst_nm"], INCH * 35_655 / 10_000);
    let specified = &base["specify"];
    assert_eq!(specified["projection_nm"], INCH * 15 / 4);
    assert_eq!(specified["thread_least_nm"], INCH * 4_013 / 1_000);
    assert_eq!(specified["thread_nm"], INCH * 17 / 4);
    assert_eq!(specified["allowed_nm"][0], INCH * 12_005 / 10_000);
    let note = base["note"][1].as_str().unwrap();
    assert_eq!(note, "FULL THREAD AT LEAST 4-1/4\" DOWN FROM TOP OF ROD, TO BELOW THE LEVELLING NUT.");
    // 2-1/2 in is drawn: 1-1/4 in less asks for 2.763 in of thread, which 4-1/4 has and 2-3/4 has not
    let meets = |job: &Job| {
        json(&job.run("detail", &["--format", "json"]))["bases"][0]["members"][0]["thread_meets"].clone()
    };
    assert_eq!(meets(&job), true);
    job.replace("job.toml", "thread = \"4-1/4\"", "thread = \"2-3/4\"");
    assert_eq!(meets(&job), false);
    // concrete 2 in low under the thickest bed of 2 in: the plate may stand at its design top of concrete
    job.replace("job.toml", "top = [\"-1/2\", \"1/2\"]", "top = [\"-2\", \"1/2\"]");
    let base = &json(&job.run("detail", &["--format", "json"]))["bases"][0];
    assert_eq!(base["specify"]["thread_least_nm"], INCH * 54_505 / 10_000);
}

/// What is said for a drawing, drawn and measured so, is what `check` takes: at the least thread the levelling nut goes on, and a
/// nanometre less is asked about.
#[test]
fn the_thread_specified_for_levelling_nuts_is_the_one_check_asks_for() {
    let toml = "[job]\nname = \"There and back (invented)\"\nunits = \"in\"\nlimits = \"low-rise\"\nseat = \"100'\"\n\n[limits.pad]\n\
        top = [\"-1/2\", \"1/2\"]\n\n[measure]\nelevations = \"pads.csv\"\nrods = \"rods.csv\"\nrods_plus_minus = \"1/16\"\n\n\
        [[base]]\nmark = \"B1\"\nbed = \"1-1/2\"\nplate = { size = [\"10\", \"14\"], thickness = \"1/2\", holes = \"15/16\" }\n\
        rods = { diameter = \"3/4\", count = 4, projection = \"3-3/4\", thread = \"4-1/4\" }\nwashers = [\"wide\"]\n\
        nuts = [\"heavy-hex\"]\nseat_on = \"nuts\"\nlevelling = { nut = \"heavy-hex\", washer = \"plate\" }\n\n\
        [[column]]\nmark = \"A1\"\nbase = \"B1\"\n\n[shims]\ncatalog = \"plate\"\n";
    // concrete at its design; the rod 1/2 in high; the plate on the design bed, 1/16 in above the lowest the plane has
    let told = |thread: i64| {
        let job = Job::of(&[
            ("job.toml", toml),
            ("pads.csv", "point,elevation,plus_minus\nA1,99'-10 1/2\",0 in\n"),
            (
                "rods.csv",
                &format!(
                    "column,rod,projection,thread\nA1,,4-1/4,{}.{:06} mm\n",
                    thread / 1_000_000,
                    thread % 1_000_000
                ),
            ),
        ]);
        let check = job.run("check", &["--format", "json"]).json();
        assert_eq!(check["columns"][0]["raise_nm"], INCH * 3 / 2, "{check}");
        let off = check["findings"]
            .as_array()
            .unwrap()
            .iter()
            .filter(|it| it["rule"] == "levelling-nut-off-thread")
            .count();
        let detail = json(&job.run("detail", &["--format", "json"]));
        (off, detail["bases"][0]["specify"]["thread_least_nm"].as_i64().unwrap())
    };
    let least = INCH * 4_013 / 1_000 - INCH / 16;
    assert_eq!(told(least), (0, INCH * 4_013 / 1_000));
    assert_eq!(told(least - 1).0, 4, "once a rod");
}
