//! The answer of `detail`: what projection and thread to specify, and what measured jobs say of it.

mod json;
mod learned;
mod note;
mod screen;
mod sheet;
mod sources;

use super::document::{Answer, Document, Tone};
use crate::check::style;
use crate::detail::{Detail, Kind, Origin};
use crate::text::{Style, System, and};

/// Makes the answer of `detail`; lengths are written as the first job writes them.
#[must_use]
pub fn detail_answer(detail: &Detail<'_>) -> Answer {
    let style = detail.jobs.first().map_or(Style::new(System::Inch, 16), |first| style(first.job));
    let mut document = Document::default();
    screen::head(&mut document, detail, style);
    for kind in &detail.kinds {
        screen::kind(&mut document, detail, kind, style);
        if let Some(measured) = &kind.measured {
            learned::learned(&mut document, detail, kind, measured, style);
        }
    }
    document.heading(Tone::Ask, "CAUTION");
    document.text(Tone::Plain, super::caution::DEFER_SHORT);
    document.text(
        Tone::Plain,
        "A rod that stands higher must be as long in the concrete as before: order it longer, do not pull it up. \
         The engineer of record agrees to every change of a rod.",
    );
    Answer {
        document,
        sheet: sheet::sheet(detail, style),
        value: json::value(detail, style),
        clear: detail.is_clear(),
    }
}

/// Names the bases of a kind, each once; with their jobs where there are several.
fn names(detail: &Detail<'_>, kind: &Kind<'_>) -> String {
    if detail.jobs.len() < 2 {
        let mut marks: Vec<&str> = kind.members.iter().map(|member| member.base.mark.as_str()).collect();
        marks.dedup();
        return and(&marks);
    }
    let each = kind.members.iter().map(|member| format!("{} of {}", member.base.mark, member.job.name));
    and(&each.collect::<Vec<_>>())
}

/// Says from where heights count.
const fn above(origin: Origin) -> &'static str {
    match origin {
        Origin::Design => "above design concrete",
        Origin::Pad => "above the concrete as cast",
    }
}
