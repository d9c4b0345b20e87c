//! A job of one column, from the built-in catalog, for tests of published figures.

#![allow(dead_code, reason = "each test file uses its own part of this")]
#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

use rodreach::catalog::{Authority, Catalog, Extent, Limit, LimitSet, Pitch, Series, load};
use rodreach::check::rules::judge;
use rodreach::check::{Finding, Level};
use rodreach::length::{Bare, Length, Unit, read};
use rodreach::levels::{Levelled, reduce};
use rodreach::model::{
    Base, Column, Concrete, Duty, ElevationReading, Job, LimitsInForce, Loads, NutPart, Plate, Readings, Rod,
    RodKind, RodLabel, Sense, ShimSupply, Supplies, Units, WasherPart,
};
use rodreach::plan::{Action, Plan, Wish, plan_level};
use rodreach::source::{Files, Place};

/// Reads a length as a published table prints it: inches unless it names its unit.
pub(crate) fn len(text: &str) -> Length {
    read(text, Bare::of(Unit::Inch)).unwrap()
}

/// The built-in catalog.
pub(crate) fn catalog() -> Catalog {
    load().map_err(|(problems, files)| rodreach::source::render(&problems, &files)).unwrap()
}

/// The limit set of this name.
pub(crate) fn limit_set(catalog: &Catalog, name: &str) -> LimitSet {
    catalog.limits.iter().find(|set| set.name == name).unwrap().clone()
}

/// The row of a series at a diameter.
pub(crate) fn row<'c, Row>(tables: &'c [Series<Row>], name: &str, diameter: &str) -> &'c Row {
    tables.iter().find(|table| table.name == name).unwrap().row(len(diameter)).unwrap()
}

/// Parts on one rod, every one exact, as worked examples have them.
pub(crate) struct Parts<'t> {
    pub(crate) diameter: &'t str,
    pub(crate) pitch: Pitch,
    pub(crate) plate: &'t str,
    pub(crate) washer: &'t str,
    pub(crate) nut: Length,
}

/// Parts on a 3/4 in rod: a plate of 1/2 in, a washer of 1/4 in and this nut.
pub(crate) fn three_quarter(catalog: &Catalog, nut: &str) -> Parts<'static> {
    let pitch = row(&catalog.threads, "unc", "3/4").pitch;
    Parts { diameter: "3/4", pitch, plate: "1/2", washer: "1/4", nut: len(nut) }
}

/// Makes a base of exact parts, nothing wanted beyond the nut.
pub(crate) fn base(parts: &Parts<'_>) -> Base {
    let limit = || Limit { value: Length::ZERO, authority: Authority::this_job() };
    Base {
        mark: "B1".to_owned(),
        plate: Plate {
            size: None,
            thickness: Extent::exact(len(parts.plate)),
            tolerance: Authority::this_job(),
            holes: None,
        },
        rods: RodKind {
            size: parts.diameter.to_owned(),
            diameter: len(parts.diameter),
            count: 4,
            pattern: None,
            projection: None,
            thread: None,
            pitch: parts.pitch,
            pitch_authority: Authority::this_job(),
            steel: None,
        },
        washers: vec![WasherPart {
            series: "as measured".to_owned(),
            thickness: Extent::exact(len(parts.washer)),
            outer: None,
            authority: Authority::this_job(),
        }],
        nuts: vec![NutPart {
            series: "as measured".to_owned(),
            height: Extent::exact(parts.nut),
            flats: None,
            style: None,
            steel: None,
            authority: Authority::this_job(),
        }],
        extra: None,
        beyond: limit(),
        clear: limit(),
        most_extra: Limit { value: 0, authority: Authority::this_job() },
        bed: Length::ZERO,
        setting: None,
        pier: None,
        loads: Loads::default(),
        duty: Duty::Column,
        hole_table: None,
        plain_washer: None,
    }
}

/// Makes a job of one column on a base, its pad at its design seat, its rods so high above the pad.
pub(crate) fn job(set: &LimitSet, base: Base, projections: &[Length]) -> Job {
    let place = Place { file: Files::default().add("job.toml", String::new()), start: 0, end: 0 };
    let seat = len("100'");
    let rods = (1..).zip(projections).map(|(number, projection)| Rod {
        projection: Some(*projection),
        ..Rod::unmeasured(RodLabel::Number(number))
    });
    let column = Column {
        mark: "A1".to_owned(),
        base: 0,
        at: None,
        seat: None,
        point: Some(0),
        rods: rods.collect(),
        note: None,
    };
    Job {
        name: "published".to_owned(),
        units: Units::Inch,
        fraction: 64,
        limits: LimitsInForce {
            name: set.name.clone(),
            title: set.title.clone(),
            tables: set.limits.clone(),
        },
        seat: Some(seat),
        bases: vec![base],
        concrete: Concrete::default(),
        columns: vec![column],
        lines: Vec::new(),
        shims: ShimSupply { series: None, pieces: Vec::new(), most_pieces: 3, stock: None },
        supplies: Supplies::default(),
        readings: Readings {
            points: vec!["A1".to_owned()],
            elevations: vec![ElevationReading { point: 0, elevation: seat, plus_minus: len("1/16"), place }],
            sense: Sense::Height,
            plus_minus: len("1/16"),
            ..Readings::default()
        },
        rods_plus_minus: Length::ZERO,
        rods_plus_minus_assumed: false,
        measured: Vec::new(),
        files: Vec::new(),
    }
}

/// Plans a job with every plate left on its pad.
pub(crate) fn on_their_pads(job: &Job, levels: &Levelled) -> Plan {
    let mut plan = plan_level(job, levels, &Wish::default());
    for choice in &mut plan.choices {
        choice.action = Action::NoShim;
        choice.raise = Some(Length::ZERO);
        choice.stack.clear();
    }
    plan
}

/// Judges a job with its column left as it is, and gives what one rule says.
pub(crate) fn judged(job: &Job, rule: &str) -> Vec<Finding> {
    assert!(rodreach::check::rules::RULES.iter().any(|it| it.name == rule), "no rule {rule}");
    let levels = reduce(job);
    let plan = on_their_pads(job, &levels);
    let judged = judge(job, &levels, &plan);
    judged.findings.into_iter().filter(|(name, _)| *name == rule).map(|(_, finding)| finding).collect()
}

/// The level of each finding; none is a pass or does not apply.
pub(crate) fn told(findings: &[Finding]) -> Vec<Option<Level>> {
    findings.iter().map(Finding::level).collect()
}
