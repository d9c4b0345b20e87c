//! What the concrete bears under a column, in `explain` and `ask`: published figures side by side, and no verdict.

use crate::catalog::Authority;
use crate::check::{Bearing, Bears, Case, ColumnCase, Seat, Stage};
use crate::length::{Length, Rounding};
use crate::model::{Concrete, Factor};
use crate::quantity::{Area, Force};
use crate::report::check::json::decimal;
use crate::report::document::{Align, Document, Tone};
use crate::report::rules::source;
use crate::text::Style;
use serde::Serialize;
use serde_json::Number;

/// What `explain` and `ask` tell of the concrete under one column.
pub(super) struct OnConcrete {
    concrete: Concrete,
    pier: bool,
    stages: [Bearing; 2],
}

impl OnConcrete {
    /// Gathers it; none where the job says nothing of concrete, piers and loads from above.
    pub(super) fn of(case: &Case<'_>, column: &ColumnCase) -> Option<Self> {
        let base = case.base(column.index);
        let concrete = case.job.concrete.clone();
        let loads = [base.loads.erection, base.loads.factored];
        let said =
            concrete != Concrete::default() || base.pier.is_some() || loads.iter().any(Option::is_some);
        said.then(|| Self { concrete, pier: base.pier.is_some(), stages: Bearing::of(case, column) })
    }

    /// Adds the section.
    pub(super) fn tell(&self, document: &mut Document, style: Style) {
        document.heading(Tone::Ask, "BEARING ON THE CONCRETE: figures for the engineer, no verdict");
        let given = |strength: Option<_>| strength.map_or("not given".to_owned(), |it| style.concrete(it));
        document.item(Tone::Plain, "strength", format!("specified {}", given(self.concrete.strength)));
        let tested = match (self.concrete.tested, self.concrete.at_erection()) {
            (Some(tested), _) => style.concrete(tested),
            (None, None) => "not given".to_owned(),
            (None, Some(taken)) => format!(
                "not given: before grout 75 percent is taken, {}, the least that 29 CFR 1926.752 lets steel be erected on",
                style.concrete(taken)
            ),
        };
        document.item(Tone::Plain, "tested", tested);
        for stage in &self.stages {
            tell(document, stage, self.pier, style);
        }
        let sources = self.stages.iter().find_map(|stage| stage.bears.as_ref());
        let mut told: Vec<&Authority> = Vec::new();
        for (rule, _) in sources.iter().flat_map(|bears| &bears.figures) {
            if !told.contains(&&rule.authority) {
                document.item(Tone::Quiet, rule.name, format!("source, {}", source(&rule.authority)));
                told.push(&rule.authority);
            }
        }
    }

    /// Gives a row of a short table for each stage: when, what bears, the load on one area, the least published of it.
    pub(super) fn rows(&self, style: Style) -> [Vec<String>; 2] {
        self.stages.each_ref().map(|stage| {
            let when = match stage.stage {
                Stage::Erection => "before grout",
                Stage::Finished => "finished",
            };
            let (load, least) = match (stage.share(), stage.load, stage.least()) {
                (Some(share), _, Some((rule, force))) => {
                    let shown = style.force_pair(share, *force);
                    (shown.value, format!("{} ({}, {})", shown.limit, rule.name, factor(rule.factor)))
                }
                (None, Some(load), _) => (style.force_exact(load), "?".to_owned()),
                (None, None, Some((rule, force))) => {
                    let force = style.force(*force, Rounding::Down);
                    ("not given".to_owned(), format!("{force} ({}, {})", rule.name, factor(rule.factor)))
                }
                (Some(share), _, None) => (style.force(share, Rounding::Up), "?".to_owned()),
                (None, None, None) => ("not given".to_owned(), "?".to_owned()),
            };
            vec![when.to_owned(), seat(stage.seat, style), load, least]
        })
    }

