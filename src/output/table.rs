//! A screen of 80 columns; colour only beside words, taken off again where it is not wanted.

use super::boxes::as_grid;
use crate::report::{Align, Answer, Block, Figure, Form, Grid, Tone};
use anstyle::{AnsiColor, Style};
use comfy_table::{Cell, CellAlignment, ColumnConstraint, ContentArrangement, Table, presets};

/// The width of a screen.
const WIDTH: usize = 80;

/// Writes an answer as a screen, with colours; the printer strips them where they do not belong.
#[must_use]
pub fn table(answer: &Answer) -> String {
    let mut out = String::new();
    for block in &answer.document.blocks {
        match block {
            Block::Gap => out.push('\n'),
            Block::Heading(tone, text) => lines(&mut out, style(*tone).bold(), &wrap(text, WIDTH), ""),
            Block::Text(tone, text) => lines(&mut out, style(*tone), &wrap(text, WIDTH), ""),
            Block::Item(tone, name, text) => item(&mut out, *tone, name, text),
            Block::Grid(grid) => out.push_str(&grid_text(grid)),
            Block::Page(title) => {
                lines(&mut out, Style::new(), &["=".repeat(WIDTH)], "");
                lines(&mut out, Style::new().bold(), &wrap(title, WIDTH), "");
            }
            Block::Form(form) => self::form(&mut out, form),
            Block::Boxes(boxes) => out.push_str(&grid_text(&as_grid(boxes, "________"))),
            Block::Section(title) => {
                lines(&mut out, Style::new(), &["-".repeat(WIDTH)], "");
                lines(&mut out, Style::new().bold(), &wrap(title, WIDTH), "");
            }
            Block::Figure(figure) if figure.only_drawn => {}
            Block::Figure(figure) => self::figure(&mut out, figure),
            Block::Listing(listing) => lines(&mut out, style(Tone::Quiet), &wrap(&listing.title, WIDTH), ""),
        }
    }
    out
}

/// Writes what a drawing shows; the drawing itself is for the page.
fn figure(out: &mut String, figure: &Figure) {
    lines(out, Style::new().bold(), &wrap(&format!("Drawing: {}", figure.title), WIDTH), "");
    lines(out, Style::new(), &wrap(&figure.alt, WIDTH), "");
    for note in &figure.notes {
        lines(out, style(Tone::Quiet), &wrap(note, WIDTH), "");
    }
}

fn style(tone: Tone) -> Style {
    match tone {
        Tone::Plain => Style::new(),
        Tone::Good => AnsiColor::Green.on_default(),
        Tone::Stop => AnsiColor::Red.on_default(),
        Tone::Ask => AnsiColor::Yellow.on_default(),
        Tone::Quiet => Style::new().dimmed(),
    }
}

fn lines(out: &mut String, style: Style, wrapped: &[String], indent: &str) {
    for line in wrapped {
        out.push_str(&format!("{indent}{style}{line}{style:#}\n"));
    }
}

/// Writes a name and its text, the text hanging behind the name.
fn item(out: &mut String, tone: Tone, name: &str, text: &str) {
    let style = style(tone);
    let lead = name.chars().count().max(match name {
        "-" | " " => 1,
        _ => 6,
    });
    // a long name gets a line of its own
    let (hang, own_line) = if lead > 24 { (6, true) } else { (lead, false) };
    let wrapped = wrap(text, WIDTH - hang - 4);
    if own_line {
        out.push_str(&format!("  {style}{name}{style:#}\n"));
    }
    for (at, line) in wrapped.iter().enumerate() {
        let head = if at == 0 && !own_line { name } else { "" };
        let pad = " ".repeat(hang.saturating_sub(head.chars().count()));
        out.push_str(&format!("  {style}{head}{style:#}{pad}  {line}\n"));
    }
}

/// Writes a box for an answer: what can be ticked, then lines to write on.
fn form(out: &mut String, form: &Form) {
    lines(out, Style::new().bold(), &wrap(&form.title, WIDTH), "");
    lines(out, Style::new(), &wrap(&form.question, WIDTH), "");
    for tick in &form.ticks {
        item(out, Tone::Plain, "[ ]", tick);
    }
    let widest = form.lines.iter().map(|(label, _)| label.chars().count()).max().unwrap_or(0);
    for (label, number) in &form.lines {
        for at in 0..*number {
            let label = if at == 0 { label } else { "" };
            let rule = "_".repeat(WIDTH.saturating_sub(widest + 4));
            out.push_str(&format!("\n  {label:widest$}  {rule}\n"));
        }
    }
    out.push('\n');
    lines(out, style(Tone::Quiet), &wrap(&form.foot, WIDTH), "");
}

fn grid_text(grid: &Grid) -> String {
    let mut table = Table::new();
    table.load_style(presets::NOTHING).set_content_arrangement(ContentArrangement::Dynamic);
    table.set_width(u16::try_from(WIDTH).unwrap_or(u16::MAX));
    let aligned = |text: &str, align: Align| {
        let alignment = match align {
            Align::Right => CellAlignment::Right,
            Align::Left | Align::Wrap => CellAlignment::Left,
        };
        Cell::new(text).set_alignment(alignment)
    };
    // a table without heads has no head row
    if grid.columns.iter().any(|column| !column.head.is_empty()) {
        table.add_row(grid.columns.iter().map(|column| aligned(column.head, column.align)));
        table.add_row(grid.columns.iter().enumerate().map(|(at, column)| {
            let widest =
                grid.rows.iter().filter_map(|row| row.get(at)).map(|cell| cell.chars().count()).max();
            let head = column.head.chars().count();
            // a column that may be broken is underlined no wider than its head, or the line would break too
            let width = match column.align {
                Align::Wrap => head,
                Align::Left | Align::Right => widest.unwrap_or(0).max(head).min(28),
            };
            aligned(&"-".repeat(width), column.align)
        }));
    }
    for row in &grid.rows {
        table.add_row(grid.columns.iter().zip(row).map(|(column, cell)| aligned(cell, column.align)));
    }
    for (at, column) in grid.columns.iter().enumerate() {
        if let (Some(found), true) = (table.column_mut(at), column.align != Align::Wrap) {
            found.set_constraint(ColumnConstraint::ContentWidth);
        }
    }
    let mut text: String = table.lines().map(|line| format!("{}\n", line.trim_end())).collect();
    if text.is_empty() {
        text.push('\n');
    }
    text
}

/// Breaks a text at blanks; a word longer than a line is broken where it must be.
fn wrap(text: &str, width: usize) -> Vec<String> {
    let width = width.max(1);
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        let used = line.chars().count();
        let gap = usize::from(used > 0);
        if used + gap + word.chars().count() <= width {
            line.push_str(if gap == 1 { " " } else { "" });
            line.push_str(word);
            continue;
        }
        if gap == 1 {
            lines.push(std::mem::take(&mut line));
        }
        for c in word.chars() {
            if line.chars().count() == width {
                lines.push(std::mem::take(&mut line));
            }
            line.push(c);
        }
    }
    lines.push(line);
    lines
}

#[cfg(test)]
mod tests {
    use super::wrap;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn no_wrapped_line_is_wider_than_asked_and_no_word_is_lost(text in "[a-z ]{0,200}", width in 1_usize..40) {
            let wrapped = wrap(&text, width);
            prop_assert!(wrapped.iter().all(|line| line.chars().count() <= width));
            let squeeze = |text: &str| text.chars().filter(|c| !c.is_whitespace()).collect::<String>();
            prop_assert_eq!(squeeze(&wrapped.concat()), squeeze(&text));
        }
    }
}
