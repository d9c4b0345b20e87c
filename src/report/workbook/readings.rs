//! Every reading of the level, every elevation and every difference, as it was read, with its place in the files.

use super::WorkSheet;
use super::layout::{Item, lay, length, long, said, text, word};
use crate::check::{Case, style};
use crate::length::{Length, Rounding};
use crate::levels::sights_good_to;
use crate::model::Job;
use crate::source::Files;
use crate::text::AsRead;

/// Makes the sheet.
pub(super) fn sheet(case: &Case<'_>, files: &Files) -> WorkSheet {
    let job = case.job;
    let (style, read) = (style(job), &job.readings);
    let heads = [
        word("kind", 12),
        word("on", 12),
        word("spot", 14),
        word("from", 14),
        word("sight", 7),
        length("reading", 14),
        length("plus_minus", 10),
        length("distance", 12),
        long("where", 30),
    ];
    let all: Vec<Length> = read.sights.iter().map(|sight| sight.reading).collect();
    let as_read = AsRead::of(read.unit, style, &all);
    let up = |it| style.write(it, Rounding::Up);
    let sights = read.sights.iter().zip(sights_good_to(job)).map(|(sight, good_to)| {
        let [on, spot] = on(job, sight.point);
        let setup = read.setups.get(sight.setup).map(|setup| format!("setup {}", setup.name));
        vec![
            text("sight"),
            on,
            spot,
            text(setup.unwrap_or_default()),
            text(sight.kind.short()),
            said(Some(sight.reading), |it| as_read.with_unit(it)),
            said(Some(good_to), up),
            said(sight.distance, |it| style.elevation(it)),
            text(files.row_words(sight.place)),
        ]
    });
    let elevations = read.elevations.iter().map(|it| {
        let [on, spot] = on(job, it.point);
        vec![
            text("elevation"),
            on,
            spot,
            text(""),
            text(""),
            said(Some(it.elevation), |it| style.elevation(it)),
            said(Some(it.plus_minus), up),
            said(None, up),
            text(files.row_words(it.place)),
        ]
    });
    let differences = read.differences.iter().map(|it| {
        let [on, spot] = on(job, it.to);
        let from = read.points.get(it.from).cloned().unwrap_or_default();
        vec![
            text("difference"),
            on,
            spot,
            text(from),
            text(""),
            said(Some(it.difference), |it| style.exact(it)),
            said(Some(it.plus_minus), up),
            said(None, up),
            text(files.row_words(it.place)),
        ]
    });
    let rows = sights.chain(elevations).chain(differences).collect();
    lay("Readings", style.system(), &heads, rows)
}

/// Gives the column or point that was read, and which place of the column.
fn on(job: &Job, point: usize) -> [Item; 2] {
    let spot = job.readings.spots.iter().find(|spot| spot.point == point);
    let of_column = spot.and_then(|spot| Some((job.columns.get(spot.column)?, spot)));
    match of_column {
        Some((column, spot)) => [text(column.mark.clone()), text(spot.what.to_string())],
        None => [text(job.readings.points.get(point).cloned().unwrap_or_default()), text("")],
    }
}
