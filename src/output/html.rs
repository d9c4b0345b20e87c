//! One HTML file to read, print and sign: nothing is fetched, nothing runs, and every text is escaped.

use crate::report::{Align, Answer, Block, Boxes, Field, Form, Grid, Tone};

/// How it looks: on a screen as on letter or A4 paper, in black and white.
const STYLE: &str = include_str!("page.css");

/// What a page with boxes to write in needs beside it.
const BOXES: &str = include_str!("boxes.css");

/// Most rows of a table that is kept on one sheet of paper.
const SHORT: usize = 12;

/// Writes an answer as one HTML file.
#[must_use]
pub fn html(answer: &Answer) -> String {
    let mut page = Page { out: String::new(), open: Open::Nothing, pages: 0, titled: false };
    for block in &answer.document.blocks {
        page.block(block);
    }
    page.close();
    if page.pages > 0 {
        page.out.push_str("</article>\n");
    }
    let title = answer.document.blocks.iter().find_map(|block| match block {
        Block::Heading(_, text) | Block::Page(text) => Some(text.as_str()),
        _ => None,
    });
    let boxes = answer.document.blocks.iter().any(|block| matches!(block, Block::Boxes(_)));
    let more = if boxes { BOXES } else { "" };
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n\
         <title>{}</title>\n<style>\n{STYLE}{more}</style>\n</head>\n<body>\n<main>\n{}</main>\n</body>\n</html>\n",
        escaped(title.unwrap_or_default()),
        page.out
    )
}

/// Which list stands open.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Open {
    Nothing,
    /// Names and what is said of them.
    Names,
    /// Points without a name.
    Points,
}

struct Page {
    out: String,
    open: Open,
    pages: usize,
    titled: bool,
}

impl Page {
    fn block(&mut self, block: &Block) {
        match block {
            Block::Gap => self.close(),
            Block::Page(title) => self.page(title),
            Block::Heading(tone, text) => self.heading(*tone, text),
            Block::Text(tone, text) => {
                self.close();
                self.line("p", class(*tone), text);
            }
            Block::Item(tone, name, text) => self.item(*tone, name, text),
            Block::Grid(grid) => self.grid(grid),
            Block::Form(form) => self.form(form),
            Block::Boxes(boxes) => self.boxes(boxes),
        }
    }

    fn page(&mut self, title: &str) {
        self.close();
        if self.pages > 0 {
            self.out.push_str("</article>\n");
        }
        self.pages += 1;
        self.out.push_str("<article>\n");
        self.line("h2", "", title);
    }

    fn heading(&mut self, tone: Tone, text: &str) {
        self.close();
        let level = match (self.titled, self.pages) {
            (false, 0) => "h1",
            (true, 0) => "h2",
            (_, _) => "h3",
        };
        self.titled = true;
        self.line(level, class(tone), text);
    }

    fn item(&mut self, tone: Tone, name: &str, text: &str) {
        let wanted = match name {
            // what hangs under the item before it
            " " if self.open != Open::Nothing => self.open,
            "-" | " " => Open::Points,
            _ => Open::Names,
        };
        if self.open != wanted {
            self.close();
            self.open = wanted;
            self.out.push_str(if wanted == Open::Names { "<dl>\n" } else { "<ul>\n" });
        }
        match (wanted, name) {
            (Open::Names, " ") => self.line("dd", class(tone), text),
            (Open::Names, name) => {
                self.line("dt", "", name);
                self.line("dd", class(tone), text);
            }
            (_, " ") => self.line("li", "under", text),
            _ => self.line("li", class(tone), text),
        }
    }

    fn grid(&mut self, grid: &Grid) {
        self.close();
        let side = |align: Align| match align {
            Align::Right => " class=\"right\"",
            Align::Left => " class=\"whole\"",
            Align::Wrap => "",
        };
        let short = if grid.rows.len() <= SHORT { " class=\"short\"" } else { "" };
        self.out.push_str(&format!("<table{short}>\n<thead><tr>"));
        for column in &grid.columns {
            let head = escaped(column.head);
            self.out.push_str(&format!("<th scope=\"col\"{}>{head}</th>", side(column.align)));
        }
        self.out.push_str("</tr></thead>\n<tbody>\n");
        for cells in &grid.rows {
            self.out.push_str("<tr>");
            for (at, (column, cell)) in grid.columns.iter().zip(cells).enumerate() {
                let (cell, side) = (escaped(cell), side(column.align));
                self.out.push_str(&match at {
                    0 => format!("<th scope=\"row\"{side}>{cell}</th>"),
                    _ => format!("<td{side}>{cell}</td>"),
                });
            }
            self.out.push_str("</tr>\n");
        }
        self.out.push_str("</tbody>\n</table>\n");
    }

    fn boxes(&mut self, boxes: &Boxes) {
        self.close();
        self.out.push_str("<table class=\"boxes\">\n");
        if boxes.columns.iter().any(|column| !column.head.is_empty()) {
            self.out.push_str("<thead><tr>");
            for column in &boxes.columns {
                self.out.push_str(&format!("<th scope=\"col\">{}</th>", escaped(column.head)));
            }
            self.out.push_str("</tr></thead>\n");
        }
        for group in &boxes.groups {
            self.out.push_str("<tbody>\n");
            for row in group {
                self.out.push_str("<tr>");
                for field in row {
                    self.out.push_str(&match field {
                        Field::Said(text) => format!("<td class=\"said\">{}</td>", escaped(text)),
                        Field::Box => "<td class=\"box\"></td>".to_owned(),
                        Field::Nothing => "<td class=\"none\"></td>".to_owned(),
                    });
                }
                self.out.push_str("</tr>\n");
            }
            self.out.push_str("</tbody>\n");
        }
        self.out.push_str("</table>\n");
    }

    fn form(&mut self, form: &Form) {
        self.close();
        self.out.push_str("<section class=\"answer\">\n");
        self.line("h3", "", &form.title);
        self.line("p", "", &form.question);
        self.out.push_str("<ul class=\"ticks\">\n");
        for tick in &form.ticks {
            self.line("li", "", tick);
        }
        self.out.push_str("</ul>\n");
        for (label, number) in &form.lines {
            for at in 0..*number {
                let label = if at == 0 { escaped(label) } else { String::new() };
                self.out.push_str(&format!(
                    "<div class=\"write\"><span class=\"label\">{label}</span><span class=\"rule\"></span></div>\n"
                ));
            }
        }
        self.line("p", "quiet", &form.foot);
        self.out.push_str("</section>\n");
    }

    /// Closes the list that stands open.
    fn close(&mut self) {
        match self.open {
            Open::Nothing => {}
            Open::Names => self.out.push_str("</dl>\n"),
            Open::Points => self.out.push_str("</ul>\n"),
        }
        self.open = Open::Nothing;
    }

    /// Writes a text in an element; names of elements and classes are ours, never a job's.
    fn line(&mut self, element: &'static str, class: &'static str, text: &str) {
        let class = if class.is_empty() { String::new() } else { format!(" class=\"{class}\"") };
        self.out.push_str(&format!("<{element}{class}>{}</{element}>\n", escaped(text)));
    }
}

const fn class(tone: Tone) -> &'static str {
    match tone {
        Tone::Plain => "",
        Tone::Good => "good",
        Tone::Stop => "stop",
        Tone::Ask => "ask",
        Tone::Quiet => "quiet",
    }
}

/// Escapes a text for an element or a quoted attribute.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c if c.is_whitespace() => out.push(' '),
            c if super::hides(c) => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
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
    }
}
