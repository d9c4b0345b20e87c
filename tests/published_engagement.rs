//! Thread engagement, rod counts and rod tops against published figures, the publication's numbers first.

mod small_job;

use rodreach::check::Level;
use rodreach::length::Length;
use rodreach::model::{Duty, Raise, Rod, RodLabel, Share, State, needed_projection, stack_up};
use small_job::{Parts, base, catalog, job, judged, len, limit_set, row, three_quarter, told};

/// Works out a nut on a rod that ends so much below its top, parts exact, no tape.
fn engaged(diameter: &str, nut: Length, short: &str) -> (Share, State) {
    let catalog = catalog();
    let pitch = row(&catalog.threads, "unc", diameter).pitch;
    let base = base(&Parts { diameter, pitch, plate: "1", washer: "1/4", nut });
    let rod = Rod {
        projection: Some(len("1") + len("1/4") + nut - len(short)),
        ..Rod::unmeasured(RodLabel::Number(1))
    };
    let result = stack_up(&base, Raise::exact(Length::ZERO), &rod, Length::ZERO);
    (result.engaged[0], result.state)
}

/// The share in ten-thousandths, to the nearest.
fn ten_thousandths(share: Share) -> i64 {
    (share.part.nm() * 20_000 / share.whole.nm() + 1) / 2
}

/// Tells whether a share is at least so many of so many.
fn at_least(share: Share, over: i64, under: i64) -> bool {
    share.part.nm() * under >= share.whole.nm() * over
}

/// SEAINT list, 2000, worked engagement (second party): a 1 in A307 rod of 36.35 kip in a nut of 45.45 kip proof
/// load and 1 in height needs 36.35 / 45.45 x 1 in = 0.80 in; the rod ends 3/16 in below the top of the nut.
#[test]
fn a_nut_three_sixteenths_short_still_has_the_engagement_its_rod_needs() {
    let (share, state) = engaged("1", len("1"), "3/16");
    let needed = len("1").nm() * 3_635 / 4_545;
    assert_eq!((needed * 200_000 / len("1").nm() + 1) / 2, 79_978, "0.79978 in, published as 0.80");
    assert_eq!(share.part, len("0.8125"));
    assert!(share.part.nm() > needed);
    assert_eq!(state, State::Short, "enough for that engineer is still not full");
}

/// AISC Design Guide 1, 2nd ed., 2.11.3 (half of the nut's threads, pro rata), and FHWA sign support guidelines,
/// 16.3.1.2 (three quarters of the nut), both as quoted by second parties; shares worked out from the nut heights of
/// ASME B18.2.2, heavy hex.
#[test]
fn shares_of_short_nuts_stand_where_the_publications_part() {
    let catalog = catalog();
    let nut = |diameter| row(&catalog.nuts, "heavy-hex", diameter).height.nominal;
    assert_eq!((nut("1"), nut("3/4")), (len("63/64"), len("47/64")));

    let (share, state) = engaged("1", nut("1"), "3/16");
    assert_eq!(ten_thousandths(share), 8_095, "81 %");
    assert!(at_least(share, 3, 4) && state == State::Short);

    let (share, state) = engaged("3/4", nut("3/4"), "3/16");
    assert_eq!(ten_thousandths(share), 7_447);
    assert!(!at_least(share, 3, 4) && at_least(share, 1, 2) && state == State::Short);

    let (share, state) = engaged("3/4", nut("3/4"), "3/8");
    assert_eq!(ten_thousandths(share), 4_894);
    assert!(!at_least(share, 1, 2) && state == State::Short);

    let (share, state) = engaged("3/4", nut("3/4"), "0");
    assert!(at_least(share, 1, 1) && state == State::Full, "flush is full: RCSC, glossary, as quoted");
}

/// Gives what a rod must stand, exact parts and no tape, with so many pitches wanted beyond the nut.
fn needed(parts: &Parts<'_>, gap: &str, pitches: i64) -> Length {
    let mut base = base(parts);
    base.beyond.value = parts.pitch.times(pitches);
    needed_projection(&base, Raise::exact(len(gap)), 0, Length::ZERO)
}

/// Sums of published part sizes: ASME B18.2.2 heavy hex nuts, AISC Design Guide 1, 2nd ed., Table 2.3 washers, ASME
/// B1.1 UNC pitches (10 and 8 threads per inch); flush (RCSC), one pitch (EN 1090-2), two pitches (IFI), as quoted.
#[test]
fn inch_rods_must_stand_gap_plate_washer_nut_and_the_pitches_wanted() {
    let catalog = catalog();
    let parts = |diameter, plate, washer| Parts {
        diameter,
        pitch: row(&catalog.threads, "unc", diameter).pitch,
        plate,
        washer,
        nut: row(&catalog.nuts, "heavy-hex", diameter).height.nominal,
    };
    let three_quarters = parts("3/4", "1", "1/4");
    let flush = len("3.484375");
    assert_eq!(needed(&three_quarters, "1-1/2", 0), flush, "3.484 in");
    assert_eq!(needed(&three_quarters, "1-1/2", 1), flush + len("0.1"), "3.584 in");
    assert_eq!(needed(&three_quarters, "1-1/2", 2), flush + len("0.2"), "3.684 in");

    let one = parts("1", "1-1/2", "3/8");
    assert_eq!(needed(&one, "2", 0), len("4.859375"), "4.859 in");
    assert_eq!(needed(&one, "2", 1), len("4.984375"), "4.984 in");
}

