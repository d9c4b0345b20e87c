//! The screen of `check`: holds first and why, then what goes under which column.

use super::compare::{Compared, compared, comparison, ground_one};
use super::held::{reasons, rods};
use super::json::{self, findings};
use super::on_hand::on_hand;
use super::sheet::sheet;
use crate::check::{Case, ColumnCase, DifferenceKind, Judged, Level, Verdict, style};
use crate::length::{Length, Rounding};
use crate::levels::Datum;
use crate::model::{Interval, Job, RodLabel, State};
use crate::order::hardware;
use crate::plan::{Action, Beside};
use crate::report::caution::{ROD_NUMBERS, about_grinding, caution_to_set};
use crate::report::document::{Align, Answer, Document, Tone};
use crate::report::grouped::grouped;
use crate::report::hardware::screen::spare;
use crate::report::planned::aim::aim;
use crate::report::since::Against;
use crate::report::under::{designed_beds, under_in_row};
use crate::text::{Relation, Style, and, count};
use std::collections::BTreeMap;

/// Makes the answer of `check`, with the plans to compare with, and held against an earlier answer if there is one.
#[must_use]
pub fn check_answer(judged: &Judged<'_>, beside: &[Beside], against: Option<&Against<'_>>) -> Answer {
    let compared = compared(&judged.case, beside);
    let mut answer = Answer {
        document: document(judged, &compared, against),
        sheet: sheet(&judged.case),
        value: json::value(judged, compared),
        clear: judged.is_clear(),
    };
    if let Some(against) = against {
        against.add_values(judged, &mut answer);
    }
    answer
}

fn document(judged: &Judged<'_>, compared: &[Compared], against: Option<&Against<'_>>) -> Document {
    let case = &judged.case;
    let style = style(case.job);
    let mut document = Document::default();
    head(&mut document, case, style);
    notes_disagree(&mut document, judged);
    holds(&mut document, case, style);
    if let Some(against) = against {
        against.tell(&mut document, judged, style);
    }
    under_each(&mut document, case, style);
    on_hand(&mut document, case);
    to_measure(&mut document, case, style);
    after_the_plan(&mut document, case, style);
    comparison(&mut document, case, compared);
    told(&mut document, judged);
    let grinds = case.plan.choices.iter().any(|choice| choice.action == Action::Grind);
    caution_to_set(&mut document, grinds || ground_one(compared).is_some() || about_grinding(judged, None));
    document
}

/// Tells job, limits, readings and the count of columns that may be set.
pub(in crate::report) fn head(document: &mut Document, case: &Case<'_>, style: Style) {
    let job = case.job;
    document.heading(Tone::Plain, job.name.clone());
    document.text(
        Tone::Quiet,
        format!("Limits: {} ({}). {}", job.limits.title, job.limits.name, aim(case.plan, style)),
    );
    document.text(Tone::Quiet, measured(job, style));
    let (tone, words) = may_be_set(case);
    document.heading(tone, words);
}

/// Says how many columns may be set, and of the others how many are held, for the engineer, not measured.
pub(in crate::report) fn may_be_set(case: &Case<'_>) -> (Tone, String) {
    let counted = |wanted: fn(&ColumnCase, Action) -> bool| {
        case.columns.iter().filter(|column| wanted(column, case.choice(column.index).action)).count()
    };
    let set = counted(|column, _| column.may_set());
    let held = counted(|column, _| column.raise.is_some() && !column.hold.is_empty());
    let refer = counted(|_, action| action == Action::Refer);
    let missing = counted(|_, action| action == Action::Unmeasured);
    let all = case.columns.len();
    let tone = if set == all { Tone::Good } else { Tone::Stop };
    let mut words = format!("{set} of {} may be set.", count(all, "column"));
    for (number, what) in
        [(held, "on hold"), (refer, "for the engineer"), (missing, "with the pad not measured")]
    {
        if number > 0 {
            words.push_str(&format!(" {number} {what}."));
        }
    }
    (tone, words)
}

