//! Loads, piers and the strength of concrete through whole jobs: what is asked, what is told, and what is not.

mod tool;

use serde_json::Value;
use tool::clean::{bedded_job, elevations_job, walk_job};
use tool::{Job, Ran};

/// The clean inch job with more in its base and behind it.
fn inch(base: &str, concrete: &str) -> Job {
    let job = walk_job();
    job.replace("job.toml", "nuts = [\"heavy-hex\"]", &format!("nuts = [\"heavy-hex\"]\n{base}"));
    job.write("job.toml", job.read("job.toml") + concrete);
    job
}

/// The metric job on designed beds with more in its base and behind it.
fn metric(base: &str, concrete: &str) -> Job {
    let job = bedded_job();
    job.replace("job.toml", "nuts = [\"iso-4032\"]", &format!("nuts = [\"iso-4032\"]\n{base}"));
    job.write("job.toml", job.read("job.toml") + concrete);
    job
}

/// What a rule says in `check`: the level and the sentence of each finding.
fn told(job: &Job, rule: &str) -> Vec<(String, String)> {
    let answer = job.run("check", &["--format", "json"]).json();
    let of_rule = answer["findings"].as_array().unwrap().iter().filter(|it| it["rule"] == rule);
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    of_rule.map(|it| (text(&it["level"]), text(&it["text"]))).collect()
}

