//! Faults as words: file, line, column, the line with a caret, and the fix.

use super::{Files, Place, Problem};
use crate::text::quoted;
use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};

/// Longest part of a line that is shown around a fault, in characters.
const WINDOW: usize = 120;

/// Writes every fault, one after the other, in plain text.
#[must_use]
pub fn render(problems: &[Problem], files: &Files) -> String {
    let mut out = String::new();
    for problem in problems {
        out.push_str(&one(problem, files));
        out.push_str("\n\n");
    }
    let count = problems.len();
    out.push_str(&match count {
        1 => "1 fault; nothing was written\n".to_owned(),
        _ => format!("{count} faults; nothing was written\n"),
    });
    out
}

fn one(problem: &Problem, files: &Files) -> String {
    let title = Level::ERROR.primary_title(problem.message.as_str());
    let fix = problem.fix.as_deref().map(|fix| Level::HELP.message(fix));
    let renderer = Renderer::plain().term_width(WINDOW + 20);
    let Some(place) = problem.place else {
        let file = problem.file.map(|file| format!("{}: ", files.name(file))).unwrap_or_default();
        let message = format!("{file}{}", problem.message);
        let group = Group::with_title(Level::ERROR.primary_title(message.as_str()));
        return renderer.render(&[fix.into_iter().fold(group, Group::element)]);
    };
    if files.sheet(place.file).is_some() {
        // a sheet has no line to show, so the cell is named and its content told
        let words = format!("{}: {}", files.whereabouts(place), problem.message);
        let content = files.text(place.file).get(place.start..place.end).unwrap_or_default();
        let content = (!content.is_empty() && !content.contains('\t')).then(|| quoted(content));
        let told = content.filter(|content| !problem.message.contains(content.as_str()));
        let told = told.map(|content| format!("the cell holds {content}"));
        let group = Group::with_title(Level::ERROR.primary_title(words.as_str()));
        let group = told.iter().fold(group, |group, told| group.element(Level::NOTE.message(told.as_str())));
        return renderer.render(&[fix.into_iter().fold(group, Group::element)]);
    }
    let (line, column) = files.line_and_column(place);
    let shown = Line::around(files.text(place.file), place);
    if shown.cut {
        // the picture would count its column from the cut, so the place is said in words
        let words = format!("{}:{line}:{column}: {}", files.name(place.file), problem.message);
        let snippet = Snippet::source(shown.text.as_str())
            .line_start(line)
            .annotation(AnnotationKind::Primary.span(shown.start..shown.end));
        let group = Group::with_title(Level::ERROR.primary_title(words.as_str())).element(snippet);
        return renderer.render(&[fix.into_iter().fold(group, Group::element)]);
    }
    let snippet = Snippet::source(shown.text.as_str())
        .line_start(line)
        .path(files.name(place.file))
        .annotation(AnnotationKind::Primary.span(shown.start..shown.end));
    let group = title.element(snippet);
    renderer.render(&[fix.into_iter().fold(group, Group::element)])
}

/// The line of a place, or the part of it that can be shown.
struct Line {
    text: String,
    start: usize,
    end: usize,
    cut: bool,
}

impl Line {
    fn around(text: &str, place: Place) -> Self {
        let at = floor(text, place.start.min(text.len()));
        let line_start = text[..at].rfind('\n').map_or(0, |at| at + 1);
        let line_end = text[at..].find('\n').map_or(text.len(), |found| at + found);
        let line = &text[line_start..line_end];
        let (start, end) =
            (at - line_start, floor(line, place.end.saturating_sub(line_start).min(line.len())));
        if line.len() <= WINDOW * 4 {
            return Self { text: clean(line), start, end: end.max(start), cut: false };
        }
        let from = floor(line, start.saturating_sub(WINDOW / 2));
        let to = floor(line, (start + WINDOW / 2).min(line.len()));
        let end = end.clamp(start, to);
        Self { text: clean(&line[from..to]), start: start - from, end: end - from, cut: true }
    }
}

/// Steps back to the start of a character.
fn floor(text: &str, mut at: usize) -> usize {
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// Replaces control characters byte for byte, so that places stay where they are.
fn clean(line: &str) -> String {
    line.chars().map(|c| if c.is_ascii_control() && c != '\t' { '?' } else { c }).collect()
}
