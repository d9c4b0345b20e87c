//! There and back: what `detail` specifies, built at any corner of the tolerances, passes `check`; one step shorter does not.

mod tool;

use proptest::prelude::*;
use rodreach::catalog::{
    Accept, Authority, Extent, Grout, InPitches, Limit, PadLimits, RodLimits, ShimLimits, ShimPiece,
};
use rodreach::check::judge;
use rodreach::detail::{Origin, Specification, Terms, specify, terms};
use rodreach::input::{Override, load};
use rodreach::length::Length;
use rodreach::levels::reduce;
use rodreach::model::{
    Column, ElevationReading, Job, Line, LineKind, Rod, RodLabel, Sense, Sight, SightKind, State,
};
use rodreach::plan::{Plan, PlannedOption, Wish, all_options, options_at, plan_fewest};
use rodreach::source::{Files, Place};
use std::sync::OnceLock;
use tool::Job as Folder;

const MM: i64 = 1_000_000;

fn nm(nm: i64) -> Length {
    Length::from_nm(nm)
}

fn limit<T>(value: T) -> Limit<T> {
    Limit { value, authority: Authority::this_job() }
}

/// Everything a specification is made of, in tenths of a millimetre.
#[derive(Clone, Debug)]
struct Made {
    plate: [i64; 3],
    washer: [i64; 3],
    nut: [i64; 3],
    beyond: i64,
    clear: i64,
    reading: i64,
    rod_top: [i64; 2],
    /// Lowest and highest concrete; none where no limit says.
    pad_top: Option<[i64; 2]>,
    /// The designed bed, and how much thinner and thicker beds may be.
    bed: Option<[i64; 3]>,
    /// How far a seat may be from its design.
    seat: Option<i64>,
    /// What one shim may be thinner and thicker.
    shim: [i64; 2],
    step: i64,
}

fn tenths(tenths: i64) -> Length {
    nm(tenths * MM / 10)
}

fn extent([nominal, under, over]: [i64; 3]) -> Extent {
    Extent { least: tenths(nominal - under), nominal: tenths(nominal), most: tenths(nominal + over) }
}

fn made() -> impl Strategy<Value = Made> {
    let part = |from: i64, to: i64| [from..to, 0..8_i64, 0..12_i64];
    let parts = (part(100, 400), part(30, 100), part(150, 400));
    let wanted = (0..60_i64, 0..60_i64, 0..20_i64);
    let tops = ([-150..=0_i64, 0..=450_i64], proptest::option::weighted(0.8, [-60..=0_i64, 0..=60_i64]));
    let bed = proptest::option::of([250..500_i64, 70..100_i64, 70..100_i64]);
    let seat = proptest::option::of(20..60_i64);
    // on a step of 0.1 mm hardly anything is left by rounding
    let step = prop_oneof![Just(1_i64), 5..60_i64];
    (parts, wanted, tops, bed, seat, [0..3_i64, 0..4_i64], step).prop_map(
        |((plate, washer, nut), (beyond, clear, reading), (rod_top, pad_top), bed, seat, shim, step)| Made {
            plate,
            washer,
            nut,
            beyond,
            clear,
            reading,
            rod_top,
            pad_top,
            bed,
            // a seat is held against its design only where elevations are absolute
            seat: seat.filter(|_| pad_top.is_some()),
            shim,
            step,
        },
    )
}

