//! The checks of a level book, worked out again from its finished rows.

use super::{BookRow, BookSection, Booked};
use crate::length::Length;
use crate::model::{Sense, SightKind};

/// One check of one section, both its sides exact.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BookCheck {
    /// The section, an index into [`super::Book::sections`].
    pub section: usize,
    /// What is compared.
    pub kind: CheckKind,
    /// One side.
    pub left: Length,
    /// The other side.
    pub right: Length,
    /// Whether both sides are the same; anything else is a fault of the book, not of the crew.
    pub holds: bool,
}

/// The sums of one section, as they stand under the columns of a book.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct BookSums {
    /// Backsights; that of a last setup that only stands and carries nothing on is left out.
    pub back: Length,
    /// Intermediate sights.
    pub intermediate: Length,
    /// Foresights.
    pub fore: Length,
    /// Rises from reading to reading.
    pub rises: Length,
    /// Falls from reading to reading.
    pub falls: Length,
}

/// What a check of a level book compares.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CheckKind {
    /// Sum of backsights less sum of foresights, and last less first elevation.
    ///
    /// Readings that count as heights take foresights less backsights.
    Sights,
    /// Sum of rises less sum of falls, and last less first elevation.
    Rises,
    /// Sum of intermediate sights, foresights and all elevations but the first, and the sum over setups of the
    /// height of instrument times the points taken from it.
    ///
    /// Readings that count as heights are taken off the elevations.
    ///
    /// # Source
    /// Teaching presentation "Levelling (continued)"; its example has 68.246 on both sides.
    Intermediate,
    /// The adjusted elevation of the last point, and the elevation it closes on.
    Closing,
}

/// Sums and checks every section.
pub(super) fn of(
    rows: &[BookRow],
    sections: &[BookSection],
    setups: usize,
    sense: Sense,
) -> (Vec<BookSums>, Vec<BookCheck>) {
    let mut by_setup: Vec<Vec<&BookRow>> = vec![Vec::new(); setups];
    for row in rows {
        if let Some(place) = by_setup.get_mut(row.setup) {
            place.push(row);
        }
    }
    let mut sums = Vec::new();
    let mut checks = Vec::new();
    for (number, section) in sections.iter().enumerate() {
        let mut page = Page::default();
        for setup in &section.setups {
            page.add(by_setup.get(*setup).map_or(&[], Vec::as_slice), sense);
        }
        sums.push(page.sums());
        checks.extend(page.checks(number, section, sense));
    }
    (sums, checks)
}

/// The sums of one section, in nanometres; no sum of lengths outgrows them.
#[derive(Default)]
struct Page {
    back: i128,
    intermediate: i128,
    fore: i128,
    rises: i128,
    falls: i128,
    /// All elevations but the first.
    elevations: i128,
    /// The line of each setup times the points read from it.
    by_line: i128,
    /// The first elevation, and the last row.
    ends: Option<(i128, Booked)>,
}

impl Page {
    /// Adds the rows of the next setup.
    fn add(&mut self, rows: &[&BookRow], sense: Sense) {
        let of = |kind: SightKind| {
            let row = rows.iter().find(|row| row.sight == kind)?;
            Some((nm(row.reading), row.booked?))
        };
        let Some((back, first)) = of(SightKind::Back) else { return };
        let fore = of(SightKind::Fore);
        let start = self.ends.map_or(nm(first.elevation), |(start, _)| start);
        self.ends = Some((start, fore.map_or(first, |(_, booked)| booked)));
        let between = || rows.iter().filter(|row| row.sight == SightKind::Intermediate);
        self.intermediate += between().map(|row| nm(row.reading)).sum::<i128>();
        if let Some((fore, _)) = fore {
            self.back += back;
            self.fore += fore;
            // from reading to reading, the foresight last
            let mut last = back;
            for reading in between().map(|row| nm(row.reading)).chain([fore]) {
                let rise = match sense {
                    Sense::Rod => last - reading,
                    Sense::Height => reading - last,
                };
                self.rises += rise.max(0);
                self.falls += (-rise).max(0);
                last = reading;
            }
        }
        for booked in rows.iter().filter(|row| row.sight != SightKind::Back).filter_map(|row| row.booked) {
            self.elevations += nm(booked.elevation);
            self.by_line += nm(first.line);
        }
    }

    fn sums(&self) -> BookSums {
        BookSums {
            back: length(self.back),
            intermediate: length(self.intermediate),
            fore: length(self.fore),
            rises: length(self.rises),
            falls: length(self.falls),
        }
    }

    fn checks(&self, section: usize, about: &BookSection, sense: Sense) -> Vec<BookCheck> {
        let Some((start, end)) = self.ends else { return Vec::new() };
        let difference = nm(end.elevation) - start;
        let sights = self.intermediate + self.fore;
        let (carried, taken) = match sense {
            Sense::Rod => (self.back - self.fore, self.elevations + sights),
            Sense::Height => (self.fore - self.back, self.elevations - sights),
        };
        let closing = about.known.map(|known| (CheckKind::Closing, nm(end.adjusted()), nm(known)));
        let all = [
            (CheckKind::Sights, carried, difference),
            (CheckKind::Rises, self.rises - self.falls, difference),
            (CheckKind::Intermediate, taken, self.by_line),
        ];
        let all = all.into_iter().chain(closing);
        all.map(|(kind, left, right)| BookCheck {
            section,
            kind,
            left: length(left),
            right: length(right),
            holds: left == right,
        })
        .collect()
    }
}

fn nm(length: Length) -> i128 {
    i128::from(length.nm())
}

/// Takes a sum as a length; one that is too long for it stands at its end, and `holds` was told before.
fn length(nm: i128) -> Length {
    let end = if nm < 0 { i64::MIN } else { i64::MAX };
    Length::from_nm(i64::try_from(nm).unwrap_or(end))
}
