//! The hardware table: one row a column.

use super::caution::caution;
use super::check_sheet::action;
use super::document::{Align, Answer, Document, Sheet, Tone, nm_cell};
use super::hardware_setting::{LevellingHardwareJson, cells, heads, pack_cell};
use super::setting::set_on;
use super::setting_json::PacksJson;
use super::under::{pieces, under};
use crate::check::{Judged, style};
use crate::length::{Length, Rounding};
use crate::model::{NutPart, State};
use crate::order::{HardwareRow, hardware};
use crate::plan::Action;
use crate::text::{Style, count};
use serde::Serialize;
use serde_json::Value;

#[derive(Serialize)]
struct HardwareJson {
    format: u32,
    job: String,
    columns: Vec<RowJson>,
}

#[derive(Serialize)]
struct RowJson {
    mark: String,
    base: String,
    rods: u32,
    rod_size: String,
    nuts: Vec<String>,
    washers: Vec<String>,
    extra_washers: u32,
    extra_series: Option<String>,
    plate_nm: i64,
    action: Action,
    raise_nm: Option<i64>,
    stack: Vec<super::check_json::PieceJson>,
    governing_rod: Option<String>,
    spare_nm: Option<i64>,
    may_set: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    seat_on: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    levelling: Option<LevellingHardwareJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    packs: Option<PacksJson>,
}

/// Makes the answer of `hardware`.
#[must_use]
pub fn hardware_answer(judged: &Judged<'_>) -> Answer {
    let rows = hardware(&judged.case);
    let style = style(judged.case.job);
    Answer {
        document: document(judged, &rows, style),
        sheet: sheet(&rows, style),
        value: value(judged, &rows),
        clear: judged.is_clear(),
    }
}

fn document(judged: &Judged<'_>, rows: &[HardwareRow], style: Style) -> Document {
    let mut document = Document::default();
    let job = judged.case.job;
    document.heading(Tone::Plain, format!("{}: hardware at each column", job.name));
    for base in &job.bases {
        let series =
            |names: Vec<String>| if names.is_empty() { "none".to_owned() } else { names.join(" + ") };
        document.item(
            Tone::Plain,
            base.mark.clone(),
            format!(
                "plate {}; {} {}; on each rod from the plate up: washer {}, nut {}",
                style.exact(base.plate.thickness.nominal),
                count(usize::try_from(base.rods.count).unwrap_or(0), "rod"),
                base.rods.called(),
                series(base.washers.iter().map(|washer| washer.series.clone()).collect()),
                series(base.nuts.iter().map(NutPart::called).collect()),
            ),
        );
        if let Some(words) = set_on(base, style) {
            document.item(Tone::Plain, " ", format!("set on {words}"));
        }
    }
    let packs = rows.iter().any(|row| row.packs.is_some());
    let cells = rows.iter().map(|row| {
        let mut cells = vec![
            row.mark.clone(),
            row.base.clone(),
            under(style, row.action, row.raise, &row.stack, row.bed),
            row.extra.as_ref().map_or("-".to_owned(), |(series, number)| format!("{number} {series}")),
            spare(row, style),
            if row.may_set { "yes" } else { "NO" }.to_owned(),
        ];
        if packs {
            cells.insert(3, pack_cell(row, style));
        }
        cells
    });
    let cells: Vec<Vec<String>> = cells.collect();
    let mut columns = vec![
        ("column", Align::Left),
        ("base", Align::Left),
        ("under the plate", Align::Wrap),
        ("more washers", Align::Wrap),
        ("rod, to spare", Align::Left),
        ("set", Align::Left),
    ];
    if packs {
        columns.insert(3, ("packs", Align::Wrap));
    }
    document.grid(&columns, cells);
    document.text(
        Tone::Quiet,
        "more washers: in all at the column, under its nuts. Stop at NO: see rodreach check.",
    );
    if packs {
        document.text(
            Tone::Quiet,
            "packs: how many and what each is made of, ? where that is not known or nothing makes it. Wedges are not counted.",
        );
    }
    caution(&mut document, rows.iter().any(|row| row.action == Action::Grind));
    document
}

/// Says which rod governs; one that was not measured may be worse than all others, and is named.
pub(super) fn spare(row: &HardwareRow, style: Style) -> String {
    let governs = row.governs.map(|rod| match rod.state {
        State::RunsOut => format!("{}, runs out", rod.label),
        _ => format!("{}, {}", rod.label, style.signed(rod.spare, Rounding::Down)),
    });
    let open = match row.unmeasured.as_slice() {
        [] => None,
        [one] => Some(format!("{one} ?")),
        many => Some(format!("{} not known", many.len())),
    };
    [governs, open].into_iter().flatten().collect::<Vec<_>>().join("; ")
}

fn sheet(all: &[HardwareRow], style: Style) -> Sheet {
    let said = all.iter().any(|row| row.seat_on.is_some());
    let rows = all.iter().map(|row| {
        let mut line = vec![
            row.mark.clone(),
            row.base.clone(),
            row.rods.0.to_string(),
            row.rods.1.clone(),
            row.nuts.join(" + "),
            row.washers.join(" + "),
            row.extra.as_ref().map_or("0".to_owned(), |(_, number)| number.to_string()),
            row.extra.as_ref().map(|(series, _)| series.clone()).unwrap_or_default(),
            style.exact(row.plate),
            action(row.action).to_owned(),
            pieces(style, &row.stack),
            nm_cell(row.raise),
            row.governs.map(|rod| rod.label.to_string()).unwrap_or_default(),
            nm_cell(row.governs.map(|rod| rod.spare)),
            if row.may_set { "yes" } else { "no" }.to_owned(),
        ];
        line.extend(cells(row, style).into_iter().filter(|_| said));
        line
    });
    let mut names = vec![
        "mark",
        "base",
        "rods",
        "rod_size",
        "nuts",
        "washers",
        "extra_washers",
        "extra_series",
        "plate",
        "action",
        "stack",
        "raise_nm",
        "governing_rod",
        "spare_nm",
        "may_set",
    ];
    names.extend(heads().into_iter().filter(|_| said));
    Sheet { heads: names, rows: rows.collect() }
}

fn value(judged: &Judged<'_>, rows: &[HardwareRow]) -> Value {
    let columns = rows.iter().map(|row| RowJson {
        mark: row.mark.clone(),
        base: row.base.clone(),
        rods: row.rods.0,
        rod_size: row.rods.1.clone(),
        nuts: row.nuts.clone(),
        washers: row.washers.clone(),
        extra_washers: row.extra.as_ref().map_or(0, |(_, number)| *number),
        extra_series: row.extra.as_ref().map(|(series, _)| series.clone()),
        plate_nm: row.plate.nm(),
        action: row.action,
        raise_nm: row.raise.map(Length::nm),
        stack: super::check_json::stack(&row.stack),
        governing_rod: row.governs.map(|rod| rod.label.to_string()),
        spare_nm: row.governs.map(|rod| rod.spare.nm()),
        may_set: row.may_set,
        seat_on: row.seat_on,
        levelling: row.levelling.as_ref().map(|it| LevellingHardwareJson::of(it, row.rods.0)),
        packs: row.packs.as_ref().map(PacksJson::of),
    });
    let json = HardwareJson { format: 1, job: judged.case.job.name.clone(), columns: columns.collect() };
    serde_json::to_value(json).unwrap_or(Value::Null)
}
