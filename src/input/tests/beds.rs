//! Designed beds of grout, and the concrete's height from its design.

use super::{JOB, Job, WALK, assert_told, changed, same};
use crate::length::{Bare, Length, Unit, read};

fn inch(text: &str) -> Length {
    read(text, Bare::of(Unit::Inch)).unwrap()
}

fn loaded(bed: &str) -> crate::model::Job {
    let job = format!("{JOB}{bed}");
    Job::new(&[("job.toml", &job), ("walk.csv", WALK)]).load().unwrap().job
}

#[test]
fn a_bed_within_the_limits_of_grout_is_read_and_none_is_none() {
    for (text, wanted) in [("bed = \"1-1/2\"\n", "1-1/2"), ("bed = 1\n", "1"), ("bed = 2\n", "2")] {
        let base = loaded(text).bases.remove(0);
        assert_eq!((base.bed, base.has_bed()), (inch(wanted), true));
    }
    for text in ["", "bed = 0\n", "bed = \"0 mm\"\n"] {
        let base = loaded(text).bases.remove(0);
        assert_eq!((base.bed, base.has_bed()), (Length::ZERO, false));
    }
}

#[test]
fn a_bed_that_cannot_be_used_is_told_with_its_place_and_what_mends_it() {
    let cases = [
        (
            "bed = \"15/16\"\n",
            "job.toml:15:7: a bed of 15/16\" lies outside the limits of grout, 1\" to 2\" | give the bed as the drawings \
             have it, or set [limits.grout] least and most to what they allow",
        ),
        (
            "bed = \"2-1/64\"\n",
            "job.toml:15:7: a bed of 2-1/64\" lies outside the limits of grout, 1\" to 2\" | give the bed as the drawings \
             have it, or set [limits.grout] least and most to what they allow",
        ),
        ("bed = \"-1\"\n", "job.toml:15:7: this length cannot be less than 0"),
        (
            "bed = \"1\"\n[limits.grout]\noff = true\n",
            "job.toml:15:7: a bed of 1\", and no limits of grout are set | add [limits.grout] with least, most and step, or \
             set bed to 0 where there is no grout",
        ),
    ];
    for (text, wanted) in cases {
        assert_told(&changed(|job| format!("{job}{text}"), same), &[wanted]);
    }
}

#[test]
fn the_top_of_concrete_has_a_lowest_and_a_highest() {
    let job = loaded("[limits.pad]\ntop = [\"-2\", \"1/2\"]\n");
    let top = job.limits.tables.pad.unwrap().top.unwrap();
    assert_eq!(top.value, [inch("-2"), inch("1/2")]);
    let found = changed(|job| format!("{job}[limits.pad]\ntop = [\"1/2\", \"-2\"]\n"), same);
    assert_told(&found, &["job.toml:16:7: the lowest stands behind the highest here"]);
}
