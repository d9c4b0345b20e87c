//! Packs and levelling nuts in what is ordered, cut and sent, worked by hand from the seed store; and what becomes of a shipment
//! once they are others.
//!
//! Beds of the seed store (`tests/seed_store_by_hand.rs`): A1 31, A2 25, A3 28, B1 44, B2 33, B3 27 mm. Of the plates of
//! `plate-mm`, three a pack: 20+10+1, 20+5, 20+5+3, none, 20+10+3, 20+5+2.

mod tool;

use serde_json::{Value, json};
use tool::{Job, Ran, item};

const MM: i64 = 1_000_000;
const PACKS: &str =
    "seat_on = \"packs\"\npacks = { size = [\"80\", \"80\"], count = 4, left_in = true, cover = \"25\" }\n";
const NUTS: &str = "seat_on = \"nuts\"\nlevelling = { nut = \"iso-4032\", washer = \"iso-7089\" }\n";

/// The seed store with what its base says more, and what stands behind all.
fn store(base: &str, behind: &str) -> Job {
    let job = Job::demo("seed-store");
    let toml = job.read("job.toml");
    assert_eq!(toml.matches("[[base]]\n").count(), 1);
    job.write("job.toml", toml.replace("[[base]]\n", &format!("[[base]]\n{base}")) + behind);
    job
}

fn on_packs() -> Job {
    store(PACKS, "[shims]\ncatalog = \"plate-mm\"\n")
}

fn json_of(job: &Job, command: &str) -> Value {
    let ran = job.run(command, &["--format", "json"]);
    assert_eq!(ran.status, 1, "columns are on hold: {}", ran.err);
    ran.json()
}

/// 80 x 80 x 20 mm are 128 cm3, of 7.85 g 1004.8 g. Five columns take four each, B3 is on hold; 10 % more are two.
#[test]
fn the_packs_of_the_seed_store_are_ordered_as_worked_by_hand() {
    let answer = json_of(&on_packs(), "order");
    let packs = answer["packs"].as_array().unwrap();
    let found: Vec<[i64; 4]> = (packs.iter())
        .map(|it| ["thickness_nm", "pieces", "held", "to_order"].map(|key| it[key].as_i64().unwrap()))
        .collect();
    let wanted = [[20, 20, 4, 22], [10, 8, 0, 9], [5, 12, 4, 14], [3, 8, 0, 9], [2, 4, 4, 5], [1, 4, 0, 5]];
    assert_eq!(found, wanted.map(|[thickness, pieces, held, order]| [thickness * MM, pieces, held, order]));
    let first = &packs[0];
    assert_eq!((&first["plate"], &first["size_nm"]), (&json!("PK1"), &json!([80 * MM, 80 * MM])));
    assert_eq!((&first["holes"]["count"], &first["from_stock"]), (&json!(0), &Value::Null));
    let masses = ["each_kg", "mass_kg", "order_mass_kg"].map(|key| first[key].as_f64().unwrap());
    assert_eq!(masses.map(|kg| kg.to_string()), ["1.0048", "20.096", "22.1056"]);
    assert_eq!(answer["plates"], json!([]), "packs are no shims");
    // 44 mm is 20 + 20 + 4, and there is no 4
    assert_eq!(answer["packs_not_counted"][0]["mark"], "B1");
    let totals = &answer["totals"];
    assert_eq!(
        (&totals["pack_pieces"], &totals["pack_mass_kg"], &totals["pieces"]),
        (&Value::Null, &Value::Null, &json!(0))
    );
    let packet = |mark: &str| item(&answer["packets"], "mark", mark).clone();
    let piece = |plate: &str, mm: i64| json!({ "plate": plate, "thickness_nm": mm * MM, "count": 4 });
    assert_eq!(packet("A2")["packs"], json!([piece("PK1", 20), piece("PK3", 5)]));
    assert_eq!(
        packet("A2")["pack_mass_kg"].as_f64().unwrap().to_string(),
        "5.024",
        "4 x 25 x 6.4 cm2 of 7.85 g"
    );
    assert_eq!((&packet("B1")["packs"], &packet("B1")["pack_mass_kg"]), (&Value::Null, &Value::Null));
    let hardware = json_of(&on_packs(), "hardware");
    assert_eq!(hardware["totals"]["pack_pieces"], Value::Null);
    assert_eq!(item(&hardware["columns"], "mark", "A2")["packs"]["mass_kg"], packet("A2")["pack_mass_kg"]);
}