    /// Gives the section as JSON has it.
    pub(super) fn json(&self) -> BearingJson {
        BearingJson {
            strength_pa: self.concrete.strength.map(|it| it.pascals()),
            tested_pa: self.concrete.tested.map(|it| it.pascals()),
            stages: self.stages.iter().map(StageJson::of).collect(),
            decides: "the engineer of record",
        }
    }
}

fn tell(document: &mut Document, stage: &Bearing, pier: bool, style: Style) {
    let (name, load) = match stage.stage {
        Stage::Erection => ("before grout", "erection load"),
        Stage::Finished => ("finished", "factored load"),
    };
    document.item(Tone::Plain, name, seat(stage.seat, style));
    if let Some(bears) = &stage.bears {
        areas(document, stage.seat, bears, pier, style);
        figures(document, stage, bears, style);
    }
    let told = match (stage.load, stage.share()) {
        (None, _) => "not given, which is not 0: what is it?".to_owned(),
        (Some(Force::ZERO), _) => "none, the job says".to_owned(),
        (Some(load), Some(share)) if stage.bears.as_ref().is_some_and(|it| it.count > 1) => format!(
            "{}, {} on each if they share it equally: do they?",
            style.force_exact(load),
            style.force(share, Rounding::Up)
        ),
        (Some(load), _) => style.force_exact(load),
    };
    document.item(Tone::Plain, load, told);
}

fn seat(seat: Seat, style: Style) -> String {
    match seat {
        Seat::Plate(it) => format!("the whole plate, {}, holes for rods not taken off", sides(it, style)),
        Seat::SettingPlate(it) => format!("the setting plate as far as the base plate covers it, {}, grouted before the column comes", sides(it, style)),
        Seat::Packs(it, count) => format!("{count} packs of {}, each by itself", sides(it, style)),
        Seat::Rods => {
            "the rods, by their levelling nuts: do they bear it in compression, and do they not push out below?".to_owned()
        }
        Seat::Unknown(what) => format!("not known: {what}; what is it?"),
    }
}

fn sides([a, b]: [Length; 2], style: Style) -> String {
    format!("{} x {}", style.exact(a), style.exact(b))
}

fn areas(document: &mut Document, seat: Seat, bears: &Bears, pier: bool, style: Style) {
    let area = |it| style.area_of(Area::of(it), Rounding::Down);
    let round = match (seat, pier) {
        (Seat::Packs(..), _) => "A2 = A1, nothing is counted round a pack".to_owned(),
        (_, false) => "A2 = A1, since no pier is given".to_owned(),
        (_, true) => {
            let sides = bears.spread.map(|side| style.write(side, Rounding::Down)).join(" x ");
            format!("A2 {sides} = {}, in the middle of its pier", area(bears.spread))
        }
    };
    document.item(
        Tone::Plain,
        "areas",
        format!("A1 {} = {}; {round}", sides(bears.sides, style), area(bears.sides)),
    );
    document.item(
        Tone::Plain,
        "nominal",
        format!(
            "0.85 x {} x the root of A1 x A2 = {}; with all the concrete round it that counts {}",
            style.concrete(bears.strength),
            style.force(bears.nominal, Rounding::Down),
            style.force(bears.most, Rounding::Down)
        ),
    );
}

fn figures(document: &mut Document, stage: &Bearing, bears: &Bears, style: Style) {
    let share = stage.share().filter(|share| *share > Force::ZERO);
    let rows = bears.figures.iter().map(|(rule, force)| {
        let held = stage.stage.takes(rule.factor);
        let needs = share.filter(|_| held).and_then(|share| rule.needs(share, bears.strength));
        vec![
            rule.name.to_owned(),
            factor(rule.factor),
            style.force(*force, Rounding::Down),
            match (held, needs) {
                (false, _) => "for loads without factors".to_owned(),
                (true, None) => String::new(),
                (true, Some(area)) => format!("A1 of {} by itself", style.area_of(area, Rounding::Up)),
            },
        ]
    });
    document.grid(
        &[
            ("by", Align::Left),
            ("factor", Align::Left),
            (if bears.count > 1 { "one bears" } else { "bears" }, Align::Right),
            ("the load needs", Align::Wrap),
        ],
        rows.collect(),
    );
}

