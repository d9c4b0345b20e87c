//! The demo job on designed beds, worked by hand from its readings.
//!
//! The job is invented. Lengths below are in tenths of a millimetre, as the readings are.

mod tool;

use serde_json::{Value, json};
use tool::{item, rodreach};

/// A tenth of a millimetre.
const TENTH: i64 = 100_000;

fn check() -> Value {
    let ran = rodreach(&["check", "demo-data/seed-store", "--format", "json"]);
    assert_eq!(ran.status, 1, "a column is on hold: {}", ran.err);
    ran.json()
}

fn column<'v>(answer: &'v Value, mark: &str) -> &'v Value {
    item(&answer["columns"], "mark", mark)
}

/// Gives mark, actual and limit of the findings of a rule, in tenths.
fn told(answer: &Value, rule: &str) -> Vec<(Value, i64, i64)> {
    let findings = answer["findings"].as_array().unwrap().iter().filter(|it| it["rule"] == rule);
    let tenths = |value: &Value| value.as_i64().unwrap() / TENTH;
    findings.map(|it| (it["columns"].clone(), tenths(&it["actual_nm"]), tenths(&it["limit_nm"]))).collect()
}

/// The line of sight is at 12 + 1.5 = 13.5 m, the seat at 12.3 m, its concrete by design at 12.27 m; a bed is 25 to 50 mm in
/// whole millimetres, and a seat may be 5 mm from its design. In mm:
///
/// | column | 13.5 m less | pad, m | under the seat | bed | seat, m | from the design of the concrete |
/// | --- | --- | --- | --- | --- | --- | --- |
/// | A1 | 1.2310 | 12.2690 | 31 | 31 | 12.3 | -1 |
/// | A2 | 1.2230 | 12.2770 | 23 | 25, the least | 12.302 | +7 |
/// | A3 | 1.2280 | 12.2720 | 28 | 28 | 12.3 | +2 |
/// | B1 | 1.2440 | 12.2560 | 44 | 44 | 12.3 | -14 |
/// | B2 | 1.2334 | 12.2666 | 33.4 | 33, nearer than 34 | 12.2996 | -3.4 |
/// | B3 | 1.2300 | 12.2700 | 30 | 27, for its rod 2 | 12.297 | 0 |
#[test]
fn the_beds_of_the_seed_store_are_those_worked_by_hand() {
    let answer = check();
    for (mark, pad, bed, seat) in [
        ("A1", 122_690, 310, 123_000),
        ("A2", 122_770, 250, 123_020),
        ("A3", 122_720, 280, 123_000),
        ("B1", 122_560, 440, 123_000),
        ("B2", 122_666, 330, 122_996),
        ("B3", 122_700, 270, 122_970),
    ] {
        let column = column(&answer, mark);
        assert_eq!(
            [
                &column["pad_nm"],
                &column["raise_nm"],
                &column["seat_nm"],
                &column["plus_minus_nm"],
                &column["action"]
            ],
            // BM1 and the pad, each read once: the root of 2 times 1 mm, up to the next nanometre
            [
                &json!(pad * TENTH),
                &json!(bed * TENTH),
                &json!(seat * TENTH),
                &json!(1_414_214),
                &json!("grout")
            ],
            "{mark}"
        );
        assert_eq!((&column["bed_design_nm"], &column["stack"]), (&json!(300 * TENTH), &json!([])), "{mark}");
    }
    assert_eq!(answer["datum"], "BM1");
    assert_eq!(answer["optimum"], json!({ "proven": true, "gap": null }));
}

/// A bed counts what its seat is off: 2 + 0.4 + 3 = 5.4 mm. Steps: A1 to A2 +2, A2 to A3 -2, B1 to B2 -0.4, B2 to B3 -2.6,
/// together 7 mm.
#[test]
fn what_the_plan_of_the_seed_store_counts_is_as_worked_by_hand() {
    let answer = check();
    let totals = &answer["totals"];
    for (key, wanted) in [
        ("grout", 6),
        ("refer", 0),
        ("held", 1),
        ("pieces", 0),
        ("thickness_nm", 54 * TENTH),
        ("steps_nm", 70 * TENTH),
    ] {
        assert_eq!(totals[key], json!(wanted), "{key}");
    }
    let steps = answer["differences"].as_array().unwrap().iter().filter(|it| it["kind"] == "neighbours");
    let steps: Vec<_> =
        steps.map(|it| (it["columns"].clone(), it["value_nm"].as_i64().unwrap() / TENTH)).collect();
    assert_eq!(
        steps,
        [
            (json!(["A1", "A2"]), 20),
            (json!(["A2", "A3"]), -20),
            (json!(["B1", "B2"]), -4),
            (json!(["B2", "B3"]), -26)
        ]
    );
}

/// Concrete may be 5 mm above to 15 mm below its design: A2 is 7 above; B1, 14 below, is not asked about.
#[test]
fn only_the_high_pad_of_the_seed_store_is_asked_about() {
    let answer = check();
    assert_eq!(told(&answer, "pad-top-off"), [(json!(["A2"]), 70, 50)]);
    assert_eq!(column(&answer, "B1")["hold"], json!([]));
    // B3 rod 2: 12.27 m and 77 mm are 12.347 m, 33 below its design 12.27 m and 110 mm; 5 below is the lowest
    assert_eq!(told(&answer, "rod-top-off"), [(json!(["B3"]), -330, -50)]);
}

