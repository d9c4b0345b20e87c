//! What a busy person needs: what may be set, with what, what may not, and what is still to be done.

use super::super::ask::is_of_the_job;
use super::super::caution::DEFER;
use super::super::check::json::findings;
use super::super::check::screen::{holds, may_be_set, to_measure};
use super::super::document::{Align, Document, Tone};
use super::super::under::under;
use super::to_order::grout;
use crate::check::{Judged, Level};
use crate::length::Length;
use crate::order::OrderList;
use crate::text::{Style, and, count};
use std::collections::{BTreeMap, BTreeSet};

/// Adds the summary.
pub(super) fn section(document: &mut Document, judged: &Judged<'_>, order: &OrderList, style: Style) {
    let case = &judged.case;
    let (tone, words) = may_be_set(case);
    document.text(if tone == Tone::Good { Tone::Good } else { Tone::Ask }, words);
    asked_first(document, judged);
    to_set(document, judged, style);
    if let Some(words) = grout(&order.grout, case, style) {
        document.text(Tone::Plain, format!("Grout in this plan: {words}."));
    }
    holds(document, case, style);
    to_measure(document, case, style);
    let of = |wanted: Level| findings(judged).filter(|(_, level, _)| *level == wanted).count();
    let (stops, asks, notes) = (of(Level::Stop), of(Level::Ask), of(Level::Note));
    document.heading(Tone::Plain, "NEXT");
    if stops + asks > 0 {
        let words = format!(
            "{} and {}: see Findings. rodreach ask makes a page for the engineer of each, with a box for the answer.",
            one_or_more(stops, "1 finding stops", "findings stop"),
            one_or_more(asks, "1 asks the engineer", "ask the engineer")
        );
        document.text(Tone::Plain, words);
    } else {
        document.text(
            Tone::Plain,
            format!("Nothing stops and nothing is asked; {} below.", count(notes, "note")),
        );
    }
    document.text(Tone::Plain, DEFER);
}

/// Says what is asked about the whole job, and names the columns that may be set and are asked about all the same.
fn asked_first(document: &mut Document, judged: &Judged<'_>) {
    let case = &judged.case;
    let grave = || findings(judged).filter(|(_, level, _)| *level != Level::Note).map(|(_, _, it)| it);
    for finding in grave().filter(|it| is_of_the_job(judged, it)) {
        document.text(Tone::Stop, format!("About the whole job: {}", finding.text));
    }
    let of_some = grave().filter(|it| !is_of_the_job(judged, it));
    let about: BTreeSet<usize> = of_some.flat_map(|it| it.subject.columns.iter().copied()).collect();
    let asked = case.columns.iter().filter(|it| it.may_set() && about.contains(&it.index));
    let asked: Vec<usize> = asked.map(|it| it.index).collect();
    if !asked.is_empty() {
        let marks = and(&case.marks(&asked));
        let words = format!("Before these are set, read what Findings ask about them: {marks}.");
        document.text(Tone::Stop, words);
    }
}

fn one_or_more(number: usize, one: &str, more: &str) -> String {
    if number == 1 { one.to_owned() } else { format!("{number} {more}") }
}

/// Lists what goes under the columns that may be set, and the shims they take.
fn to_set(document: &mut Document, judged: &Judged<'_>, style: Style) {
    let case = &judged.case;
    let mut groups: Vec<(String, Vec<usize>)> = Vec::new();
    let mut pieces: BTreeMap<Length, [u32; 2]> = BTreeMap::new();
    for column in &case.columns {
        let choice = case.choice(column.index);
        for piece in &choice.stack {
            let counted = pieces.entry(piece.thickness).or_default();
            counted[usize::from(!column.may_set())] += piece.count;
        }
        if !column.may_set() {
            continue;
        }
        let words = under(style, choice.action, choice.raise, &choice.stack, case.base(column.index).bed);
        match groups.iter_mut().find(|(known, _)| *known == words) {
            Some((_, columns)) => columns.push(column.index),
            None => groups.push((words, vec![column.index])),
        }
    }
    if !groups.is_empty() {
        groups.sort_by_key(|(_, columns)| std::cmp::Reverse(columns.len()));
        document.heading(Tone::Plain, "MAY BE SET, with this under the plate");
        let rows = groups
            .into_iter()
            .map(|(words, columns)| vec![words, columns.len().to_string(), case.marks(&columns).join(", ")]);
        document.grid(
            &[("under the plate", Align::Left), ("columns", Align::Right), ("marks", Align::Wrap)],
            rows.collect(),
        );
    }
    if pieces.is_empty() {
        return;
    }
    let each: Vec<String> = (pieces.iter().rev())
        .map(|(thickness, [set, held])| {
            let of_held =
                if *held > 0 { format!(" ({held} of them under columns on hold)") } else { String::new() };
            format!("{} x {}{of_held}", set + held, style.exact(*thickness))
        })
        .collect();
    document.text(Tone::Plain, format!("Shims in this plan: {}.", and(&each)));
}