#[test]
fn packs_are_not_taken_from_what_is_on_hand_and_without_a_size_they_have_no_mass() {
    let stocked = store(
        PACKS,
        "[shims]\ncatalog = \"plate-mm\"\nstock = { \"20\" = 100, \"10\" = 100, \"5\" = 100 }\n",
    );
    let first = json_of(&stocked, "order")["packs"][0].clone();
    assert_eq!((&first["from_stock"], &first["to_order"]), (&Value::Null, &json!(22)));
    assert!(line(&stocked.run("order", &[]).out).contains("Nothing of them is taken from what is on hand."));
    let sizeless =
        store(&PACKS.replace("size = [\"80\", \"80\"], ", ""), "[shims]\ncatalog = \"plate-mm\"\n");
    let first = json_of(&sizeless, "order")["packs"][0].clone();
    assert_eq!(
        (&first["size_nm"], &first["mass_kg"], &first["pieces"]),
        (&Value::Null, &Value::Null, &json!(20))
    );
    let ran = cut(&sizeless);
    assert!(
        line(&ran.out)
            .contains("the size of the packs is not given (packs size): add size = [side, side] to its"),
        "{}",
        ran.out
    );
}

/// Six columns of four rods each.
#[test]
fn levelling_nuts_are_counted_apart_from_those_above_the_plates_and_not_ordered() {
    let job = store(NUTS, "");
    let answer = json_of(&job, "order");
    for (list, series) in [("nuts", "iso-4032"), ("washers", "iso-7089")] {
        let it = &answer[list][0];
        let counts = ["drawn", "levelling", "more", "to_order"].map(|key| it[key].as_i64().unwrap());
        assert_eq!((&it["series"], counts), (&json!(series), [24, 24, 0, 0]));
        let all = &json_of(&job, "hardware")["totals"][list][0];
        assert_eq!([&all["drawn"], &all["levelling"], &all["extra"]], [&json!(24), &json!(24), &json!(0)]);
    }
    let part = |series: &str| json!({ "series": series, "count": 4 });
    let packet = item(&answer["packets"], "mark", "A1");
    assert_eq!(packet["levelling"], json!([part("iso-4032"), part("iso-7089")]));
    let screen = job.run("order", &[]).out;
    assert!(
        screen.contains("4 iso-4032, 4 iso-7089")
            && screen.contains("levelling, under them: not in this order"),
        "{screen}"
    );
}

fn cut(job: &Job) -> Ran {
    job.run("order", &["--cut", "-o", "cut"])
}

#[test]
fn packs_are_cut_as_plain_rectangles_marked_as_packs() {
    let job = on_packs();
    let ran = cut(&job);
    assert_eq!(ran.status, 1);
    let drawing = job.read("cut/G1_pack_20mm.dxf");
    assert!(!drawing.contains("CIRCLE"), "no holes");
    assert!(drawing.contains("G1 PACK 20 mm"));
    let lines: Vec<&str> = drawing.split("\r\n").map(str::trim).collect();
    let pairs: Vec<&[&str]> = lines.chunks_exact(2).collect();
    let at = pairs.iter().rposition(|pair| pair[1] == "LWPOLYLINE").unwrap();
    let of = |code: &str| -> Vec<&str> {
        pairs[at..]
            .iter()
            .skip(1)
            .take_while(|pair| pair[0] != "0")
            .filter(|pair| pair[0] == code)
            .map(|pair| pair[1])
            .collect()
    };
    assert_eq!(
        (of("10"), of("20")),
        (vec!["0.0", "80.0", "80.0", "0.0"], vec!["0.0", "0.0", "80.0", "80.0"])
    );
    let list = job.read("cut/cut-list.csv");
    assert_eq!(list.lines().filter(|line| line.ends_with(",yes")).count(), 6, "{list}");
    for words in ["PK1", "They are no shims under a whole plate", "PACKS NOT COUNTED, and not drawn"] {
        assert!(line(&ran.out).contains(words), "no {words} in\n{}", ran.out);
    }
}

