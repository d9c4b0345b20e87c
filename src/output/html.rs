//! One HTML file to read, print and sign: nothing is fetched, nothing runs, and every text is escaped.

use super::escape::{escaped, escaped_lines};
use super::svg::svg;
use crate::report::{Align, Answer, Block, Boxes, Field, Figure, Form, Grid, Listing, Tone};

/// How it looks: on a screen as on letter or A4 paper, in black and white.
const STYLE: &str = include_str!("page.css");

/// What a page with boxes to write in needs beside it.
const BOXES: &str = include_str!("boxes.css");

/// Most characters of a cell that is never broken.
const WHOLE: usize = 26;

/// Most rows of a table that is kept on one sheet of paper.
const SHORT: usize = 12;

/// Writes an answer as one HTML file.
#[must_use]
pub fn html(answer: &Answer) -> String {
    let blocks = &answer.document.blocks;
    let mut page = Page {
        out: String::new(),
        open: Open::Nothing,
        inside: None,
        titled: false,
        figures: 0,
        sections: 0,
        contents: contents(blocks),
    };
    for block in blocks {
        page.block(block);
    }
    page.leave();
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
    /// The element of the page or section that stands open.
    inside: Option<&'static str>,
    titled: bool,
    figures: usize,
    sections: usize,
    /// The list of sections, until it is written.
    contents: String,
}

/// Lists the sections, each with a way to it; blank where there are none.
fn contents(blocks: &[Block]) -> String {
    let titles = blocks.iter().filter_map(|block| match block {
        Block::Section(title) => Some(title),
        _ => None,
    });
    let each: String = (1..)
        .zip(titles)
        .map(|(number, title)| format!("<li><a href=\"#s{number}\">{}</a></li>\n", escaped(title)))
        .collect();
    if each.is_empty() {
        return each;
    }
    format!("<nav aria-label=\"Contents\">\n<ol>\n{each}</ol>\n</nav>\n")
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
            Block::Section(title) => self.section(title),
            Block::Figure(figure) => self.figure(figure),
            Block::Listing(listing) => self.listing(listing),
        }
    }

    fn page(&mut self, title: &str) {
        self.leave();
        self.inside = Some("article");
        self.out.push_str("<article>\n");
        self.line("h2", "", title);
    }

    fn section(&mut self, title: &str) {
        self.leave();
        self.inside = Some("section");
        let contents = std::mem::take(&mut self.contents);
        self.out.push_str(&contents);
        self.sections += 1;
        let number = self.sections;
        self.out.push_str(&format!("<section class=\"part\" id=\"s{number}\">\n"));
        self.line("h2", "", title);
    }

    /// Closes the page or section that stands open.
    fn leave(&mut self) {
        self.close();
        if let Some(element) = self.inside.take() {
            self.out.push_str(&format!("</{element}>\n"));
        }
    }

    fn figure(&mut self, figure: &Figure) {
        self.close();
        self.figures += 1;
        let class = if figure.beside { " class=\"beside\"" } else { "" };
        self.out.push_str(&format!("<figure{class}>\n"));
        self.line("figcaption", "", &figure.title);
        self.out.push_str("<div class=\"drawn\">\n");
        self.out.push_str(&svg(&figure.picture, self.figures, &figure.title, &figure.alt));
        self.out.push_str("</div>\n<div class=\"notes\">\n");
        for note in &figure.notes {
            self.line("p", "", note);
        }
        self.out.push_str("</div>\n</figure>\n");
    }

    /// Writes a file folded away: it is on the page to be looked up, and not on paper.
    fn listing(&mut self, listing: &Listing) {
        self.close();
        let (title, text) = (escaped(&listing.title), escaped_lines(&listing.text));
        self.out.push_str(&format!("<details>\n<summary>{title}</summary>\n<pre>{text}</pre>\n</details>\n"));
    }

    fn heading(&mut self, tone: Tone, text: &str) {
        self.close();
        let level = match (self.titled, self.inside) {
            (false, None) => "h1",
            (true, None) => "h2",
            (_, Some(_)) => "h3",
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
                // a name that is longer than this is broken, or the table would not fit on the sheet
                let long = column.align != Align::Right && cell.chars().count() > WHOLE;
                let side = if long { " class=\"long\"" } else { side(column.align) };
                let cell = escaped(cell);
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
                let head = row.iter().position(|field| matches!(field, Field::Said(_)));
                for (at, field) in row.iter().enumerate() {
                    self.out.push_str(&match field {
                        Field::Said(text) => {
                            let long = if text.chars().count() > WHOLE { " long" } else { "" };
                            let (open, close) = match head == Some(at) {
                                true => ("th scope=\"row\"", "th"),
                                false => ("td", "td"),
                            };
                            format!("<{open} class=\"said{long}\">{}</{close}>", escaped(text))
                        }
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
