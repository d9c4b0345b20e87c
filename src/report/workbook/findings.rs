//! What came out of the rules, gravest first, each with the source of its limit.

use super::super::check::json::findings;
use super::super::document::Tone;
use super::WorkSheet;
use super::layout::{Item, lay, length, long, said, text, verdict, word};
use crate::check::{Judged, Level, style};

/// Makes the sheet.
pub(super) fn sheet(judged: &Judged<'_>) -> WorkSheet {
    let case = &judged.case;
    let style = style(case.job);
    let heads = [
        word("level", 8),
        long("rule", 20),
        long("columns", 18),
        word("rod", 7),
        word("line", 7),
        long("text", 70),
        length("actual", 14),
        length("limit", 14),
        word("standing", 16),
        long("source", 50),
    ];
    let rows = findings(judged).map(|(rule, level, it)| {
        vec![
            self::level(level),
            text(rule),
            text(case.marks(&it.subject.columns).join(", ")),
            text(it.subject.rod.map(|rod| rod.to_string()).unwrap_or_default()),
            text(it.subject.line.clone().unwrap_or_default()),
            text(it.text.clone()),
            said(it.actual, |it| style.exact(it)),
            said(it.limit, |it| style.exact(it)),
            text(it.authority.kind.words()),
            text(it.authority.text.clone()),
        ]
    });
    lay("Findings", style.system(), &heads, rows.collect())
}

const fn level(level: Level) -> Item {
    match level {
        Level::Stop => verdict(Tone::Stop, "STOP"),
        Level::Ask => verdict(Tone::Ask, "ASK"),
        Level::Note => verdict(Tone::Quiet, "note"),
    }
}