/// A job of columns on one frame line, each pad so far above its design, the rods as the drawing has them.
fn job(made: &Made, pads: &[i64]) -> Job {
    // everything that is not looked at here is that of a clean job
    static CLEAN: OnceLock<Job> = OnceLock::new();
    let clean = || load(&tool::clean::levels_job().path("job.toml"), &Override::default()).unwrap().job;
    let mut job = CLEAN.get_or_init(clean).clone();
    let mut base = job.bases[0].clone();
    base.plate.thickness = extent(made.plate);
    base.washers[0].thickness = extent(made.washer);
    base.nuts[0].height = extent(made.nut);
    base.extra = None;
    base.beyond = limit(tenths(made.beyond));
    base.clear = limit(tenths(made.clear));
    base.bed = made.bed.map_or(Length::ZERO, |[bed, ..]| tenths(bed));
    let limits = &mut job.limits.tables;
    let engagement = limits.engagement.as_mut().unwrap();
    engagement.beyond = limit(InPitches::Length(base.beyond.value));
    engagement.clear = limit(InPitches::Length(base.clear.value));
    limits.neighbours = Some(Accept { desired: None, accept: limit(nm(3 * MM)) });
    limits.wall = None;
    limits.building = None;
    limits.design = made.seat.map(|seat| Accept { desired: None, accept: limit(tenths(seat)) });
    limits.pad = made.pad_top.map(|top| PadLimits { tilt: None, top: Some(limit(top.map(tenths))) });
    limits.grind = None;
    limits.shim =
        Some(ShimLimits { most: Some(limit(nm(15 * MM))), tall: Some(limit(nm(16 * MM))), pieces: None });
    limits.grout = made.bed.map(|[bed, thinner, thicker]| Grout {
        least: limit(tenths(bed - thinner)),
        most: limit(tenths(bed + thicker)),
        step: limit(nm(MM)),
    });
    limits.rods = Some(RodLimits { least: Some(limit(4)), top: Some(limit(made.rod_top.map(tenths))) });
    let [under, over] = made.shim;
    let piece =
        |mm: i64| ShimPiece { thickness: extent([mm * 10, under, over]), authority: Authority::this_job() };
    job.shims.pieces = [8, 4, 2, 1].map(piece).to_vec();
    job.shims.most_pieces = 4;
    job.shims.stock = None;
    let seat = nm(100_000 * MM);
    job.seat = Some(seat);
    job.rods_plus_minus = tenths(made.reading);
    job.rods_plus_minus_assumed = false;
    let place = Place { file: Files::default().add("job.toml", String::new()), start: 0, end: 0 };
    let at = |off: i64| seat - base.bed + nm(off);
    job.readings.benchmarks.clear();
    job.readings.points = (0..pads.len()).map(|pad| format!("C{pad}")).collect();
    job.readings.sense = Sense::Height;
    job.readings.plus_minus = nm(1);
    job.readings.sights.clear();
    if made.pad_top.is_some() {
        job.readings.setups.clear();
        job.readings.elevations = (pads.iter().enumerate())
            .map(|(point, off)| ElevationReading { point, elevation: at(*off), plus_minus: nm(1), place })
            .collect();
    } else {
        // where the concrete is from its design nobody knows, so heights are relative
        job.readings.sights = (pads.iter().enumerate())
            .map(|(point, off)| Sight {
                setup: 0,
                point,
                kind: SightKind::Intermediate,
                reading: at(*off),
                distance: None,
                place,
            })
            .collect();
    }
    job.bases = vec![base];
    job.columns = (0..pads.len())
        .map(|pad| Column {
            mark: format!("C{pad}"),
            base: 0,
            at: Some([nm(6_000 * MM * i64::try_from(pad).unwrap()), Length::ZERO]),
            seat: None,
            point: Some(pad),
            rods: Vec::new(),
            note: None,
        })
        .collect();
    job.lines = vec![Line { columns: (0..pads.len()).collect(), ..line(&job) }];
    job
}

fn line(job: &Job) -> Line {
    Line { kind: LineKind::Frame, ..job.lines[0].clone() }
}

/// Puts rods into every column as the drawing has them, each top at a corner of its limits, its thread as specified.
fn build(job: &mut Job, made: &Made, pads: &[i64], [projection, thread]: [Length; 2]) {
    job.bases[0].rods.projection = Some(projection);
    job.bases[0].rods.thread = Some(thread);
    let origin = if made.pad_top.is_some() { Origin::Design } else { Origin::Pad };
    for (column, off) in job.columns.iter_mut().zip(pads) {
        // where the concrete is not known rods are set from their own pads
        let below = if origin == Origin::Design { nm(*off) } else { Length::ZERO };
        let rod = |(number, top): (u32, i64)| Rod {
            projection: Some(projection + tenths(top) - below),
            thread: Some(thread),
            ..Rod::unmeasured(RodLabel::Number(number))
        };
        let [low, high] = made.rod_top;
        column.rods = (1..).zip([low, high, low, high]).map(rod).collect();
    }
}

/// Judges a column on its own with this option at it.
fn states(job: &Job, option: &PlannedOption) -> Vec<State> {
    let levels = reduce(job);
    let mut plan: Plan = plan_fewest(job, &levels, &Wish::default()).unwrap();
    plan.choices[0] = option.choice(false);
    let judged = judge(job, &levels, &plan);
    judged.case.columns[0].rods.iter().map(|rod| rod.result.state).collect()
}

fn told(made: &Made) -> (Terms, Specification, Length) {
    let job = job(made, &[0]);
    let step = tenths(made.step);
    let terms = terms(&job, &job.bases[0], job.rods_plus_minus).unwrap();
    let specified = specify(&terms, terms.worst(), step, true);
    (terms, specified, step)
}

