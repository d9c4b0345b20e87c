//! A small clean job for the tests of the rules, in which nothing asks or stops.
//!
//! Two columns, A1 and A2, on wall line A; 3/4 in rods 2-1/2 in above the pads, 3 in of thread.

use super::Rule;
use crate::catalog::{
    Accept, Authority, Engagement, Extent, Grind, Grout, HoleRow, InPitches, Limit, Limits, NutStyle,
    PadLimits, Pitch, PlainRow, RodLimits, ShimLimits, ShimPiece, Standing, WallAccept,
};
use crate::check::case::Case;
use crate::check::finding::{Finding, Level};
use crate::length::Length;
use crate::levels::reduce;
use crate::model::{
    Base, Column, Concrete, Condition, Duty, ElevationReading, Job, Levelling, LimitsInForce, Line, LineKind,
    Loads, NutPart, Packs, Plate, Readings, Rod, RodKind, RodLabel, Sense, Setting, SettingPlate, Setup,
    ShimSupply, Sight, SightKind, Spot, SpotKind, Supplies, Units, WasherPart,
};
use crate::plan::{Action, Plan, Wish, plan_level};
use crate::source::{Files, Place};

/// Nanometres of a sixteenth of an inch.
pub(super) const SIXTEENTH: i64 = 1_587_500;

/// The design seat of the job, 100 ft.
const SEAT: i64 = 30_480_000_000;

/// Makes a length of so many nanometres.
pub(super) fn nm(nm: i64) -> Length {
    Length::from_nm(nm)
}

/// The authority of every figure of the job, so that a test can tell it from a rule's own.
pub(super) fn the_table() -> Authority {
    Authority::new(Standing::CommonPractice, "the table of the test job")
}

/// Makes a limit of the test job.
pub(super) fn limit<T>(value: T) -> Limit<T> {
    Limit { value, authority: the_table() }
}

fn extent(least: i64, nominal: i64, most: i64) -> Extent {
    Extent { least: nm(least), nominal: nm(nominal), most: nm(most) }
}

/// A place in a file, as good as any.
fn place() -> Place {
    Place { file: Files::default().add("job.toml", String::new()), start: 0, end: 0 }
}

/// Makes the clean job.
pub(super) fn clean_job() -> Job {
    let columns = vec![column("A1", 0), column("A2", 1)];
    let elevations = (0..2).map(|point| ElevationReading {
        point,
        elevation: nm(SEAT),
        plus_minus: nm(500_000),
        place: place(),
    });
    Job {
        name: "test job".to_owned(),
        units: Units::Inch,
        fraction: 16,
        limits: LimitsInForce { name: "test".to_owned(), title: "Test".to_owned(), tables: limits() },
        seat: Some(nm(SEAT)),
        bases: vec![base()],
        concrete: Concrete::default(),
        columns,
        lines: vec![Line {
            name: "A".to_owned(),
            kind: LineKind::Wall,
            columns: vec![0, 1],
            spacing: vec![nm(6_096_000_000)],
            accept: None,
            found: false,
        }],
        shims: ShimSupply {
            series: None,
            pieces: [4, 2].map(|s| shim(s * SIXTEENTH)).to_vec(),
            most_pieces: 3,
            stock: None,
        },
        supplies: Supplies::default(),
        readings: Readings {
            points: vec!["A1".to_owned(), "A2".to_owned()],
            elevations: elevations.collect(),
            sense: Sense::Height,
            plus_minus: nm(SIXTEENTH),
            ..Readings::default()
        },
        rods_plus_minus: nm(SIXTEENTH),
        rods_plus_minus_assumed: false,
        measured: Vec::new(),
        files: Vec::new(),
    }
}

fn shim(thickness: i64) -> ShimPiece {
    ShimPiece { thickness: Extent::exact(nm(thickness)), authority: the_table() }
}

fn column(mark: &str, point: usize) -> Column {
    let rod = |number| Rod {
        projection: Some(nm(40 * SIXTEENTH)),
        thread: Some(nm(48 * SIXTEENTH)),
        condition: Condition::Sound,
        ..Rod::unmeasured(RodLabel::Number(number))
    };
    Column {
        mark: mark.to_owned(),
        base: 0,
        at: None,
        seat: None,
        point: Some(point),
        rods: (1..=4).map(rod).collect(),
        note: None,
    }
}

