//! What the drawing says of a column: base, plate, rods, seat; what it must carry.

use super::super::document::{Align, Document, Tone};
use super::super::loads::{LoadsJson, words};
use super::super::setting::json::SetDrawnJson;
use super::super::setting::set_on;
use crate::check::{Case, style};
use crate::length::Length;
use crate::model::{Duty, Interval};
use crate::quantity::Stress;
use crate::text::count;
use serde::Serialize;

/// The drawing's values; what is not given is null.
#[derive(Serialize)]
pub(super) struct Drawing {
    base: String,
    plate_nm: [i64; 3],
    plate_size_nm: Option<[i64; 2]>,
    holes_nm: Option<i64>,
    rods: u32,
    rod_size: String,
    pattern_nm: Option<[i64; 2]>,
    projection_nm: Option<i64>,
    thread_nm: Option<i64>,
    washers: Vec<String>,
    nuts: Vec<String>,
    seat_nm: Option<i64>,
    position_nm: Option<[i64; 2]>,
    duty: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pier_nm: Option<[i64; 2]>,
    #[serde(rename = "concrete_Pa", skip_serializing_if = "Option::is_none")]
    concrete: Option<i64>,
    loads: Option<LoadsJson>,
    #[serde(flatten)]
    set: SetDrawnJson,
}

/// Gives the drawing's values at a column.
pub(super) fn value(case: &Case<'_>, index: usize) -> Drawing {
    let (column, base) = (case.column(index), case.base(index));
    let pair = |pair: [Length; 2]| pair.map(Length::nm);
    let plate = base.plate.thickness;
    Drawing {
        base: base.mark.clone(),
        plate_nm: [plate.least.nm(), plate.nominal.nm(), plate.most.nm()],
        plate_size_nm: base.plate.size.map(pair),
        holes_nm: base.plate.holes.map(Length::nm),
        rods: base.rods.count,
        rod_size: base.rods.size.clone(),
        pattern_nm: base.rods.pattern.map(pair),
        projection_nm: base.rods.projection.map(Length::nm),
        thread_nm: base.rods.thread.map(Length::nm),
        washers: base.washers.iter().map(|it| it.series.clone()).collect(),
        nuts: base.nuts.iter().map(|it| it.series.clone()).collect(),
        seat_nm: column.seat.or(case.job.seat).map(Length::nm),
        position_nm: column.at.map(pair),
        duty: duty(base.duty).0,
        pier_nm: base.pier.map(pair),
        concrete: case.job.concrete.strength.map(Stress::pascals),
        loads: LoadsJson::of(&base.loads),
        set: SetDrawnJson::of(base),
    }
}

const fn duty(duty: Duty) -> (&'static str, &'static str) {
    match duty {
        Duty::Column => ("column", "a column (29 CFR 1926.751)"),
        Duty::Post => ("post", "a post (29 CFR 1926.751)"),
    }
}

/// Adds the drawing's values at a column.
pub(super) fn section(document: &mut Document, case: &Case<'_>, index: usize) {
    let style = style(case.job);
    let (column, base) = (case.column(index), case.base(index));
    let exact = |length: Length| style.exact(length);
    let given = |length: Option<Length>| length.map_or("not given".to_owned(), exact);
    let pair = |pair: Option<[Length; 2]>| {
        pair.map_or("not given".to_owned(), |[a, b]| format!("{} x {}", exact(a), exact(b)))
    };
    let plate = &base.plate;
    let rods = count(usize::try_from(base.rods.count).unwrap_or(0), "rod");
    let seat = column.seat.or(case.job.seat);
    let seat = seat.map_or("not given".to_owned(), |seat| {
        format!("{}, the underside of the plate", style.elevation(seat))
    });
    let at = column.at.map(|[x, y]| format!("x {}, y {}", style.elevation(x), style.elevation(y)));
    let thick = plate.thickness;
    let rows = [
        ("base", base.mark.clone()),
        ("plate", pair(plate.size)),
        (
            "plate, thick",
            format!("{} ({} to {})", exact(thick.nominal), exact(thick.least), exact(thick.most)),
        ),
        ("holes", given(plate.holes)),
        ("rods", format!("{rods} {}", base.rods.size)),
        ("pattern", pair(base.rods.pattern)),
        ("projection", given(base.rods.projection)),
        ("thread", given(base.rods.thread)),
        ("seat", seat),
        ("position", at.unwrap_or_else(|| "not given".to_owned())),
        ("duty", duty(base.duty).1.to_owned()),
    ];
    let more = [
        ("pier", base.pier.map(|pier_sides| pair(Some(pier_sides)))),
        ("concrete", case.job.concrete.strength.map(|strength| style.concrete(strength))),
        ("loads", Some(words(&base.loads, style))),
        ("set on", set_on(base, style)),
    ];
    let more = more.into_iter().filter_map(|(what, value)| Some((what, value?)));
    document.heading(Tone::Plain, "THE DRAWING");
    document.grid(
        &[("what", Align::Left), ("on the drawing", Align::Wrap)],
        rows.into_iter().chain(more).map(|(what, value)| vec![what.to_owned(), value]).collect(),
    );
}

/// Writes an interval of raises for JSON.
pub(super) fn interval_nm(interval: Interval) -> [Option<i64>; 2] {
    [interval.low.map(Length::nm), interval.high.map(Length::nm)]
}