/// Says how good the readings are and who took them.
pub(in crate::report) fn measured(job: &Job, style: Style) -> String {
    let who: Vec<String> = job.measured.iter().map(|(what, value)| format!("{what} {value}")).collect();
    let who = if who.is_empty() { String::new() } else { format!("Measured: {}. ", who.join(", ")) };
    format!(
        "{who}A level reading is good to +-{}, a rod to +-{} (95 %).",
        style.write(job.readings.plus_minus, Rounding::Up),
        style.write(job.rods_plus_minus, Rounding::Up),
    )
}

/// Says at once when the heights under all the rest are not to be relied on.
pub(in crate::report) fn notes_disagree(document: &mut Document, judged: &Judged<'_>) {
    let told = findings(judged).find(|(rule, level, _)| *rule == NOTES_DISAGREE && *level != Level::Note);
    if let Some((_, _, finding)) = told {
        document.text(Tone::Stop, format!("{}. Until then no height below is sure.", finding.text));
    }
}

/// The rule whose finding goes before everything else.
const NOTES_DISAGREE: &str = "level-notes-disagree";

/// Tells which columns may not be set, and why.
pub(in crate::report) fn holds(document: &mut Document, case: &Case<'_>, style: Style) {
    let stopped: Vec<(String, String)> = reading_order(case)
        .into_iter()
        .map(|index| &case.columns[index])
        .filter(|column| !column.may_set())
        .map(|column| {
            let mut why = match case.choice(column.index).action {
                Action::Refer => vec![refer_words(case, column, style)],
                Action::Unmeasured => vec!["pad not measured".to_owned()],
                _ => Vec::new(),
            };
            why.extend(reasons(case, column, style));
            (case.column(column.index).mark.clone(), why.join("; "))
        })
        .collect();
    if stopped.is_empty() {
        return;
    }
    document.heading(Tone::Stop, "DO NOT SET");
    for (mark, why) in stopped {
        document.item(Tone::Plain, mark, why);
    }
}

/// Says where a referred column would have to come, as raises from its pad.
fn refer_words(case: &Case<'_>, column: &ColumnCase, style: Style) -> String {
    let Some(range) = case.raise_range(column) else {
        return "ask the engineer".to_owned();
    };
    match bounds(range, style) {
        (Some(low), Some(high)) => {
            format!("nothing allowed brings it to {low} .. {high} from its pad: ask the engineer")
        }
        (None, Some(high)) => {
            format!("nothing allowed brings it to {high} from its pad or lower: ask the engineer")
        }
        (Some(low), None) => {
            format!("nothing allowed brings it to {low} from its pad or higher: ask the engineer")
        }
        (None, None) => "ask the engineer".to_owned(),
    }
}

/// Tells what goes under every column.
pub(in crate::report) fn under_each(document: &mut Document, case: &Case<'_>, style: Style) {
    let hardware = hardware(case);
    let zero = case.zero;
    let rows = reading_order(case)
        .into_iter()
        .map(|index| {
            let column = &case.columns[index];
            let row = &hardware[index];
            vec![
                row.mark.clone(),
                column.pad.map_or("?".to_owned(), |pad| departure(style, case, zero, pad.departure)),
                under_in_row(style, row),
                spare(row, style),
                more_washers(&row.extra_rods),
                if column.may_set() { "yes" } else { "NO" }.to_owned(),
            ]
        })
        .collect();
    let is_read = |column: &ColumnCase| first_read(case, column.index).is_some();
    let order = if case.columns.iter().any(is_read) { "the pads were read" } else { "of the job" };
    document.heading(Tone::Plain, format!("UNDER EACH COLUMN, in the order {order}"));
    document.grid(
        &[
            ("column", Align::Left),
            ("pad", Align::Right),
            ("under the plate", Align::Wrap),
            ("rod, to spare", Align::Left),
            ("more washers", Align::Wrap),
            ("set", Align::Left),
        ],
        rows,
    );
    let from = match case.levels.datum() {
        Datum::Relative => "pad: from the highest pad, design differences taken off",
        Datum::Absolute(_) if !has_seat(case) => "pad: its elevation",
        Datum::Absolute(_) => "pad: from the column's design seat",
    };
    document.text(
        Tone::Quiet,
        format!(
            "{from}. rod, to spare: the rod with least thread beyond the nut, at the worst of all parts."
        ),
    );
    if let Some(beds) = designed_beds(case.job, style) {
        document.text(Tone::Quiet, beds);
    }
    document.text(Tone::Quiet, ROD_NUMBERS);
}

