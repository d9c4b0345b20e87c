//! The heights in tables: every pad, every difference that a limit compares.

use super::super::document::{Align, Document, Tone};
use crate::check::{Case, Difference, DifferenceKind, Verdict};
use crate::length::Rounding;
use crate::levels::Datum;
use crate::text::{Relation, Style};
use std::collections::BTreeMap;

/// Adds a row a pad.
pub(super) fn pads(document: &mut Document, case: &Case<'_>, style: Style) {
    document.heading(Tone::Plain, "EVERY PAD");
    let rows = case.columns.iter().map(|column| {
        let of_job = case.column(column.index);
        let unknown = || "?".to_owned();
        let from_design = |it: crate::length::Length| style.signed(it - case.zero, Rounding::Nearest);
        vec![
            of_job.mark.clone(),
            column.pad.map_or_else(unknown, |pad| style.elevation(pad.elevation)),
            column.pad.map_or_else(unknown, |pad| style.write(pad.plus_minus, Rounding::Up)),
            of_job.point.map_or("0".to_owned(), |point| case.levels.readings(point).to_string()),
            column.pad.map_or_else(unknown, |pad| from_design(pad.departure)),
            column.seat.map_or_else(unknown, |seat| style.elevation(seat)),
            column.seat_departure.map_or_else(unknown, from_design),
        ]
    });
    document.grid(
        &[
            ("column", Align::Left),
            ("pad", Align::Right),
            ("+-", Align::Right),
            ("read", Align::Right),
            ("from design", Align::Right),
            ("seat planned", Align::Right),
            ("from design", Align::Right),
        ],
        rows.collect(),
    );
    let datum = match case.levels.datum() {
        Datum::Relative => {
            "Heights are counted from the highest pad, design differences taken off where it says so."
                .to_owned()
        }
        Datum::Absolute(_) => format!("Heights are elevations; datum: {}.", case.levels.datum_words()),
    };
    document.text(Tone::Quiet, format!("{datum} +-: 95 %. read: how often. ? is not known."));
}

/// Adds a row a difference, those that are not within their limit first.
pub(super) fn differences(document: &mut Document, case: &Case<'_>, style: Style) {
    if case.differences.is_empty() {
        return;
    }
    document.heading(Tone::Plain, "EVERY DIFFERENCE THAT A LIMIT COMPARES, those not within it first");
    let mut all: Vec<&Difference> = case.differences.iter().collect();
    all.sort_by_key(|it| match it.verdict {
        Verdict::Out => 0,
        Verdict::Unknown => 1,
        Verdict::Unsure => 2,
        Verdict::Within => 3,
    });
    let rows = all.into_iter().map(|it| {
        let shown = it.value.map(|value| style.pair(value.abs(), it.limit, Relation::AtMost));
        vec![
            compared_words(case, it),
            shown.as_ref().map_or("?".to_owned(), |shown| shown.value.clone()),
            it.plus_minus.map_or("?".to_owned(), |it| style.write(it, Rounding::Up)),
            it.desired.map_or("-".to_owned(), |it| style.exact(it)),
            shown.map_or_else(|| style.exact(it.limit), |shown| shown.limit),
            verdict_words(it.verdict).to_owned(),
        ]
    });
    document.grid(
        &[
            ("compared", Align::Wrap),
            ("apart", Align::Right),
            ("+-", Align::Right),
            ("desired", Align::Right),
            ("accepted", Align::Right),
            ("by value and +-", Align::Wrap),
        ],
        rows.collect(),
    );
}

/// Says what a difference compares: `line A, A1 to A2`.
pub(super) fn compared_words(case: &Case<'_>, it: &Difference) -> String {
    let line = it.line.as_ref().map(|line| format!("line {line}, ")).unwrap_or_default();
    let marks = case.marks(&it.columns);
    let ends = match (marks.first(), marks.last()) {
        (Some(first), Some(last)) if first != last => format!("{first} to {last}"),
        (Some(only), _) => (*only).to_owned(),
        _ => String::new(),
    };
    match it.kind {
        DifferenceKind::Neighbours => format!("{line}{ends}"),
        DifferenceKind::Wall => format!("{line}{ends}, high to low"),
        DifferenceKind::Building => "the building, high to low".to_owned(),
        DifferenceKind::Design => format!("{ends} from its design seat"),
    }
}

/// Writes a difference beside its limit: `1/8" of 3/16"`.
pub(super) fn apart(it: &Difference, style: Style) -> String {
    match it.value {
        Some(value) => {
            let shown = style.pair(value.abs(), it.limit, Relation::AtMost);
            format!("{} of {}", shown.value, shown.limit)
        }
        None => format!("? of {}", style.exact(it.limit)),
    }
}

/// Says what is certain about a difference.
pub(super) const fn verdict_words(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Within => "within",
        Verdict::Out => "OUT",
        Verdict::Unsure => "too close to call",
        Verdict::Unknown => "not known",
    }
}

/// Differences of next columns, by line and columns.
pub(super) type Compared<'c> = BTreeMap<(&'c str, usize, usize), &'c Difference>;

/// Gives the differences of next columns, by line and by the two columns in their order there.
pub(super) fn neighbours<'c>(case: &'c Case<'_>) -> Compared<'c> {
    let next = |it: &'c Difference| match (it.kind, it.columns.as_slice()) {
        (DifferenceKind::Neighbours, &[first, second]) => {
            Some(((it.line.as_deref().unwrap_or_default(), first, second), it))
        }
        _ => None,
    };
    case.differences.iter().filter_map(next).collect()
}