/// Names a factor of resistance or of safety.
pub(in crate::report) fn factor(factor: Factor) -> String {
    let (name, hundredths) = match factor {
        Factor::Phi(hundredths) => ("phi", hundredths),
        Factor::Omega(hundredths) => ("Omega", hundredths),
    };
    format!("{name} {}.{:02}", hundredths / 100, hundredths % 100)
}

/// The section as JSON has it: forces in whole millinewtons, what is borne down and what is loaded up.
#[derive(Serialize)]
pub(in crate::report) struct BearingJson {
    #[serde(rename = "strength_Pa")]
    strength_pa: Option<i64>,
    #[serde(rename = "tested_Pa")]
    tested_pa: Option<i64>,
    stages: Vec<StageJson>,
    decides: &'static str,
}

#[derive(Serialize)]
struct StageJson {
    stage: &'static str,
    #[serde(rename = "load_mN")]
    load: Option<i64>,
    seat: &'static str,
    missing: Option<&'static str>,
    bears: Option<BearsJson>,
    /// The load on one area, all sharing it equally.
    #[serde(rename = "share_mN")]
    share: Option<i64>,
    #[serde(rename = "least_mN")]
    least: Option<i64>,
    over_least: Option<bool>,
}

#[derive(Serialize)]
struct BearsJson {
    #[serde(rename = "strength_Pa")]
    strength: i64,
    sides_nm: [i64; 2],
    count: u32,
    a1_mm2: Number,
    a2_mm2: Number,
    #[serde(rename = "nominal_mN")]
    nominal: i64,
    #[serde(rename = "most_mN")]
    most: i64,
    figures: Vec<FigureJson>,
}

#[derive(Serialize)]
struct FigureJson {
    by: &'static str,
    factor: String,
    held_against: bool,
    #[serde(rename = "bears_mN")]
    bears: i64,
    source: Authority,
}

impl StageJson {
    fn of(stage: &Bearing) -> Self {
        let least = stage.least().map(|(_, force)| *force);
        Self {
            stage: match stage.stage {
                Stage::Erection => "before-grout",
                Stage::Finished => "finished",
            },
            load: stage.load.map(Force::millinewtons_up),
            seat: match stage.seat {
                Seat::Plate(_) => "plate",
                Seat::SettingPlate(_) => "setting-plate",
                Seat::Packs(..) => "packs",
                Seat::Rods => "rods",
                Seat::Unknown(_) => "unknown",
            },
            missing: match stage.seat {
                Seat::Unknown(what) => Some(what),
                _ => None,
            },
            bears: stage.bears.as_ref().map(|bears| BearsJson::of(stage.stage, bears)),
            share: stage.share().map(Force::millinewtons_up),
            least: least.map(Force::millinewtons_down),
            over_least: stage.share().zip(least).map(|(share, least)| share > least),
        }
    }
}

impl BearsJson {
    fn of(stage: Stage, bears: &Bears) -> Self {
        let area = |sides| decimal(i128::from(Area::of(sides).square_micrometres_down()), 6);
        let figures = bears.figures.iter().map(|(rule, force)| FigureJson {
            by: rule.name,
            factor: factor(rule.factor),
            held_against: stage.takes(rule.factor),
            bears: force.millinewtons_down(),
            source: rule.authority.clone(),
        });
        Self {
            strength: bears.strength.pascals(),
            sides_nm: bears.sides.map(Length::nm),
            count: bears.count,
            a1_mm2: area(bears.sides),
            a2_mm2: area(bears.spread),
            nominal: bears.nominal.millinewtons_down(),
            most: bears.most.millinewtons_down(),
            figures: figures.collect(),
        }
    }
}
