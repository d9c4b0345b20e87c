//! What was tried: columns held at a raise, thicknesses left out.

use crate::length::Length;
use crate::report::document::{Answer, Block, Tone};
use crate::text::{Style, and};
use serde::Serialize;
use serde_json::Value;

/// What a plan was made to take on, beside the job itself.
#[derive(Clone, Debug)]
pub struct Tried {
    /// Columns that are held at a raise: mark and raise.
    pub hold_at: Vec<(String, Length)>,
    /// Thicknesses of shims that are left out.
    pub without: Vec<Length>,
    /// How the answers of the job are written.
    pub style: Style,
}

#[derive(Serialize)]
struct HeldAt<'t> {
    mark: &'t str,
    raise_nm: i64,
}

impl Tried {
    /// Says in a sentence what was tried; nothing where nothing was.
    #[must_use]
    pub fn words(&self) -> Option<String> {
        let exact = |length: &Length| self.style.exact(*length);
        let mut words = Vec::new();
        if !self.hold_at.is_empty() {
            let each = self.hold_at.iter().map(|(mark, raise)| format!("{mark} held at {}", exact(raise)));
            words.push(and(&each.collect::<Vec<_>>()));
        }
        if !self.without.is_empty() {
            words.push(format!("without {}", and(&self.without.iter().map(exact).collect::<Vec<_>>())));
        }
        (!words.is_empty()).then(|| format!("Tried: {}.", words.join("; ")))
    }

    /// Says at the top of an answer, and in its values, what was tried; nothing where nothing was.
    pub fn tell(&self, answer: &mut Answer) {
        if !self.hold_at.is_empty() {
            let held: Vec<HeldAt<'_>> =
                (self.hold_at.iter()).map(|(mark, raise)| HeldAt { mark, raise_nm: raise.nm() }).collect();
            put(answer, "hold_at", serde_json::to_value(held).unwrap_or(Value::Null));
        }
        if !self.without.is_empty() {
            let without: Vec<i64> = self.without.iter().map(|thickness| thickness.nm()).collect();
            put(answer, "without_nm", Value::from(without));
        }
        let Some(text) = self.words() else { return };
        let behind_name = answer.document.blocks.len().min(1);
        answer.document.blocks.insert(behind_name, Block::Text(Tone::Ask, text));
    }
}

fn put(answer: &mut Answer, key: &str, value: Value) {
    if let Value::Object(values) = &mut answer.value {
        values.insert(key.to_owned(), value);
    }
}
