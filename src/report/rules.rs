//! What is checked, and against which source.

use super::document::{Answer, Document, Sheet, Tone};
use crate::catalog::{Authority, LimitSet};
use crate::check::{RULES, Rule};
use crate::text::Style;
use serde::Serialize;
use serde_json::Value;

#[derive(Serialize)]
struct RulesJson {
    format: u32,
    limits: String,
    rules: Vec<RuleJson>,
}

#[derive(Serialize)]
struct RuleJson {
    rule: &'static str,
    about: &'static str,
    checks: &'static str,
    why: &'static str,
    limit: Option<String>,
    source: Option<Authority>,
}

/// Makes the answer of `rules` under one limit set.
#[must_use]
pub fn rules_answer(set: &LimitSet, style: Style) -> Answer {
    let limit = |rule: &Rule| (rule.limit)(&set.limits, style);
    let mut document = Document::default();
    document.heading(Tone::Plain, format!("Rules under the limit set {} ({})", set.name, set.title));
    for rule in RULES {
        document.heading(Tone::Plain, rule.name);
        document.item(Tone::Plain, "about", rule.about);
        document.item(Tone::Plain, "checks", rule.checks);
        document.item(Tone::Plain, "why", rule.why);
        match limit(rule) {
            Some((words, authority)) => {
                document.item(Tone::Plain, "limit", words);
                document.item(Tone::Quiet, "source", source(&authority));
            }
            None => document.item(Tone::Quiet, "limit", "not in this limit set, or none needed"),
        }
    }
    let rows = RULES.iter().map(|rule| {
        let (words, authority) = limit(rule).map_or((String::new(), None), |(words, it)| (words, Some(it)));
        vec![
            rule.name.to_owned(),
            rule.about.to_owned(),
            rule.checks.to_owned(),
            rule.why.to_owned(),
            words,
            authority.as_ref().map(|it| it.kind.words().to_owned()).unwrap_or_default(),
            authority.map(|it| it.text).unwrap_or_default(),
        ]
    });
    let heads = vec!["rule", "about", "checks", "why", "limit", "standing", "source"];
    let sheet = Sheet { heads, rows: rows.collect() };
    Answer { document, sheet, value: value(set, style), clear: true }
}

fn value(set: &LimitSet, style: Style) -> Value {
    let rules = RULES.iter().map(|rule| {
        let limit = (rule.limit)(&set.limits, style);
        RuleJson {
            rule: rule.name,
            about: rule.about,
            checks: rule.checks,
            why: rule.why,
            limit: limit.as_ref().map(|(words, _)| words.clone()),
            source: limit.map(|(_, authority)| authority),
        }
    });
    let json = RulesJson { format: 1, limits: set.name.clone(), rules: rules.collect() };
    serde_json::to_value(json).unwrap_or(Value::Null)
}

/// Writes a source with its standing before it.
pub(super) fn source(authority: &Authority) -> String {
    format!("{}: {}", authority.kind.words(), authority.text)
}
