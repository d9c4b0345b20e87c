//! Pads that were read at several places: on the screen of `level`, in `explain`, and behind JSON.

use super::rod_tops;
use crate::check::{ColumnCase, style};
use crate::length::{Length, Rounding};
use crate::levels::{Levelled, PadShape, pad_shapes};
use crate::model::Job;
use crate::report::document::{Align, Document, Tone};
use crate::text::Style;
use serde::Serialize;

/// The shape of a pad as JSON has it.
#[derive(Serialize)]
pub(in crate::report) struct PadShapeJson {
    high: String,
    low: String,
    fall_nm: i64,
    plus_minus_nm: i64,
    across_nm: Option<i64>,
    across_plus_minus_nm: Option<i64>,
    tilt_x_nm: Option<i64>,
    tilt_y_nm: Option<i64>,
    out_of_flat_nm: Option<i64>,
}

/// The shape of a column's pad as JSON has it.
#[derive(Serialize)]
pub(super) struct PadJson {
    mark: String,
    #[serde(flatten)]
    shape: PadShapeJson,
}

impl PadShapeJson {
    /// Gives a shape.
    pub(in crate::report) fn of(shape: &PadShape) -> Self {
        let across = |of: fn(crate::levels::Fall) -> Length| shape.across.map(|fall| of(fall).nm());
        Self {
            high: word(shape, shape.high).to_owned(),
            low: word(shape, shape.low).to_owned(),
            fall_nm: shape.fall.value.nm(),
            plus_minus_nm: shape.fall.plus_minus.nm(),
            across_nm: across(|fall| fall.value),
            across_plus_minus_nm: across(|fall| fall.plus_minus),
            tilt_x_nm: shape.plane.map(|plane| plane.tilt_x.nm()),
            tilt_y_nm: shape.plane.map(|plane| plane.tilt_y.nm()),
            out_of_flat_nm: shape.plane.and_then(|plane| plane.out_of_flat).map(Length::nm),
        }
    }
}

/// Gives the shapes of all pads for `level`.
pub(super) fn pads_json(job: &Job, levels: &Levelled) -> Vec<PadJson> {
    let shaped = |(mark, shape): (String, PadShape)| PadJson { mark, shape: PadShapeJson::of(&shape) };
    shapes(job, levels).into_iter().map(shaped).collect()
}

/// Lists the pads that have a shape, by their columns' marks.
fn shapes(job: &Job, levels: &Levelled) -> Vec<(String, PadShape)> {
    let columns = job.columns.iter().zip(pad_shapes(job, levels));
    columns.filter_map(|(column, shape)| Some((column.mark.clone(), shape?))).collect()
}

fn word(shape: &PadShape, place: usize) -> &str {
    shape.places.get(place).map_or("", |place| place.word.as_str())
}

/// Adds what was read on pads beside one height each: their shapes, and the tops of rods.
pub(super) fn sections(document: &mut Document, job: &Job, levels: &Levelled) {
    pads(document, job, levels, style(job));
    rod_tops::section(document, job, style(job));
}

fn pads(document: &mut Document, job: &Job, levels: &Levelled, style: Style) {
    let shapes = shapes(job, levels);
    if shapes.is_empty() {
        return;
    }
    let up = |length: Length| style.write(length, Rounding::Up);
    let or_none = |length: Option<Length>| length.map_or("-".to_owned(), up);
    let rows = shapes.iter().map(|(mark, shape)| {
        vec![
            mark.clone(),
            word(shape, shape.high).to_owned(),
            word(shape, shape.low).to_owned(),
            up(shape.fall.value),
            up(shape.fall.plus_minus),
            or_none(shape.across.map(|across| across.value)),
            or_none(shape.plane.and_then(|plane| plane.out_of_flat)),
        ]
    });
    document.heading(Tone::Plain, "PADS READ AT SEVERAL PLACES");
    document.grid(
        &[
            ("pad", Align::Left),
            ("highest", Align::Wrap),
            ("lowest", Align::Wrap),
            ("falls", Align::Right),
            ("+- (95 %)", Align::Right),
            ("across the plate", Align::Right),
            ("out of flat", Align::Right),
        ],
        rows.collect(),
    );
    document.text(
        Tone::Quiet,
        "falls: highest less lowest place. across the plate: the plane that fits the places best, corner to corner. \
         out of flat: the largest departure of a place from that plane.",
    );
}

/// Adds the places of one pad and how it falls to `explain`.
pub(in crate::report) fn explained(document: &mut Document, column: &ColumnCase, style: Style) {
    let Some(shape) = &column.shape else { return };
    let places = shape.places.iter();
    let places = places.map(|place| format!("{} {}", place.word, style.exact(place.elevation)));
    document.text(Tone::Plain, format!("read at {}", places.collect::<Vec<_>>().join(", ")));
    let up = |length: Length| style.write(length, Rounding::Up);
    document.text(
        Tone::Plain,
        format!(
            "falls {} (+-{}) from {} to {}",
            up(shape.fall.value),
            up(shape.fall.plus_minus),
            word(shape, shape.high),
            word(shape, shape.low)
        ),
    );
    if let Some(across) = shape.across.filter(|_| shape.plane.is_none()) {
        let fall = up(across.value);
        document.text(
            Tone::Plain,
            format!("carried on to the edges of the plate: {fall} (+-{})", up(across.plus_minus)),
        );
    }
    if let (Some(plane), Some(across)) = (shape.plane, shape.across) {
        let flat = plane
            .out_of_flat
            .map_or(String::new(), |off| format!("; no place is more than {} off it", up(off)));
        document.text(
            Tone::Plain,
            format!(
                "the plane that fits best: east side {} from the west side, north side {} from the south side, so {} \
                 (+-{}) across the plate, corner to corner{flat}",
                style.signed(plane.tilt_x, Rounding::Nearest),
                style.signed(plane.tilt_y, Rounding::Nearest),
                up(across.value),
                up(across.plus_minus),
            ),
        );
    }
}
