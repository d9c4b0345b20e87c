//! Strength of concrete, piers and loads of a job, and what is refused of them.

use super::{JOB, Job, WALK, assert_told, changed, same, told};
use crate::length::Length;
use crate::model::{Concrete, Loads};
use crate::quantity::{Force, read_force, read_stress};

/// `JOB` with a plate of a size and more behind it; line 15 is the first line of it.
fn with(text: &str) -> String {
    JOB.replace("{ thickness = \"1/2\" }", "{ size = [10, 14], thickness = \"1/2\" }") + text
}

fn job(text: &str) -> crate::model::Job {
    let loaded = Job::new(&[("job.toml", &with(text)), ("walk.csv", WALK)]).load();
    loaded.map_err(|refused| told(&refused)).unwrap().job
}

/// Gives the faults of it.
fn faults(text: &str) -> Vec<String> {
    changed(|_| with(text), same)
}

#[test]
fn a_job_without_them_knows_nothing_of_concrete_and_loads() {
    let job = job("");
    assert_eq!((job.concrete, job.bases[0].pier), (Concrete::default(), None));
    assert_eq!(job.bases[0].loads, Loads::default());
    assert!(!job.bases[0].loads.any());
}

#[test]
fn concrete_piers_and_loads_are_read_and_0_is_no_load() {
    let job =
        job("pier = [24, \"2'\"]\nloads = { erection = \"12 kip\", factored = \"3.1 MN\", shear = 0 }\n\n\
                   [concrete]\nstrength = \"3000 psi\"\ntested = \"17 N/mm2\"\n"
            .replace("3.1 MN", "3100 kN")
            .as_str());
    let inches = |inches: i64| Length::from_nm(inches * 25_400_000);
    assert_eq!(job.bases[0].pier, Some([inches(24), inches(24)]));
    let wanted = Loads {
        erection: read_force("12000 lb").ok(),
        factored: read_force("3100000 N").ok(),
        shear: Some(Force::ZERO),
        tension: None,
    };
    assert_eq!(job.bases[0].loads, wanted);
    assert_eq!(job.concrete.strength, read_stress("3 ksi").ok());
    assert_eq!(job.concrete.tested, read_stress("17 MPa").ok());
}

#[test]
fn loads_that_cannot_be_read_are_all_told_with_their_places() {
    assert_told(
        &faults(
            "loads = { erection = 12, factored = \"-3 kip\", shear = \"5 t\", tension = \"1,200 lb\" }\n",
        ),
        &[
            "job.toml:15:22: `12`: this number has no unit | write a force such as \"12 kip\", \"500 lb\", \"53.4 kN\" or \"300 N\", or \"0\" for none",
            "job.toml:15:37: `-3 kip`: a force cannot be less than 0 here | write it without a sign",
            "job.toml:15:55: `5 t`: this unit is one of mass, not of force | write the force the drawings have",
            "job.toml:15:72: `1,200 lb`: a comma stands in the number | write it without, as in 1200 or 4.5",
        ],
    );
    assert_told(
        &faults("loads = { erection = \"kip\", shear = \"3 psi\", factored = true }\n"),
        &[
            "job.toml:15:22: `kip`: this is not a force",
            "job.toml:15:37: `3 psi`: this is not a unit of a force",
            "job.toml:15:57: expected a force, found true or false",
        ],
    );
    assert_told(
        &faults("loads = { errection = \"3 kip\" }\n"),
        &["job.toml:15:11: `errection` is not a key of loads | did you mean `erection`?"],
    );
    assert_told(
        &faults("loads = {}\n"),
        &["job.toml:15:9: no load is given here | give those that are known"],
    );
    assert_told(&faults("loads = \"12 kip\"\n"), &["job.toml:15:9: expected a table `loads`, found a text"]);
}

#[test]
fn strengths_that_cannot_be_are_told() {
    let strength = |text: &str| faults(&format!("\n[concrete]\nstrength = {text}\n"));
    assert_told(
        &strength("3000"),
        &["job.toml:17:12: `3000`: this number has no unit | write a strength such as"],
    );
    assert_told(
        &strength("\"0 psi\""),
        &["job.toml:17:12: this strength must be more than 0 | leave the key out"],
    );
    assert_told(
        &strength("\"-3 ksi\""),
        &["job.toml:17:12: `-3 ksi`: a strength cannot be less than 0 here"],
    );
    for text in ["\"3000 ksi\"", "\"3 psi\"", "\"201 MPa\"", "\"4.9 MPa\""] {
        assert_told(
            &strength(text),
            &[
                "job.toml:17:12: no concrete is specified to this strength | check the unit: 3000 psi is 3 ksi or 20.7 MPa",
            ],
        );
    }
    assert_told(
        &faults("\n[concrete]\nstrenght = \"3 ksi\"\n"),
        &["job.toml:17:1: `strenght` is not a key of [concrete] | did you mean `strength`?"],
    );
    assert_told(
        &faults("\n[concrete]\ntested = \"0 psi\"\n"),
        &["job.toml:17:10: this strength must be more than 0 | leave the key out where it is not known"],
    );
}

#[test]
fn a_pier_carries_the_whole_plate() {
    assert_eq!(job("pier = [10, 14]\n").bases[0].pier.map(|pier| pier[1].nm()), Some(14 * 25_400_000));
    assert_told(
        &faults("pier = [14, 10]\n"),
        &[
            "job.toml:15:8: the plate stands out over this pier | give the sides of the pier in the order of those of the plate",
        ],
    );
    assert_told(&faults("pier = [0, 14]\n"), &["job.toml:15:8: both lengths must be more than 0"]);
}
