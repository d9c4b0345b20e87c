//! The plan view: every column with what goes under it, every difference that is over or near its limit.

use super::super::document::{Align, Document, Figure, Tone};
use super::super::under::pieces;
use super::levels::{apart, compared_words, neighbours, verdict_words};
use crate::check::{Case, ColumnCase, Difference, DifferenceKind, Verdict};
use crate::draw::{Apart, Join, Look, PlanColumn, PlanData, PlanLine, PlanSheet, plan_views};
use crate::length::Rounding;
use crate::plan::{Action, Choice};
use crate::text::{Style, and, count};
use std::collections::BTreeMap;

/// Most columns that are told one by one for who cannot see the plan.
const TOLD: usize = 40;

/// Adds the plan.
pub(super) fn section(document: &mut Document, case: &Case<'_>, style: Style) {
    let data = data(case, style);
    let sheets = plan_views(&data, style);
    let many = sheets.len();
    let drawn: Vec<usize> = sheets.iter().flat_map(|sheet| sheet.columns.iter().copied()).collect();
    for (number, sheet) in (1..).zip(sheets) {
        document.figure(figure(case, &data, sheet, (number, many)));
    }
    let missing: Vec<usize> = (0..case.columns.len()).filter(|it| !drawn.contains(it)).collect();
    if !missing.is_empty() {
        let marks = and(&case.marks(&missing));
        document.text(Tone::Plain, format!("Not drawn, since where they stand is not given: {marks}."));
    }
    others(document, case, style);
}

/// Tells the differences that are no line of the plan and are over or near their limits.
fn others(document: &mut Document, case: &Case<'_>, style: Style) {
    let off_lines = || case.differences.iter().filter(|it| it.kind != DifferenceKind::Neighbours);
    let near = |it: &&Difference| matches!(how_apart(it), Apart::Over | Apart::Close);
    let rows: Vec<Vec<String>> = off_lines()
        .filter(near)
        .map(|it| vec![compared_words(case, it), apart(it, style), verdict_words(it.verdict).to_owned()])
        .collect();
    let unknown = off_lines().filter(|it| how_apart(it) == Apart::Unknown).count();
    if rows.is_empty() && unknown == 0 {
        return;
    }
    document.heading(Tone::Plain, "NOT ON THE LINES OF THE PLAN");
    if !rows.is_empty() {
        let heads = [
            ("compared", Align::Wrap),
            ("apart, of accepted", Align::Left),
            ("by value and +-", Align::Wrap),
        ];
        document.grid(&heads, rows);
    }
    if unknown > 0 {
        let these = count(unknown, "difference");
        document.text(
            Tone::Plain,
            format!("{these} not wholly known, since a pad is not measured or is referred: see Levels."),
        );
    }
}

/// Says in a few words what goes under a column.
pub(super) fn short_under(choice: &Choice, held: bool, style: Style) -> String {
    let words = match (choice.action, choice.raise) {
        (Action::NoShim, _) => "nothing".to_owned(),
        (Action::Shim, _) => pieces(style, &choice.stack),
        (Action::Grout, Some(raise)) => format!("grout {}", style.write(raise, Rounding::Nearest)),
        (Action::Grind, Some(raise)) => format!("grind {}", style.write(-raise, Rounding::Nearest)),
        (Action::Unmeasured, _) => return "read the pad".to_owned(),
        (Action::Refer | Action::Grout | Action::Grind, _) => return "ask engineer".to_owned(),
    };
    if held { format!("hold: {words}") } else { words }
}

const fn look(action: Action) -> Look {
    match action {
        Action::NoShim => Look::Nothing,
        Action::Shim => Look::Shim,
        Action::Grout => Look::Grout,
        Action::Grind => Look::Grind,
        Action::Refer => Look::Refer,
        Action::Unmeasured => Look::Unmeasured,
    }
}

/// Tells how a difference stands to its limit on a drawing: over it by value is over, whatever its +-.
pub(super) fn how_apart(it: &Difference) -> Apart {
    match (it.verdict, it.value) {
        (Verdict::Out, _) => Apart::Over,
        (_, Some(value)) if value.abs() > it.limit => Apart::Over,
        (Verdict::Within, _) => Apart::Within,
        (Verdict::Unsure, _) => Apart::Close,
        (Verdict::Unknown, _) => Apart::Unknown,
    }
}

