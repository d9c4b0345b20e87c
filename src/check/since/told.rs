//! Findings that came and went, by rule, level, columns, rod and line.

use crate::check::finding::Level;
use crate::check::rules::Judged;
use crate::model::{Earlier, EarlierFinding};
use std::collections::BTreeMap;

/// By what findings are told apart.
type Key = (String, String, Vec<String>, Option<String>, Option<String>);

/// Gives the findings that came, as indices into those of the new answer, and those that went.
pub(super) fn came_and_went<'e>(
    now: &Judged<'_>,
    earlier: &'e Earlier,
) -> (Vec<usize>, Vec<&'e EarlierFinding>) {
    let mut left: BTreeMap<Key, Vec<&'e EarlierFinding>> = BTreeMap::new();
    for finding in earlier.findings.iter().rev() {
        left.entry(then(finding)).or_default().push(finding);
    }
    let mut came = Vec::new();
    for (at, (rule, finding)) in now.findings.iter().enumerate() {
        let Some(level) = finding.level() else { continue };
        let subject = &finding.subject;
        let key = (
            (*rule).to_owned(),
            name(level).to_owned(),
            now.case.marks(&subject.columns).into_iter().map(str::to_owned).collect(),
            subject.rod.map(|rod| rod.to_string()),
            subject.line.clone(),
        );
        if left.get_mut(&key).and_then(Vec::pop).is_none() {
            came.push(at);
        }
    }
    let stays = |finding: &&EarlierFinding| {
        let left = left.get(&then(finding)).into_iter().flatten();
        left.copied().any(|it| std::ptr::eq(it, *finding))
    };
    (came, earlier.findings.iter().filter(stays).collect())
}

fn then(finding: &EarlierFinding) -> Key {
    let EarlierFinding { rule, level, columns, rod, line, .. } = finding;
    (rule.clone(), level.clone(), columns.clone(), rod.clone(), line.clone())
}

/// Gives a level as JSON has it.
const fn name(level: Level) -> &'static str {
    match level {
        Level::Stop => "stop",
        Level::Ask => "ask",
        Level::Note => "note",
    }
}
