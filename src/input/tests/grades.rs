//! Grades of rods and nuts in a job, and what is refused of them.

use super::{JOB, Job, WALK, assert_told, changed, same, told};
use crate::catalog::{Finish, NutStyle};
use crate::model::Base;
use crate::quantity::{Stress, StressUnit};

/// The base of `JOB` with other rods and nuts.
fn base(rods: &str, nuts: &str) -> Base {
    let text = with(rods, nuts)(JOB);
    let loaded = Job::new(&[("job.toml", &text), ("walk.csv", WALK)]).load();
    loaded.map_err(|refused| told(&refused)).unwrap().job.bases.swap_remove(0)
}

fn with(rods: &str, nuts: &str) -> impl Fn(&str) -> String {
    let (rods, nuts) = (rods.to_owned(), nuts.to_owned());
    move |job| {
        let job = job.replace("count = 4 }", &format!("count = 4{rods} }}"));
        job.replace("nuts = [\"heavy-hex\"]", &format!("nuts = {nuts}"))
    }
}

fn ksi(ksi: i64) -> Stress {
    Stress::of(ksi, StressUnit::Ksi)
}

#[test]
fn a_job_without_grades_is_as_before() {
    let base = base("", "[\"heavy-hex\"]");
    assert!(base.rods.steel.is_none() && base.nuts[0].steel.is_none());
    assert_eq!(base.nuts[0].style, Some(NutStyle::HeavyHex));
}

#[test]
fn the_grades_of_rods_and_nuts_are_found_with_what_is_recommended() {
    let nuts = "[{ series = \"hex\", grade = \"A\" }, { height = [\"0.6\", \"0.7\"], style = \"heavy-hex\", grade = \"2H\" }]";
    let base = base(", grade = \"F1554-55\", finish = \"zinc\"", nuts);
    let rods = base.rods.steel.as_ref().unwrap();
    assert_eq!((rods.grade.as_str(), rods.finish), ("F1554-55", Some(Finish::Zinc)));
    let wanted: Vec<_> = rods.wanted.iter().map(|it| (it.row.nut.as_str(), it.row.style, it.proof)).collect();
    assert_eq!(wanted, [("A", NutStyle::HeavyHex, Some(ksi(75)))], "ASTM A563-15, Table 3, zinc-coated");
    let [series, measured] = base.nuts.as_slice() else { panic!("two nuts") };
    assert_eq!((series.series.as_str(), series.style), ("hex", Some(NutStyle::Hex)));
    let steel = series.steel.as_ref().unwrap();
    assert_eq!((steel.grade.as_str(), steel.proof.as_ref().unwrap().zinc), ("A", Some(ksi(68))));
    assert_eq!((measured.series.as_str(), measured.style), ("as measured", Some(NutStyle::HeavyHex)));
    assert!(measured.steel.as_ref().unwrap().instead.is_some(), "2H may replace any");
}

#[test]
fn rods_of_no_known_finish_have_what_is_recommended_for_both() {
    let base = base(", grade = \"F1554-55\"", "[\"hex\"]");
    let rods = base.rods.steel.unwrap();
    assert_eq!((rods.finish, rods.wanted.len()), (None, 2));
}

#[test]
fn an_unknown_grade_is_refused_with_the_nearest_name() {
    let found = changed(with(", grade = \"F1554-56\"", "[{ series = \"heavy-hex\", grade = \"dh\" }]"), same);
    assert_told(
        &found,
        &[
            "job.toml:12:47: `F1554-56` is not a grade of rods | did you mean `F1554-36`? known are F1554-36, F1554-55, F1554-105, 4.6, 5.6, 8.8, 10.9",
            "job.toml:14:41: `dh` is not a grade of nuts | did you mean `DH`? known are A, C, D, DH, 4, 5, 6, 8, 10, 2H",
        ],
    );
}

#[test]
fn keys_that_say_nothing_are_refused_and_never_ignored() {
    let found = changed(with(", finish = \"zinc\"", "[\"heavy-hex\"]"), same);
    assert_told(&found, &["job.toml:12:48: `finish` says nothing without the grade of the rods"]);
    let found = changed(with(", grade = \"F1554-36\", finish = \"galvanized\"", "[\"heavy-hex\"]"), same);
    assert_told(&found, &["job.toml:12:68: `galvanized` is not known here | use \"plain\" or \"zinc\""]);
    let found = changed(with("", "[{ series = \"heavy-hex\", height = [\"0.6\", \"0.7\"] }]"), same);
    assert_told(&found, &["job.toml:14:33: `height` is not a key of a nut"]);
    let found = changed(with("", "[{ grade = \"A\" }]"), same);
    assert_told(&found, &["job.toml:14:9: `height` is missing in a nut"]);
    let found = changed(with("", "[{ series = \"heavy\", grade = \"B\" }]"), same);
    assert_eq!(found.len(), 2, "{found:?}");
}