/// Every option with a pad that brings the plate to the lowest or the highest it may stand, or to its pad or design.
fn corners(made: &Made, terms: &Terms) -> Vec<(i64, PlannedOption)> {
    let plain = job(made, &[0]);
    let all = all_options(&plain);
    let options = options_at(&plain, &plain.columns[0], &all);
    let [lowest, highest] = made.pad_top.unwrap_or([0, 0]).map(tenths);
    let (low, high) = (terms.plane.low.height, terms.plane.high.height);
    let mut found = Vec::new();
    // what shims may be taken for: the highest without asking
    let stacks = options.iter().filter(|option| option.raise.nominal <= nm(15 * MM) || made.bed.is_some());
    for option in stacks {
        let raise = option.raise.nominal;
        let mut pads = vec![lowest, highest, low - raise, high - raise, terms.plane.design - raise];
        pads.sort();
        pads.dedup();
        for pad in pads {
            let stands = pad + raise;
            if (lowest..=highest).contains(&pad) && (low..=high).contains(&stands) {
                found.push((pad.nm(), option.clone()));
            }
        }
    }
    found
}

fn full_everywhere(made: &Made, terms: &Terms, drawn: [Length; 2]) -> Vec<String> {
    let mut wrong = Vec::new();
    for (pad, option) in corners(made, terms) {
        let mut job = job(made, &[pad]);
        build(&mut job, made, &[pad], drawn);
        let states = states(&job, &option);
        if states.iter().any(|state| *state != State::Full) {
            wrong.push(format!("pad {pad}, raise {:?}: {states:?}", option.raise));
        }
    }
    wrong
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_specified_is_full_wherever_the_tolerances_let_it_stand_and_one_step_shorter_is_not(made in made()) {
        let (terms, specified, step) = told(&made);
        let drawn = [specified.projection, specified.thread];
        let wrong = full_everywhere(&made, &terms, drawn);
        prop_assert!(wrong.is_empty(), "{specified:?}: {wrong:?}");
        // without a bed the worst corner is always there, on a bed where one in whole steps comes to the highest
        let worst_is_reached = corners(&made, &terms).iter().any(|(pad, option)| {
            nm(*pad) + option.raise.most == terms.plane.high.height + shims_more(&terms)
        });
        prop_assert!(worst_is_reached || made.bed.is_some() || terms.plane.high.why.starts_with("the seat"));
        if worst_is_reached {
            let shorter = full_everywhere(&made, &terms, [specified.projection - step, specified.thread]);
            prop_assert!(!shorter.is_empty(), "one step shorter is full everywhere: {specified:?}");
        }
        let lowest_is_reached = corners(&made, &terms).iter().any(|(pad, option)| {
            nm(*pad) + option.raise.least == terms.lowest()
        });
        if lowest_is_reached && specified.thread > step {
            let shorter = full_everywhere(&made, &terms, [specified.projection, specified.thread - step]);
            prop_assert!(!shorter.is_empty(), "a thread one step shorter is full everywhere: {specified:?}");
        }
    }

    #[test]
    fn a_job_built_to_the_specification_passes_check_at_every_corner(made in made()) {
        let (_, specified, _) = told(&made);
        let [lowest, highest] = made.pad_top.unwrap_or([-60, 60]).map(|tenths| tenths * MM / 10);
        for pads in [
            [lowest, lowest, lowest],
            [highest, highest, highest],
            [lowest, highest, lowest],
            [highest, lowest, highest],
            [0, highest, lowest],
        ] {
            // where concrete may be so high or low that no shim and no bed brings its plate to its seat, it is the
            // engineer's whatever the rods are; that they are full there, the corners above show
            if !reachable(&made, lowest, highest) {
                continue;
            }
            let mut job = job(&made, &pads);
            build(&mut job, &made, &pads, [specified.projection, specified.thread]);
            let levels = reduce(&job);
            let plan = plan_fewest(&job, &levels, &Wish::default()).unwrap();
            let judged = judge(&job, &levels, &plan);
            let held: Vec<_> = judged.case.columns.iter().map(|column| (column.may_set(), column.hold.clone())).collect();
            let asks: Vec<String> = judged
                .findings
                .iter()
                .filter(|(_, finding)| finding.level().is_some_and(|level| level != rodreach::check::Level::Note))
                .map(|(rule, finding)| format!("{rule}: {}", finding.text))
                .collect();
            prop_assert!(judged.is_clear(), "{pads:?} {specified:?} {held:?} {asks:?}");
        }
    }
}

/// Whether every pad can be brought where it must be.
fn reachable(made: &Made, lowest: i64, highest: i64) -> bool {
    let [thinner, thicker] =
        made.bed.map_or([0, 15 * MM], |[_, thinner, thicker]| [thinner, thicker].map(|it| it * MM / 10));
    match made.seat.map(|seat| seat * MM / 10) {
        Some(seat) => highest - thinner <= seat && lowest + thicker >= -seat,
        None => highest - lowest <= thinner + thicker,
    }
}

