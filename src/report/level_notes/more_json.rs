//! What `level --format json` tells beside the heights: readings, lines of sight, slopes, slips, what is not told.

use super::json::{PlaceJson, parts};
use crate::check::{entangled_words, slip_words, slope_words, style, untold_words};
use crate::length::Length;
use crate::levels::{Along, Levelled, Slip, SlipKind};
use crate::model::Job;
use crate::source::Files;
use serde::Serialize;
use serde_json::Number;

/// The keys that stand beside those of the contract.
#[derive(Serialize)]
pub(in crate::report) struct MoreJson {
    readings: Vec<ReadingJson>,
    setups: Vec<SetupJson>,
    slopes: Vec<SlopeJson>,
    untold: Vec<String>,
    entangled: Vec<String>,
    blocks: Vec<Vec<String>>,
    extra: Option<ExtraJson>,
    slips: Vec<SlipJson>,
}

/// How one reading fits and is checked.
#[derive(Serialize)]
struct ReadingJson {
    #[serde(flatten)]
    place: PlaceJson,
    point: String,
    residual_nm: i64,
    checked: Number,
    seen_from_nm: Option<i64>,
}

/// The line of sight of a setup.
#[derive(Serialize)]
struct SetupJson {
    setup: String,
    line_nm: Option<i64>,
}

/// A slope that was found: so much rise over so much run.
#[derive(Serialize)]
struct SlopeJson {
    slope: String,
    rise_nm: Option<i64>,
    plus_minus_nm: Option<i64>,
    run_nm: i64,
}

/// The reading more that would help most.
#[derive(Serialize)]
struct ExtraJson {
    setup: String,
    point: String,
    known_to_nm: i64,
}

/// What a crew may have done wrong.
#[derive(Serialize)]
struct SlipJson {
    slip: &'static str,
    setup: Option<String>,
    points: Vec<String>,
    places: Vec<PlaceJson>,
    size_nm: i64,
    text: String,
}

/// Gives what is told beside the heights.
pub(in crate::report) fn more(job: &Job, levels: &Levelled, files: &Files) -> MoreJson {
    let name = |point: usize| job.readings.points.get(point).cloned().unwrap_or_default();
    let setup = |setup: usize| job.readings.setups.get(setup).map(|it| it.name.clone()).unwrap_or_default();
    MoreJson {
        readings: levels
            .reliabilities()
            .iter()
            .map(|it| ReadingJson {
                place: PlaceJson::of(it.place, files),
                point: name(it.point),
                residual_nm: it.residual.nm(),
                checked: parts(u64::from(it.checked), 3),
                seen_from_nm: it.seen_from.map(Length::nm),
            })
            .collect(),
        setups: levels
            .lines()
            .iter()
            .enumerate()
            .map(|(index, it)| SetupJson { setup: setup(index), line_nm: it.height.map(Length::nm) })
            .collect(),
        slopes: levels
            .slopes()
            .iter()
            .map(|it| SlopeJson {
                slope: slope_words(job, it.slope),
                rise_nm: it.plus_minus.map(|_| it.value.rise.nm()),
                plus_minus_nm: it.plus_minus.map(|it| it.rise.nm()),
                run_nm: it.value.run.nm(),
            })
            .collect(),
        untold: untold_words(job, levels.untold()),
        entangled: levels.entangled().iter().map(|it| entangled_words(job, it)).collect(),
        blocks: levels.blocks().iter().map(|it| it.iter().map(|point| name(*point)).collect()).collect(),
        extra: levels.extra().map(|it| ExtraJson {
            setup: setup(it.setup),
            point: name(it.point),
            known_to_nm: it.known_to.nm(),
        }),
        slips: levels
            .slips()
            .iter()
            .map(|it| SlipJson {
                slip: slip_name(it),
                setup: it.setup.map(setup),
                points: it.points.iter().map(|point| name(*point)).collect(),
                places: it.places.iter().map(|place| PlaceJson::of(*place, files)).collect(),
                size_nm: it.size.nm(),
                text: slip_words(job, it, style(job)),
            })
            .collect(),
    }
}

/// Names a slip as JSON has it.
const fn slip_name(slip: &Slip) -> &'static str {
    match &slip.kind {
        SlipKind::Misread(_) => "misread",
        SlipKind::OffNeighbours(_) => "off-neighbours",
        SlipKind::OffTheOthers(_) => "off-the-others",
        SlipKind::Swapped => "swapped",
        SlipKind::SeatsSwapped => "seats-swapped",
        SlipKind::WrongMark(_) => "wrong-mark",
        SlipKind::Drift(Along::Time) => "drift-in-time",
        SlipKind::Drift(Along::Line(_)) => "drift-along-line",
        SlipKind::Drift(Along::Plan) => "drift-over-plan",
        SlipKind::Falling(_) => "falling",
        SlipKind::CheckShot => "check-shot",
    }
}
