//! Sections: each kind of base as the drawing has it, each column that may not be set at its worst rod.

use super::super::document::{Document, Figure, Tone};
use super::super::explain::screen::why_not;
use super::super::setting::set_on;
use super::super::under::under;
use crate::check::{Case, ColumnCase, Judged, RodCase};
use crate::draw::{Piece, PieceKind, Section, SectionRod, ThreadShown, section as cut, section_view};
use crate::length::{Length, Rounding};
use crate::model::{Base, Raise, Setting, needed_projection};
use crate::order::{HardwareRow, hardware};
use crate::plan::Action;
use crate::text::{Style, and};

/// Most columns that are drawn; the rest are named.
const MOST_DRAWN: usize = 120;

/// Adds the sections.
pub(super) fn section(document: &mut Document, judged: &Judged<'_>, style: Style) {
    let case = &judged.case;
    document.text(
        Tone::Plain,
        "Parts are drawn at their nominal size, one scale both ways; the plate and what lies under it go on to both sides.",
    );
    for base in &case.job.bases {
        document.figure(of_base(case, base, style));
    }
    let rows = hardware(case);
    let held: Vec<&ColumnCase> = case.columns.iter().filter(|column| !column.may_set()).collect();
    for column in held.iter().take(MOST_DRAWN) {
        if let Some(row) = rows.get(column.index) {
            document.figure(of_column(judged, column, row, style));
        }
    }
    let rest: Vec<usize> = held.iter().skip(MOST_DRAWN).map(|column| column.index).collect();
    if !rest.is_empty() {
        let marks = and(&case.marks(&rest));
        document.text(Tone::Stop, format!("Not set either, and not drawn, for there are many: {marks}."));
    }
}

fn of_base(case: &Case<'_>, base: &Base, style: Style) -> Figure {
    let (action, raise) = match base.has_bed() {
        true => (Action::Grout, base.bed),
        false => (Action::NoShim, Length::ZERO),
    };
    let thread = base.rods.thread.map_or(ThreadShown::Unknown, ThreadShown::Drawing);
    let rod = SectionRod { diameter: base.rods.diameter, top: base.rods.projection, thread };
    let drawn = cut(base, (action, Some(raise), &[]), 0, rod);
    let needed = needed_projection(base, Raise::exact(raise), 0, case.job.rods_plus_minus);
    let mut notes = vec![
        format!("{}. As the drawing has it: nothing here is measured.", parts(base)),
        beyond_words(&drawn, style),
        format!(
            "With every part at its most and +-{} of a reading a rod must stand {} or more above the pad.",
            style.write(case.job.rods_plus_minus, Rounding::Up),
            style.write(needed, Rounding::Up)
        ),
    ];
    notes.extend(unknown(base, &drawn));
    notes.extend(set(base, &drawn, style));
    let title = format!("Base {}, as the drawing has it", base.mark);
    figure(title, &drawn, base, notes, style)
}

/// Draws a section, with its notes beside it.
fn figure(title: String, drawn: &Section, base: &Base, notes: Vec<String>, style: Style) -> Figure {
    Figure {
        title,
        alt: alt(drawn, style),
        picture: section_view(drawn, base.plate.holes, style),
        notes,
        beside: true,
        only_drawn: false,
    }
}

/// Gives the worst measured rod of a column: the one that governs.
fn worst<'c>(column: &'c ColumnCase, row: &HardwareRow) -> Option<&'c RodCase> {
    let governs = row.governs?;
    column.rods.iter().find(|rod| rod.label == governs.label)
}

fn of_column(judged: &Judged<'_>, column: &ColumnCase, row: &HardwareRow, style: Style) -> Figure {
    let case = &judged.case;
    let (base, choice) = (case.base(column.index), case.choice(column.index));
    let mark = &case.column(column.index).mark;
    let rod = worst(column, row);
    let thread = match (rod.and_then(|rod| rod.thread), base.rods.thread) {
        (Some(thread), _) => ThreadShown::Measured(thread),
        (None, Some(thread)) => ThreadShown::Drawing(thread),
        (None, None) => ThreadShown::Unknown,
    };
    let top = rod.and_then(|rod| rod.projection);
    let shown = SectionRod { diameter: base.rods.diameter, top, thread };
    let extra = rod.map_or(0, |rod| rod.result.extra_washers);
    let raise = column.raise.map(|raise| raise.nominal);
    let drawn = cut(base, (choice.action, raise, &choice.stack), extra, shown);
    let title = match rod {
        Some(rod) => format!("Column {mark} on base {}: rod {}, the worst measured", base.mark, rod.label),
        None => format!("Column {mark} on base {}: no rod is measured", base.mark),
    };
    let mut notes = vec![
        format!("DO NOT SET: {}.", why_not(judged, column, style)),
        match raise {
            Some(_) => {
                let words = under(style, choice.action, choice.raise, &choice.stack, base.bed);
                format!("Under the plate, planned: {words}.")
            }
            None => "No raise is planned: the plate is drawn on its pad.".to_owned(),
        },
        beyond_words(&drawn, style),
    ];
    if let Some(rod) = rod {
        notes.push(at_worst(rod, style));
    }
    let open: Vec<String> = row.unmeasured.iter().map(ToString::to_string).collect();
    if !open.is_empty() {
        notes.push(format!("Not measured, and may be worse: rod {}.", and(&open)));
    }
    notes.extend(set(base, &drawn, style));
    if extra > 0 {
        notes.push(format!("{extra} of the washers are added under the nut."));
    }
    notes.extend(unknown(base, &drawn));
    figure(title, &drawn, base, notes, style)
}

