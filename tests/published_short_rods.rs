//! Rods that are not full against what is published of them, and what may be done about them, by hand.

mod small_job;

use rodreach::catalog::Pitch;
use rodreach::check::{Case, HighRod, Said, ShortRod, high_rods, short_rods};
use rodreach::length::Length;
use rodreach::levels::reduce;
use rodreach::model::{Job, Raise, Share, State, Units, needed_projection, state_at};
use small_job::{Parts, base, catalog, job, len, limit_set, on_their_pads, row};

/// Shows what is told of the one column of a job, its plate left on its pad.
fn with_case<T>(job: &Job, see: impl FnOnce(&Case<'_>) -> T) -> T {
    let levels = reduce(job);
    let plan = on_their_pads(job, &levels);
    see(&Case::new(job, &levels, &plan))
}

fn short(job: &Job) -> Vec<ShortRod> {
    with_case(job, |case| short_rods(case, &case.columns[0], &catalog()))
}

fn high(job: &Job) -> Vec<HighRod> {
    with_case(job, |case| high_rods(case, &case.columns[0]))
}

fn unc(diameter: &str) -> Pitch {
    row(&catalog().threads, "unc", diameter).pitch
}

/// A heavy hex nut on a plate of 1 in and a washer of 1/4 in, its rod so much short of flush, its thread measured.
fn heavy_hex(diameter: &str, short: &str) -> Job {
    let catalog = catalog();
    let nut = row(&catalog.nuts, "heavy-hex", diameter).height.nominal;
    let parts = Parts { diameter, pitch: unc(diameter), plate: "1", washer: "1/4", nut };
    let projection = len("1") + len("1/4") + nut - len(short);
    let mut job = job(&limit_set(&catalog, "low-rise"), base(&parts), &[projection]);
    job.columns[0].rods[0].thread = Some(projection);
    job
}

/// What each publication says of the outer nut of the only rod, and the share it may be taken for.
fn told(job: &Job) -> (Vec<(&'static str, Said)>, Option<Share>) {
    let found = short(job);
    let said = found[0].published.iter().map(|it| (it.name, it.said));
    (said.collect(), found[0].published.iter().find_map(|it| it.estimate))
}

fn ten_thousandths(share: Share) -> i64 {
    (share.part.nm() * 20_000 / share.whole.nm() + 1) / 2
}

const NO: Said = Said::NotKept;
const YES: Said = Said::Kept;

/// A 1 in heavy hex nut (63/64 in, ASME B18.2.2), its rod 3/16 in short: 51/63 = 0.8095 of it on thread. Design Guide 1,
/// 2nd ed., 2.11.3: an estimate of 81 %; FHWA 16.3.1.2: three quarters are engaged; RCSC, EN 1090-2 and IFI: no.
#[test]
fn a_one_inch_nut_three_sixteenths_short_is_81_percent_by_the_design_guide_and_enough_by_fhwa() {
    let (said, estimate) = told(&heavy_hex("1", "3/16"));
    assert_eq!(ten_thousandths(estimate.unwrap()), 8_095);
    let expected =
        [("RCSC", NO), ("EN 1090-2", NO), ("FHWA", YES), ("IFI", NO), ("AISC Design Guide 1", YES)];
    assert_eq!(said, expected);
}

/// A 3/4 in heavy hex nut (47/64 in), its rod 3/16 in short: 35/47 = 0.7447, enough for Design Guide 1, not for FHWA.
#[test]
fn a_three_quarter_nut_three_sixteenths_short_is_enough_by_the_design_guide_and_not_by_fhwa() {
    let (said, estimate) = told(&heavy_hex("3/4", "3/16"));
    assert_eq!(ten_thousandths(estimate.unwrap()), 7_447);
    let expected = [("RCSC", NO), ("EN 1090-2", NO), ("FHWA", NO), ("IFI", NO), ("AISC Design Guide 1", YES)];
    assert_eq!(said, expected);
}

/// A 3/4 in heavy hex nut, its rod 3/8 in short: 23/47 = 0.4894, less than the half Design Guide 1 asks for: no
/// estimate, the engineer.
#[test]
fn a_three_quarter_nut_three_eighths_short_has_no_estimate() {
    let job = heavy_hex("3/4", "3/8");
    let (said, estimate) = told(&job);
    assert_eq!(ten_thousandths(short(&job)[0].nuts[0]), 4_894);
    assert_eq!(estimate, None);
    assert!(said.iter().all(|(_, said)| *said == NO), "{said:?}");
}

/// AISC 303 and ACI 117 let the top of a rod be 1/2 in off (second parties): the 3/4 in rod through a gap of 1-1/2 in, a
/// plate of 1 in, a washer of 1/4 in and a nut of 47/64 in that needs 3.484 in must be drawn 3.984 in to be full always.
#[test]
fn a_rod_drawn_half_an_inch_longer_than_flush_is_full_wherever_its_top_may_be() {
    let catalog = catalog();
    let nut = row(&catalog.nuts, "heavy-hex", "3/4").height.nominal;
    let base = base(&Parts { diameter: "3/4", pitch: unc("3/4"), plate: "1", washer: "1/4", nut });
    let gap = Raise::exact(len("1-1/2"));
    let [low, high] = limit_set(&catalog, "low-rise").limits.rods.unwrap().top.unwrap().value;
    assert_eq!((low, high), (len("-1/2"), len("1/2")));
    let drawn = needed_projection(&base, gap, 0, Length::ZERO) - low;
    assert_eq!(drawn, len("3.984375"));
    let state = |off: Length| {
        let mut rod = rodreach::model::Rod::unmeasured(rodreach::model::RodLabel::Number(1));
        rod.projection = Some(drawn + off);
        state_at(&base, gap, &rod, Length::ZERO)
    };
    assert_eq!([state(low), state(high)], [State::Full; 2]);
    assert_eq!(state(low - Length::from_nm(1)), State::Short);
}

#[test]
fn a_rule_that_would_be_kept_is_only_kept_if_the_thread_was_measured() {
    let mut job = heavy_hex("1", "3/16");
    job.columns[0].rods[0].thread = None;
    let (said, estimate) = told(&job);
    assert_eq!(said[2], ("FHWA", Said::IfThreaded));
    assert_eq!(said[4].1, Said::IfThreaded);
    assert!(estimate.is_some() && !short(&job)[0].thread_measured);
}

#[test]
fn what_a_reading_is_good_to_comes_off_before_a_rule_is_kept() {
    // 51/63 at nominal; with 1/16 in off 47/63 = 0.746, with it on 55/63: too close to call for three quarters
    let mut job = heavy_hex("1", "3/16");
    job.rods_plus_minus = len("1/16");
    job.columns[0].rods[0].thread = Some(len("2"));
    let (said, estimate) = told(&job);
    assert_eq!(said[2], ("FHWA", Said::Unsure));
    assert_eq!(ten_thousandths(estimate.unwrap()), 7_460);
}

#[test]
fn a_full_rod_and_one_nobody_measured_are_no_short_rods() {
    assert!(short(&heavy_hex("1", "0")).is_empty());
    let mut job = heavy_hex("1", "0");
    job.columns[0].rods[0].projection = None;
    assert!(short(&job).is_empty());
}

#[test]
fn the_seat_must_come_down_by_what_the_rod_is_short() {
    let found = short(&heavy_hex("1", "3/16"));
    let lower = found[0].ladder.lower.unwrap();
    assert_eq!((lower.by, lower.to), (len("3/16"), len("-3/16")));
    assert!(lower.all_rods);
    assert_eq!(found[0].ladder.coupling, len("1"), "one rod diameter from either side");
}

/// A second column on the line, 1/8 in above the first: with 3/16 in accepted the first may come down by 1/16 in.
#[test]
fn how_far_the_seat_may_come_down_is_what_the_next_column_leaves() {
    let mut job = heavy_hex("1", "3/16");
    let mut other = job.columns[0].clone();
    other.mark = "A2".to_owned();
    other.point = Some(1);
    job.columns.push(other);
    job.readings.points.push("A2".to_owned());
    let mut second = job.readings.elevations[0].clone();
    second.point = 1;
    second.elevation = second.elevation + len("1/8");
    job.readings.elevations.push(second);
    job.lines.push(rodreach::model::Line {
        name: "A".to_owned(),
        kind: rodreach::model::LineKind::Frame,
        columns: vec![0, 1],
        spacing: vec![len("20'")],
        accept: None,
        found: false,
    });
    let lower = short(&job)[0].ladder.lower.unwrap();
    assert_eq!(lower.lowest, Some(-len("1/16")));
    assert!(!lower.unknown && lower.to < lower.lowest.unwrap());
    // nobody knows where the other pad stands: what it leaves is not known either
    job.readings.elevations.pop();
    assert!(short(&job)[0].ladder.lower.unwrap().unknown);
}

#[test]
fn a_thinner_washer_is_named_only_where_it_covers_the_hole() {
    // a washer of 1/4 in, the rod 1/16 in short: wide and F436 washers are 0.177 in at most and gain 0.073 in
    let mut job = heavy_hex("3/4", "1/16");
    assert!(short(&job)[0].ladder.washers.is_none(), "the hole is not given");
    job.bases[0].plate.holes = Some(len("15/16"));
    job.bases[0].plain_washer = catalog().holes[0].plain(len("3/4")).cloned();
    job.columns[0].rods[0].thread = Some(len("2"));
    let series = |job: &Job| -> Vec<(String, Length, State)> {
        let washers = short(job)[0].ladder.washers.clone().unwrap();
        washers.into_iter().map(|it| (it.series, it.gain, it.state)).collect()
    };
    let found = series(&job);
    let gain = |name: &str| found.iter().find(|it| it.0 == name).map(|it| (it.1, it.2));
    assert_eq!(gain("wide"), Some((len("0.073"), State::Full)));
    assert_eq!(gain("f436"), Some((len("0.073"), State::Full)));
    assert!(found.iter().all(|it| it.1 > Length::ZERO));
    // over a hole of 1-5/16 in the table asks for 2 in wide and 1/4 in thick: nothing thinner will do
    job.bases[0].plate.holes = Some(len("1-5/16"));
    job.bases[0].hole_table = catalog().holes[0].series.row(len("3/4")).cloned();
    assert_eq!(series(&job), []);
}

#[test]
fn a_rod_more_than_an_inch_or_25_mm_above_the_drawing_is_asked_about() {
    let mut job = heavy_hex("1", "0");
    let drawn = job.columns[0].rods[0].projection.unwrap();
    job.bases[0].rods.projection = Some(drawn);
    job.limits.tables.rods = None;
    let mut at = |above: Length, units: Units| {
        job.units = units;
        job.columns[0].rods[0].projection = Some(drawn + above);
        high(&job).first().map(|it| it.projection.as_ref().map(|it| it.0))
    };
    let nanometre = Length::from_nm(1);
    assert_eq!(at(len("1"), Units::Inch), None);
    assert_eq!(at(len("1") + nanometre, Units::Inch), Some(Some(len("1") + nanometre)));
    assert_eq!(at(len("25 mm"), Units::Millimetre), None);
    assert_eq!(at(len("1"), Units::Millimetre), Some(Some(len("1"))));
}

#[test]
fn a_top_above_the_limit_set_is_asked_about_before_an_inch_is_reached() {
    let mut job = heavy_hex("1", "0");
    let drawn = job.columns[0].rods[0].projection.unwrap();
    job.bases[0].rods.projection = Some(drawn);
    job.columns[0].rods[0].projection = Some(drawn + len("1/2"));
    assert!(high(&job).is_empty(), "1/2 in is allowed");
    job.columns[0].rods[0].projection = Some(drawn + len("9/16"));
    let found = high(&job);
    let (off, most, _) = found[0].top.clone().unwrap();
    assert_eq!((off, most), (len("9/16"), len("1/2")));
    assert!(found[0].projection.is_none());
}
