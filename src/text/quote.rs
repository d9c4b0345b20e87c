//! A text of the input as a message shows it.

/// Most characters of a text that are shown.
const MOST: usize = 40;

/// Quotes a text for a message: cut after 40 characters, unprintable characters replaced.
///
/// # Example
/// ```
/// assert_eq!(rodreach::text::quoted("A1"), "`A1`");
/// assert_eq!(rodreach::text::quoted("a\nb"), "`a?b`");
/// ```
#[must_use]
pub fn quoted(text: &str) -> String {
    let mut shown: String = text.chars().take(MOST).map(|c| if c.is_control() { '?' } else { c }).collect();
    if text.chars().nth(MOST).is_some() {
        shown.push('…');
    }
    format!("`{shown}`")
}