/// The base: 1/2 in plate, a wide washer and a heavy hex nut on a 3/4 in rod.
fn base() -> Base {
    let washer = WasherPart {
        series: "wide".to_owned(),
        thickness: extent(3_098_800, 3_759_200, 4_495_800),
        outer: Some(nm(32 * SIXTEENTH)),
        authority: the_table(),
    };
    Base {
        mark: "B1".to_owned(),
        plate: Plate {
            size: None,
            thickness: extent(12_446_000, 12_700_000, 13_462_000),
            tolerance: the_table(),
            holes: Some(nm(15 * SIXTEENTH)),
        },
        rods: RodKind {
            size: "3/4".to_owned(),
            diameter: nm(12 * SIXTEENTH),
            count: 4,
            pattern: None,
            projection: Some(nm(40 * SIXTEENTH)),
            thread: Some(nm(48 * SIXTEENTH)),
            pitch: Pitch::new(10, nm(25_400_000)),
            pitch_authority: the_table(),
            steel: None,
        },
        washers: vec![washer.clone()],
        nuts: vec![NutPart {
            series: "heavy-hex".to_owned(),
            height: extent(18_034_000, 18_653_125, 19_253_200),
            flats: None,
            style: Some(NutStyle::HeavyHex),
            steel: None,
            authority: the_table(),
        }],
        extra: Some(washer),
        beyond: limit(Length::ZERO),
        clear: limit(nm(2_540_000)),
        most_extra: limit(2),
        bed: Length::ZERO,
        setting: None,
        pier: None,
        loads: Loads::default(),
        duty: Duty::Column,
        hole_table: Some(HoleRow {
            hole: nm(21 * SIXTEENTH),
            washer: nm(32 * SIXTEENTH),
            thickness: nm(4 * SIXTEENTH),
            authority: Authority::new(Standing::Published, "the hole table"),
        }),
        plain_washer: Some(PlainRow {
            up_to: nm(16 * SIXTEENTH),
            clearance: nm(5 * SIXTEENTH),
            authority: Authority::new(Standing::FromMemory, "the plain washer note"),
        }),
    }
}

fn limits() -> Limits {
    let accept = |sixteenths: i64| Accept { desired: None, accept: limit(nm(sixteenths * SIXTEENTH)) };
    Limits {
        engagement: Some(Engagement {
            beyond: limit(InPitches::Length(Length::ZERO)),
            clear: limit(InPitches::Pitches(1)),
            extra: limit(2),
        }),
        neighbours: Some(accept(3)),
        wall: Some(WallAccept {
            desired: None,
            accept: limit(nm(4 * SIXTEENTH)),
            length: Some(limit(nm(18_288_000_000))),
        }),
        building: Some(accept(8)),
        design: Some(accept(8)),
        pad: Some(PadLimits {
            tilt: Some(limit(nm(SIXTEENTH))),
            top: Some(limit([nm(-32 * SIXTEENTH), nm(8 * SIXTEENTH)])),
        }),
        shim: Some(ShimLimits {
            most: Some(limit(nm(8 * SIXTEENTH))),
            tall: Some(limit(nm(12 * SIXTEENTH))),
            pieces: Some(limit(3)),
        }),
        grout: Some(Grout {
            least: limit(nm(16 * SIXTEENTH)),
            most: limit(nm(32 * SIXTEENTH)),
            step: limit(nm(SIXTEENTH)),
        }),
        grind: Some(Grind { most: limit(nm(2 * SIXTEENTH)), step: limit(nm(SIXTEENTH)) }),
        rods: Some(RodLimits {
            least: Some(limit(4)),
            top: Some(limit([nm(-8 * SIXTEENTH), nm(8 * SIXTEENTH)])),
        }),
        plates: None,
    }
}

/// Sets how far a pad stands above the design seat.
pub(super) fn set_pad(job: &mut Job, column: usize, above: i64) {
    let point = job.columns[column].point;
    for reading in job.readings.elevations.iter_mut().filter(|reading| Some(reading.point) == point) {
        reading.elevation = nm(SEAT + above);
    }
}

/// Adds readings of places on a pad, so far above the pad's own reading, each good to so much.
pub(super) fn add_spots(job: &mut Job, column: usize, spots: &[(&str, i64)], plus_minus: i64) {
    let mark = job.columns[column].mark.clone();
    for (word, above) in spots {
        job.readings.points.push(format!("{mark} {word}"));
        let point = job.readings.points.len() - 1;
        let what = SpotKind::Place((*word).to_owned());
        job.readings.spots.push(Spot { point, column, what });
        let (elevation, plus_minus) = (nm(SEAT + above), nm(plus_minus));
        job.readings.elevations.push(ElevationReading { point, elevation, plus_minus, place: place() });
    }
}