fn flat(ran: &Ran) -> String {
    ran.out.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// 29 CFR 1926.752(a)(1) and (b): 75 percent of 3000 psi are 2250 psi.
#[test]
fn concrete_of_2249_psi_of_3000_stops_every_column_and_2250_lets_them_be_set() {
    let weak = inch("", "\n[concrete]\nstrength = \"3000 psi\"\ntested = \"2249 psi\"\n");
    let check = weak.run("check", &["--format", "json"]);
    assert_eq!(check.status, 1);
    for column in check.json()["columns"].as_array().unwrap() {
        assert_eq!((&column["may_set"], &column["hold"]), (&false.into(), &vec!["concrete-strength"].into()));
    }
    let stops = told(&weak, "concrete-not-strong-enough");
    assert_eq!(stops.len(), 1, "asked once, of the whole job");
    assert_eq!(stops[0].0, "stop");
    assert!(
        stops[0].1.starts_with("concrete tested to 2249 psi, under 75 percent of 3000 psi; do not erect")
    );
    let ask = weak.run("ask", &["--format", "json"]).json();
    assert!(ask["pages"].as_array().unwrap().is_empty(), "on the page of the whole job");
    assert!(ask["whole_job"]["question"].as_str().unwrap().contains("2249 psi"));

    let strong = inch("", "\n[concrete]\nstrength = \"3000 psi\"\ntested = \"2250 psi\"\n");
    assert!(told(&strong, "concrete-not-strong-enough").is_empty());
    assert_eq!(strong.run("check", &[]).status, 0);
}

#[test]
fn a_job_that_says_nothing_of_loads_has_no_section_of_bearing_and_no_finding() {
    let job = walk_job();
    assert!(told(&job, "concrete-overloaded").is_empty());
    let explain = job.run("explain", &["A1", "--format", "json"]).json();
    assert!(explain.get("bearing").is_none() && explain.get("shear").is_none(), "{explain}");
    assert!(!job.run("explain", &["A1"]).out.contains("BEARING ON THE CONCRETE"));
}

#[test]
fn a_load_that_is_not_given_is_noted_and_asked_and_never_0() {
    let job = inch("", "\n[concrete]\nstrength = \"3000 psi\"\n");
    let notes = told(&job, "concrete-overloaded");
    assert_eq!(notes.len(), 1);
    assert_eq!(notes[0].0, "note");
    assert!(notes[0].1.contains("not given, and never taken for 0"), "{notes:?}");
    let explain = flat(&job.run("explain", &["A1"]));
    for words in [
        "before grout 75 percent is taken, 2250 psi",
        "erection load not given, which is not 0: what is it?",
        "factored load not given, which is not 0: what is it?",
        "A2 = A1, since no pier is given",
    ] {
        assert!(explain.contains(words), "{words}: {explain}");
    }
    let json = job.run("explain", &["A1", "--format", "json"]).json();
    assert_eq!(json["bearing"]["stages"][0]["load_mN"], Value::Null);
    assert_eq!(json["bearing"]["stages"][0]["over_least"], Value::Null);
}

#[test]
fn a_load_without_the_strength_of_the_concrete_is_asked_about() {
    let job = inch("loads = { erection = \"12 kip\" }", "");
    let asked = told(&job, "concrete-overloaded");
    assert_eq!(asked.len(), 1);
    assert_eq!(
        asked[0],
        (
            "ask".to_owned(),
            "base B1: a load is given, and the strength of the concrete is not; ask the engineer".to_owned()
        )
    );
}

/// AISC Design Example J.7 (AISC 360-05, phi 0.60): a plate of 22 x 22 in on a pedestal of 24 x 24 in of 3 ksi bears 808
/// kip (807.8); 690 kip is within it. DG1 and ACI 318 with phi 0.65: 875.2 kip.
#[test]
fn the_published_plate_on_its_pedestal_bears_808_kip_in_a_whole_job_and_its_load_is_within_it() {
    let with = |load: &str| {
        let job = inch(
            &format!("pier = [24, 24]\nloads = {{ erection = \"0\", factored = \"{load}\" }}"),
            "\n[concrete]\nstrength = \"3 ksi\"\n",
        );
        job.replace("job.toml", "size = [\"10\", \"14\"]", "size = [\"22\", \"22\"]");
        job
    };
    let job = with("690 kip");
    assert!(told(&job, "concrete-overloaded").is_empty());
    let explain = flat(&job.run("explain", &["A1"]));
    for words in ["phi 0.60 ~807.8 kip", "phi 0.65 ~875.1 kip", "Omega 2.50 ~538.5 kip", "A1 of ~451 in2"] {
        assert!(explain.contains(words), "{words}: {explain}");
    }
    let json = job.run("explain", &["A1", "--format", "json"]).json();
    let finished = &json["bearing"]["stages"][1];
    assert_eq!((&finished["stage"], &finished["over_least"]), (&"finished".into(), &false.into()));
    // 807 840 lb are 3593.451 349 6 kN, down
    assert_eq!(finished["least_mN"], 3_593_451_349_i64);
    let asked = told(&with("808 kip"), "concrete-overloaded");
    assert_eq!(asked.len(), 1, "one a base");
    assert_eq!(
        asked[0].1,
        "base B1: factored load 808 kip: over the least published figure, ~807.8 kip; ask the engineer"
    );
}

/// A pack of 4 x 4 in on concrete of 3 ksi: 0.85 x 3 x 16 = 40.8 kip, phi 0.65 26.5 kip, 53.0 at most; the least, divided
/// by 2.50, 16.3 kip.
#[test]
fn packs_under_a_designed_bed_are_held_against_their_own_figure_before_the_grout() {
    let with = |load: &str| {
        let job = inch(
            &format!(
                "bed = \"1-1/2\"\nseat_on = \"packs\"\npacks = {{ size = [4, 4], count = 4 }}\nloads = {{ erection = \"{load}\" \
                 }}"
            ),
            "\n[concrete]\nstrength = \"3 ksi\"\ntested = \"3 ksi\"\n",
        );
        job.write("walk.csv", job.read("walk.csv").replace(",2-", ",4-"));
        job.replace("job.toml", "projection = \"2-1/2\"", "projection = \"4-1/2\"");
        job
    };
    let job = with("65.2 kip");
    let explain = flat(&job.run("explain", &["A1"]));
    for words in [
        "4 packs of 4\" x 4\", each by itself",
        "phi 0.65 ~26.5 kip",
        "that counts 81.6 kip",
        "65.2 kip, 16.3 kip on each if they share it equally: do they?",
    ] {
        assert!(explain.contains(words), "{words}: {explain}");
    }
    let over = |job: &Job| {
        let told = told(job, "concrete-overloaded");
        told.into_iter().filter(|(level, _)| level == "ask").count()
    };
    assert_eq!((over(&job), over(&with("65.4 kip"))), (0, 3));
    let json = job.run("explain", &["A1", "--format", "json"]).json();
    let before = &json["bearing"]["stages"][0];
    assert_eq!((&before["seat"], &before["bears"]["count"]), (&"packs".into(), &4.into()));
}

#[test]
fn a_plate_over_wet_grout_with_nothing_said_to_hold_it_is_asked_about_where_a_load_is_given() {
    let job =
        metric("loads = { erection = \"50 kN\", factored = \"0\" }", "\n[concrete]\nstrength = \"25 MPa\"\n");
    let asked = told(&job, "concrete-overloaded");
    assert_eq!(asked.len(), 4, "one a column: {asked:?}");
    assert_eq!(
        asked[0].1,
        "C1: erection load 50 kN, and it is not known what holds the plate until its grout is hard; ask the engineer"
    );
    assert!(flat(&job.run("explain", &["C1"])).contains("factored load none, the job says"));
}

/// A plate of 10 x 14 in of 3 ksi: 357 kip nominal by itself, phi 0.60 214.2 kip; on 20 x 28 in twice as much, 428.4 kip.
#[test]
fn what_is_taken_out_of_a_job_never_makes_its_concrete_stronger() {
    let with = |pier: &str, tested: &str| {
        let base = format!("{pier}loads = {{ erection = \"280 kip\", factored = \"428 kip\" }}");
        let job = inch(&base, &format!("\n[concrete]\nstrength = \"3 ksi\"\n{tested}"));
        let ran = job.run("check", &["--format", "json"]);
        let asked = told(&job, "concrete-overloaded").into_iter().map(|(_, text)| text).collect::<Vec<_>>();
        (ran.status, asked)
    };
    let (pier, tested) = ("pier = [20, 28]\n", "tested = \"3 ksi\"\n");
    assert_eq!(with(pier, tested), (0, Vec::new()), "285.6 kip by Omega 2.50, 428.4 by phi 0.60");
    let (status, without_pier) = with("", tested);
    assert_eq!((status, without_pier.len()), (1, 4), "one a base and one a column: {without_pier:?}");
    let (status, untested) = with(pier, "");
    assert_eq!((status, untested.len()), (1, 3), "only while steel is erected: {untested:?}");
}

/// 0.85 x 25 MPa x 300 x 400 mm = 2550 kN: phi 0.60 1530 kN.
#[test]
fn a_metric_plate_on_shims_is_held_against_the_same_formulas() {
    let with = |load: &str| {
        let job = elevations_job();
        let nuts = "nuts = [\"iso-4032\"]";
        let loads = format!("{nuts}\nloads = {{ erection = \"0\", factored = \"{load}\" }}");
        job.replace("job.toml", nuts, &loads);
        job.write("job.toml", job.read("job.toml") + "\n[concrete]\nstrength = \"25 N/mm2\"\n");
        told(&job, "concrete-overloaded")
    };
    assert!(with("1530 kN").is_empty());
    assert_eq!(
        with("1530.1 kN")[0].1,
        "base P1: factored load 1530.1 kN: over the least published figure, 1530 kN; ask the engineer"
    );
}

#[test]
fn rods_that_carry_no_shear_are_not_asked_about_and_rods_that_do_are() {
    let unknown = metric("", "");
    assert_eq!(told(&unknown, "rods-in-shear")[0].0, "note");
    let json = unknown.run("explain", &["C1", "--format", "json"]).json();
    assert_eq!((&json["shear"]["shear_mN"], &json["shear"]["bending"]), (&Value::Null, &Value::Null));
    assert_eq!(json["shear"]["on_grout"], true);

    let none = metric("loads = { shear = \"0\" }", "");
    assert!(told(&none, "rods-in-shear").is_empty());
    assert!(!none.run("explain", &["C1"]).out.contains("RODS IN SHEAR"));
    assert!(none.run("explain", &["C1", "--format", "json"]).json().get("shear").is_none());

    let some = metric("loads = { shear = \"20 kN\" }", "");
    let asked = told(&some, "rods-in-shear");
    assert_eq!((asked.len(), asked[0].0.as_str()), (4, "ask"));
    assert!(
        asked[0].1.starts_with("C1: its rods carry 20 kN of shear, and what is under the plate"),
        "{asked:?}"
    );
    let explain = flat(&some.run("explain", &["C1"]));
    // 20 / 0.80 = 25, and on 31 mm 20 / 0.69 = 28.985 507 2..., up
    for words in [
        "By the job these 4 rods carry 20 kN of shear together",
        "Then 20 kN asks 25 kN of them",
        "Then 20 kN asks ~29 kN of them",
    ] {
        assert!(explain.contains(words), "{words}: {explain}");
    }
    let ask = some.run("ask", &["--format", "json"]).json();
    let page = &ask["pages"][0];
    assert_eq!(page["shear"]["shear_mN"], 20_000_000);
    assert_eq!(
        (&page["shear"]["left"][0]["percent"], &page["shear"]["left"][0]["asks_mN"]),
        (&80.into(), &25_000_000.into())
    );
    assert_eq!(page["shear"]["left"][1]["asks_mN"], 28_985_508);
    assert_eq!(page["drawing"]["loads"]["shear_mN"], 20_000_000);
    assert_eq!(page["drawing"]["loads"]["tension_mN"], Value::Null);
    let screen = flat(&some.run("ask", &[]));
    assert!(
        screen.contains("loads erection not given, factored not given, shear 20 kN, tension not given"),
        "{screen}"
    );
}

/// EN 1992-4, (7.37), the published example: M24 8.8, 44 mm of grout under a plate of 32 mm: l_a 72 mm, M0 897 N m; 130 kN on
/// one rod, here 520 kN on four: M 277 N m, V_Rd 6.16 kN with the plate fixed. The example's A_s 352.7 mm2 is 352.5 here.
#[test]
fn the_published_rod_on_its_stand_off_comes_out_of_a_whole_job() {
    let job =
        metric("loads = { shear = \"20 kN\", tension = \"520 kN\" }", "\n[limits.grout]\nstep = \"1\"\n");
    job.replace("job.toml", "count = 4", "count = 4, grade = \"8.8\", finish = \"plain\"");
    job.replace("job.toml", "[\"iso-4032\"]", "[{ series = \"iso-4032\", grade = \"8\" }]");
    job.replace("job.toml", "thickness = \"25\"", "thickness = \"32\", tolerance = [0, 0]");
    job.replace("job.toml", "bed = \"30\"", "bed = \"44\"");
    job.replace("job.toml", "seat = \"100.23 m\"", "seat = \"100.244 m\"");
    job.write("rods.csv", job.read("rods.csv").replace(",11", ",13"));
    let ran = job.run("explain", &["C1", "--format", "json", "--hold-at", "C1=44"]);
    let json = ran.json();
    let shear = &json["shear"];
    assert_eq!(
        (&shear["gap_nm"], &shear["lever_arm_nm"]),
        (&44_000_000.into(), &72_000_000.into()),
        "{}",
        ran.err
    );
    let bending = &shear["bending"];
    let near = |key: &str, published: i64, within: i64| {
        let found = bending[key].as_i64().unwrap();
        assert!((found - published).abs() <= within, "{key} {found} for {published}");
    };
    near("moment_Nmm", 897_000, 1_500);
    near("tension_on_one_mN", 130_000_000, 0);
    near("tension_of_one_mN", 188_000_000, 500_000);
    near("moment_left_Nmm", 277_000, 1_500);
    near("plate_fixed_mN", 6_160_000, 40_000);

    // without the tension nobody knows what is left
    job.replace("job.toml", ", tension = \"520 kN\"", "");
    let ran = job.run("explain", &["C1", "--format", "json", "--hold-at", "C1=44"]);
    let bending = &ran.json()["shear"]["bending"];
    assert_eq!((&bending["moment_left_Nmm"], &bending["plate_fixed_mN"]), (&Value::Null, &Value::Null));
    let screen = flat(&job.run("explain", &["C1", "--hold-at", "C1=44"]));
    assert!(screen.contains("it carries at the most, were there no tension, "), "{screen}");
}

#[test]
fn a_caution_tells_that_the_test_of_the_job_file_is_not_the_written_notice() {
    let tested =
        metric("loads = { shear = \"20 kN\" }", "\n[concrete]\nstrength = \"25 MPa\"\ntested = \"20 MPa\"\n");
    let screen = flat(&tested.run("ask", &[]));
    assert!(screen.contains("are those of the job file, not that notice"), "{screen}");
    assert!(!screen.contains("Nothing on this page tells that strength"), "{screen}");
    let not = flat(&metric("loads = { shear = \"20 kN\" }", "").run("ask", &[]));
    assert!(not.contains("Nothing on this page tells that strength"), "{not}");
}

/// EN 1992-4, 6.2.2.3(1), half a rod: 3/8 in of 3/4 in. A shim called 3/8 in that may be 0.03 in too thick may be more.
#[test]
fn a_shim_of_just_half_a_rod_that_may_come_out_thicker_is_asked_about() {
    let with = |tolerance: &str| {
        let job = inch("loads = { shear = \"4 kip\" }", "");
        let shims = format!("thicknesses = [\"3/8\"]\ntolerance = [\"-0.01\", \"{tolerance}\"]");
        job.replace("job.toml", "catalog = \"plate\"", &shims);
        job.write(
            "walk.csv",
            "mark,reading,low,high\nA1,4.5,2-1/2,2-5/8\nA2,4.5,2-1/2,2-9/16\nA3,4.53125,2-9/16,2-5/8\n",
        );
        job
    };
    assert!(told(&with("0"), "rods-in-shear").is_empty(), "just half a rod");
    let job = with("0.03");
    let asked = told(&job, "rods-in-shear");
    assert_eq!(asked.len(), 1);
    assert_eq!(asked[0].0, "ask");
    assert!(asked[0].1.contains("may be thicker than half a rod"), "{asked:?}");
    let explain = flat(&job.run("explain", &["A3"]));
    assert!(explain.contains("these shims may come out thicker than half a rod"), "{explain}");
    // 4 kip are 17 792.886 46 N, up
    let page = &job.run("ask", &["--format", "json"]).json()["pages"][0];
    assert_eq!(page["drawing"]["loads"]["shear_mN"], 17_792_887);
    // l_a = a3 + e1: 3/8, the shim at its most, half a plate of 1/2 in that may be 0.03 in too thick
    let json = job.run("explain", &["A3", "--format", "json"]).json();
    assert_eq!(json["shear"]["lever_arm_nm"], 25_400_i64 * (375 + 405 + 265));
}
