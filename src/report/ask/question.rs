//! The question of a page, in one sentence that can be answered.

use super::super::check::held::{reasons, rods};
use super::super::check::screen::interval;
use super::super::under::under;
use super::{grave, of_the_job};
use crate::check::{ColumnCase, Finding, Hold, Judged, Level, style};
use crate::length::Rounding;
use crate::model::State;
use crate::plan::Action;
use crate::text::Style;

/// Rules whose findings say again what holds a column.
const SAID_BY_HOLDS: [&str; 13] = [
    "nut-not-full",
    "thread-runs-out",
    "rod-not-measured",
    "pad-not-measured",
    "rods-too-few",
    "stack-too-high",
    "thread-beyond-missing",
    "rod-condition",
    "referred",
    "pad-tilted",
    "grout-planned",
    "grind-planned",
    "concrete-not-strong-enough",
];

/// Rules whose findings say again what holds a column where they stop.
const SAID_WHERE_THEY_STOP: [&str; 2] = ["levelling-nut-no-room", "levelling-nut-off-thread"];

/// Most findings that a question names; the page tells them all.
const NAMED: usize = 4;

/// Puts the question about a column.
pub(super) fn of_column(judged: &Judged<'_>, index: usize) -> String {
    let case = &judged.case;
    let column = &case.columns[index];
    let style = style(case.job);
    let mark = &case.column(index).mark;
    let choice = case.choice(index);
    let against = against(judged, column, style);
    let so = |lead: &str| if against.is_empty() { String::new() } else { format!("{lead}{against}") };
    match choice.action {
        Action::Unmeasured => format!(
            "The pad of {mark} has no elevation yet{}: shall {mark} wait until its pad is read, or what do you decide \
             instead?",
            so("; besides, ")
        ),
        Action::Refer => {
            let to = case.raise_range(column).filter(|range| range.low.or(range.high).is_some());
            let to = to.map_or("where it may stay".to_owned(), |range| {
                format!("to a raise of {} from its pad", interval(range, style))
            });
            let against = match against.is_empty() {
                true => String::new(),
                false => format!(" (against it, with nothing under its plate: {against})"),
            };
            format!(
                "Nothing within the limits brings the seat of {mark} {to}{against}: what is to be done to bring it \
                 there, or which other seat do you accept?"
            )
        }
        _ if column.hold == [Hold::RodUnmeasured] => {
            let needs = column.needs_projection.map_or(String::new(), |needs| {
                format!(" (each must stand {} or more above its pad)", style.write(needs, Rounding::Up))
            });
            let missing = rods(column, State::Unmeasured);
            let missing = if missing == "rods " { "every rod".to_owned() } else { missing };
            let besides = others(judged, index);
            let besides = if besides.is_empty() { besides } else { format!("; besides, {besides}") };
            format!(
                "Shall {mark} wait until the projection of {missing} is measured{needs}{besides}, or what do you decide \
                 instead?"
            )
        }
        action => {
            let what = under(style, action, choice.raise, &choice.stack, case.base(index).bed);
            let what = match action {
                Action::NoShim => "with nothing under its plate".to_owned(),
                Action::Shim => format!("with {what} under its plate"),
                Action::Grind => format!("after its pad is ground ({what})"),
                _ => format!("on {what}"),
            };
            format!(
                "May {mark} be set {what}{}, or what is to be done instead?",
                so(" although this stands against it: ")
            )
        }
    }
}

/// Puts the question about the whole job; none where nothing asks about it.
pub(super) fn of_job(judged: &Judged<'_>) -> Option<String> {
    let clauses = clauses(of_the_job(judged).map(|(_, _, it)| it));
    let wait = "shall setting wait until it is put right, or what do you decide instead?";
    (!clauses.is_empty()).then(|| format!("This stands against the whole job: {clauses}; {wait}"))
}

/// Tells what stands against a column: what holds it, then the findings that say something else.
fn against(judged: &Judged<'_>, column: &ColumnCase, style: Style) -> String {
    let held = reasons(&judged.case, column, style).into_iter().map(|reason| {
        let cut = [": the engineer decides", ": the engineer agrees first"];
        cut.iter().find_map(|end| reason.strip_suffix(end)).unwrap_or(&reason).to_owned()
    });
    let mut all: Vec<String> = held.collect();
    let others = others(judged, column.index);
    if !others.is_empty() {
        all.push(others);
    }
    if all.is_empty() && column.raise.is_some() {
        all.push(clauses(grave(judged, column.index).map(|(_, _, it)| it)));
    }
    all.join("; ")
}

/// Tells the findings about a column that its holds do not say.
fn others(judged: &Judged<'_>, column: usize) -> String {
    let said = |rule: &str, level: Level| {
        SAID_BY_HOLDS.contains(&rule) || (level == Level::Stop && SAID_WHERE_THEY_STOP.contains(&rule))
    };
    let others = grave(judged, column).filter(|(rule, level, _)| !said(rule, *level));
    clauses(others.map(|(_, _, it)| it))
}

/// Gives what findings say up to what is to be done about it.
fn clauses<'f>(findings: impl Iterator<Item = &'f Finding>) -> String {
    let all: Vec<&str> = findings.map(|it| said(&it.text)).collect();
    let more = all.len().saturating_sub(NAMED);
    let named: Vec<&str> = all.into_iter().take(NAMED).collect();
    match more {
        0 => named.join("; "),
        more => format!("{}; and {more} more, below", named.join("; ")),
    }
}

/// Gives what a finding says without what it tells the crew to do.
fn said(text: &str) -> &str {
    let ends = ["; ask the engineer", "; do not ", "; read it again"].map(|end| text.find(end));
    let end = ends.into_iter().flatten().min();
    end.and_then(|end| text.get(..end)).unwrap_or(text)
}
