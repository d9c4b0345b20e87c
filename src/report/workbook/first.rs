//! The first sheet: which job this is, what may be set, and how the others are to be read.

use super::super::caution::{DEFER, ROD_NUMBERS, SILICA, about_grinding};
use super::super::check::screen::{head, notes_disagree};
use super::super::document::{Block, Document, Tone};
use super::{WorkCell, WorkColumn, WorkSheet};
use crate::check::{Judged, style};
use crate::plan::Action;

/// How the lengths of the other sheets are to be read.
const LENGTHS: &str = "A length stands in words, which count; to the right, outside what is printed, as a number of \
     inches or millimetres and in whole nanometres. A ~ stands before what is not exact. What is not known is blank.";

/// Makes the sheet.
pub(super) fn sheet(judged: &Judged<'_>, tried: Option<String>) -> WorkSheet {
    let case = &judged.case;
    let mut document = Document::default();
    head(&mut document, case, style(case.job));
    notes_disagree(&mut document, judged);
    let mut lines: Vec<String> = Vec::new();
    for block in document.blocks {
        match block {
            Block::Heading(_, text) | Block::Text(_, text) => lines.push(text),
            Block::Item(_, name, text) => lines.push(format!("{name}: {text}")),
            // tables have sheets of their own
            _ => {}
        }
    }
    // what was tried goes before everything but the name of the job
    lines.splice(lines.len().min(1)..lines.len().min(1), tried);
    let grinds = case.plan.choices.iter().any(|choice| choice.action == Action::Grind);
    lines.push(DEFER.to_owned());
    if grinds || about_grinding(judged, None) {
        lines.push(SILICA.to_owned());
    }
    lines.extend([ROD_NUMBERS.to_owned(), LENGTHS.to_owned()]);
    let clear = judged.is_clear();
    let (tone, word) = if clear { (Tone::Good, "yes") } else { (Tone::Stop, "NO") };
    let mut rows: Vec<Vec<WorkCell>> =
        lines.into_iter().map(|line| vec![WorkCell::Text(line), WorkCell::Blank]).collect();
    rows.push(vec![
        WorkCell::Text("Every column may be set and nothing asks or stops:".to_owned()),
        WorkCell::Verdict(tone, word),
    ]);
    WorkSheet {
        name: "Read first",
        columns: vec![
            WorkColumn { head: "Read first".to_owned(), width: 100, wraps: true },
            WorkColumn { head: String::new(), width: 8, wraps: false },
        ],
        rows,
        printed: 2,
        is_table: false,
    }
}
