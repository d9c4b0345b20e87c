//! `[grout]` and `[order]`, as a job says them.

use super::{JOB, Job, WALK, assert_told, changed, same};
use crate::catalog::{Consistency, Standing};
use crate::length::{Length, read_volume};
use crate::model::Supplies;

fn supplies(tables: &str) -> Supplies {
    let job = format!("{JOB}\n{tables}\n");
    Job::new(&[("job.toml", &job), ("walk.csv", WALK)]).load().unwrap().job.supplies
}

#[test]
fn without_either_table_waste_and_spares_are_house_rules_and_the_bag_is_not_known() {
    let supplies = supplies("");
    assert_eq!((supplies.spares.value, supplies.spares.authority.kind), (10, Standing::HouseRule));
    assert_eq!((supplies.grout.waste.value, supplies.grout.waste.authority.kind), (10, Standing::HouseRule));
    assert!(supplies.grout.bag.is_none() && supplies.grout.edge.is_none());
    assert_eq!((supplies.grout.consistency, supplies.grout.shoulder), (None, Length::ZERO));
}

#[test]
fn a_bag_of_the_catalog_brings_its_consistency_and_the_job_may_name_another() {
    let grout = supplies("[grout]\nproduct = \"bag-50-lb\"\nedge = 1\nshoulder = \"1/2\"\nwaste = 0").grout;
    let bag = grout.bag.unwrap();
    assert_eq!((bag.name.as_str(), Some(bag.yields)), ("bag-50-lb", read_volume("0.45 ft3")));
    assert_eq!((grout.consistency, grout.waste.value), (Some(Consistency::Flowable), 0));
    assert_eq!(grout.waste.authority.kind, Standing::ThisJob);
    assert_eq!(grout.edge.map(Length::nm), Some(25_400_000));
    assert_eq!(grout.shoulder.nm(), 12_700_000);
    let fluid = supplies("[grout]\nproduct = \"bag-50-lb\"\nconsistency = \"fluid\"").grout;
    assert_eq!(fluid.consistency, Some(Consistency::Fluid));
}

#[test]
fn a_yield_of_the_job_stands_on_the_job() {
    let grout = supplies("[grout]\nyield = \"12.7 l\"\n[order]\nspares = 0").grout;
    let bag = grout.bag.unwrap();
    assert_eq!((bag.authority.kind, Some(bag.yields)), (Standing::ThisJob, read_volume("12.7 l")));
    assert_eq!((grout.consistency, supplies("[order]\nspares = 0").spares.value), (None, 0));
}

#[test]
fn every_fault_of_both_tables_is_told_with_its_place_and_what_mends_it() {
    let tables = "[grout]\nproduct = \"bag-50-kg\"\nconsistency = \"runny\"\nwaste = 101\nedge = \"-1\"\nspare = 1\n\
                  [order]\nspares = -1\nextra = 2\n";
    let found = changed(|job| format!("{job}{tables}"), same);
    assert_told(
        &found,
        &[
            "job.toml:16:11: `bag-50-kg` is not a bag of grout in the catalog | did you mean `bag-50-lb`?",
            "job.toml:17:15: `runny` is not known here | use \"fluid\", \"flowable\" or \"plastic\"",
            "job.toml:18:9: expected a whole number from 0 to 100, found `101`",
            "job.toml:19:8: this length cannot be less than 0",
            "job.toml:20:1: `spare` is not a key of [grout]",
            "job.toml:22:10: expected a whole number from 0 to 100, found `-1`",
            "job.toml:23:1: `extra` is not a key of [order]",
        ],
    );
}

#[test]
fn what_cannot_stand_together_in_the_grout_is_told() {
    for (keys, wanted) in [
        (
            "product = \"bag-50-lb\"\nyield = \"12.7 l\"",
            "job.toml:17:9: `product` and `yield` cannot stand together | use one of the two",
        ),
        (
            "shoulder = 1",
            "job.toml:16:12: there is no room for a shoulder where the form stands at the plate | add edge",
        ),
        ("shoulder = 1\nedge = 0", "job.toml:16:12: there is no room for a shoulder"),
        (
            "yield = \"0 l\"",
            "job.toml:16:9: `0 l` is not a volume that is more than 0 | write it with its unit",
        ),
        ("yield = \"0.45\"", "job.toml:16:9: `0.45` is not a volume that is more than 0"),
        ("yield = 0.45", "job.toml:16:9: expected a text in quotes, found a number"),
    ] {
        assert_told(&changed(|job| format!("{job}[grout]\n{keys}\n"), same), &[wanted]);
    }
}
