//! Markdown: headings, lists and pipe tables; no name of a job can form markup.

use super::boxes::as_grid;
use crate::report::{Align, Answer, Block, Form, Grid, Tone};

/// Writes an answer as Markdown.
#[must_use]
pub fn md(answer: &Answer) -> String {
    let blocks = &answer.document.blocks;
    let mut out = String::new();
    let mut titled = false;
    let mut in_list = false;
    let mut sections = false;
    for block in blocks {
        let is_item = matches!(block, Block::Item(..));
        if in_list && !is_item {
            out.push('\n');
        }
        in_list = is_item;
        match block {
            Block::Gap => {}
            Block::Heading(_, text) if !titled => out.push_str(&format!("# {}\n\n", inline(text))),
            Block::Heading(_, text) if sections => out.push_str(&format!("### {}\n\n", inline(text))),
            Block::Heading(_, text) => out.push_str(&format!("## {}\n\n", inline(text))),
            Block::Page(title) => out.push_str(&format!("---\n\n# {}\n\n", inline(title))),
            Block::Text(tone, text) => paragraph(&mut out, *tone, text),
            Block::Item(_, name, text) => item(&mut out, name, text),
            Block::Grid(grid) => pipes(&mut out, grid),
            Block::Form(form) => self::form(&mut out, form),
            Block::Boxes(boxes) => pipes(&mut out, &as_grid(boxes, "")),
            Block::Section(title) => out.push_str(&format!("---\n\n## {}\n\n", inline(title))),
            Block::Figure(figure) if figure.only_drawn => {}
            Block::Figure(figure) => {
                out.push_str(&format!("**Drawing: {}**\n\n", inline(&figure.title)));
                for text in std::iter::once(&figure.alt).chain(&figure.notes) {
                    out.push_str(&format!("{}\n\n", line(text)));
                }
            }
            Block::Listing(listing) => out.push_str(&format!("{}\n\n", line(&listing.title))),
        }
        sections |= matches!(block, Block::Section(_));
        titled |= matches!(block, Block::Heading(..) | Block::Page(_));
    }
    let end = out.trim_end().len();
    out.truncate(end);
    out.push('\n');
    out
}

fn paragraph(out: &mut String, tone: Tone, text: &str) {
    let text = line(text);
    match tone {
        Tone::Stop | Tone::Ask if !text.is_empty() => out.push_str(&format!("**{text}**\n\n")),
        _ => out.push_str(&format!("{text}\n\n")),
    }
}

/// Writes a point of a list; what hangs under the point before it has no name and stands under it.
fn item(out: &mut String, name: &str, text: &str) {
    match name {
        " " => out.push_str(&format!("  - {}\n", line(text))),
        "-" => out.push_str(&format!("- {}\n", line(text))),
        name => out.push_str(&format!("- **{}** {}\n", line(name), inline(text))),
    }
}

fn pipes(out: &mut String, grid: &Grid) {
    let row = |cells: Vec<String>| format!("| {} |\n", cells.join(" | "));
    out.push_str(&row(grid.columns.iter().map(|column| inline(column.head)).collect()));
    out.push_str(&row(grid
        .columns
        .iter()
        .map(|column| if column.align == Align::Right { "---:" } else { "---" }.to_owned())
        .collect()));
    for cells in &grid.rows {
        out.push_str(&row(cells.iter().map(|cell| inline(cell)).collect()));
    }
    out.push('\n');
}

fn form(out: &mut String, form: &Form) {
    out.push_str(&format!("## {}\n\n{}\n\n", inline(&form.title), line(&form.question)));
    for tick in &form.ticks {
        out.push_str(&format!("- [ ] {}\n", inline(tick)));
    }
    out.push_str("\n| answer | |\n| --- | --- |\n");
    for (label, _) in &form.lines {
        out.push_str(&format!("| {} | |\n", inline(label)));
    }
    out.push_str(&format!("\n{}\n\n", line(&form.foot)));
}

/// Escapes a text that begins a line: what would begin a heading, a list or a rule there is escaped too.
fn line(text: &str) -> String {
    let text = inline(text);
    if text.starts_with(['#', '+', '-', '=', ':']) {
        return format!("\\{text}");
    }
    let digits = text.chars().take_while(char::is_ascii_digit).count();
    if digits > 0 && text[digits..].starts_with(['.', ')']) {
        return format!("{}\\{}", &text[..digits], &text[digits..]);
    }
    text
}

/// Escapes a text, blanks of all sorts squeezed into one.
fn inline(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for word in text.split_whitespace() {
        if !out.is_empty() {
            out.push(' ');
        }
        for c in word.chars() {
            match c {
                // tildes strike out where two meet, dollars make formulas
                '\\' | '`' | '*' | '_' | '[' | ']' | '|' | '~' | '$' => {
                    out.push('\\');
                    out.push(c);
                }
                '<' => out.push_str("&lt;"),
                '>' => out.push_str("&gt;"),
                '&' => out.push_str("&amp;"),
                '@' => out.push_str("&#64;"),
                c if super::escape::hides(c) => out.push('\u{fffd}'),
                c => out.push(c),
            }
        }
    }
    // what a page would make a link of by itself
    out.replace("://", ":\\//").replace("www.", "www\\.")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_could_form_markup_is_escaped() {
        assert_eq!(
            inline("a|b `c` <script> & *d* [e](f)"),
            "a\\|b \\`c\\` &lt;script&gt; &amp; \\*d\\* \\[e\\](f)"
        );
        assert_eq!(inline("~1/8\" to ~1/4\""), "\\~1/8\" to \\~1/4\"");
        assert_eq!(inline("a\\|b"), "a\\\\\\|b");
        assert_eq!(inline("one\n# two"), "one # two");
        assert_eq!(inline("http://x.y www.z"), "http:\\//x.y www\\.z");
    }

    #[test]
    fn what_begins_a_line_begins_no_list_and_no_heading() {
        assert_eq!(line("# no"), "\\# no");
        assert_eq!(line("- no"), "\\- no");
        assert_eq!(line("1. no"), "1\\. no");
        assert_eq!(line("12) no"), "12\\) no");
        assert_eq!(line("1/8\" stays"), "1/8\" stays");
    }
}