/// Takes all readings of a column's pad away.
pub(super) fn blank_pad(job: &mut Job, column: usize) {
    let point = job.columns[column].point.take();
    job.readings.elevations.retain(|reading| Some(reading.point) != point);
}

/// Makes a job relative: its pads are read from one setup, all at one height.
pub(super) fn make_relative(job: &mut Job) {
    job.seat = None;
    job.readings.elevations.clear();
    job.readings.setups.push(Setup::named("1"));
    for point in 0..job.readings.points.len() {
        job.readings.sights.push(Sight {
            setup: 0,
            point,
            kind: SightKind::Intermediate,
            reading: Length::ZERO,
            distance: None,
            place: place(),
        });
    }
}

/// Makes a clean job whose base has a bed of 1-1/2 in and is set so: plate 14 x 14 in, rods 4 in over the concrete and 10
/// apart, all of them threaded.
pub(super) fn bedded(setting: Setting) -> Job {
    let mut job = clean_job();
    let base = &mut job.bases[0];
    base.bed = nm(24 * SIXTEENTH);
    base.setting = Some(setting);
    base.plate.size = Some([nm(14 * 16 * SIXTEENTH); 2]);
    base.rods.pattern = Some([nm(10 * 16 * SIXTEENTH); 2]);
    base.rods.projection = Some(nm(64 * SIXTEENTH));
    base.rods.thread = Some(nm(64 * SIXTEENTH));
    for rod in job.columns.iter_mut().flat_map(|column| &mut column.rods) {
        rod.projection = Some(nm(64 * SIXTEENTH));
        rod.thread = Some(nm(64 * SIXTEENTH));
    }
    for column in 0..job.columns.len() {
        set_pad(&mut job, column, -24 * SIXTEENTH);
    }
    // six shims of 1/4 in make the bed
    job.shims.most_pieces = 6;
    job
}

/// Gives levelling nuts: heavy hex of 3/4 in, and a plate washer of 1/4 in, 2 in wide.
pub(super) fn levelling() -> Setting {
    let mut base = base();
    let washer =
        WasherPart { thickness: extent(6_096_000, 6_350_000, 7_112_000), ..base.washers.swap_remove(0) };
    Setting::Nuts(Box::new(Levelling { washer: Some(washer), nut: base.nuts.swap_remove(0) }))
}

/// Gives four packs of 4 x 4 in that stay in, with an inch of cover.
pub(super) fn four_packs() -> Packs {
    let four = nm(64 * SIXTEENTH);
    Packs { size: Some([four; 2]), count: Some(4), left_in: Some(true), cover: Some(nm(16 * SIXTEENTH)) }
}

/// Gives a setting plate of 14 x 14 x 1/4 in.
pub(super) fn setting_plate() -> Setting {
    Setting::Plate(SettingPlate {
        size: Some([nm(14 * 16 * SIXTEENTH); 2]),
        thickness: Some(nm(4 * SIXTEENTH)),
    })
}

/// Changes a plan so that a bed of this thickness is planned under every column.
pub(super) fn beds(plan: &mut Plan, bed: i64) {
    for choice in &mut plan.choices {
        choice.action = Action::Grout;
        choice.raise = Some(nm(bed));
        choice.stack.clear();
        choice.seat_range = None;
    }
}

/// Changes a plan so that every measured pad is left as it is.
pub(super) fn leave(plan: &mut Plan) {
    for choice in plan.choices.iter_mut().filter(|choice| choice.action != Action::Unmeasured) {
        choice.action = Action::NoShim;
        choice.raise = Some(Length::ZERO);
        choice.stack.clear();
        choice.seat_range = None;
    }
}

/// Judges a job by one rule, nothing done under any column.
pub(super) fn findings(job: &Job, rule: &Rule) -> Vec<Finding> {
    findings_under(job, rule, leave)
}

/// Judges a job by one rule, under the plan of this program changed by hand.
pub(super) fn findings_under(job: &Job, rule: &Rule, change: impl FnOnce(&mut Plan)) -> Vec<Finding> {
    let levels = reduce(job);
    let mut plan = plan_level(job, &levels, &Wish::default());
    change(&mut plan);
    (rule.judge)(&Case::new(job, &levels, &plan))
}

/// Gives the level of each finding.
pub(super) fn told(findings: &[Finding]) -> Vec<Option<Level>> {
    findings.iter().map(Finding::level).collect()
}
