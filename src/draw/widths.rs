//! How wide a text comes out, whatever sans-serif face it is set in.
//!
//! Widths are those of a wide face and a little more, so that what does not overlap here overlaps nowhere. A text
//! with other characters than ASCII is fitted to its width by whoever writes it.

/// How far letters reach over the baseline, in hundredths of their size.
pub(super) const ASCENT: i64 = 95;
/// How far they reach below it.
pub(super) const DESCENT: i64 = 26;
/// From one baseline to the next.
pub(super) const LEADING: i64 = 124;

/// Gives the width of a text, for a font size.
///
/// # Units
/// As the size; thousandths of it, rounded up.
#[must_use]
pub fn text_width(text: &str, size: i64, bold: bool) -> i64 {
    let thousandths: i64 = text.chars().map(thousandths).sum();
    let thousandths = if bold { thousandths * 120 / 100 } else { thousandths };
    thousandths * (size / 1000 + 1)
}

const fn thousandths(c: char) -> i64 {
    match c {
        'i' | 'j' | 'l' | '\'' => 290,
        ' ' | '.' | ',' | ':' | ';' | '/' | 'I' | '!' | '(' | ')' | '[' | ']' | '-' | 'f' | 't' | '|' => 410,
        'r' | '"' => 470,
        'm' | 'w' | 'M' | 'W' | '%' | '@' => 1010,
        '+' | '=' | '~' | '<' | '>' | '#' | '&' | '^' => 850,
        'A'..='Z' => 800,
        ' '..='~' => 660,
        // fitted to this by whoever writes it
        _ => 1000,
    }
}

/// Shortens a text to so many characters, the last of them dots where something was left out.
#[must_use]
pub fn shortened(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    let kept: String = text.chars().take(most.saturating_sub(1)).collect();
    format!("{}\u{2026}", kept.trim_end())
}

/// Breaks a text at blanks into lines of so many characters; a longer word is left whole.
#[must_use]
pub fn wrapped(text: &str, most: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= most => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}
