//! How a plate is set, in words: a line for the drawing, and a section for `explain` and `ask`.

pub(super) mod beds;
pub(super) mod json;

use super::document::{Document, Tone};
use super::rules::source;
use super::under::pieces;
use crate::catalog::{Authority, erection_authority, lightly_loaded_authority, pack_authority};
use crate::check::{Case, ColumnCase};
use crate::length::Length;
use crate::model::{Base, Packs, Setting, SettingPlate};
use crate::order::{ColumnPacks, packs};
use crate::text::{Style, count, or};

/// Says what a plate is set on, where the job does.
pub(super) fn set_on(base: &Base, style: Style) -> Option<String> {
    Some(match base.setting.as_ref()? {
        Setting::Pad => "the concrete itself".to_owned(),
        Setting::Shims => "shims".to_owned(),
        Setting::Packs(packs) => packs_drawn(packs, style),
        Setting::Nuts(levelling) => {
            let washer = levelling.washer.as_ref().map_or("none", |washer| washer.series.as_str());
            format!(
                "levelling nuts, on each rod from the plate down: washer {washer}, nut {}",
                levelling.nut.called()
            )
        }
        Setting::Plate(plate) => plate_drawn(plate, style),
    })
}

fn sides(size: Option<[Length; 2]>, style: Style) -> String {
    size.map_or("a size not given".to_owned(), |[a, b]| format!("{} x {}", style.exact(a), style.exact(b)))
}

fn packs_drawn(packs: &Packs, style: Style) -> String {
    let number = packs.count.map_or("packs, how many is not given,".to_owned(), |number| {
        count(usize::try_from(number).unwrap_or(0), "pack")
    });
    let stay = match (packs.left_in, packs.cover) {
        (None, _) => "whether they stay is not given".to_owned(),
        (Some(false), _) => "taken out".to_owned(),
        (Some(true), None) => "left in, their cover is not given".to_owned(),
        (Some(true), Some(cover)) => format!("left in with {} of cover", style.exact(cover)),
    };
    format!("{number} of {}, {stay}", sides(packs.size, style))
}

fn plate_drawn(plate: &SettingPlate, style: Style) -> String {
    let thick =
        plate.thickness.map_or("thickness not given".to_owned(), |it| format!("{} thick", style.exact(it)));
    format!("a setting plate of {}, {thick}, in the bed", sides(plate.size, style))
}

/// Adds the section of a column whose job says what its plate is set on.
pub(super) fn explained(document: &mut Document, case: &Case<'_>, column: &ColumnCase, style: Style) {
    let base = case.base(column.index);
    let (Some(setting), Some(words)) = (&base.setting, set_on(base, style)) else { return };
    document.heading(Tone::Plain, "HOW THE PLATE IS SET");
    document.item(Tone::Plain, "set on", words);
    match setting {
        Setting::Pad | Setting::Shims => {}
        Setting::Packs(_) => {
            if let Some(packs) = packs(base, &case.job.shims, column) {
                packs_made(document, &packs, style);
            }
            document.text(
                Tone::Quiet,
                "Packs are composed of the job's shims and counted by hardware, not by the plan, nor taken from what is on \
                 hand. Wedges bring a plate to its height and come out: they are never counted. The nuts are judged at the \
                 planned bed; what the tolerance of the pieces takes off them is a rule of its own, pack-leaves-nut-short.",
            );
        }
        Setting::Nuts(levelling) => {
            let mut part = |name: &str, extent: crate::catalog::Extent, authority: &Authority| {
                let [least, nominal, most] =
                    [extent.least, extent.nominal, extent.most].map(|it| style.exact(it));
                document.item(Tone::Plain, name, format!("{nominal} high, {least} to {most}"));
                document.item(Tone::Quiet, " ", format!("source, {}", source(authority)));
            };
            if let Some(washer) = &levelling.washer {
                part("washer", washer.thickness, &washer.authority);
            }
            part("nut", levelling.nut.height, &levelling.nut.authority);
        }
        Setting::Plate(plate) => {
            let left = column.raise.map(|raise| raise.nominal).zip(plate.thickness).map(|(bed, thick)| {
                let (bed, left) = (style.exact(bed), style.exact(bed - thick));
                format!("{bed} - {} = {left} under the setting plate", style.exact(thick))
            });
            if let Some(left) = left {
                document.item(Tone::Plain, "grout", left);
            }
            document.text(
                Tone::Quiet,
                "The bed is all between the concrete and the base plate: the setting plate is a part of it, and no part of \
                 what stands on a rod.",
            );
        }
    }
    asked(document, setting);
}

/// Says what one pack is made of, and all of them.
fn packs_made(document: &mut Document, packs: &ColumnPacks, style: Style) {
    let height = style.exact(packs.height);
    match &packs.each.exact {
        Some(stack) => {
            document.item(Tone::Plain, "each", format!("{} = {height}", pieces(style, &stack.pieces)))
        }
        None => {
            let near = [&packs.each.below, &packs.each.above].into_iter().flatten();
            let near: Vec<String> = near
                .map(|stack| {
                    format!("{} ({})", style.exact(stack.height.nominal), pieces(style, &stack.pieces))
                })
                .collect();
            let near = if near.is_empty() { "nothing".to_owned() } else { or(&near) };
            document.item(
                Tone::Ask,
                "each",
                format!("no stack of the job's shims is {height}; the nearest is {near}"),
            );
        }
    }
    if let Some(all) = packs.pieces() {
        document.item(Tone::Plain, "in all", pieces(style, &all));
    }
}

/// Puts what is published of the support to the engineer.
pub(super) fn asked(document: &mut Document, setting: &Setting) {
    let mut told = |name: &str, words: &str, authority: &Authority| {
        document.item(Tone::Plain, name, words);
        document.item(Tone::Quiet, " ", format!("source, {}", source(authority)));
    };
    match setting {
        Setting::Pad => told("floor", "is the concrete a level finished floor?", &erection_authority()),
        Setting::Shims => told("loads", "do the shims bear the loads of erection?", &erection_authority()),
        Setting::Packs(_) => {
            told(
                "loads",
                "do the packs, and the concrete under them, bear the loads of erection?",
                &erection_authority(),
            );
            told("places", "where do they stand?", &pack_authority());
        }
        Setting::Nuts(_) => told(
            "loads",
            "is the column only lightly loaded until its grout is hard, and do the rods bear that in compression and against \
             being pushed out? After grouting the nuts keep taking load.",
            &lightly_loaded_authority(),
        ),
        Setting::Plate(_) => told(
            "loads",
            "is the setting plate level, its grout hard and without hollows, and does it bear the loads of erection?",
            &erection_authority(),
        ),
    }
}
