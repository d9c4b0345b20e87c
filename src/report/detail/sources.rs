//! Sources by number: each is listed once under the table that needs it.

use crate::catalog::Authority;
use crate::report::document::{Document, Tone};
use crate::report::rules::source;

/// The sources of one table, in the order of their numbers.
#[derive(Default)]
pub(super) struct Sources<'a>(Vec<&'a Authority>);

impl<'a> Sources<'a> {
    /// Gives the number of a source.
    pub(super) fn number(&mut self, authority: &'a Authority) -> String {
        let at = self.0.iter().position(|known| *known == authority).unwrap_or_else(|| {
            self.0.push(authority);
            self.0.len() - 1
        });
        (at + 1).to_string()
    }

    /// Lists them.
    pub(super) fn list(&self, document: &mut Document) {
        for (number, authority) in (1..).zip(&self.0) {
            document.item(Tone::Quiet, format!("source {number}"), source(authority));
        }
    }
}
