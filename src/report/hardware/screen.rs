//! The hardware table: one row a column.

use super::setting::{LevellingHardwareJson, cells, heads, pack_cell};
use super::totals::{TotalsJson, totals_items};
use crate::check::{Hold, Judged, style};
use crate::length::{Length, Rounding, Volume};
use crate::model::{NutPart, State};
use crate::order::{HardwareRow, hardware, totals};
use crate::plan::Action;
use crate::report::caution::caution_to_set;
use crate::report::check::sheet::action;
use crate::report::document::{Align, Answer, Document, Sheet, Tone, nm_cell};
use crate::report::figures::{cell, kg, litres};
use crate::report::setting::json::PacksJson;
use crate::report::setting::set_on;
use crate::report::under::{designed_beds, pieces, under_in_row};
use crate::text::{Style, count};
use serde::Serialize;
use serde_json::{Number, Value};

#[derive(Serialize)]
struct HardwareJson {
    format: u32,
    job: String,
    columns: Vec<RowJson>,
    totals: TotalsJson,
}

#[derive(Serialize)]
struct RowJson {
    mark: String,
    base: String,
    rods: u32,
    rod_size: String,
    nuts: Vec<String>,
    washers: Vec<String>,
    /// Null where nothing is planned yet.
    extra_washers: Option<u32>,
    extra_series: Option<String>,
    plate_nm: i64,
    plate_size_nm: Option<[i64; 2]>,
    action: Action,
    raise_nm: Option<i64>,
    stack: Vec<crate::report::check::json::PieceJson>,
    shim_mass_kg: Option<Number>,
    grout_l: Option<Number>,
    governing_rod: Option<String>,
    spare_nm: Option<i64>,
    state: Option<State>,
    verdict: &'static str,
    hold: Vec<Hold>,
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
                plate_words(style, base.plate.size, base.plate.thickness.nominal),
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
    grid(&mut document, rows, style, job.bases.len() > 1);
    document.text(
        Tone::Quiet,
        "more washers: in all at the column, under its nuts. Stop at NO: see rodreach check.",
    );
    if rows.iter().any(|row| row.packs.is_some()) {
        document.text(
            Tone::Quiet,
            "packs: how many and what each is made of, ? where that is not known or nothing makes it. Wedges are not counted.",
        );
    }
    if let Some(beds) = designed_beds(job, style) {
        document.text(Tone::Quiet, beds);
    }
    totals_items(&mut document, &totals(rows), rows.len(), style);
    caution_to_set(&mut document, rows.iter().any(|row| row.action == Action::Grind));
    document
}

/// Adds the table: masses where there are shims, volumes where there is grout, bases where there are several.
fn grid(document: &mut Document, rows: &[HardwareRow], style: Style, bases: bool) {
    let shims = rows.iter().any(|row| !row.stack.is_empty());
    let grout = rows.iter().any(|row| row.grout.is_some());
    let packs = rows.iter().any(|row| row.packs.is_some());
    let mut heads = vec![("column", Align::Left)];
    heads.extend(bases.then_some(("base", Align::Left)));
    heads.push(("under the plate", Align::Wrap));
    heads.extend(packs.then_some(("packs", Align::Wrap)));
    heads.extend(shims.then_some(("shims", Align::Right)));
    heads.extend(grout.then_some(("grout", Align::Right)));
    heads.push(("more washers", Align::Wrap));
    heads.extend([("rod, to spare", Align::Left), ("set", Align::Left)]);
    let cells = rows.iter().map(|row| {
        let mut cells = vec![row.mark.clone()];
        cells.extend(bases.then(|| row.base.clone()));
        cells.push(under_in_row(style, row));
        cells.extend(packs.then(|| pack_cell(row, style)));
        let mass = match (row.stack.as_slice(), row.shim_mass) {
            ([], _) => "-".to_owned(),
            (_, mass) => mass.map_or("?".to_owned(), |mass| style.mass(mass.milligrams())),
        };
        cells.extend(shims.then_some(mass));
        let volume = row.grout.as_ref().map_or("-".to_owned(), |bed| {
            bed.volume.map_or("?".to_owned(), |volume| style.volume(volume, Rounding::Up))
        });
        cells.extend(grout.then_some(volume));
        cells.push(
            row.extra.as_ref().map_or("-".to_owned(), |(part, number)| format!("{number} {}", part.name)),
        );
        cells.push(spare(row, style));
        cells.push(if row.may_set { "yes" } else { "NO" }.to_owned());
        cells
    });
    document.grid(&heads, cells.collect());
}

