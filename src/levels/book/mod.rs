//! The level notes as a level book: rows in reading order, misclosure shared equally by setup, the book's checks.
//!
//! A book runs forward: a setup stands on a point that has an elevation already (`run`).
//! Setups that hang on each other are a section, which closes on a benchmark or back on
//! its first point (`sections`). The checks (`checks`) start again from the finished rows.
//! All of it is whole nanometres; no float is needed.

#[cfg(test)]
mod by_hand;
mod checks;
#[cfg(test)]
mod properties;
#[cfg(test)]
mod published;
mod run;
#[cfg(test)]
mod sample;
mod sections;

pub use checks::{BookCheck, BookSums, CheckKind};
pub use sections::BookSection;

use self::run::Run;
use self::sections::Shared;
use super::observation::rise;
use crate::length::Length;
use crate::model::{Job, SightKind};

/// A level book.
#[derive(Clone, Debug)]
pub struct Book {
    /// Its rows, one a sight, in the order of reading.
    pub rows: Vec<BookRow>,
    /// Its sections, in the order of their first setups.
    pub sections: Vec<BookSection>,
    /// The sums of each section.
    pub sums: Vec<BookSums>,
    /// Its checks, section by section.
    pub checks: Vec<BookCheck>,
    /// The point at 0, an index into [`crate::model::Readings::points`]: where no benchmark is given, the one the book starts on.
    pub zero: Option<usize>,
    /// The setups that stand on no point with an elevation, in the order of reading.
    pub not_reached: Vec<usize>,
}

/// One row of a level book.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BookRow {
    /// Its setup, an index into [`crate::model::Readings::setups`].
    pub setup: usize,
    /// Its point, an index into [`crate::model::Readings::points`].
    pub point: usize,
    /// The kind of sight it was marked as.
    pub marked: SightKind,
    /// The kind of sight it was used as: a setup that was reached has one backsight and at most one foresight.
    pub sight: SightKind,
    /// The reading as it was written.
    pub reading: Length,
    /// What the row comes to; none where its setup was not reached.
    pub booked: Option<Booked>,
}

/// What a row of a level book comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Booked {
    /// The height of instrument of its setup.
    pub line: Length,
    /// The elevation of its point, as it was carried.
    pub elevation: Length,
    /// The correction of its point: that of its setup, for a backsight that of the setup that gave the point.
    pub correction: Length,
}

impl Booked {
    /// Gives the adjusted elevation.
    #[must_use]
    pub fn adjusted(&self) -> Length {
        self.elevation + self.correction
    }
}

impl Book {
    /// Tells whether every row has an elevation and every check holds.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.not_reached.is_empty() && self.checks.iter().all(|check| check.holds)
    }
}

/// Books the level notes of a job.
///
/// Benchmarks are held as they are given. Without one, the first backsight starts at 0, and a foresight back
/// on its point closes like one on a benchmark. Elevations and differences that were measured otherwise,
/// instruments and curvature do not enter.
#[must_use]
pub fn level_book(job: &Job) -> Book {
    let readings = &job.readings;
    let run = Run::of(readings);
    let shared = Shared::of(readings, &run);
    let row = |(index, sight): (usize, &crate::model::Sight)| {
        let standing = run.standing(sight.setup);
        let booked = standing.map(|it| Booked {
            line: it.line,
            elevation: it.line + rise(readings.sense, sight.reading),
            correction: if it.base == index { shared.under(sight.setup) } else { shared.at(sight.setup) },
        });
        let used = match standing {
            None => sight.kind,
            Some(it) if it.base == index => SightKind::Back,
            Some(_) if shared.fore(sight.setup) == Some(index) => SightKind::Fore,
            Some(_) => SightKind::Intermediate,
        };
        BookRow {
            setup: sight.setup,
            point: sight.point,
            marked: sight.kind,
            sight: used,
            reading: sight.reading,
            booked,
        }
    };
    let rows: Vec<BookRow> = readings.sights.iter().enumerate().map(row).collect();
    let (sums, checks) = checks::of(&rows, &shared.sections, readings.setups.len(), readings.sense);
    Book { rows, sections: shared.sections, sums, checks, zero: run.zero(), not_reached: run.not_reached() }
}