fn departure(style: Style, case: &Case<'_>, zero: Length, departure: Length) -> String {
    match case.levels.datum() {
        Datum::Absolute(_) if !has_seat(case) => style.elevation(departure),
        _ => style.signed(departure - zero, Rounding::Nearest),
    }
}

/// Tells whether any column has a design seat.
pub(super) fn has_seat(case: &Case<'_>) -> bool {
    case.job.columns.iter().any(|column| column.seat.or(case.job.seat).is_some())
}

/// Says how many washers more go on which rods: `1 on high`, `2 on 1, 2 and 4`.
fn more_washers(rods: &[(RodLabel, u32)]) -> String {
    let mut by_number: BTreeMap<u32, Vec<String>> = BTreeMap::new();
    for (rod, extra) in rods {
        by_number.entry(*extra).or_default().push(rod.to_string());
    }
    let each = by_number.iter().map(|(extra, rods)| format!("{extra} on {}", and(rods)));
    each.collect::<Vec<_>>().join(", ")
}

/// Lists what is still to be measured, and what is known to judge it by.
pub(in crate::report) fn to_measure(document: &mut Document, case: &Case<'_>, style: Style) {
    let mut wanted = Vec::new();
    for index in reading_order(case) {
        let column = &case.columns[index];
        let mark = &case.column(index).mark;
        if column.pad.is_none() {
            wanted.push((mark.clone(), format!("read the pad{}", could_raise(column, style))));
        }
        if column.rods.iter().any(|rod| rod.sound && rod.result.state == State::Unmeasured) {
            let needs = column.needs_projection.map_or(String::new(), |needs| {
                format!("; each must stand {} or more above its pad", style.write(needs, Rounding::Up))
            });
            wanted.push((mark.clone(), format!("measure {}{needs}", rods(column, State::Unmeasured))));
        }
    }
    if wanted.is_empty() {
        return;
    }
    document.heading(Tone::Stop, "STILL TO MEASURE");
    for (mark, what) in wanted {
        document.item(Tone::Plain, mark, what);
    }
}

fn could_raise(column: &ColumnCase, style: Style) -> String {
    match column.allowed.as_deref() {
        None => String::new(),
        Some([]) => "; its rods are full at no height".to_owned(),
        Some(all) => {
            let ranges: Vec<String> = all.iter().map(|interval| self::interval(*interval, style)).collect();
            format!("; its rods stay full for a raise of {}", ranges.join(" or "))
        }
    }
}

/// Writes an interval of raises so that what is printed lies inside it.
pub(in crate::report) fn interval(interval: Interval, style: Style) -> String {
    match bounds(interval, style) {
        (Some(low), Some(high)) => format!("{low} to {high}"),
        (Some(low), None) => format!("{low} or more"),
        (None, Some(high)) => format!("up to {high}"),
        (None, None) => "any height".to_owned(),
    }
}

/// Writes the bounds of an interval, rounded into it, or with every digit where it is narrower than a step.
fn bounds(interval: Interval, style: Style) -> (Option<String>, Option<String>) {
    let Interval { low, high } = interval;
    if low.zip(high).is_some_and(|(low, high)| !style.has_a_step_in(low, high)) {
        return (low.map(|low| style.exact(low)), high.map(|high| style.exact(high)));
    }
    (low.map(|low| style.signed(low, Rounding::Up)), high.map(|high| style.signed(high, Rounding::Down)))
}

