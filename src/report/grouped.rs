//! Findings that say the same of many subjects, as one line.

use crate::check::{Finding, Level};
use std::collections::BTreeMap;

/// Most subjects that are named in one line.
const NAMED: usize = 12;

/// Puts findings of one rule that say the same of many subjects into one line, in the order of the first.
///
/// A finding says its subject, a colon and the rest; the rest is what is compared.
pub(super) fn grouped<'f>(findings: impl Iterator<Item = (&'static str, Level, &'f Finding)>) -> Vec<String> {
    grouped_texts(findings.map(|(rule, _, finding)| (rule, finding.text.as_str())))
}

/// Does the same for what was said by each rule.
pub(super) fn grouped_texts<'t>(texts: impl Iterator<Item = (&'t str, &'t str)>) -> Vec<String> {
    let mut groups: Vec<(&str, Vec<&str>)> = Vec::new();
    // where those of the same words stand: a large job has tens of thousands
    let mut places: BTreeMap<(&str, &str), usize> = BTreeMap::new();
    for (rule, text) in texts {
        let (subject, said) = text.split_once(": ").unwrap_or(("", text));
        let at = *places.entry((rule, said)).or_insert(groups.len());
        match groups.get_mut(at) {
            Some((_, subjects)) => subjects.push(subject),
            None => groups.push((said, vec![subject])),
        }
    }
    groups
        .into_iter()
        .map(|(said, subjects)| {
            let more = subjects.len().saturating_sub(NAMED);
            let named = subjects.iter().take(NAMED).copied().collect::<Vec<_>>().join("; ");
            match (named.is_empty(), more) {
                (true, _) => said.to_owned(),
                (false, 0) => format!("{named}: {said}"),
                (false, more) => format!("{named}; and {more} more: {said}"),
            }
        })
        .collect()
}
