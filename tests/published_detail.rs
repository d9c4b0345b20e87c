//! What to specify, against published part sizes and tolerances, the published figures first.

mod small_job;

use rodreach::catalog::{Authority, Limit, PadLimits, gap_left};
use rodreach::detail::{
    Asked, Percent, Spreads, Studied, Term, Terms, detail, specify, terms, thread_needed,
};
use rodreach::length::Length;
use rodreach::levels::reduce;
use rodreach::model::{Base, Job, Units};
use small_job::{Parts, base, catalog, job, len, limit_set, row};

/// A job of one base with these limits for tops of rods and of concrete, seats on their design, no tape, and nothing
/// more allowed of seats than the concrete asks for.
fn studied(set: &str, base: Base, rod_top: [&str; 2], pad_top: [&str; 2]) -> Job {
    let catalog = catalog();
    let mut job = job(&limit_set(&catalog, set), base, &[]);
    let limit = |[low, high]: [&str; 2]| {
        Some(Limit { value: [len(low), len(high)], authority: Authority::this_job() })
    };
    let tables = &mut job.limits.tables;
    tables.design = None;
    tables.rods.as_mut().unwrap().top = limit(rod_top);
    tables.pad = Some(PadLimits { tilt: None, top: limit(pad_top) });
    job
}

fn told(job: &Job) -> Terms {
    terms(job, &job.bases[0], Length::ZERO).unwrap()
}

fn metric_job(rod_top: [&str; 2]) -> Job {
    let catalog = catalog();
    let pitch = row(&catalog.threads, "metric-coarse", "24 mm").pitch;
    let nut = row(&catalog.nuts, "iso-4032", "24 mm").height.most;
    assert_eq!(nut, len("21.5 mm"));
    let mut base = base(&Parts { diameter: "24 mm", pitch, plate: "40 mm", washer: "10 mm", nut });
    base.bed = len("30 mm");
    base.beyond.value = pitch.times(1);
    base.clear.value = pitch.times(1);
    let mut job = studied("en-1090", base, rod_top, ["-15 mm", "5 mm"]);
    job.units = Units::Millimetre;
    job
}

/// An inch base through a gap, so many pitches wanted beyond the nut, tops of rods within 1/2 in (AISC 303, 7.5.1, and ACI
/// 117-10, 2.3, as quoted by second parties).
fn inch_job(diameter: &str, parts: [&str; 3], pitches: i64) -> Job {
    let catalog = catalog();
    let pitch = row(&catalog.threads, "unc", diameter).pitch;
    let nut = row(&catalog.nuts, "heavy-hex", diameter).height.nominal;
    let [gap, plate, washer] = parts;
    let mut base = base(&Parts { diameter, pitch, plate, washer, nut });
    base.bed = len(gap);
    base.beyond.value = pitch.times(pitches);
    studied("framed", base, ["-1/2", "1/2"], ["-1/2", "1/2"])
}

/// ASME B18.2.2 heavy hex nut of 47/64 in, AISC Design Guide 1, 2nd ed., Table 2.3, washer of 1/4 in (as transcribed), UNC
/// of 10 threads per inch: 1-1/2 in gap and 1 in plate want 3.484 in flush, 3.584 with one pitch, 3.684 with two.
#[test]
fn a_three_quarter_rod_stands_3_484_in_flush_and_a_tenth_more_for_each_pitch() {
    for (pitches, published) in [(0, "3.484375"), (1, "3.584375"), (2, "3.684375")] {
        let job = inch_job("3/4", ["1-1/2", "1", "1/4"], pitches);
        assert_eq!(told(&job).parts(), len(published), "{pitches} pitches");
    }
}

/// The same for a 1 in rod (63/64 in nut, 3/8 in washer, 8 threads per inch), 2 in gap, 1-1/2 in plate: 4.859, 4.984 in.
#[test]
fn a_one_inch_rod_stands_4_859_in_flush_and_an_eighth_more_for_a_pitch() {
    for (pitches, published) in [(0, "4.859375"), (1, "4.984375")] {
        let job = inch_job("1", ["2", "1-1/2", "3/8"], pitches);
        assert_eq!(told(&job).parts(), len(published), "{pitches} pitches");
    }
}

/// AISC 303 and ACI 117, tops within 1/2 in: the drawing must have flush and 1/2 in more, 3.984 in for the 3/4 in rod.
/// On a step of 1/4 in that is 4 in.
#[test]
fn with_tops_within_half_an_inch_the_drawing_has_half_an_inch_more_than_flush() {
    let job = inch_job("3/4", ["1-1/2", "1", "1/4"], 0);
    let terms = told(&job);
    assert_eq!(terms.at_design(), len("3.984375"));
    assert_eq!(terms.worst(), len("3.984375"), "the plate stays at its design level");
    assert_eq!(specify(&terms, terms.worst(), len("1/4"), false).projection, len("4"));
}

/// ISO 4032 nut M24 of 21.5 mm at most, ISO 262 pitch of 3 mm, one pitch beyond (EN 1090-2:2008, 8.2.2): 30 + 40 + 10 + 21.5 +
/// 3 = 104.5 mm. EN 1090-2, Annex B (2008: D.2.20), rods 5 mm low at most: 109.5 mm at least, 110 mm on a step of 5.
/// A rod in a sleeve may be 25 mm high, a rod cast solid 45 mm: that changes the thread, not the projection.
#[test]
fn an_m24_rod_stands_104_5_mm_and_is_specified_109_5_mm_at_least_in_both_families_of_tolerance() {
    let mut threads = Vec::new();
    for rod_top in [["-5 mm", "25 mm"], ["-5 mm", "45 mm"]] {
        let terms = told(&metric_job(rod_top));
        assert_eq!(terms.parts(), len("104.5 mm"));
        assert_eq!((terms.at_design(), terms.worst()), (len("109.5 mm"), len("109.5 mm")));
        let specified = specify(&terms, terms.worst(), len("5 mm"), true);
        assert_eq!(specified.projection, len("110 mm"));
        // rod high, the plate one step of 1 mm below design: 110 + high - 29 - 40 - 10, and one pitch clear
        assert_eq!(terms.lowest(), len("29 mm"));
        threads.push(specified.thread_least);
        assert_eq!(thread_needed(&terms, specified.projection), specified.thread_least);
    }
    assert_eq!(threads, [len("59 mm"), len("79 mm")]);
}

