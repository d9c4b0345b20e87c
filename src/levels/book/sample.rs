//! Level books that are asked by the names of their points, for the tests.

use super::{Book, BookRow, level_book};
use crate::length::{Bare, Length, Unit, read};
use crate::levels::tests::sample::Notes;
use crate::model::Job;

/// A level book with the notes it was made of.
pub(super) struct Page {
    pub(super) book: Book,
    pub(super) job: Job,
    unit: Unit,
}

impl Page {
    pub(super) fn of(unit: Unit, notes: &Notes) -> Self {
        let job = notes.job();
        Self { book: level_book(&job), job, unit }
    }

    pub(super) fn nm(&self, text: &str) -> Length {
        read(text, Bare::of(self.unit)).unwrap()
    }

    fn name(&self, point: usize) -> &str {
        &self.job.readings.points[point]
    }

    pub(super) fn row(&self, number: usize) -> &BookRow {
        &self.book.rows[number]
    }

    /// Gives each row's setup, point and sight as used, with `was` where it was marked otherwise.
    pub(super) fn sights(&self) -> Vec<String> {
        let rows = self.book.rows.iter();
        rows.map(|row| {
            let was = if row.marked == row.sight { "" } else { " was " };
            let marked = if row.marked == row.sight { "" } else { row.marked.short() };
            let setup = &self.job.readings.setups[row.setup].name;
            format!("{setup} {} {}{was}{marked}", self.name(row.point), row.sight.short())
        })
        .collect()
    }

    /// Holds one column against what is expected, row by row; `?` is a row that was not reached.
    fn assert_column(&self, what: &str, expected: &str, of: impl Fn(&BookRow) -> Option<Length>) {
        let expected: Vec<&str> = expected.split_whitespace().collect();
        assert_eq!(expected.len(), self.book.rows.len(), "{what}: as many as there are rows");
        for (number, (row, expected)) in self.book.rows.iter().zip(expected).enumerate() {
            let wanted = (expected != "?").then(|| self.nm(expected));
            assert_eq!(of(row), wanted, "{what} of row {number}, {}", self.name(row.point));
        }
    }

    pub(super) fn assert_lines(&self, expected: &str) {
        self.assert_column("line", expected, |row| row.booked.map(|it| it.line));
    }

    pub(super) fn assert_elevations(&self, expected: &str) {
        self.assert_column("elevation", expected, |row| row.booked.map(|it| it.elevation));
    }

    pub(super) fn assert_corrections(&self, expected: &str) {
        self.assert_column("correction", expected, |row| row.booked.map(|it| it.correction));
    }

    pub(super) fn assert_adjusted(&self, expected: &str) {
        self.assert_column("adjusted", expected, |row| row.booked.map(|it| it.adjusted()));
    }

    /// Gives each section: from, to, setups, and the misclosure or `open`.
    pub(super) fn sections(&self) -> Vec<String> {
        let sections = self.book.sections.iter();
        sections
            .map(|it| {
                let to = it.to.map_or("nowhere", |to| self.name(to));
                let closed = it.misclosure.map_or("open".to_owned(), |it| it.nm().to_string());
                format!("{} to {to}, {} setups, {closed}", self.name(it.from), it.setups.len())
            })
            .collect()
    }

    /// Holds the sums of backsights, intermediate sights and foresights of the first section against what is expected.
    pub(super) fn assert_sums(&self, expected: &str) {
        let expected: Vec<_> = expected.split_whitespace().map(|text| self.nm(text)).collect();
        let sums = self.book.sums[0];
        assert_eq!(vec![sums.back, sums.intermediate, sums.fore], expected);
    }

    /// Holds the sides of the checks of the first section against what is expected, and all checks for good.
    pub(super) fn assert_checks(&self, expected: &[&str]) {
        assert!(self.book.is_whole(), "{:?}", self.book.checks);
        let first: Vec<_> = self.book.checks.iter().filter(|it| it.section == 0).collect();
        let expected: Vec<_> = expected.iter().map(|text| self.nm(text)).collect();
        assert_eq!(first.iter().map(|it| it.left).collect::<Vec<_>>(), expected);
        assert_eq!(first.iter().map(|it| it.right).collect::<Vec<_>>(), expected);
    }
}
