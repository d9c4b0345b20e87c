//! The parts on the rods and the limits in force, each with its source.

use super::super::document::{Align, Document, Tone};
use super::super::explain::screen::parts;
use super::super::rules::source;
use crate::check::{Case, RULES};
use crate::text::Style;

/// Adds parts and limits.
pub(super) fn section(document: &mut Document, case: &Case<'_>, style: Style) {
    for base in &case.job.bases {
        document.heading(Tone::Plain, format!("BASE {}", base.mark));
        parts(document, base, style);
    }
    document.heading(Tone::Plain, "LIMITS IN FORCE");
    let rows = RULES.iter().filter_map(|rule| {
        let (words, authority) = (rule.limit)(&case.job.limits.tables, style)?;
        Some(vec![rule.name.to_owned(), words, source(&authority)])
    });
    document.grid(&[("rule", Align::Left), ("limit", Align::Wrap), ("source", Align::Wrap)], rows.collect());
    document.text(
        Tone::Quiet,
        "The purchased standards rule; a line of its own may have its own limit (accept).",
    );
}