/// AISC Design Guide 1, 2nd ed., 2.7 (as quoted by a second party): thread at least 3 in (75 mm) longer than required. It
/// stands beside the figure and does not enter it.
#[test]
fn the_advice_of_design_guide_1_stands_beside_the_thread_and_not_in_it() {
    let job = inch_job("3/4", ["1-1/2", "1", "1/4"], 0);
    let terms = told(&job);
    let specified = specify(&terms, terms.worst(), len("1/4"), false);
    // 4 + 1/2 - (1-1/2 - 1/16) - 1 - 1/4, nothing wanted clear
    assert_eq!(specified.thread_least, len("1.8125"));
    assert_eq!(specified.thread, len("2"));
    assert_eq!(specified.thread_advised, len("5"), "1-13/16 and 3 in, on a step of 1/4");
    let terms = told(&metric_job(["-5 mm", "25 mm"]));
    assert_eq!(
        specify(&terms, terms.worst(), len("5 mm"), true).thread_advised,
        len("135 mm"),
        "59 and 75 mm"
    );
}

/// ACI 117-10, 3.3.1, top of foundation +1/2, -2 in (as quoted by a second party): a gap of 1-1/2 in is left 1 to 3-1/2 in.
/// The plate stays at its design, so the projection is that of the rod top alone: the two are separate terms.
#[test]
fn a_foundation_off_by_aci_117_leaves_1_to_3_and_a_half_inches_and_asks_for_no_longer_rod() {
    let level = inch_job("3/4", ["1-1/2", "1", "1/4"], 0);
    let mut off = level.clone();
    off.limits.tables.pad.as_mut().unwrap().top.as_mut().unwrap().value = [len("-2"), len("1/2")];
    assert_eq!(gap_left(off.bases[0].bed, [len("-2"), len("1/2")]), [len("1"), len("3-1/2")]);
    assert_eq!(told(&off).worst(), told(&level).worst());
    // 1/16 in higher and the thinnest bed of 1 in no longer fits: the plate rises by it
    off.limits.tables.pad.as_mut().unwrap().top.as_mut().unwrap().value = [len("-2"), len("9/16")];
    assert_eq!(told(&off).worst() - told(&level).worst(), len("1/16"));
}

/// EN 1090-2, Annex B (2008: D.2.20), foundation -15 to +5 mm (as quoted by a second party): a gap of 25 mm is left 20 to
/// 40 mm. The thinnest mortar bed of the set is 25 mm, so over the highest concrete the plate rises by 5 mm.
#[test]
fn a_foundation_off_by_en_1090_2_leaves_20_to_40_mm_and_raises_the_plate_by_what_the_bed_lacks() {
    let mut job = metric_job(["-5 mm", "45 mm"]);
    job.bases[0].bed = len("25 mm");
    assert_eq!(gap_left(len("25 mm"), [len("-15 mm"), len("5 mm")]), [len("20 mm"), len("40 mm")]);
    let terms = told(&job);
    assert_eq!(terms.at_design(), len("104.5 mm"));
    assert_eq!(terms.worst(), len("109.5 mm"));
    assert_eq!(terms.plane.high.why, "the thinnest bed on the highest concrete");
}

/// A seat that may be 1/8 in off its grade (AISC 303, 7.6, through a second party) is a term of its own.
#[test]
fn a_seat_that_may_be_an_eighth_high_asks_for_an_eighth_more() {
    let job = inch_job("3/4", ["1-1/2", "1", "1/4"], 0);
    let mut with = job.clone();
    with.limits.tables.design = limit_set(&catalog(), "framed").limits.design;
    assert_eq!(told(&with).worst() - told(&job).worst(), len("1/8"));
    let find = |terms: &Terms, name: &str| -> Term {
        terms.list.iter().find(|term| term.name == name).unwrap().clone()
    };
    assert_eq!(find(&told(&with), "plate raised").most, len("1/8"));
    assert_eq!(find(&told(&with), "rod top low").most, len("1/2"));
}

/// The whole answer of such a job: specified, and a drawing of 3.984 in meets it while one 1 nm less does not.
#[test]
fn a_drawing_meets_the_published_figure_to_the_nanometre() {
    let percent = |text: &str| Percent::read(text).unwrap();
    let asked = Asked {
        step: len("1/4"),
        probability: percent("99"),
        share: percent("95"),
        confidence: percent("95"),
        spreads: Spreads::default(),
    };
    for (less, meets) in [(0, true), (1, false)] {
        let mut job = inch_job("3/4", ["1-1/2", "1", "1/4"], 0);
        job.bases[0].rods.projection = Some(len("3.984375") - Length::from_nm(less));
        // long enough whatever is asked of it: a drawing without its thread is neither enough nor too little
        job.bases[0].rods.thread = Some(len("12"));
        let levels = reduce(&job);
        let found = detail(&[Studied { job: &job, levels: &levels }], &asked);
        assert_eq!(found.kinds[0].drawings[0].meets(), Some(meets));
        assert_eq!(found.is_clear(), meets);
        assert!(found.kinds[0].measured.is_none(), "nothing was measured");
    }
}
