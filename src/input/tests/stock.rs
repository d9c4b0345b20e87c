//! What is on hand, as a job says it.

use super::{JOB, Job, WALK, assert_told, changed, same};
use crate::length::Length;
use crate::model::ShimSupply;

fn supply(shims: &str) -> ShimSupply {
    let job = format!("{JOB}\n[shims]\n{shims}\n");
    Job::new(&[("job.toml", &job), ("walk.csv", WALK)]).load().unwrap().job.shims
}

fn told(shims: &str, wanted: &[&str]) {
    assert_told(&changed(|job| format!("{job}[shims]\n{shims}\n"), same), wanted);
}

fn of(supply: &ShimSupply, nm: i64) -> Option<u32> {
    supply.on_hand(Length::from_nm(nm))
}

#[test]
fn a_thickness_that_is_not_listed_is_not_on_hand() {
    let shims = supply("stock = { \"1/8\" = 20, '1/4\"' = 6, \"1/2\" = 0 }");
    assert_eq!(of(&shims, 3_175_000), Some(20));
    assert_eq!(of(&shims, 6_350_000), Some(6));
    assert_eq!(of(&shims, 12_700_000), Some(0));
    assert_eq!(of(&shims, 9_525_000), Some(0));
    assert_eq!(of(&supply("stock = {}"), 3_175_000), Some(0), "nothing at all is on hand");
}

#[test]
fn without_a_stock_all_can_be_ordered() {
    assert_eq!(of(&supply("catalog = \"plate\""), 3_175_000), None);
}

#[test]
fn a_thickness_is_the_same_in_whatever_form_it_is_written() {
    let shims = supply("thicknesses = [\"3.175 mm\", \"1/4\"]\nstock = { \"0.125\" = 3, \"2/8\" = 4 }");
    assert_eq!((of(&shims, 3_175_000), of(&shims, 6_350_000)), (Some(3), Some(4)));
}

#[test]
fn what_is_not_among_the_shims_is_told_with_what_is() {
    told(
        "thicknesses = [\"1/8\", \"1/4\"]\nstock = { \"3/16\" = 2 }",
        &["job.toml:17:11: `3/16` is not one of the job's shims | its shims are 1/4\" and 1/8\""],
    );
}

#[test]
fn one_thickness_in_two_forms_is_told_with_where_it_stands_first() {
    told(
        "stock = { \"1/8\" = 2, \"0.125\" = 3 }",
        &["job.toml:16:22: this thickness stands here a second time | it stands first at job.toml:16:11"],
    );
}

#[test]
fn a_number_of_pieces_is_whole_and_not_less_than_nothing() {
    for wrong in ["2.5", "-1", "1000001", "99999999999999999999"] {
        let wanted = format!("job.toml:16:19: expected a whole number from 0 to 1000000, found `{wrong}`");
        told(&format!("stock = {{ \"1/8\" = {wrong} }}"), &[&wanted]);
    }
    told("stock = { \"1/8\" = \"6\" }", &["job.toml:16:19: expected a whole number, found a text"]);
    told(
        "stock = { 0.125 = 6 }",
        &[
            "job.toml:16:11: expected a thickness in quotes with a whole number behind it, found a table | write stock = { \"0.125\" = 20 }",
        ],
    );
    told("stock = { \"x\" = 6 }", &["job.toml:16:11: `x`"]);
    told("stock = 6", &["job.toml:16:9: expected a table `[shims] stock`, found a number"]);
}

#[test]
fn every_fault_of_a_stock_is_told_in_one_run() {
    let shims = "pieces = 9\nstock = { \"1/8\" = -2, \"0.33\" = 3, \"1/4\" = 1, \"0.25\" = 0.5 }";
    let found = changed(|job| format!("{job}[shims]\n{shims}\n"), same);
    assert_eq!(found.len(), 4, "{found:?}");
}
