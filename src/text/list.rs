//! Counts and lists of names.

/// Joins names with commas and a closing "and".
///
/// # Example
/// ```
/// assert_eq!(rodreach::text::and(&["A1", "A2", "A3"]), "A1, A2 and A3");
/// ```
#[must_use]
pub fn and<S: AsRef<str>>(names: &[S]) -> String {
    joined(names, "and")
}

/// Joins names with commas and a closing "or".
///
/// # Example
/// ```
/// assert_eq!(rodreach::text::or(&["pad", "shims", "packs"]), "pad, shims or packs");
/// ```
#[must_use]
pub fn or<S: AsRef<str>>(names: &[S]) -> String {
    joined(names, "or")
}

fn joined<S: AsRef<str>>(names: &[S], word: &str) -> String {
    match names {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [head @ .., last] => {
            let head: Vec<&str> = head.iter().map(AsRef::as_ref).collect();
            format!("{} {word} {}", head.join(", "), last.as_ref())
        }
    }
}

/// Writes a count with its noun, an `s` added unless there is one.
///
/// # Example
/// ```
/// assert_eq!(rodreach::text::count(1, "pad"), "1 pad");
/// assert_eq!(rodreach::text::count(3, "pad"), "3 pads");
/// ```
#[must_use]
pub fn count(number: usize, noun: &str) -> String {
    if number == 1 { format!("1 {noun}") } else { format!("{number} {noun}s") }
}
