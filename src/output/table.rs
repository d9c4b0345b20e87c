//! A screen of 80 columns; colour only beside words, taken off again where it is not wanted.

use super::boxes::as_grid;
use crate::report::{Align, Answer, Block, Figure, Form, Grid, Tone};
use anstyle::{AnsiColor, Style};
use comfy_table::{Cell, CellAlignment, ColumnConstraint, ContentArrangement, Table, Width, presets};

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
    let text = drawn(grid, false);
    let is_rule = |line: &&str| line.contains('-') && line.chars().all(|c| matches!(c, '-' | ' '));
    // where a rule is broken over two lines, it is drawn shorter
    if text.lines().filter(is_rule).nth(1).is_some() { drawn(grid, true) } else { text }
}

fn drawn(grid: &Grid, short_rules: bool) -> String {
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
    let widths = widths(grid);
    // a table without heads has no head row
    if grid.columns.iter().any(|column| !column.head.is_empty()) {
        table.add_row(grid.columns.iter().map(|column| aligned(column.head, column.align)));
        table.add_row(grid.columns.iter().zip(&widths).map(|(column, width)| {
            // a column that may be broken is underlined no wider than its longest word, or the line would break too
            let rule = match width {
                Wide::Whole(widest) => (*widest).min(28),
                Wide::Words(word) if short_rules => column.head.chars().count().min(*word),
                Wide::Words(_) | Wide::Any => column.head.chars().count(),
            };
            aligned(&"-".repeat(rule), column.align)
        }));
    }
    for row in &grid.rows {
        table.add_row(grid.columns.iter().zip(row).map(|(column, cell)| aligned(cell, column.align)));
    }
    for (at, width) in widths.iter().enumerate() {
        let Some(found) = table.column_mut(at) else { continue };
        match width {
            Wide::Whole(_) => found.set_constraint(ColumnConstraint::ContentWidth),
            Wide::Words(word) => {
                let least = u16::try_from(word + PADDING).unwrap_or(u16::MAX);
                found.set_constraint(ColumnConstraint::LowerBoundary(Width::Fixed(least)))
            }
            Wide::Any => continue,
        };
    }
    let mut text: String = table.lines().map(|line| format!("{}\n", line.trim_end())).collect();
    if text.is_empty() {
        text.push('\n');
    }
    text
}

/// How wide a column must be.
#[derive(Clone, Copy)]
enum Wide {
    /// As wide as its widest cell.
    Whole(usize),
    /// As its longest word at least: a fraction that is broken reads as another number.
    Words(usize),
    /// As comes; words may break.
    Any,
}

/// A longer word, a mark of somebody's own, may break where there is no room.
const LONG_WORD: usize = 20;

/// Blanks beside every column.
const PADDING: usize = 2;

/// Tells how wide every column must be: those that may be broken are broken between words as long as that leaves room,
/// then the others are too, and only then words.
fn widths(grid: &Grid) -> Vec<Wide> {
    let chars = |text: &str| text.chars().count();
    let words = |text: &str| text.split_whitespace().map(chars).max().unwrap_or(0);
    let most = |at: usize, of: &dyn Fn(&str) -> usize| {
        let cells = grid.rows.iter().filter_map(|row| row.get(at)).map(|cell| of(cell));
        cells.chain(grid.columns.get(at).map(|column| of(column.head))).max().unwrap_or(0)
    };
    let each = || grid.columns.iter().enumerate();
    let whole: Vec<usize> = each().map(|(at, _)| most(at, &chars)).collect();
    let word: Vec<usize> = each().map(|(at, _)| most(at, &words).min(LONG_WORD)).collect();
    let wraps = |at: usize| grid.columns.get(at).is_some_and(|column| column.align == Align::Wrap);
    let pick = |at: usize, from: &[usize]| from.get(at).copied().unwrap_or(0);
    // blanks behind the last column are not written
    let fits = |of: &dyn Fn(usize) -> usize| each().map(|(at, _)| of(at) + PADDING).sum::<usize>() <= WIDTH;
    let kept = |at: usize| if wraps(at) { pick(at, &word) } else { pick(at, &whole) };
    let broken = |at: usize| pick(at, &word);
    let unbroken = |at: usize| pick(at, &whole);
    let (all_fit, kept_fit, broken_fit) = (fits(&unbroken), fits(&kept), fits(&broken));
    let choose = |at: usize| match (wraps(at), pick(at, &word) < pick(at, &whole)) {
        (true, _) if all_fit || !broken_fit => Wide::Any,
        (true, _) => Wide::Words(pick(at, &word)),
        (false, true) if !kept_fit && broken_fit => Wide::Words(pick(at, &word)),
        _ => Wide::Whole(pick(at, &whole)),
    };
    each().map(|(at, _)| choose(at)).collect()
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
    use super::{WIDTH, grid_text, wrap};
    use crate::report::{Align, Column, Grid};
    use proptest::prelude::*;

    /// A bed of 1-11/16" that is broken behind 1-11/1 reads as another bed.
    #[test]
    fn a_fraction_is_never_broken_over_two_lines_where_there_is_room() {
        let heads = [
            ("column", Align::Left),
            ("base", Align::Left),
            ("under the plate", Align::Wrap),
            ("packs", Align::Wrap),
            ("shims", Align::Right),
            ("grout", Align::Right),
            ("more washers", Align::Wrap),
            ("rod, to spare", Align::Left),
            ("set", Align::Left),
        ];
        let row = [
            "B3",
            "K1",
            "grout bed 1-11/16\"",
            "4 of 3/4\" + 1/2\" + 1/8\"",
            "5.0 lb",
            "~0.222 ft3",
            "4 plate",
            "low, ~+1-15/16\"",
            "yes",
        ];
        let grid = Grid {
            columns: heads.iter().map(|(head, align)| Column { head, align: *align }).collect(),
            rows: vec![row.iter().map(ToString::to_string).collect()],
        };
        let text = grid_text(&grid);
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
        let heads = heads.iter().map(|(head, _)| *head);
        for word in row.into_iter().chain(heads).flat_map(str::split_whitespace) {
            assert!(text.split_whitespace().any(|it| it == word), "{word} is broken:\n{text}");
        }
    }

    #[test]
    fn a_very_long_mark_is_broken_and_nothing_else_and_the_screen_stays_a_screen() {
        let long = "W".repeat(60);
        let heads = [("column", Align::Left), ("pad", Align::Right), ("under the plate", Align::Wrap)];
        let rest = [("rod, to spare", Align::Left), ("more washers", Align::Wrap), ("set", Align::Left)];
        let row = [long.as_str(), "~-1-11/16\"", "grout bed 1-11/16\"", "low, ~+15/16\"", "4 plate", "yes"];
        let columns = heads.into_iter().chain(rest).map(|(head, align)| Column { head, align });
        let grid =
            Grid { columns: columns.collect(), rows: vec![row.iter().map(ToString::to_string).collect()] };
        let text = grid_text(&grid);
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
        assert_eq!(text.matches('W').count(), 60);
        for word in row.into_iter().skip(1).flat_map(str::split_whitespace) {
            assert!(text.split_whitespace().any(|it| it == word), "{word} is broken:\n{text}");
        }
    }

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
