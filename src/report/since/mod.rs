//! What changed since an earlier answer: on the screen, in the rows of the sheet, and in the values behind JSON.

mod details;
mod json;
mod needs;
mod rows;
mod screen;
mod why;

use super::document::{Answer, Document};
use crate::check::{Judged, Since};
use crate::text::Style;
use serde_json::Value;

/// An earlier answer that a new one is held against.
#[derive(Clone, Copy, Debug)]
pub struct Against<'a> {
    /// The earlier plan, judged at the new measurement.
    pub then: &'a Judged<'a>,
    /// What changed.
    pub since: &'a Since<'a>,
}

impl Against<'_> {
    /// Adds the section to a screen.
    pub(super) fn tell(&self, document: &mut Document, now: &Judged<'_>, style: Style) {
        screen::tell(document, now, self, style);
    }

    /// Adds the cells to the sheet and the key `since` to the values.
    pub(super) fn add_values(&self, now: &Judged<'_>, answer: &mut Answer) {
        rows::add(&mut answer.sheet, now, self);
        if let Value::Object(values) = &mut answer.value {
            values.insert("since".to_owned(), json::value(now, self));
        }
    }
}