/// Shows the worst of each kind of difference.
pub(in crate::report) fn after_the_plan(document: &mut Document, case: &Case<'_>, style: Style) {
    let kinds = [
        (DifferenceKind::Neighbours, "next columns"),
        (DifferenceKind::Wall, "along a wall"),
        (DifferenceKind::Building, "whole building"),
        (DifferenceKind::Design, "from the design seat"),
    ];
    let rows: Vec<Vec<String>> = kinds
        .into_iter()
        .filter_map(|(kind, words)| {
            let of_kind = || case.differences.iter().filter(move |it| it.kind == kind);
            let worst =
                of_kind().filter_map(|it| Some((it.value?.abs(), it))).max_by_key(|(value, _)| *value);
            let of = |verdict: Verdict| of_kind().filter(|it| it.verdict == verdict).count();
            let counted = [
                (of(Verdict::Out), "out"),
                (of(Verdict::Unsure), "too close"),
                (of(Verdict::Unknown), "not known"),
            ];
            let open: Vec<String> = counted
                .into_iter()
                .filter(|(number, _)| *number > 0)
                .map(|(number, what)| format!("{number} {what}"))
                .collect();
            let open = if open.is_empty() { "all within".to_owned() } else { open.join(", ") };
            let Some((value, it)) = worst else {
                let limit = of_kind().next()?.limit;
                return Some(vec![
                    words.into(),
                    "-".into(),
                    "?".into(),
                    "?".into(),
                    style.exact(limit),
                    open,
                ]);
            };
            let shown = style.pair(value, it.limit, Relation::AtMost);
            let marks = case.marks(&it.columns);
            let where_ = match (kind, marks.first(), marks.last()) {
                (DifferenceKind::Building, ..) => "all".to_owned(),
                (_, Some(first), Some(last)) if first != last => format!("{first} - {last}"),
                (_, Some(first), _) => (*first).to_owned(),
                _ => String::new(),
            };
            let good_to = it.plus_minus.map_or("?".to_owned(), |it| style.write(it, Rounding::Up));
            Some(vec![words.into(), where_, shown.value, good_to, shown.limit, open])
        })
        .collect();
    if rows.is_empty() {
        return;
    }
    document.heading(Tone::Plain, "LEVELS AFTER THE PLAN, worst of each kind");
    document.grid(
        &[
            ("compared", Align::Left),
            ("columns", Align::Left),
            ("apart", Align::Right),
            ("+-", Align::Right),
            ("accepted", Align::Right),
            ("by value and +-", Align::Wrap),
        ],
        rows,
    );
    document.text(
        Tone::Quiet,
        "Limits are kept by value; too close: within its +- (95 %) of the limit. --guarded keeps them by value and +-.",
    );
}

/// Tells the findings that are for the engineer, and the notes.
fn told(document: &mut Document, judged: &Judged<'_>) {
    for (wanted, tone, heading) in [
        (Level::Stop, Tone::Stop, "STOP: until this is put right"),
        (Level::Ask, Tone::Ask, "ASK THE ENGINEER"),
        (Level::Note, Tone::Quiet, "NOTES"),
    ] {
        let texts = grouped(findings(judged).filter(|(_, level, _)| *level == wanted));
        if texts.is_empty() {
            continue;
        }
        document.heading(tone, heading);
        for text in texts {
            document.item(Tone::Plain, "-", text);
        }
    }
    document
        .text(Tone::Quiet, "rodreach explain JOB MARK shows the arithmetic and the sources of one column.");
}

/// Gives the columns in the order their pads were read, those not read behind.
pub(super) fn reading_order(case: &Case<'_>) -> Vec<usize> {
    let mut order: Vec<usize> = (0..case.columns.len()).collect();
    order.sort_by_key(|&index| {
        let read = first_read(case, index);
        (read.is_none(), read, index)
    });
    order
}

/// Gives the first reading of a column's pad, where it was read.
fn first_read(case: &Case<'_>, index: usize) -> Option<usize> {
    let point = case.column(index).point?;
    case.job.readings.sights.iter().position(|it| it.point == point)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::System;

    #[test]
    fn a_range_narrower_than_a_step_is_not_printed_the_wrong_way_round() {
        let nm = |nm| Some(Length::from_nm(nm));
        let inch = Style::new(System::Inch, 16);
        let wide = Interval { low: nm(1_600_000), high: nm(6_400_000) };
        assert_eq!(interval(wide, inch), "~+1/8\" to ~+1/4\"");
        let narrow = Interval { low: nm(1_600_000), high: nm(1_700_000) };
        assert_eq!(interval(narrow, inch), "1.6 mm to 1.7 mm");
    }
}