/// Writes the sides of a plate, where known, and its thickness.
pub(super) fn plate_words(style: Style, size: Option<[Length; 2]>, thickness: Length) -> String {
    match size {
        Some([a, b]) => format!("{} x {} x {}", style.exact(a), style.exact(b), style.exact(thickness)),
        None => style.exact(thickness),
    }
}

/// Says which rod governs; one that was not measured may be worse than all others, and is named.
pub(in crate::report) fn spare(row: &HardwareRow, style: Style) -> String {
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
            extra_washers(row).map(|number| number.to_string()).unwrap_or_default(),
            row.extra.as_ref().map(|(part, _)| part.name.clone()).unwrap_or_default(),
            style.exact(row.plate),
            action(row.action).to_owned(),
            pieces(style, &row.stack),
            nm_cell(row.raise),
            row.governs.map(|rod| rod.label.to_string()).unwrap_or_default(),
            nm_cell(row.governs.map(|rod| rod.spare)),
            if row.may_set { "yes" } else { "no" }.to_owned(),
            cell(row.shim_mass.map(kg)),
            cell(grout_under(row).map(litres)),
            verdict(row).to_owned(),
            row.hold.iter().map(|hold| hold.name()).collect::<Vec<_>>().join(" "),
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
        "shim_mass_kg",
        "grout_l",
        "verdict",
        "hold",
    ];
    names.extend(heads().into_iter().filter(|_| said));
    Sheet { heads: names, rows: rows.collect() }
}

/// Counts the washers added at a column; none where nothing is planned yet.
fn extra_washers(row: &HardwareRow) -> Option<u32> {
    row.is_planned().then(|| row.extra.as_ref().map_or(0, |(_, number)| *number))
}

/// Gives the grout under a column, none of it too; nothing where it is not known or nothing is planned yet.
pub(in crate::report) fn grout_under(row: &HardwareRow) -> Option<Volume> {
    let volume = match &row.grout {
        Some(bed) => bed.volume?,
        None => Volume::ZERO,
    };
    row.is_planned().then_some(volume)
}

/// Says in a word what becomes of a column.
pub(in crate::report) const fn verdict(row: &HardwareRow) -> &'static str {
    match row.action {
        Action::Refer => "refer",
        Action::Unmeasured => "unmeasured",
        _ if row.may_set => "set",
        _ => "hold",
    }
}

fn value(judged: &Judged<'_>, rows: &[HardwareRow]) -> Value {
    let columns = rows.iter().map(|row| RowJson {
        mark: row.mark.clone(),
        base: row.base.clone(),
        rods: row.rods.0,
        rod_size: row.rods.1.clone(),
        nuts: row.nuts.clone(),
        washers: row.washers.clone(),
        extra_washers: extra_washers(row),
        extra_series: row.extra.as_ref().map(|(part, _)| part.name.clone()),
        plate_nm: row.plate.nm(),
        plate_size_nm: row.plate_size.map(|sides| sides.map(Length::nm)),
        action: row.action,
        raise_nm: row.raise.map(Length::nm),
        stack: crate::report::check::json::stack(&row.stack),
        shim_mass_kg: row.shim_mass.map(kg),
        grout_l: grout_under(row).map(litres),
        governing_rod: row.governs.map(|rod| rod.label.to_string()),
        spare_nm: row.governs.map(|rod| rod.spare.nm()),
        state: row.governs.map(|rod| rod.state),
        verdict: verdict(row),
        hold: row.hold.clone(),
        may_set: row.may_set,
        seat_on: row.seat_on,
        levelling: row.levelling.as_ref().map(|it| LevellingHardwareJson::of(it, row.rods.0)),
        packs: row.packs.as_ref().map(PacksJson::of),
    });
    let json = HardwareJson {
        format: 1,
        job: judged.case.job.name.clone(),
        columns: columns.collect(),
        totals: TotalsJson::of(&totals(rows)),
    };
    serde_json::to_value(json).unwrap_or(Value::Null)
}
