//! The values behind `short_rods` and `high_rods` of `explain --format json`.

use super::strength::FORMS;
use crate::catalog::Authority;
use crate::check::{Asked, HighRod, Lower, Published, Said, ShortRod, Thinner};
use crate::length::Length;
use crate::model::{Share, State};
use crate::order::{Area, ThreadStrength};
use crate::report::check::json::share;
use serde::Serialize;
use serde_json::Number;

/// One rod that is not full.
#[derive(Serialize)]
pub(in crate::report) struct ShortRodJson {
    rod: String,
    state: State,
    at_no_raise: bool,
    thread_measured: bool,
    engaged: Vec<Number>,
    engaged_worst: Vec<Number>,
    published: Vec<PublishedJson>,
    decides: &'static str,
    lower: Option<LowerJson>,
    thinner_washers: Option<Vec<ThinnerJson>>,
    less_raise_nm: Option<Vec<i64>>,
    coupling_nut_each_side_nm: i64,
    thread_strength: Option<StrengthJson>,
}

#[derive(Serialize)]
struct PublishedJson {
    by: &'static str,
    asks: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    beyond_nm: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    share: Option<[i64; 2]>,
    said: Said,
    estimate: Option<Number>,
    source: Authority,
}

#[derive(Serialize)]
struct LowerJson {
    by_nm: i64,
    to_raise_nm: i64,
    every_rod_full: bool,
    least_raise_nm: Option<i64>,
    limits_known: bool,
}

#[derive(Serialize)]
struct ThinnerJson {
    instead_of: String,
    series: String,
    gain_nm: i64,
    state: State,
    source: Authority,
    over_hole: Authority,
}

#[derive(Serialize)]
struct StrengthJson {
    classes: &'static str,
    stress_area_mm2: Area,
    engaged: EngagedJson,
    engaged_worst: EngagedJson,
    rod_length_nm: i64,
    nut_length_nm: i64,
    both_length_nm: i64,
    rod_major_nm: i64,
    rod_pitch_nm: i64,
    nut_minor_nm: i64,
    nut_pitch_nm: i64,
    forms: &'static str,
    source: Authority,
}

#[derive(Serialize)]
struct EngagedJson {
    length_nm: i64,
    rod_shear_area_mm2: Area,
    nut_shear_area_mm2: Area,
    rod_shear_area_simple_mm2: Area,
    nut_shear_area_simple_mm2: Area,
}

/// One rod that stands far too high.
#[derive(Serialize)]
pub(in crate::report) struct HighRodJson {
    rod: String,
    top: Option<HighJson>,
    projection: Option<HighJson>,
    decides: &'static str,
}

#[derive(Serialize)]
struct HighJson {
    above_nm: i64,
    most_nm: i64,
    source: Authority,
}

const ENGINEER: &str = "the engineer of record";

impl ShortRodJson {
    /// Gives one rod; the areas are null where the limits of its thread are not known.
    pub(super) fn of(
        rod: &ShortRod,
        less_raise: Option<&[Length]>,
        strength: Option<&ThreadStrength>,
    ) -> Self {
        let shares = |all: &[Share]| all.iter().map(|it| share(*it)).collect();
        let outer = rod.nuts.last().zip(rod.nuts_worst.last());
        Self {
            rod: rod.rod.to_string(),
            state: rod.state,
            at_no_raise: rod.referred,
            thread_measured: rod.thread_measured,
            engaged: shares(&rod.nuts),
            engaged_worst: shares(&rod.nuts_worst),
            published: rod.published.iter().map(PublishedJson::of).collect(),
            decides: ENGINEER,
            lower: rod.ladder.lower.map(LowerJson::of),
            thinner_washers: rod.ladder.washers.as_ref().map(|all| all.iter().map(ThinnerJson::of).collect()),
            less_raise_nm: less_raise.map(|all| all.iter().map(|it| it.nm()).collect()),
            coupling_nut_each_side_nm: rod.ladder.coupling.nm(),
            thread_strength: strength.zip(outer).map(|(it, (nominal, worst))| StrengthJson {
                classes: it.classes,
                stress_area_mm2: it.stress_area,
                engaged: EngagedJson::of(it, nominal.part),
                engaged_worst: EngagedJson::of(it, worst.part),
                rod_length_nm: it.rod_length.nm(),
                nut_length_nm: it.nut_length.nm(),
                both_length_nm: it.both_length.nm(),
                rod_major_nm: it.limits.rod_major.nm(),
                rod_pitch_nm: it.limits.rod_pitch.nm(),
                nut_minor_nm: it.limits.nut_minor.nm(),
                nut_pitch_nm: it.limits.nut_pitch.nm(),
                forms: FORMS,
                source: it.limits.authority.clone(),
            }),
        }
    }
}

impl PublishedJson {
    fn of(it: &Published) -> Self {
        let (beyond_nm, share_asked) = match it.asked {
            Asked::Beyond(length) => (Some(length.nm()), None),
            Asked::AtLeast(over, under) => (None, Some([over, under])),
        };
        Self {
            by: it.name,
            asks: it.words,
            beyond_nm,
            share: share_asked,
            said: it.said,
            estimate: it.estimate.map(share),
            source: it.authority.clone(),
        }
    }
}

impl LowerJson {
    fn of(it: Lower) -> Self {
        Self {
            by_nm: it.by.nm(),
            to_raise_nm: it.to.nm(),
            every_rod_full: it.all_rods,
            least_raise_nm: it.lowest.map(Length::nm),
            limits_known: !it.unknown,
        }
    }
}

impl ThinnerJson {
    fn of(it: &Thinner) -> Self {
        Self {
            instead_of: it.instead_of.clone(),
            series: it.series.clone(),
            gain_nm: it.gain.nm(),
            state: it.state,
            source: it.authority.clone(),
            over_hole: it.over_hole.clone(),
        }
    }
}

impl EngagedJson {
    fn of(strength: &ThreadStrength, length: Length) -> Self {
        let at = strength.engaged(length);
        Self {
            length_nm: at.length.nm(),
            rod_shear_area_mm2: at.rod_shear,
            nut_shear_area_mm2: at.nut_shear,
            rod_shear_area_simple_mm2: at.rod_shear_simple,
            nut_shear_area_simple_mm2: at.nut_shear_simple,
        }
    }
}

impl HighRodJson {
    /// Gives one rod.
    pub(super) fn of(rod: &HighRod) -> Self {
        let of = |it: &Option<(Length, Length, Authority)>| {
            it.as_ref().map(|(above, most, source)| HighJson {
                above_nm: above.nm(),
                most_nm: most.nm(),
                source: source.clone(),
            })
        };
        Self {
            rod: rod.rod.to_string(),
            top: of(&rod.top),
            projection: of(&rod.projection),
            decides: ENGINEER,
        }
    }
}
