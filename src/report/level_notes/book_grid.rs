//! The rows of a level book on a screen: one table where it fits, else its readings in one column, else two tables.

use super::book_names::{point, setup};
use crate::check::style;
use crate::length::Length;
use crate::levels::{Book, BookRow};
use crate::model::{Job, SightKind};
use crate::report::document::{Align, Document, Tone};
use crate::text::AsRead;

/// The width of a screen.
const WIDTH: usize = 80;

/// Most characters of a name that are never broken.
const NAME: usize = 10;

/// How the numbers of a book are written.
#[derive(Clone, Copy)]
pub(in crate::report) struct Numbers {
    read: AsRead,
    shared: AsRead,
}

impl Numbers {
    /// Chooses what writes the readings of a job exactly, and what its corrections need.
    pub(in crate::report) fn of(job: &Job, book: &Book) -> Self {
        let readings: Vec<Length> = book.rows.iter().map(|row| row.reading).collect();
        let booked = || book.rows.iter().filter_map(|row| row.booked);
        let carried = booked().flat_map(|it| [it.line, it.elevation]);
        let all: Vec<Length> = readings.iter().copied().chain(carried).collect();
        // a benchmark may have more digits than the readings, or a unit of its own
        let of = |lengths: &[Length]| AsRead::of(job.readings.unit, style(job), lengths);
        let read = Some(of(&all)).filter(|it| it.is_exact(&all)).unwrap_or_else(|| of(&readings));
        let shares: Vec<Length> =
            booked().map(|it| it.correction).chain(booked().map(|it| it.adjusted())).collect();
        Self { read, shared: read.finer(&shares) }
    }

    /// Names the unit.
    pub(in crate::report) const fn unit(self) -> &'static str {
        self.read.unit_words()
    }

    /// Writes a reading, or what is sums of readings.
    pub(in crate::report) fn reading(self, length: Length) -> String {
        self.read.write(length)
    }

    /// Writes a correction or a misclosure.
    pub(in crate::report) fn correction(self, length: Length) -> String {
        self.shared.signed(length)
    }

    /// Writes an adjusted elevation.
    pub(in crate::report) fn share(self, length: Length) -> String {
        self.shared.write(length)
    }
}

/// What stands in a column.
#[derive(Clone, Copy, PartialEq, Eq)]
enum ColumnKind {
    Name,
    Word,
    Number,
}

/// One column of the page.
struct Column {
    head: &'static str,
    kind: ColumnKind,
    cells: Vec<String>,
}

impl Column {
    fn width(&self) -> usize {
        let cells = self.cells.iter().map(|cell| cell.chars().count()).max().unwrap_or(0);
        let cells = if self.kind == ColumnKind::Name { cells.min(NAME) } else { cells };
        cells.max(self.head.len()) + 2
    }

    fn align(&self) -> Align {
        let long = self.cells.iter().any(|cell| cell.chars().count() > NAME);
        match self.kind {
            ColumnKind::Name if long => Align::Wrap,
            ColumnKind::Name | ColumnKind::Word => Align::Left,
            ColumnKind::Number => Align::Right,
        }
    }
}

/// Adds the rows.
pub(in crate::report) fn page(document: &mut Document, job: &Job, book: &Book, numbers: Numbers) {
    let mut before = None;
    let setups = book.rows.iter().map(|row| {
        // a setup is named where it begins
        let again = before.replace(row.setup) == Some(row.setup);
        if again { String::new() } else { setup(job, row.setup).to_owned() }
    });
    let setups = Column { head: "setup", kind: ColumnKind::Name, cells: setups.collect() };
    let column = |head: &'static str, cell: &dyn Fn(&BookRow) -> String| Column {
        head,
        kind: ColumnKind::Number,
        cells: book.rows.iter().map(cell).collect(),
    };
    let points =
        Column { kind: ColumnKind::Name, ..column("point", &|row| point(job, row.point).to_owned()) };
    let sight = |kind: SightKind| {
        let cell = move |row: &BookRow| match row.sight == kind {
            true => numbers.reading(row.reading),
            false => String::new(),
        };
        column(kind.short(), &cell)
    };
    let known = |length: Option<Length>| length.map_or("?".to_owned(), |it| numbers.reading(it));
    let line = column("HI", &|row| match row.sight {
        SightKind::Back => known(row.booked.map(|it| it.line)),
        SightKind::Intermediate | SightKind::Fore => String::new(),
    });
    let elevation = column("elevation", &|row| known(row.booked.map(|it| it.elevation)));
    let correction =
        column("corr.", &|row| row.booked.map_or("?".to_owned(), |it| numbers.correction(it.correction)));
    let adjusted =
        column("adjusted", &|row| row.booked.map_or("?".to_owned(), |it| numbers.share(it.adjusted())));
    let heights = [&elevation, &correction, &adjusted];

    let sights = [SightKind::Back, SightKind::Intermediate, SightKind::Fore].map(sight);
    let wide: Vec<&Column> =
        [&setups, &points].into_iter().chain(&sights).chain([&line]).chain(heights).collect();
    if fits(&wide) {
        return grid(document, &wide);
    }
    let kind = Column { kind: ColumnKind::Word, ..column("sight", &|row| row.sight.short().to_owned()) };
    let reading = column("reading", &|row| numbers.reading(row.reading));
    let narrow: Vec<&Column> =
        [&setups, &points, &kind, &reading, &line].into_iter().chain(heights).collect();
    if fits(&narrow) {
        return grid(document, &narrow);
    }
    document.text(Tone::Plain, "Readings:");
    grid(document, &[&setups, &points, &kind, &reading, &line]);
    document.text(Tone::Plain, "Elevations:");
    grid(document, &[&setups, &points, &elevation, &correction, &adjusted]);
}

fn fits(columns: &[&Column]) -> bool {
    columns.iter().map(|column| column.width()).sum::<usize>() <= WIDTH
}

fn grid(document: &mut Document, columns: &[&Column]) {
    let heads: Vec<(&'static str, Align)> =
        columns.iter().map(|column| (column.head, column.align())).collect();
    let count = columns.first().map_or(0, |column| column.cells.len());
    let cell = |column: &&Column, row: usize| column.cells.get(row).cloned().unwrap_or_default();
    let rows = (0..count).map(|row| columns.iter().map(|column| cell(column, row)).collect());
    document.grid(&heads, rows.collect());
}
