//! JSON: keys in the order of the contract, a line end behind the last brace.

use crate::report::Answer;

/// Writes an answer as JSON.
#[must_use]
pub fn json(answer: &Answer) -> String {
    let mut text = serde_json::to_string_pretty(&answer.value).unwrap_or_default();
    text.push('\n');
    text
}
