//! The sheet as it is printed: who and when, how, the boxes, the cautions.

use super::SheetFor;
use super::beside::beside;
use super::drawn;
use super::notes::{how, order};
use super::plan::{Plan, Planned, What};
use crate::catalog::InstrumentKind;
use crate::model::{Column, Job};
use crate::report::caution::DEFER;
use crate::report::document::{Align, Document, Field, Tone};
use crate::text::count;
use Field::{Box, Nothing};

/// Adds the whole sheet.
pub(super) fn tell(
    document: &mut Document,
    job: &Job,
    what: SheetFor,
    plan: &Plan,
    kinds: &[InstrumentKind],
) {
    document.heading(Tone::Plain, format!("{}: field sheet", job.name));
    document.text(Tone::Quiet, format!("{}. {}", count(job.columns.len(), "column"), order(job, plan)));
    who(document);
    how(document, job, what, kinds);
    if what != SheetFor::Levels {
        drawn::rods(document, job);
    }
    match what {
        SheetFor::All | SheetFor::Levels => pads(document, job, plan, what),
        SheetFor::Walk => walk(document, job, plan),
        SheetFor::Rods => rods(document, job, plan),
    }
    document.heading(Tone::Ask, "CAUTION");
    document.text(Tone::Plain, DEFER);
    document.text(
        Tone::Plain,
        "Mark a rod that is bent, cut or damaged and leave it as it is. Nothing on this sheet says that a column may be set.",
    );
    beside(document, job, &plan.walk);
}

fn said(text: impl Into<String>) -> Field {
    Field::Said(text.into())
}

/// Adds the boxes for who read what, when and with what.
fn who(document: &mut Document) {
    document.heading(Tone::Plain, "WHO, WHEN, WITH WHAT");
    let rows = [
        ["read by", "date"],
        ["instrument, number", "weather"],
        ["rod or tape", "level checked on"],
        ["from / to o'clock", "sheet no."],
    ];
    let row = |[left, right]: [&str; 2]| vec![vec![said(left), Box, said(right), Box]];
    document.boxes(&[("", Align::Left); 4], rows.into_iter().map(row).collect());
}

fn readings(document: &mut Document) {
    document.heading(Tone::Plain, "READINGS, in walking order");
}

/// Adds a row for every sight, and behind a pad one for each of its rods where rods are on the sheet.
fn pads(document: &mut Document, job: &Job, plan: &Plan, what: SheetFor) {
    readings(document);
    let rods = what == SheetFor::All;
    let mut groups = Vec::new();
    for setup in &plan.setups {
        for shot in &setup.sights {
            let means = match shot.what {
                What::Pad => "pad",
                What::Benchmark => "benchmark",
                What::CarriedOver => "again",
                What::Check => "CHECK SHOT",
            };
            let mut group = vec![vec![
                said(setup.name.clone()),
                said(shot.point.clone()),
                said(shot.kind.short()),
                said(means),
                Box,
            ]];
            let column = shot.column.and_then(|column| job.columns.get(column));
            if let (true, What::Pad, Some(column)) = (rods, shot.what, column) {
                group[0].extend([Nothing, Nothing, Nothing]);
                group.extend(rod_rows(job, column));
            } else if rods {
                group[0].extend([Nothing, Nothing, Nothing]);
            } else {
                group[0].extend([Box, Box]);
            }
            groups.push(group);
        }
    }
    let mut heads = vec![
        ("setup", Align::Wrap),
        ("column", Align::Wrap),
        ("sight", Align::Left),
        ("what", Align::Left),
        ("reading", Align::Left),
    ];
    heads.extend(match rods {
        true => [("projection", Align::Left), ("thread", Align::Left), ("condition", Align::Left)].as_slice(),
        false => &[("distance", Align::Left), ("note", Align::Left)],
    });
    document.boxes(&heads, groups);
}

fn rod_rows(job: &Job, column: &Column) -> Vec<Vec<Field>> {
    let rods = 1..=job.base_of(column).rods.count;
    rods.map(|rod| {
        let name = said(format!("rod {rod}"));
        vec![Nothing, said(column.mark.clone()), Nothing, name, Nothing, Box, Box, Box]
    })
    .collect()
}

/// Adds one row a column, and the check shot of every setup, which a walk has no row for.
fn walk(document: &mut Document, job: &Job, plan: &Plan) {
    readings(document);
    let group = |setup: &Planned| -> Vec<Vec<Vec<Field>>> {
        let rows = setup.sights.iter().map(|shot| {
            let column = shot.column.and_then(|column| job.columns.get(column));
            let (base, boxes) = match (shot.what, column) {
                (What::Pad, Some(column)) => (job.base_of(column).mark.clone(), [Box, Box, Box, Box]),
                (What::Check, _) => ("CHECK SHOT".to_owned(), [Nothing, Nothing, Nothing, Box]),
                (What::CarriedOver, _) => ("again".to_owned(), [Nothing, Nothing, Nothing, Box]),
                _ => ("benchmark".to_owned(), [Nothing, Nothing, Nothing, Box]),
            };
            let mut row = vec![said(shot.point.clone()), said(base), Box];
            row.extend(boxes);
            vec![row]
        });
        rows.collect()
    };
    document.boxes(
        &[
            ("column", Align::Wrap),
            ("base", Align::Wrap),
            ("reading", Align::Left),
            ("low", Align::Left),
            ("high", Align::Left),
            ("thread", Align::Left),
            ("condition, note", Align::Left),
        ],
        plan.setups.iter().flat_map(group).collect(),
    );
    document.text(
        Tone::Quiet,
        "low and high: the projections of the lowest and the highest rod of the group. A walk file has no row for a check \
         shot, a second setup or a benchmark: they stay on this sheet, or make a levels file (--for levels).",
    );
}

/// Adds one row a rod.
fn rods(document: &mut Document, job: &Job, plan: &Plan) {
    readings(document);
    let columns = plan.walk.columns.iter().map(|&index| &job.columns[index]);
    let groups = columns.map(|column| {
        let rods = 1..=job.base_of(column).rods.count;
        rods.map(|rod| vec![said(column.mark.clone()), said(format!("rod {rod}")), Box, Box, Box]).collect()
    });
    document.boxes(
        &[
            ("column", Align::Wrap),
            ("rod", Align::Left),
            ("projection", Align::Left),
            ("thread", Align::Left),
            ("condition", Align::Left),
        ],
        groups.collect(),
    );
}
