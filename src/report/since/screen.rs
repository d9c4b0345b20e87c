//! WHAT CHANGED: whether the earlier plan still fits, then pad by pad, piece by piece, finding by finding.

use super::super::document::{Align, Document, Tone};
use super::super::grouped::{grouped, grouped_texts};
use super::super::under::under;
use super::Against;
use super::details::details;
use super::needs;
use super::why::{fits, why};
use crate::check::{Case, ColumnChange, Judged, Level, Moved, Since, StillFits, Why, stack_of};
use crate::length::{Length, Rounding};
use crate::text::{Style, and};

/// Adds the section; one line where nothing changed.
pub(super) fn tell(document: &mut Document, now: &Judged<'_>, against: &Against<'_>, style: Style) {
    let since = against.since;
    let file = &since.earlier.file;
    if !since.changed() {
        document.heading(Tone::Good, format!("WHAT CHANGED since {file}: nothing"));
        other_job(document, since);
        return;
    }
    document.heading(Tone::Plain, format!("WHAT CHANGED since {file}"));
    other_job(document, since);
    for (what, then, now) in &since.planned {
        document.text(Tone::Ask, format!("Planned otherwise: {what} {then} then, {now} now."));
    }
    fit(document, against, style);
    pads(document, &now.case, since, style);
    other_plus_minus(document, &now.case, since);
    for change in since.columns.iter().filter(|change| change.changed()) {
        for said in details(&now.case, change, style) {
            document.item(Tone::Plain, change.before.mark.clone(), said);
        }
    }
    needs::tell(document, &now.case, since.earlier, style);
    findings(document, now, since);
}

/// Most columns that are named in one line.
const NAMED: usize = 12;

fn other_plus_minus(document: &mut Document, case: &Case<'_>, since: &Since<'_>) {
    let all = case.marks(&since.other_plus_minus);
    let named = match all.len() {
        0 => return,
        1..=NAMED => and(&all),
        many => format!("{} and {} more", all[..NAMED].join(", "), many - NAMED),
    };
    document.text(Tone::Quiet, format!("What a pad is good to (+-) is not what it was: {named}."));
}

fn other_job(document: &mut Document, since: &Since<'_>) {
    if since.other_job {
        document.text(
            Tone::Ask,
            format!(
                "That is an answer for a job of another name, {}. Is it the right file? Columns are compared by mark.",
                since.earlier.job
            ),
        );
    }
}

/// Says whether what was sent for the earlier plan still fits, and where it does not.
fn fit(document: &mut Document, against: &Against<'_>, style: Style) {
    let since = against.since;
    let case = &against.then.case;
    let (tone, words) = match since.fit {
        StillFits::Yes => {
            (Tone::Good, "yes. By the new readings it keeps every limit, and every nut is full.")
        }
        StillFits::Ask => (Tone::Ask, "by its figures, but not before the engineer agrees."),
        StillFits::Unknown => (Tone::Stop, "not known. That is not a yes."),
        StillFits::No => (Tone::Stop, "NO."),
    };
    document.text(tone, format!("What was sent for the earlier plan still fits as it is: {words}"));
    for &index in &since.added {
        document.item(Tone::Plain, case.column(index).mark.clone(), why(case, index, Why::New, style));
    }
    for change in since.columns.iter().filter(|change| change.fit != StillFits::Yes) {
        let why: Vec<String> = change.why.iter().map(|it| why(case, change.index, *it, style)).collect();
        document.item(Tone::Plain, change.before.mark.clone(), why.join("; "));
    }
    let by_columns = since.columns.iter().map(|change| change.fit).max();
    if since.fit == StillFits::Ask && by_columns == Some(StillFits::Yes) {
        let open = |level: Level| level != Level::Note;
        let asked = against.then.findings.iter().filter_map(|(rule, it)| Some((*rule, it.level()?, it)));
        for text in grouped(asked.filter(|(_, level, _)| open(*level))) {
            document.item(Tone::Plain, "-", text);
        }
    }
}

fn pads(document: &mut Document, case: &Case<'_>, since: &Since<'_>, style: Style) {
    let changed: Vec<&ColumnChange<'_>> = since.columns.iter().filter(|it| it.changed()).collect();
    let mut rows: Vec<Vec<String>> = changed.iter().map(|change| row(case, change, style)).collect();
    for &index in &since.added {
        let choice = case.choice(index);
        let now = under(style, choice.action, choice.raise, &choice.stack, case.base(index).bed);
        let mark = case.column(index).mark.clone();
        rows.push(vec![mark, "new".into(), String::new(), "-".into(), now, fits(StillFits::Unknown).into()]);
    }
    for gone in &since.removed {
        let then = under(style, gone.action, gone.raise, &stack_of(gone), Length::ZERO);
        let mark = gone.mark.clone();
        rows.push(vec![mark, "gone".into(), String::new(), then, "not in the job".into(), String::new()]);
    }
    if rows.is_empty() {
        return;
    }
    document.grid(
        &[
            ("column", Align::Wrap),
            ("pad moved", Align::Right),
            ("+-", Align::Right),
            ("under the plate then", Align::Wrap),
            ("now", Align::Wrap),
            ("still fits", Align::Left),
        ],
        rows,
    );
    if let Some(from) = since.from {
        document.text(
            Tone::Quiet,
            format!(
                "Heights are known only against each other: pads are compared from {}, which counts as not moved.",
                case.column(from).mark
            ),
        );
    }
    let of = |wanted: Option<bool>| -> Vec<&str> {
        let is = |change: &&&ColumnChange<'_>| {
            change.moved.is_some_and(|it| it.by != Length::ZERO && it.for_sure() == wanted)
        };
        changed.iter().filter(is).map(|change| change.before.mark.as_str()).collect()
    };
    let within = of(Some(false));
    if !within.is_empty() {
        document.text(Tone::Quiet, format!("Moved no more than the readings are good to: {}.", and(&within)));
    }
    let unknown = of(None);
    if !unknown.is_empty() {
        document.text(Tone::Quiet, format!("What a move is good to is not known: {}.", and(&unknown)));
    }
}

fn row(case: &Case<'_>, change: &ColumnChange<'_>, style: Style) -> Vec<String> {
    let before = change.before;
    let choice = case.choice(change.index);
    let bed = case.base(change.index).bed;
    let moved = |it: Moved| style.signed(it.by, Rounding::Nearest);
    let plus_minus = |it: Moved| it.plus_minus.map(|it| style.write(it, Rounding::Up));
    vec![
        before.mark.clone(),
        change.moved.map_or("?".to_owned(), moved),
        change.moved.and_then(plus_minus).unwrap_or_default(),
        under(style, before.action, before.raise, &stack_of(before), Length::ZERO),
        under(style, choice.action, choice.raise, &choice.stack, bed),
        fits(change.fit).to_owned(),
    ]
}

fn findings(document: &mut Document, now: &Judged<'_>, since: &Since<'_>) {
    if since.came.is_empty() && since.went.is_empty() {
        return;
    }
    document.heading(Tone::Plain, "FINDINGS that came and went");
    let came = since.came.iter().filter_map(|&at| now.findings.get(at));
    let came = came.filter_map(|(rule, finding)| Some((*rule, finding.level()?, finding)));
    for text in grouped(came) {
        document.item(Tone::Plain, "came", text);
    }
    let went = since.went.iter().map(|it| (it.rule.as_str(), it.text.as_str()));
    for text in grouped_texts(went) {
        document.item(Tone::Quiet, "went", text);
    }
}