/// Says what the plate is set on, and how far that is drawn; nothing where the job does not say.
fn set(base: &Base, drawn: &Section, style: Style) -> Option<String> {
    let words = set_on(base, style)?;
    let drawn = match (&base.setting, drawn.in_bed.first().map(|piece| piece.kind)) {
        (_, Some(PieceKind::Pack)) => " Drawn at the edges: where packs stand is for the drawings.",
        (_, Some(PieceKind::SettingPlate)) => " Its holes are not given and drawn as those of the plate.",
        (Some(Setting::Plate(plate)), None) if plate.thickness.is_none() => {
            " Not drawn, since its thickness is not known."
        }
        _ => "",
    };
    Some(format!("Set on {words}.{drawn}"))
}

/// Says what stands beyond the nut, with its arithmetic.
fn beyond_words(drawn: &Section, style: Style) -> String {
    let Some((beyond, top)) = drawn.beyond().zip(drawn.rod.top) else {
        return "beyond: not known, since how far the rod stands is not known.".to_owned();
    };
    let over = drawn.raise.unwrap_or(Length::ZERO);
    let rounded = Some(style.write(beyond, Rounding::Down)).filter(|it| *it != style.exact(beyond));
    let parts = drawn.pieces.iter().filter(|piece| piece.from >= over && !is_under(piece.kind));
    let each: Vec<String> = parts.map(|piece| style.exact(piece.height())).collect();
    format!(
        "beyond, nominal = stands - raise - plate, washers, nuts = {} - {} - {} = {}{}",
        style.exact(top),
        if over.is_negative() { format!("({})", style.exact(over)) } else { style.exact(over) },
        each.join(" - "),
        style.exact(beyond),
        rounded.map_or(String::new(), |rounded| format!(" ({rounded})"))
    )
}

const fn is_under(kind: PieceKind) -> bool {
    use PieceKind::{Ground, Grout, Shim};
    matches!(kind, Shim | Grout | Ground)
}

fn at_worst(rod: &RodCase, style: Style) -> String {
    let write = |length: Option<Length>| length.map_or("?".to_owned(), |it| style.write(it, Rounding::Down));
    format!(
        "At the worst of all parts {} beyond, before the rod's own +-{} comes off; thread left under the nut {}.",
        write(rod.result.beyond_worst),
        style.write(rod.plus_minus, Rounding::Up),
        write(rod.result.thread_left)
    )
}

fn parts(base: &Base) -> String {
    let washers: Vec<&str> = base.washers.iter().map(|it| it.series.as_str()).collect();
    let nuts: Vec<String> = base.nuts.iter().map(crate::model::NutPart::called).collect();
    let washers = if washers.is_empty() { "none".to_owned() } else { washers.join(" + ") };
    format!("Rods {}; washers {washers}; nuts {}", base.rods.called(), nuts.join(" + "))
}

/// Says which measures of a drawing are not known, and so drawn broken.
fn unknown(base: &Base, drawn: &Section) -> Option<String> {
    let mut missing: Vec<&str> = Vec::new();
    if drawn.pieces.iter().any(|piece| matches!(piece.kind, PieceKind::Nut) && piece.width.is_none()) {
        missing.push("the width of the nut");
    }
    if base.washers.iter().any(|washer| washer.outer.is_none()) {
        missing.push("the width of the washer");
    }
    if base.plate.holes.is_none() {
        missing.push("the hole in the plate");
    }
    if drawn.rod.top.is_none() {
        missing.push("the top of the rod");
    }
    match drawn.rod.thread {
        ThreadShown::Measured(_) => {}
        ThreadShown::Drawing(_) => missing.push("the thread, which is the drawing's and was not measured"),
        ThreadShown::Unknown => missing.push("the thread"),
    }
    (!missing.is_empty()).then(|| format!("Not known, and drawn broken or left out: {}.", and(&missing)))
}

fn alt(drawn: &Section, style: Style) -> String {
    let name = |kind: PieceKind| match kind {
        PieceKind::Shim => "shim",
        PieceKind::Grout => "grout",
        PieceKind::Ground => "ground off",
        PieceKind::Plate => "plate",
        PieceKind::Washer => "washer",
        PieceKind::ExtraWasher => "washer added",
        PieceKind::Nut => "nut",
        PieceKind::LevellingWasher => "levelling washer",
        PieceKind::LevellingNut => "levelling nut",
        PieceKind::Pack => "packs",
        PieceKind::SettingPlate => "setting plate",
    };
    let told = |piece: &Piece| format!("{} {}", name(piece.kind), style.exact(piece.height()));
    let each: Vec<String> = drawn.pieces.iter().map(told).collect();
    let in_bed: Vec<String> = drawn.in_bed.iter().map(told).collect();
    let in_bed = match in_bed.is_empty() {
        true => String::new(),
        false => format!(" In the bed, from the plate down: {}.", in_bed.join(", ")),
    };
    let exact = |length: Length| style.exact(length);
    let stands = drawn.rod.top.map_or("not known".to_owned(), exact);
    let ends = match drawn.beyond() {
        None => "whether it reaches through the nut is not known".to_owned(),
        Some(beyond) if beyond.is_negative() => {
            format!("it ends {} below the top of the nut", exact(-beyond))
        }
        Some(beyond) => format!("it ends {} above the top of the nut", exact(beyond)),
    };
    let thread = match drawn.rod.thread {
        ThreadShown::Measured(thread) => format!("thread measured {}", exact(thread)),
        ThreadShown::Drawing(thread) => format!("thread on the drawing {}, not measured", exact(thread)),
        ThreadShown::Unknown => "thread not known".to_owned(),
    };
    format!("From the pad up: {}.{in_bed} The rod stands {stands}; {ends}; {thread}.", each.join(", "))
}
