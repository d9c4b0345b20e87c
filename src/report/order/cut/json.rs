//! The values behind `order --cut --format json`.

use super::super::Told;
use super::{Drawn, Kind};
use crate::draw::Engraving;
use crate::length::Length;
use crate::order::PlateUse;
use crate::report::figures::kg;
use serde::Serialize;
use serde_json::{Number, Value};

#[derive(Serialize)]
struct CutJson {
    format: u32,
    job: String,
    units: &'static str,
    drawing_units: &'static str,
    plates: Vec<KindJson>,
    totals: TotalsJson,
}

#[derive(Serialize)]
struct KindJson {
    plate: String,
    dxf: Option<String>,
    svg: Option<String>,
    mark: String,
    /// Whether it is a piece of a pack and no shim.
    pack: bool,
    bases: Vec<String>,
    thickness_nm: i64,
    size_nm: Option<[i64; 2]>,
    /// From the corner at the lower left.
    holes: Option<Vec<HoleJson>>,
    engraved: Option<EngravedJson>,
    pieces: u32,
    held: u32,
    spares: u32,
    from_stock: Option<u32>,
    cut: u32,
    each_kg: Option<Number>,
    cut_mass_kg: Option<Number>,
    not_drawn: Vec<MissingJson>,
}

#[derive(Serialize)]
struct HoleJson {
    at_nm: [i64; 2],
    diameter_nm: i64,
}

#[derive(Serialize)]
struct EngravedJson {
    at_nm: [i64; 2],
    height_nm: i64,
    turned: bool,
}

#[derive(Serialize)]
struct MissingJson {
    why: String,
    fix: &'static str,
}

#[derive(Serialize)]
struct TotalsJson {
    drawn: usize,
    not_drawn: usize,
    cut: u32,
}

/// Makes the value.
pub(super) fn value(told: &Told<'_>, kinds: &[Kind<'_>]) -> Value {
    let job = told.judged.case.job;
    let drawn = kinds.iter().filter(|kind| kind.drawn.is_ok()).count();
    let json = CutJson {
        format: 1,
        job: job.name.clone(),
        units: job.units.symbol(),
        drawing_units: "mm",
        plates: kinds.iter().map(kind_json).collect(),
        totals: TotalsJson {
            drawn,
            not_drawn: kinds.len() - drawn,
            cut: kinds.iter().map(|kind| kind.order.to_order).sum(),
        },
    };
    serde_json::to_value(json).unwrap_or(Value::Null)
}

fn nm(at: [Length; 2]) -> [i64; 2] {
    at.map(Length::nm)
}

fn kind_json(kind: &Kind<'_>) -> KindJson {
    let order = kind.order;
    let drawn = kind.drawn.as_ref().ok();
    let hole =
        |hole: &crate::model::Hole| HoleJson { at_nm: nm(hole.centre), diameter_nm: hole.diameter.nm() };
    KindJson {
        plate: kind.label.clone(),
        dxf: drawn.map(Drawn::dxf),
        svg: drawn.map(Drawn::svg),
        mark: kind.mark.clone(),
        pack: order.kind.purpose == PlateUse::Pack,
        bases: order.bases.clone(),
        thickness_nm: order.kind.thickness.nm(),
        size_nm: order.kind.outline.size.map(nm),
        holes: drawn.map(|it| it.outline.holes.iter().map(hole).collect()),
        engraved: drawn.and_then(|it| it.drawing.engraving()).map(engraved),
        pieces: order.pieces,
        held: order.held,
        spares: order.spares,
        from_stock: order.from_stock,
        cut: order.to_order,
        each_kg: order.each.map(kg),
        cut_mass_kg: order.order_mass().map(kg),
        not_drawn: kind.missing().map(|(why, fix)| MissingJson { why, fix }).collect(),
    }
}

fn engraved(mark: &Engraving) -> EngravedJson {
    EngravedJson { at_nm: nm(mark.at), height_nm: mark.height.nm(), turned: mark.turned }
}