/// Sum of published part sizes: ISO 4032 nut M24 (21.5 mm at most), ISO 262 coarse pitch 3 mm, one pitch beyond the nut
/// (EN 1090-2:2008, 8.2.2); with a rod that may be cast 5 mm low (EN 1090-2:2008, D.2.20) 109.5 mm are specified.
#[test]
fn a_metric_rod_must_stand_gap_plate_washer_nut_and_one_pitch() {
    let catalog = catalog();
    let parts = Parts {
        diameter: "24 mm",
        pitch: row(&catalog.threads, "metric-coarse", "24 mm").pitch,
        plate: "40 mm",
        washer: "10 mm",
        nut: row(&catalog.nuts, "iso-4032", "24 mm").height.most,
    };
    assert_eq!(needed(&parts, "30 mm", 1), len("104.5 mm"));
    let [lowest, _] = limit_set(&catalog, "en-1090").limits.rods.unwrap().top.unwrap().value;
    assert_eq!(needed(&parts, "30 mm", 1) - lowest, len("109.5 mm"));
}

/// EN 1090-2:2008, 8.2.2 (page seen): one thread pitch or more beyond the nut; M20 has a coarse pitch of 2.5 mm.
#[test]
fn an_m20_rod_needs_2_5_mm_beyond_its_nut() {
    let catalog = catalog();
    let set = limit_set(&catalog, "en-1090");
    let parts = Parts {
        diameter: "20 mm",
        pitch: row(&catalog.threads, "metric-coarse", "20 mm").pitch,
        plate: "20 mm",
        washer: "3 mm",
        nut: len("18 mm"),
    };
    let mut base = base(&parts);
    base.beyond.value = set.limits.engagement.as_ref().unwrap().beyond.value.at(parts.pitch);
    let flush = len("41 mm");
    let found =
        judged(&job(&set, base, &[flush + len("2.4 mm"), flush + len("2.5 mm")]), "thread-beyond-missing");
    assert_eq!(told(&found), [Some(Level::Ask), None]);
    assert_eq!(found[0].limit, Some(len("2.5 mm")));
}

/// 29 CFR 1926.755(a)(1) and 1926.758(b) (text read): four anchor rods or more a column; 1926.751: a post of 300 lb or
/// less, axially loaded, is no column.
#[test]
fn three_rods_are_too_few_for_a_column_and_not_for_a_post() {
    let catalog = catalog();
    let set = limit_set(&catalog, "low-rise");
    let parts = three_quarter(&catalog, "47/64");
    let level = |count, duty| {
        let mut base = base(&parts);
        base.rods.count = count;
        base.duty = duty;
        told(&judged(&job(&set, base, &[len("3")]), "rods-too-few"))
    };
    assert_eq!(level(3, Duty::Column), [Some(Level::Stop)]);
    assert_eq!(level(3, Duty::Post), [None]);
    assert_eq!(level(4, Duty::Column), [None]);
}

/// Judges tops of rods so far from their design under a limit set.
fn tops(set: &str, off: &[&str]) -> Vec<Option<Level>> {
    let catalog = catalog();
    let parts = three_quarter(&catalog, "47/64");
    let mut base = base(&parts);
    base.rods.projection = Some(len("4"));
    let projections: Vec<Length> = off.iter().map(|off| len("4") + len(off)).collect();
    told(&judged(&job(&limit_set(&catalog, set), base, &projections), "rod-top-off"))
}

/// AISC 303, 7.5.1, and ACI 117, 2.3 (second parties): tops of anchor rods within 1/2 in.
#[test]
fn the_top_of_a_rod_may_be_half_an_inch_off_and_no_more() {
    assert_eq!(tops("low-rise", &["0.5", "-0.5", "0.51"]), [None, None, Some(Level::Ask)]);
}

/// EN 1090-2:2008, D.2.20 (second party): vertical protrusion of a rod cast solid -5 mm to +45 mm.
#[test]
fn the_top_of_a_rod_cast_solid_may_be_45_mm_high_and_5_mm_low() {
    assert_eq!(
        tops("en-1090", &["45 mm", "46 mm", "-5 mm", "-6 mm"]),
        [None, Some(Level::Ask), None, Some(Level::Ask)]
    );
}