/// Least / nominal / most, mm: plate 24.3 / 25 / 26.3; washer 3.7 / 4 / 4.3; nut 20.2 / 21.5 / 21.5; one pitch 3; the tape 1.
/// With s what a rod stands above its bed:
/// - beyond: s - 25 - 4 - 21.5 = s - 50.5
/// - at worst: s - 26.3 - 4.3 - 21.5 = s - 52.1, full from 3 + 1 on
/// - thread left: 70 - 3 - (s - 24.3 - 3.7) = 95 - s, enough from 1 on, so nowhere is a washer added
///
/// All rods but one stand 76 to 84 mm above their beds. B3 rod 2 is 77: short where 77 - bed - 50.5 is under -1, so on a bed
/// of more than 27.5, and full only up to 77 - 56.1 = 20.9, less than the least bed. On 27 it is neither.
#[test]
fn the_rods_of_the_seed_store_come_out_as_worked_by_hand() {
    let answer = check();
    for (mark, rod, projection, beyond, worst, left, state) in [
        ("A1", "low", 1090, 275, 259, 170, "full"),  // 109 - 31 = 78
        ("A1", "high", 1130, 315, 299, 130, "full"), // 113 - 31 = 82
        ("A2", "low", 1010, 255, 239, 190, "full"),  // 101 - 25 = 76
        ("A2", "high", 1040, 285, 269, 160, "full"), // 104 - 25 = 79
        ("A3", "low", 1070, 285, 269, 160, "full"),  // 107 - 28 = 79
        ("A3", "high", 1100, 315, 299, 130, "full"), // 110 - 28 = 82
        ("B1", "low", 1210, 265, 249, 180, "full"),  // 121 - 44 = 77
        ("B1", "high", 1260, 315, 299, 130, "full"), // 126 - 44 = 82
        ("B2", "low", 1120, 285, 269, 160, "full"),  // 112 - 33 = 79
        ("B2", "high", 1150, 315, 299, 130, "full"), // 115 - 33 = 82
        ("B3", "1", 1100, 325, 309, 120, "full"),    // 110 - 27 = 83
        ("B3", "2", 770, -5, -21, 450, "unsure"),    // 77 - 27 = 50
        ("B3", "3", 1090, 315, 299, 130, "full"),    // 109 - 27 = 82
        ("B3", "4", 1110, 335, 319, 110, "full"),    // 111 - 27 = 84
    ] {
        // 21 of the 21.5 mm of its nut are on thread
        let engaged = if state == "full" { 1.0 } else { 0.976_744 };
        assert_eq!(
            item(&column(&answer, mark)["rods"], "rod", rod),
            &json!({ "rod": rod, "projection_nm": projection * TENTH, "plus_minus_nm": 1_000_000,
                "beyond_nm": beyond * TENTH, "beyond_worst_nm": worst * TENTH, "thread_left_nm": left * TENTH,
                "engaged": [engaged], "extra_washers": 0, "state": state }),
            "{mark} rod {rod}"
        );
    }
}

/// A rod must stand the bed and 26.3 + 4.3 + 21.5 + 3 + 1 = 56.1 mm above its pad. With two washers more, 7.4 mm, the thread
/// of a rod reaches down to a raise of its projection less 94 + 7.4 = 101.4 mm.
#[test]
fn only_the_column_of_the_short_rod_is_held() {
    let answer = check();
    for (mark, needs, low, high) in [
        ("A1", 871, 116, 529),  // 31 + 56.1; 113 - 101.4 = 11.6; 109 - 56.1 = 52.9
        ("A2", 811, 26, 449),   // 25 + 56.1; 104 - 101.4 = 2.6; 101 - 56.1 = 44.9
        ("A3", 841, 86, 509),   // 28 + 56.1; 110 - 101.4 = 8.6; 107 - 56.1 = 50.9
        ("B1", 1001, 246, 649), // 44 + 56.1; 126 - 101.4 = 24.6; 121 - 56.1 = 64.9
        ("B2", 891, 136, 559),  // 33 + 56.1; 115 - 101.4 = 13.6; 112 - 56.1 = 55.9
        ("B3", 831, 96, 209),   // 27 + 56.1; 111 - 101.4 = 9.6; 77 - 56.1 = 20.9
    ] {
        let column = column(&answer, mark);
        assert_eq!(column["needs_projection_nm"], json!(needs * TENTH), "{mark}");
        assert_eq!(column["allowed_raise_nm"], json!([[low * TENTH, high * TENTH]]), "{mark}");
        let hold = if mark == "B3" { json!(["rod-unsure"]) } else { json!([]) };
        assert_eq!((&column["hold"], &column["may_set"]), (&hold, &json!(mark != "B3")), "{mark}");
    }
}

/// A bed is poured up to its plate: a pad 1 mm off means another bed there, at the same seat, and is the same plan.
#[test]
fn another_bed_on_its_own_pad_is_no_other_plan() {
    assert_eq!(told(&check(), "plan-would-change"), []);
}
