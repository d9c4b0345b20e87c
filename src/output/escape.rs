//! The one place where a text becomes part of a page.

/// Tells whether a character could hide or turn round what stands beside it: a control character, one that changes
/// the direction of reading, or one that no document may hold.
pub(super) fn hides(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
        || matches!(c, '\u{fffe}' | '\u{ffff}')
}

/// Escapes a text for an element or a quoted attribute.
pub(super) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        push(&mut out, if c.is_whitespace() { ' ' } else { c });
    }
    out
}

/// Escapes a text of several lines, which stay lines.
pub(super) fn escaped_lines(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars().filter(|c| *c != '\r') {
        match c {
            '\n' | '\t' => out.push(c),
            c => push(&mut out, c),
        }
    }
    out
}

fn push(out: &mut String, c: char) {
    match c {
        '&' => out.push_str("&amp;"),
        '<' => out.push_str("&lt;"),
        '>' => out.push_str("&gt;"),
        '"' => out.push_str("&quot;"),
        '\'' => out.push_str("&#39;"),
        c if hides(c) => out.push('\u{fffd}'),
        c => out.push(c),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_could_form_markup_is_escaped() {
        assert_eq!(
            escaped("<script>alert('1\" & more')"),
            "&lt;script&gt;alert(&#39;1&quot; &amp; more&#39;)"
        );
        assert_eq!(escaped("a\u{202e}b\u{0}c\nd"), "a\u{fffd}b\u{fffd}c d");
        assert_eq!(escaped_lines("a\r\n\t<b>\u{0}"), "a\n\t&lt;b&gt;\u{fffd}");
    }
}
