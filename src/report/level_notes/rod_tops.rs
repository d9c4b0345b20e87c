//! Rods whose tops were read with the level: on the screen of `level`, in `explain`, and behind JSON.

use crate::check::{Case, ColumnCase, RodCase};
use crate::length::{Length, Rounding};
use crate::model::{ByLevel, Job, Rod, RodLabel, SpotKind};
use crate::report::document::{Align, Document, Tone};
use crate::text::Style;
use serde::Serialize;

/// What the level says of a rod as JSON has it.
#[derive(Serialize)]
pub(in crate::report) struct ByLevelJson {
    tape_nm: Option<i64>,
    level_nm: i64,
    plus_minus_nm: i64,
    agrees: bool,
}

/// A rod whose top was read as `level` has it.
#[derive(Serialize)]
pub(super) struct RodTopJson {
    mark: String,
    rod: String,
    projection_nm: Option<i64>,
    plus_minus_nm: Option<i64>,
    by_level: Option<ByLevelJson>,
}

impl From<ByLevel> for ByLevelJson {
    fn from(it: ByLevel) -> Self {
        Self {
            tape_nm: it.tape.map(Length::nm),
            level_nm: it.level.nm(),
            plus_minus_nm: it.plus_minus.nm(),
            agrees: it.agrees,
        }
    }
}

/// Gives the rods whose tops were read for `level`.
pub(super) fn rods_json(job: &Job) -> Vec<RodTopJson> {
    let read = tops(job).into_iter().map(|(mark, rod)| RodTopJson {
        mark: mark.to_owned(),
        rod: rod.label.to_string(),
        projection_nm: rod.projection.map(Length::nm),
        plus_minus_nm: rod.projection.map(|_| rod.good_to(job.rods_plus_minus).nm()),
        by_level: rod.by_level.map(ByLevelJson::from),
    });
    read.collect()
}

/// Lists the rods whose tops were read, by their columns' marks, in the order of reading.
fn tops(job: &Job) -> Vec<(&str, &Rod)> {
    let labels = job.readings.spots.iter().filter_map(|spot| match spot.what {
        SpotKind::Rod(label) => Some((job.columns.get(spot.column)?, label)),
        SpotKind::Place(_) => None,
    });
    let rods = labels.filter_map(|(column, label): (_, RodLabel)| {
        Some((column.mark.as_str(), column.rods.iter().find(|rod| rod.label == label)?))
    });
    rods.collect()
}

/// Adds the rods whose tops were read to `level`.
pub(super) fn section(document: &mut Document, job: &Job, style: Style) {
    let tops = tops(job);
    if tops.is_empty() {
        return;
    }
    let nearest = |length: Length| style.write(length, Rounding::Nearest);
    let rows = tops.iter().map(|(mark, rod)| {
        let of_level = |of: fn(ByLevel) -> Length| rod.by_level.map(of);
        let tape = rod.by_level.map_or(rod.projection, |it| it.tape);
        vec![
            format!("{mark} rod {}", rod.label),
            of_level(|it| it.level).map_or("?".to_owned(), nearest),
            of_level(|it| it.plus_minus).map_or("?".to_owned(), |it| style.write(it, Rounding::Up)),
            tape.map_or("-".to_owned(), nearest),
            rod.projection.map_or("?".to_owned(), |it| style.write(it, Rounding::Down)),
            rod.projection
                .map_or("?".to_owned(), |_| style.write(rod.good_to(job.rods_plus_minus), Rounding::Up)),
            match rod.by_level {
                None => "not connected",
                Some(by_level) if by_level.is_below_its_pad() => "below its pad",
                Some(by_level) if !by_level.agrees => "disagree",
                Some(_) => "",
            }
            .to_owned(),
        ]
    });
    document.heading(Tone::Plain, "ROD TOPS, above their pads");
    document.grid(
        &[
            ("rod", Align::Left),
            ("by level", Align::Right),
            ("+-", Align::Right),
            ("by tape", Align::Right),
            ("taken as", Align::Right),
            ("+- (95 %)", Align::Right),
            ("", Align::Wrap),
        ],
        rows.collect(),
    );
}

/// Adds to `explain` how the rods whose tops were read come to what they are taken for.
pub(in crate::report) fn explained(
    document: &mut Document,
    case: &Case<'_>,
    column: &ColumnCase,
    style: Style,
) {
    for rod in &column.rods {
        if let Some(by_level) = rod.by_level {
            document.item(Tone::Plain, format!("rod {}", rod.label), words(case, rod, by_level, style));
        }
    }
}

fn words(case: &Case<'_>, rod: &RodCase, by_level: ByLevel, style: Style) -> String {
    let good_to = |length: Length| format!("+-{}", style.exact(length));
    let of_tape = case.job.rods_plus_minus;
    let level =
        format!("top less pad by level {} ({})", style.exact(by_level.level), good_to(by_level.plus_minus));
    let Some(projection) = rod.projection else {
        return format!("{level}: below its pad, so it counts as not measured");
    };
    let Some(tape) = by_level.tape else { return level };
    let taken = format!("{} ({})", style.exact(projection), good_to(rod.plus_minus));
    let both = format!("{level}, by tape {} ({})", style.exact(tape), good_to(of_tape));
    if by_level.agrees {
        format!("{both}; level + (tape - level) x level's +- squared / sum of both squared = {taken}")
    } else {
        format!("{both}: they disagree, so it is taken in the middle, good to what covers both = {taken}")
    }
}