fn data(case: &Case<'_>, style: Style) -> PlanData {
    let column = |it: &ColumnCase| {
        let (of_job, choice) = (case.column(it.index), case.choice(it.index));
        PlanColumn {
            mark: of_job.mark.clone(),
            at: of_job.at,
            under: short_under(choice, !it.may_set(), style),
            look: look(choice.action),
            held: !it.may_set(),
        }
    };
    let compared = neighbours(case);
    let mut joins: BTreeMap<(usize, usize), Join> = BTreeMap::new();
    for line in &case.job.lines {
        for pair in line.columns.windows(2) {
            let found = compared.get(&(line.name.as_str(), pair[0], pair[1])).copied();
            let how = found.map_or(Apart::NotCompared, how_apart);
            let words =
                found.filter(|_| matches!(how, Apart::Over | Apart::Close)).map(|it| apart(it, style));
            let join = Join { from: pair[0], to: pair[1], apart: how, words };
            let key = (pair[0].min(pair[1]), pair[0].max(pair[1]));
            // two columns that stand next to each other on two lines are drawn once, over its limit first
            let known = joins.entry(key).or_insert_with(|| join.clone());
            if how == Apart::Over || known.apart == Apart::NotCompared {
                *known = join;
            }
        }
    }
    let line = |it: &crate::model::Line| PlanLine {
        name: it.name.clone(),
        columns: it.columns.clone(),
        spacing: it.spacing.clone(),
    };
    PlanData {
        columns: case.columns.iter().map(column).collect(),
        joins: joins.into_values().collect(),
        lines: case.job.lines.iter().map(line).collect(),
        walk: Vec::new(),
    }
}

fn figure(case: &Case<'_>, data: &PlanData, sheet: PlanSheet, (number, many): (usize, usize)) -> Figure {
    let part = if many > 1 { format!(", part {number} of {many}") } else { String::new() };
    let title = format!("Plan view{part}: what goes under each column");
    let mut notes = Vec::new();
    if let (true, Some(first), Some(last)) = (many > 1, sheet.columns.first(), sheet.columns.last()) {
        let mut ends = case.marks(&[*first, *last]);
        ends.dedup();
        let columns = count(sheet.columns.len(), "column");
        notes.push(format!("On this part {columns}: {} in job order.", ends.join(" to ")));
    }
    notes.push(match (sheet.to_scale, sheet.along_to_scale) {
        (true, _) => "To scale; x to the right, y up, as the job has positions.".to_owned(),
        (false, true) => "Positions are not given: lines stand one under the other, distances along a line to scale; \
                          how lines stand to each other is not shown, and a column stands on each of its lines."
            .to_owned(),
        (false, false) => "Neither positions nor all distances are given: lines stand one under the other, not to \
                           scale; a column stands on each of its lines."
            .to_owned(),
    });
    if data.joins.iter().any(|join| join.words.is_some()) {
        notes.push("On a line: apart after the plan, of what is accepted.".to_owned());
    }
    if !sheet.key.is_empty() {
        let each: Vec<String> =
            sheet.key.iter().map(|(number, words)| format!("({number}) {words}")).collect();
        notes
            .push(format!("Words do not fit, so what goes under a column is numbered: {}.", each.join("; ")));
    }
    if !sheet.crowded.is_empty() {
        let marks = and(&case.marks(&sheet.crowded));
        notes
            .push(format!("So near each other that their symbols lie on each other at this scale: {marks}."));
    }
    if !sheet.unlabelled.is_empty() {
        let marks = and(&case.marks(&sheet.unlabelled));
        notes
            .push(format!("Left without a label, for want of room: {marks}. They stand in the table below."));
    }
    let joined = |joins: &[usize]| -> String {
        let each = joins.iter().map(|&join| {
            let Join { from, to, words, .. } = &data.joins[join];
            let words = words.as_ref().map(|words| format!(" {words}")).unwrap_or_default();
            format!("{} - {}{words}", data.columns[*from].mark, data.columns[*to].mark)
        });
        each.collect::<Vec<_>>().join("; ")
    };
    if !sheet.unwritten.is_empty() {
        notes.push(format!("Not written on its line, for want of room: {}.", joined(&sheet.unwritten)));
    }
    if !sheet.unnamed.is_empty() {
        let names: Vec<&str> = sheet.unnamed.iter().map(|&line| data.lines[line].name.as_str()).collect();
        notes.push(format!("Lines not named on the drawing, for want of room: {}.", and(&names)));
    }
    let told = |join: &usize| matches!(data.joins[*join].apart, Apart::Over | Apart::Close);
    let cut: Vec<usize> = sheet.cut.iter().copied().filter(told).collect();
    if !cut.is_empty() {
        notes.push(format!("To columns on other parts: {}.", joined(&cut)));
    }
    Figure { alt: alt(data, &sheet), title, picture: sheet.picture, notes, beside: false, only_drawn: false }
}

fn alt(data: &PlanData, sheet: &PlanSheet) -> String {
    let all = sheet.columns.iter().map(|&it| &data.columns[it]);
    let head = format!("Plan of {}. ", count(sheet.columns.len(), "column"));
    let each: Vec<String> = all
        .take(TOLD)
        .map(|column| {
            let held = if column.held { ", do not set" } else { "" };
            format!("{}: {}{held}", column.mark, column.under)
        })
        .collect();
    let rest = sheet.columns.len().saturating_sub(TOLD);
    let rest = if rest > 0 { format!("; {rest} more in the table below") } else { String::new() };
    format!("{head}{}{rest}.", each.join("; "))
}
