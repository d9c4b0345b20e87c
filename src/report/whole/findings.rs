//! Every finding with its arithmetic and its source; what is the same of many subjects is told once.

use super::super::check::json::findings;
use super::super::document::{Document, Tone};
use super::super::explain::screen::judgement;
use super::super::rules::source;
use crate::check::{Finding, Judged, Level};
use std::collections::BTreeMap;

/// Most subjects that are named in one note.
const NAMED: usize = 24;

/// Findings of one rule that say the same of several subjects.
struct Group<'f> {
    rule: &'f str,
    said: &'f str,
    of: Vec<(&'f str, &'f Finding)>,
}

/// Adds the findings, gravest first.
pub(super) fn section(document: &mut Document, judged: &Judged<'_>) {
    for (wanted, tone, heading) in [
        (Level::Stop, Tone::Stop, "STOP: until this is put right"),
        (Level::Ask, Tone::Ask, "ASK THE ENGINEER"),
        (Level::Note, Tone::Plain, "NOTES"),
    ] {
        let groups = groups(judged, wanted);
        if !groups.is_empty() {
            document.heading(tone, heading);
        }
        for group in groups {
            match group.of.as_slice() {
                [(_, only)] => judgement(document, group.rule, only),
                _ => told_once(document, &group, wanted),
            }
        }
    }
}

/// Groups the findings of a level; those that stop or ask only where their arithmetic is the same to the last digit.
fn groups<'j>(judged: &'j Judged<'_>, wanted: Level) -> Vec<Group<'j>> {
    let mut groups: Vec<Group<'j>> = Vec::new();
    // where those of the same words stand: a large job has tens of thousands
    let mut places: BTreeMap<(&str, &str), Vec<usize>> = BTreeMap::new();
    for (rule, _, finding) in findings(judged).filter(|(_, level, _)| *level == wanted) {
        let (subject, said) = finding.text.split_once(": ").unwrap_or(("", &finding.text));
        let places = places.entry((rule, said)).or_default();
        let same = |group: &Group<'_>| {
            let alike = |(_, it): &(&str, &Finding)| {
                it.arithmetic == finding.arithmetic
                    && it.outcome == finding.outcome
                    && it.authority == finding.authority
            };
            wanted == Level::Note || group.of.first().is_some_and(alike)
        };
        let known = places.iter().copied().find(|&at| groups.get(at).is_some_and(same));
        match known.and_then(|at| groups.get_mut(at)) {
            Some(group) => group.of.push((subject, finding)),
            None => {
                places.push(groups.len());
                groups.push(Group { rule, said, of: vec![(subject, finding)] });
            }
        }
    }
    groups
}

/// Tells a group: every subject of what stops or asks, the first ones of a note.
fn told_once(document: &mut Document, group: &Group<'_>, level: Level) {
    let Some((subject, finding)) = group.of.first() else { return };
    let (tone, verdict, most) = match level {
        Level::Stop => (Tone::Stop, "STOP", usize::MAX),
        Level::Ask => (Tone::Ask, "ASK", usize::MAX),
        Level::Note => (Tone::Plain, "note", NAMED),
    };
    let named: Vec<&str> = group.of.iter().take(most).map(|(subject, _)| *subject).collect();
    let more = group.of.len().saturating_sub(most);
    let more = if more > 0 { format!("; and {more} more") } else { String::new() };
    document.item(tone, group.rule, format!("{verdict}: {}{more}: {}", named.join("; "), group.said));
    if level == Level::Note && !finding.arithmetic.is_empty() {
        document.item(Tone::Quiet, " ", format!("for one of them, {subject}:"));
    }
    for line in &finding.arithmetic {
        document.item(Tone::Quiet, " ", line.clone());
    }
    document.item(Tone::Quiet, " ", format!("source, {}", source(&finding.authority)));
}
