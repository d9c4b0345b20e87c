//! Every finding with its arithmetic and its source; notes that say the same of many are told once.

use super::super::check_json::findings;
use super::super::document::{Document, Tone};
use super::super::explain::judgement;
use super::super::rules::source;
use crate::check::{Finding, Judged, Level};

/// Most subjects that are named in one note.
const NAMED: usize = 24;

/// Notes of one rule that say the same of several subjects.
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
    ] {
        let mut told = findings(judged).filter(|(_, level, _)| *level == wanted).peekable();
        if told.peek().is_some() {
            document.heading(tone, heading);
        }
        for (rule, _, finding) in told {
            judgement(document, rule, finding);
        }
    }
    notes(document, judged);
}

fn notes(document: &mut Document, judged: &Judged<'_>) {
    let mut groups: Vec<Group<'_>> = Vec::new();
    for (rule, _, finding) in findings(judged).filter(|(_, level, _)| *level == Level::Note) {
        let (subject, said) = finding.text.split_once(": ").unwrap_or(("", &finding.text));
        match groups.iter_mut().find(|group| group.rule == rule && group.said == said) {
            Some(group) => group.of.push((subject, finding)),
            None => groups.push(Group { rule, said, of: vec![(subject, finding)] }),
        }
    }
    if groups.is_empty() {
        return;
    }
    document.heading(Tone::Plain, "NOTES");
    for Group { rule, said, of } in groups {
        let [first @ (subject, finding), ..] = of.as_slice() else { continue };
        if of.len() == 1 {
            judgement(document, rule, first.1);
            continue;
        }
        let named: Vec<&str> = of.iter().take(NAMED).map(|(subject, _)| *subject).collect();
        let more = of.len().saturating_sub(NAMED);
        let more = if more > 0 { format!("; and {more} more") } else { String::new() };
        document.item(Tone::Plain, rule, format!("note: {}{more}: {said}", named.join("; ")));
        if !finding.arithmetic.is_empty() {
            document.item(Tone::Quiet, " ", format!("for one of them, {subject}:"));
        }
        for line in &finding.arithmetic {
            document.item(Tone::Quiet, " ", line.clone());
        }
        document.item(Tone::Quiet, " ", format!("source, {}", source(&finding.authority)));
    }
}
