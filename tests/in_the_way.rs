//! Why a column is referred, why an option lost, and how firm a plan is: small jobs worked by hand.

mod hand_job;
mod tool;

use hand_job::{SIXTEENTH, job};
use serde_json::{Value, json};
use tool::item;

/// A1 is ground 1/8" at most, to 14/16. A2 must then stand at 11/16, 3/16 above its pad; its next stack is 1/4", to 12/16.
/// A3 must then stand at 9/16, and its rod ends at 1/4", to 4/16: one of the three is for the engineer. Without A1 a pad
/// must be ground, without A2 the other two are still too far apart; without A3 A2 takes 3/8" and stands at 14/16.
#[test]
fn a_referred_column_is_told_the_chain_of_limits_it_cannot_follow() {
    let job = job(&[("A1", 16, 16), ("A2", 8, 6), ("A3", 0, 4)], 0);
    let ran = job.run("check", &["--format", "json"]);
    let answer = ran.json();
    assert_eq!(answer["optimum"], json!({ "proven": true, "gap": null }), "{}", ran.err);
    let column = |mark: &str| item(&answer["columns"], "mark", mark).clone();
    assert_eq!(column("A1")["action"], "no-shim");
    assert_eq!(column("A2")["raise_nm"], json!(6 * SIXTEENTH));
    let referred = column("A3");
    assert_eq!(referred["action"], "refer");
    assert_eq!(referred["seat_range_nm"], json!([11 * SIXTEENTH, 17 * SIXTEENTH]));
    let chain = &referred["in_the_way"];
    assert_eq!(chain["way"], "up");
    let links: Vec<(&str, Value, Value, Value, &str)> = chain["chain"]
        .as_array()
        .unwrap()
        .iter()
        .map(|it| {
            let (needed, raise) = (it["needed_raise_nm"].clone(), it["raise_nm"].clone());
            let kind = it["stop"]["kind"].as_str().unwrap();
            (it["column"].as_str().unwrap(), it["limit"].clone(), needed, raise, kind)
        })
        .collect();
    let nm = |sixteenths: i64| json!(sixteenths * SIXTEENTH);
    assert_eq!(
        links,
        [
            ("A1", json!(null), json!(null), nm(-2), "nothing-further"),
            ("A2", json!("neighbours"), nm(3), nm(4), "rod"),
            ("A3", json!("neighbours"), nm(9), json!(null), "rod"),
        ]
    );
    assert_eq!(chain["chain"][2]["stop"]["raise_nm"], nm(6));
    assert_eq!(chain["chain"][2]["stop"]["state"], "short");

    let told = item(&answer["findings"], "rule", "referred");
    assert_eq!(
        told["text"],
        "A3: no shim, grout or grinding within the limits fits; ask the engineer: its seat must come from 11/16\" to \
         1-1/16\" above its pad. In the way: A1 can stand no lower than 1/8\" below its pad (no option goes lower); next \
         columns on line A may be 3/16\" apart: A2 must stand 3/16\" or more above its pad; the next it can take is 1/4\" \
         above its pad; next columns on line A may be 3/16\" apart: A3 must stand 9/16\" or more above its pad, and can \
         stand no higher than 1/4\" above its pad (rod 1 would be short with 3/8\" under the plate)"
    );
}

#[test]
fn a_column_whose_rods_leave_nothing_open_is_told_the_rod() {
    let job = job(&[("A1", 0, 16), ("A2", 0, -4)], 0);
    let answer = job.run("check", &["--format", "json"]).json();
    let referred = item(&answer["columns"], "mark", "A2");
    assert_eq!(referred["action"], "refer");
    let link = &referred["in_the_way"]["chain"][0];
    assert_eq!((&link["column"], &link["stop"]["kind"]), (&json!("A2"), &json!("rod")));
    assert_eq!(link["last_open_raise_nm"], json!(null));
}

/// A2 lies 1/4" below A1, and 3/16" is accepted: 1/8" under it is the least. Nothing under it and A1 must be ground
/// 1/16"; with 1/16" ground off A2 as well it is 1/8", and with 1/8" A1 cannot follow. 1/4" and 3/8" would do with a thicker
/// shim or two pieces; with 1/2" it stands 1/4" above A1, which takes a shim too.
#[test]
fn explain_tells_why_each_option_lost_and_what_the_whole_plan_would_need_with_it() {
    let job = job(&[("A1", 0, 16), ("A2", -4, 16)], 0);
    let ran = job.run("explain", &["A2", "--format", "json"]);
    let answer = ran.json();
    let options: Vec<(i64, &str, i64, i64, i64)> = answer["options"]
        .as_array()
        .unwrap_or_else(|| panic!("{}", ran.out))
        .iter()
        .map(|it| {
            let whole = |key: &str| it["whole"][key].as_i64().unwrap_or(-1);
            let raise = it["raise_nm"].as_i64().unwrap() / SIXTEENTH;
            (raise, it["fate"].as_str().unwrap(), whole("refer"), whole("grind"), whole("pieces"))
        })
        .collect();
    assert_eq!(
        options,
        [
            (-2, "apart", 1, 1, 0),
            (-1, "apart", 0, 2, 0),
            (0, "apart", 0, 1, 0),
            (2, "taken", -1, -1, -1),
            (4, "dearer", 0, 0, 1),
            (6, "dearer", 0, 0, 2),
            (8, "apart", 0, 0, 3),
        ]
    );
    assert_eq!(
        (&answer["options"][2]["from"], &answer["options"][2]["limit"]),
        (&json!("A1"), &json!("neighbours"))
    );
    let screen = job.run("explain", &["A2"]).out;
    assert!(screen.contains("too far from A1 (next columns"), "{screen}");
    assert!(screen.contains("1 more to grind"), "{screen}");
    assert!(screen.contains("1/8\" thicker in all"), "{screen}");
}

/// A2 lies just at the limit below A1. Either pad off by 1/16" the one way asks for a shim under A2, the other way for nothing.
#[test]
fn a_pad_that_would_change_the_plan_if_it_were_off_by_its_own_plus_minus_is_noted() {
    let job = job(&[("A1", 0, 16), ("A2", -3, 16)], 1);
    let answer = job.run("check", &["--format", "json"]).json();
    assert_eq!(answer["totals"]["pieces"], 0);
    let told: Vec<(&Value, &Value, &Value)> = answer["findings"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|it| it["rule"] == "plan-would-change")
        .map(|it| (&it["level"], &it["columns"], &it["arithmetic"]))
        .collect();
    assert_eq!(
        told,
        [
            (&json!("note"), &json!(["A1"]), &json!(["1/16\" higher: something else at A2"])),
            (&json!("note"), &json!(["A2"]), &json!(["1/16\" lower: something else at A2"])),
        ]
    );
    let firm = hand_job::job(&[("A1", 0, 16), ("A2", -1, 16)], 1).run("check", &["--format", "json"]).json();
    assert!(firm["findings"].as_array().unwrap().iter().all(|it| it["rule"] != "plan-would-change"));
}