/// Gives a screen on one line, however it was wrapped.
fn line(screen: &str) -> String {
    screen.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Writes the answer of a job beside it.
fn answered(job: &Job) {
    let ran = job.run("check", &["-o", "old.json"]);
    assert!(ran.status < 2, "{}", ran.err);
}

fn since(job: &Job) -> Value {
    let ran = job.run("check", &["--since", "old.json", "--format", "json"]);
    assert!(ran.status < 2, "{}", ran.err);
    ran.json()["since"].clone()
}

/// Whether what was planned at a column still fits, and why not.
fn fits(since: &Value, mark: &str) -> (Value, String) {
    let column = item(&since["columns"], "mark", mark);
    (column["fits"].clone(), column["fits_not"].to_string())
}

#[test]
fn packs_and_nuts_that_stayed_fit_as_the_rods_do_and_every_piece_is_counted() {
    for job in [on_packs(), store(NUTS, "")] {
        answered(&job);
        let since = since(&job);
        assert_eq!(since["changed"], false, "{since}");
        let counts = since["packs"].as_array().unwrap().iter().chain(since["levelling"].as_array().unwrap());
        let counts: Vec<bool> = counts.map(|it| it["then"] == it["now"] && it["missing"] == 0).collect();
        assert!(!counts.is_empty() && counts.iter().all(|same| *same), "{since}");
    }
    let job = on_packs();
    answered(&job);
    let since = since(&job);
    assert_eq!(fits(&since, "A1"), (json!("yes"), "[]".to_owned()));
    assert_eq!(since["packs"][0]["size_nm"], json!([80 * MM, 80 * MM]));
    assert_eq!(since["packs_not_known"], json!(["B1"]));
    assert_eq!(since["pieces_suffice"], false, "those of B1 are not known");
    assert_eq!(fits(&since, "B1").0, "unknown", "what its packs were is not known");
}

/// Six packs in place of four: of 20 mm A1, A2, A3, B2 and B3 want 30, and 20 were sent.
#[test]
fn other_packs_are_no_plain_yes_and_what_is_missing_is_counted() {
    let job = on_packs();
    answered(&job);
    job.replace("job.toml", "count = 4, left_in", "count = 6, left_in");
    let since = since(&job);
    let (fit, why) = fits(&since, "A1");
    assert_eq!(fit, "unknown", "{why}");
    assert!(why.contains("packs of then are not told, or are not those of now"), "{why}");
    let first = &since["packs"][0];
    let counts = ["thickness_nm", "then", "now", "missing"].map(|key| first[key].as_i64().unwrap());
    assert_eq!((counts, &since["pieces_suffice"]), ([20 * MM, 20, 30, 10], &json!(false)));
    let screen = line(&job.run("check", &["--since", "old.json"]).out);
    for words in [
        "plate set on 4 packs of 80 mm x 80 mm then, 6 packs of 80 mm x 80 mm now",
        "pack 80 mm x 80 mm, 20 mm",
        "not known. That is not a yes",
    ] {
        assert!(screen.contains(words), "no {words} in {screen}");
    }
}

#[test]
fn an_answer_that_does_not_say_the_packs_or_nuts_is_read_and_is_no_yes() {
    for (job, key) in [(on_packs(), "packs"), (store(NUTS, ""), "levelling_nuts")] {
        answered(&job);
        let mut old: Value = serde_json::from_str(&job.read("old.json")).unwrap();
        for column in old["columns"].as_array_mut().unwrap() {
            assert!(column.as_object_mut().unwrap().remove(key).is_some(), "{column}");
        }
        job.write("old.json", old.to_string());
        let (fit, why) = fits(&since(&job), "A1");
        assert_ne!(fit, "yes", "{why}");
        assert!(why.contains("not told"), "{why}");
    }
}

#[test]
fn another_nut_or_another_way_of_setting_is_no_yes() {
    let job = store(NUTS, "");
    answered(&job);
    job.replace("job.toml", ", washer = \"iso-7089\" }", " }");
    let changed = since(&job);
    assert!(fits(&changed, "A1").1.contains("levelling nuts of then"), "{changed}");
    assert_eq!(
        changed["levelling"][1],
        json!({ "base": "G1", "part": "washer iso-7089", "then": 24, "now": 0, "missing": 0, "left_over": 24 })
    );
    let job = on_packs();
    answered(&job);
    job.replace("job.toml", PACKS, NUTS);
    let changed = since(&job);
    assert!(fits(&changed, "A1").1.contains("set on something else now"), "{changed}");
    assert_eq!(changed["levelling"][0]["missing"], 24);
}
