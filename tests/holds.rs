//! Every reason to hold a column, from the smallest change of a clean job, and none where it does not apply.
//!
//! At its most the stack of the base is 0.53 + 0.177 + 0.758 = 1.465 in, nominal 1.382 375 in; the tape is 1/16 in.

mod tool;

use serde_json::{Value, json};
use tool::clean::walk_job;
use tool::{Job, item};

/// Checks a walk of three pads and gives the column asked for.
fn column(change: impl Fn(&Job), rows: &str, mark: &str) -> Value {
    let job = walk_job();
    job.write("walk.csv", format!("mark,reading,low,high,thread,condition\n{rows}"));
    change(&job);
    let ran = job.run("check", &["--format", "json"]);
    assert!(ran.status < 2, "{}", ran.err);
    item(&ran.json()["columns"], "mark", mark).clone()
}

fn holds(change: impl Fn(&Job), rows: &str, mark: &str) -> (Value, Value, Value) {
    let column = column(change, rows, mark);
    (column["action"].clone(), column["hold"].clone(), column["may_set"].clone())
}

const LEVEL: &str = "A2,54 in,3,3,,\nA3,54 in,3,3,,\n";

#[test]
fn each_state_of_a_rod_holds_its_column_and_full_does_not() {
    for (row, action, hold) in [
        ("A1,54 in,1.5275,3,,", "no-shim", json!([])),
        // worst 1.45 - 1.465 is less than nothing, nominal is not
        ("A1,54 in,1.45,3,,", "no-shim", json!(["rod-unsure"])),
        ("A1,54 in,1.2,3,,", "refer", json!(["rod-short"])),
        ("A1,54 in,,3,,", "no-shim", json!(["rod-unmeasured"])),
        ("A1,54 in,3,4,1,", "refer", json!(["rod-runs-out"])),
        ("A1,54 in,3,3,,cut", "no-shim", json!(["rod-condition"])),
        // a damaged rod is left out of the other reasons
        ("A1,54 in,1.2,,,cut", "no-shim", json!(["rod-condition"])),
    ] {
        // without grinding, which would come before an option that a rod holds
        let no_grinding = |job: &Job| {
            let toml = job.read("job.toml") + "[limits.grind]\noff = true\n";
            job.write("job.toml", toml);
        };
        let found = holds(no_grinding, &format!("{row}\n{LEVEL}"), "A1");
        let may = json!(hold == json!([]) && action != "refer");
        assert_eq!(found, (json!(action), hold, may), "{row}");
    }
}

#[test]
fn less_thread_beyond_than_wanted_holds() {
    let wanted = |job: &Job| {
        job.replace("job.toml", "nuts =", "beyond = \"1/4\"\nnuts =");
        let toml = job.read("job.toml") + "[limits.grind]\noff = true\n";
        job.write("job.toml", toml);
    };
    let found = holds(wanted, &format!("A1,54 in,1.6,3,,\n{LEVEL}"), "A1");
    assert_eq!(found, (json!("no-shim"), json!(["rod-scant"]), json!(false)));
}

/// 29 CFR 1926.755(a)(1) asks for four anchor rods of a column; a post (1926.751) is no column.
#[test]
fn three_rods_hold_a_column_and_not_a_post() {
    let rows = format!("A1,54 in,3,3,,\n{LEVEL}");
    let three = |job: &Job| job.replace("job.toml", "count = 4", "count = 3");
    assert_eq!(holds(three, &rows, "A1").1, json!(["rods-too-few"]));
    let post = |job: &Job| {
        three(job);
        job.replace("job.toml", "nuts =", "duty = \"post\"\nnuts =");
    };
    assert_eq!(holds(post, &rows, "A1"), (json!("no-shim"), json!([]), json!(true)));
}

#[test]
fn a_stack_above_a_half_inch_a_bed_of_grout_and_grinding_hold() {
    // 3/4 in down, 3/16 in accepted: 9/16 in at the least
    let tall = holds(|_| (), "A1,54 in,4,4,,\nA2,54-3/4 in,4,4,,\nA3,54 in,4,4,,\n", "A2");
    assert_eq!(tall, (json!("shim"), json!(["tall-stack"]), json!(false)));
    let half = holds(|_| (), "A1,54 in,4,4,,\nA2,54-1/2 in,4,4,,\nA3,54 in,4,4,,\n", "A2");
    assert_eq!(half, (json!("shim"), json!([]), json!(true)));
    // 1-1/8 in down is more than any stack
    let grout = holds(|_| (), "A1,54 in,4,4,,\nA2,55-1/8 in,4,4,,\nA3,54 in,4,4,,\n", "A2");
    assert_eq!(grout, (json!("grout"), json!(["grout"]), json!(false)));
    // 1/4 in or more would make the rods of A2 and A3 short: 1.53 - 1/4 - 1.382375 + 1/16 is less than nothing. 1/16 in is
    // accepted, so A1 comes down by 1/4 in
    let tight = |job: &Job| {
        let toml =
            job.read("job.toml") + "[limits.neighbours]\naccept = \"1/16\"\n[limits.grind]\nmost = \"1/4\"\n";
        job.write("job.toml", toml);
    };
    let rows = "A1,54 in,4,4,,\nA2,54-5/16 in,1.53,1.53,,\nA3,54-5/16 in,1.53,1.53,,\n";
    assert_eq!(holds(tight, rows, "A1"), (json!("grind"), json!(["grind"]), json!(false)));
}
