//! How plates are set, and what the concrete and the rods are to carry, in short: figures for the engineer, no verdict.

use super::super::document::{Align, Document, Tone};
use super::super::loads::{Told, words};
use super::super::setting::{asked, set_on};
use super::super::under::pieces;
use crate::catalog::Catalog;
use crate::check::{Case, ColumnCase};
use crate::length::Length;
use crate::model::{Base, Loads, Setting};
use crate::order::packs;
use crate::text::{Style, or};

/// Rows that are the same of several columns, and those columns.
type Groups = Vec<(Vec<String>, Vec<usize>)>;

/// Adds the section.
pub(super) fn section(document: &mut Document, case: &Case<'_>, catalog: &Catalog, style: Style) {
    let used = |base: &&Base| case.columns.iter().any(|column| case.base(column.index).mark == base.mark);
    let bases: Vec<&Base> = case.job.bases.iter().filter(used).collect();
    set(document, case, &bases, style);
    concrete(document, case, style);
    loads(document, &bases, style);
    let told: Vec<Told> = case.columns.iter().map(|column| Told::of(case, column, catalog)).collect();
    bearing(document, case, &told, style);
    shear(document, case, &told);
    document.text(
        Tone::Quiet,
        "Each figure with its source: rodreach explain COLUMN; with a box for the engineer's answer: rodreach ask.",
    );
}

/// Says what each kind of base is set on, and what that comes to in the planned beds.
fn set(document: &mut Document, case: &Case<'_>, bases: &[&Base], style: Style) {
    document.heading(Tone::Plain, "HOW THE PLATES ARE SET");
    for base in bases {
        let words = set_on(base, style).unwrap_or_else(|| "not given: the drawings say it".to_owned());
        document.item(Tone::Plain, base.mark.clone(), words);
    }
    let mut groups = Groups::new();
    for column in &case.columns {
        if let Some(words) = in_bed(case, column, style) {
            let bed = column.raise.map_or("?".to_owned(), |raise| style.exact(raise.nominal));
            group(&mut groups, vec![case.base(column.index).mark.clone(), bed, words], column.index);
        }
    }
    if !groups.is_empty() {
        let heads =
            [("base", Align::Wrap), ("bed", Align::Right), ("in it", Align::Wrap), ("columns", Align::Wrap)];
        document.grid(&heads, rows(case, groups));
    }
    let mut told: Vec<&str> = Vec::new();
    for setting in bases.iter().filter_map(|base| base.setting.as_ref()) {
        if !told.contains(&setting.word()) {
            told.push(setting.word());
            asked(document, setting);
        }
    }
}

/// Says what stands in a planned bed; nothing where the job does not say how the plate is set, or no bed is planned.
fn in_bed(case: &Case<'_>, column: &ColumnCase, style: Style) -> Option<String> {
    let base = case.base(column.index);
    let bed = column.raise?.nominal;
    if bed <= Length::ZERO {
        return None;
    }
    Some(match base.setting.as_ref()? {
        Setting::Pad | Setting::Shims => return None,
        Setting::Nuts(levelling) => {
            let high = levelling.height().nominal;
            format!(
                "washer and nut under the plate {}: {} left under them",
                style.exact(high),
                style.exact(bed - high)
            )
        }
        Setting::Packs(_) => {
            let packs = packs(base, &case.job.shims, column)?;
            let number =
                packs.count.map_or("packs, how many is not given,".to_owned(), |it| format!("{it} packs"));
            match &packs.each.exact {
                Some(stack) => format!("{number} of {}", pieces(style, &stack.pieces)),
                None => {
                    let near = [&packs.each.below, &packs.each.above].into_iter().flatten();
                    let near: Vec<String> = near.map(|it| style.exact(it.height.nominal)).collect();
                    let near = if near.is_empty() { "nothing".to_owned() } else { or(&near) };
                    format!("no stack of the job's shims is so high; the nearest is {near}")
                }
            }
        }
        Setting::Plate(plate) => match plate.thickness {
            Some(thick) => format!("{} of grout under the setting plate", style.exact(bed - thick)),
            None => "a setting plate, its thickness is not given".to_owned(),
        },
    })
}

fn concrete(document: &mut Document, case: &Case<'_>, style: Style) {
    let concrete = &case.job.concrete;
    document.heading(Tone::Plain, "CONCRETE AND LOADS");
    let strength = concrete.strength.map_or("not given".to_owned(), |it| style.concrete(it));
    let tested = concrete.tested.map_or("not given".to_owned(), |it| style.concrete(it));
    document.item(Tone::Plain, "concrete", format!("specified {strength}; tested before steel {tested}"));
}

fn loads(document: &mut Document, bases: &[&Base], style: Style) {
    let none = bases.iter().all(|base| base.loads == Loads::default());
    if none {
        document.item(Tone::Plain, "loads", "not given, which is not 0");
        return;
    }
    for base in bases {
        document.item(Tone::Plain, base.mark.clone(), words(&base.loads, style));
    }
}

/// Adds what the concrete bears, columns of one row together.
fn bearing(document: &mut Document, case: &Case<'_>, told: &[Told], style: Style) {
    let mut groups = Groups::new();
    for (column, told) in case.columns.iter().zip(told) {
        for row in told.bearing_rows(style) {
            group(&mut groups, row, column.index);
        }
    }
    if groups.is_empty() {
        return;
    }
    document.heading(Tone::Ask, "BEARING ON THE CONCRETE: figures for the engineer, no verdict");
    let heads = [
        ("stage", Align::Left),
        ("stands on", Align::Wrap),
        ("load on one", Align::Right),
        ("least published", Align::Wrap),
        ("columns", Align::Wrap),
    ];
    document.grid(&heads, rows(case, groups));
}

fn shear(document: &mut Document, case: &Case<'_>, told: &[Told]) {
    let mut groups = Groups::new();
    for (column, told) in case.columns.iter().zip(told) {
        if let Some(row) = told.shear_row() {
            group(&mut groups, row, column.index);
        }
    }
    if groups.is_empty() {
        return;
    }
    document.heading(Tone::Ask, "RODS IN SHEAR: for the engineer, no verdict");
    let heads = [
        ("plate clear", Align::Right),
        ("half a rod", Align::Right),
        ("lever arm", Align::Right),
        ("shear, all rods", Align::Right),
        ("columns", Align::Wrap),
    ];
    document.grid(&heads, rows(case, groups));
    document.text(
        Tone::Quiet,
        "plate clear: how far it stands above its concrete. lever arm: at the most, if one counts; whether it does is the \
         engineer's question.",
    );
}

fn group(groups: &mut Groups, row: Vec<String>, column: usize) {
    match groups.iter_mut().find(|(known, _)| *known == row) {
        Some((_, columns)) => columns.push(column),
        None => groups.push((row, vec![column])),
    }
}

/// Writes groups as rows, their columns last.
fn rows(case: &Case<'_>, groups: Groups) -> Vec<Vec<String>> {
    let row = |(mut row, columns): (Vec<String>, Vec<usize>)| {
        row.push(case.marks(&columns).join(", "));
        row
    };
    groups.into_iter().map(row).collect()
}