fn shims_more(terms: &Terms) -> Length {
    terms.plane.shims.as_ref().map_or(Length::ZERO, |shims| shims.more)
}

/// The corners of the demo base, worked through the program itself: specified, built, checked, and built a step shorter.
#[test]
fn the_demo_base_built_as_specified_passes_check_and_a_step_shorter_does_not() {
    let toml = |projection: &str, thread: &str| {
        format!(
            "[job]\nname = \"There and back (invented)\"\nunits = \"in\"\nlimits = \"low-rise\"\nseat = \"100'\"\n\n\
             [measure]\nelevations = \"pads.csv\"\nlevels_units = \"in\"\nlevels_plus_minus = \"1/32\"\nrods = \"rods.csv\"\n\
             rods_plus_minus = \"1/16\"\n\n[limits.pad]\ntop = [\"-1/4\", \"1/4\"]\n\n[[base]]\nmark = \"B1\"\n\
             plate = {{ size = [\"10\", \"14\"], thickness = \"1/2\", holes = \"15/16\" }}\n\
             rods = {{ diameter = \"3/4\", count = 4{projection}{thread} }}\nwashers = [\"wide\"]\nnuts = [\"heavy-hex\"]\n\n\
             [[column]]\nmark = \"A1\"\nbase = \"B1\"\n[[column]]\nmark = \"A2\"\nbase = \"B1\"\n\n\
             [[line]]\nname = \"A\"\nkind = \"wall\"\ncolumns = [\"A1\", \"A2\"]\nspacing = \"20'\"\n\n[shims]\ncatalog = \"plate\"\n"
        )
    };
    let pads = "point,elevation\nA1,100'-0 1/4\"\nA2,99'-11 3/4\"\n";
    let folder = Folder::of(&[
        ("job.toml", &toml("", "")),
        ("pads.csv", pads),
        ("rods.csv", "column,rod,projection\nA1,,3\nA2,,3\n"),
    ]);
    let ran = folder.run("detail", &["--format", "json"]);
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
    let specified = &ran.json()["bases"][0]["specify"];
    // plate 0.53, washer 0.177, nut 0.758, rod low 1/2, concrete 1/4, shims 3 x 0.03, tape 1/16: 2.3675 in, so 2-1/2
    assert_eq!(specified["projection_nm"], 63_500_000_i64);
    let status = |sixteenths: i64| {
        // rods 1/2 in low and high of what is drawn, A1 on concrete 1/4 in high, A2 on concrete 1/4 in low
        let drawn = format!("{sixteenths}/16");
        let thread = specified["thread_nm"].as_i64().unwrap();
        folder.write(
            "job.toml",
            toml(&format!(", projection = \"{drawn}\""), &format!(", thread = \"{thread} nm\""))
                .replace(&format!("{thread} nm"), &format!("{} mm", thread / MM)),
        );
        let mut rods = "column,rod,projection,thread\n".to_owned();
        for (mark, off) in [("A1", -4), ("A2", 4)] {
            for (rod, top) in (1..).zip([-8, 8, -8, 8]) {
                rods.push_str(&format!(
                    "{mark},{rod},{}/16,{}.{:06} mm\n",
                    sixteenths + off + top,
                    thread / MM,
                    thread % MM
                ));
            }
        }
        folder.write("rods.csv", rods);
        let ran = folder.run("check", &[]);
        (ran.status, ran.out + &ran.err)
    };
    let (ran, out) = status(40);
    assert_eq!(ran, 0, "{out}");
    let (ran, out) = status(36);
    assert_eq!(ran, 1, "{out}");
}

/// No stack just reaches the lowest plate: one of 1 mm stands 0.1 mm above it and may be 0.2 mm too thin.
#[test]
fn a_stack_that_overshoots_the_lowest_plate_and_is_thin_leaves_every_nut_full() {
    let made = Made {
        plate: [100, 0, 0],
        washer: [30, 0, 0],
        nut: [150, 0, 0],
        beyond: 0,
        clear: 0,
        reading: 0,
        rod_top: [-1, 0],
        pad_top: Some([-30, 0]),
        bed: None,
        seat: Some(21),
        shim: [2, 0],
        step: 1,
    };
    let (terms, specified, _) = told(&made);
    let wrong = full_everywhere(&made, &terms, [specified.projection, specified.thread]);
    assert!(wrong.is_empty(), "{specified:?}: {wrong:?}");
}
