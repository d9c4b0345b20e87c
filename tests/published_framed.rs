//! The limit set of framed buildings against published limits, the publication's numbers first.

mod small_job;

use rodreach::catalog::{Catalog, Limits, Standing};
use rodreach::check::Level;
use rodreach::length::Length;
use rodreach::model::{Base, Duty};
use small_job::{Parts, base, catalog, job, judged, len, limit_set, row, told};

fn framed(catalog: &Catalog) -> Limits {
    limit_set(catalog, "framed").limits
}

fn three_quarter_base(catalog: &Catalog) -> Base {
    let pitch = row(&catalog.threads, "unc", "3/4").pitch;
    base(&Parts { diameter: "3/4", pitch, plate: "1/2", washer: "1/4", nut: len("47/64") })
}

/// AISC 303, 7.6 (second party): bearing devices within 1/8 in of the established grade; 9/64 in is too much.
#[test]
fn a_seat_may_be_an_eighth_off_its_design_and_no_more() {
    let catalog = catalog();
    for (off, level) in
        [("1/8", None), ("-1/8", None), ("9/64", Some(Level::Ask)), ("-9/64", Some(Level::Ask))]
    {
        let mut job = job(&limit_set(&catalog, "framed"), three_quarter_base(&catalog), &[len("3")]);
        let reading = &mut job.readings.elevations[0];
        reading.elevation = reading.elevation + len(off);
        reading.plus_minus = Length::ZERO;
        assert_eq!(told(&judged(&job, "design-out")), [level], "{off}");
    }
}

/// ACI 117-10, 3.3.1 (second party): the top of a foundation is at most 1/2 in above its design and 2 in below.
#[test]
fn the_top_of_the_concrete_may_be_half_an_inch_high_or_two_low() {
    let catalog = catalog();
    for (off, level) in
        [("1/2", None), ("-2", None), ("33/64", Some(Level::Ask)), ("-2-1/64", Some(Level::Ask))]
    {
        let mut base = three_quarter_base(&catalog);
        base.bed = len("1-1/2");
        let mut job = job(&limit_set(&catalog, "framed"), base, &[len("5")]);
        let reading = &mut job.readings.elevations[0];
        // the seat of the design stands where the job has it; its concrete is the bed lower
        reading.elevation = reading.elevation - len("1-1/2") + len(off);
        reading.plus_minus = Length::ZERO;
        assert_eq!(told(&judged(&job, "pad-top-off")), [level], "{off}");
    }
}

/// AISC 303, 7.5.1, and ACI 117-10, 2.3.4.1 (second parties): tops of anchor rods within 1/2 in.
#[test]
fn the_top_of_a_rod_may_be_half_an_inch_off_in_a_framed_building() {
    let catalog = catalog();
    let mut base = three_quarter_base(&catalog);
    base.rods.projection = Some(len("4"));
    let tops = [len("4.5"), len("3.5"), len("4.51"), len("3.49")];
    let found = judged(&job(&limit_set(&catalog, "framed"), base, &tops), "rod-top-off");
    assert_eq!(told(&found), [None, None, Some(Level::Ask), Some(Level::Ask)]);
}

/// 29 CFR 1926.755(a)(1) (text read): four anchor rods or more a column; 1926.751: a post of 300 lb or less that is
/// axially loaded is no column.
#[test]
fn a_column_of_a_framed_building_needs_four_rods_and_a_post_does_not() {
    let catalog = catalog();
    let level = |count, duty| {
        let mut base = three_quarter_base(&catalog);
        base.rods.count = count;
        base.duty = duty;
        told(&judged(&job(&limit_set(&catalog, "framed"), base, &[len("3")]), "rods-too-few"))
    };
    assert_eq!(level(3, Duty::Column), [Some(Level::Stop)]);
    assert_eq!(level(4, Duty::Column), [None]);
    assert_eq!(level(3, Duty::Post), [None]);
}

/// ACI 351.1R-99, 5.5: never less than 1 in; AISC Design Guide 1, 2nd ed., 2.10: 1-1/2 to 2 in on footings (second
/// parties). RCSC: flush; EN 1090-2:2008, 8.2.2: one thread clear under the nut.
#[test]
fn the_framed_set_holds_the_published_values_and_no_limit_from_column_to_column() {
    let catalog = catalog();
    let limits = framed(&catalog);
    let grout = limits.grout.as_ref().unwrap();
    assert_eq!((grout.least.value, grout.most.value), (len("1"), len("2")));
    let engagement = limits.engagement.as_ref().unwrap();
    let pitch = row(&catalog.threads, "unc", "1").pitch;
    assert_eq!(
        (engagement.beyond.value.at(pitch), engagement.clear.value.at(pitch)),
        (Length::ZERO, len("1/8"))
    );
    assert!(limits.neighbours.is_none() && limits.wall.is_none() && limits.building.is_none());
    assert_eq!(limits.design.as_ref().unwrap().accept.authority.kind, Standing::Published);
    for authority in [
        &limits.shim.as_ref().unwrap().most.as_ref().unwrap().authority,
        &limits.grind.as_ref().unwrap().most.authority,
        &engagement.extra.authority,
    ] {
        assert_eq!(authority.kind, Standing::HouseRule, "no figure was found: {}", authority.text);
    }
}
