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

/// Checks every section.
pub(super) fn of(rows: &[BookRow], sections: &[BookSection], setups: usize, sense: Sense) -> Vec<BookCheck> {
    let mut by_setup: Vec<Vec<&BookRow>> = vec![Vec::new(); setups];
    for row in rows {
        if let Some(place) = by_setup.get_mut(row.setup) {
            place.push(row);
        }
    }
    let each = sections.iter().enumerate();
    each.flat_map(|(number, section)| {
        let taken: Vec<&[&BookRow]> =
            section.setups.iter().filter_map(|it| by_setup.get(*it)).map(Vec::as_slice).collect();
        one(number, section, &taken, sense)
    })
    .collect()
}

/// Checks one section; a length is a whole number that no sum of them outgrows.
fn one(section: usize, about: &BookSection, setups: &[&[&BookRow]], sense: Sense) -> Vec<BookCheck> {
    let up = match sense {
        Sense::Rod => -1,
        Sense::Height => 1,
    };
    let mut sights = 0;
    let mut rises = 0;
    let mut taken = 0;
    let mut by_line = 0;
    let mut ends: Option<(i128, Booked)> = None;
    for rows in setups {
        let of = |kind: SightKind| rows.iter().find(|row| row.sight == kind);
        let Some((back, first)) = of(SightKind::Back).and_then(|row| Some((row, row.booked?))) else {
            continue;
        };
        let start = ends.map_or(nm(first.elevation), |(start, _)| start);
        let fore = of(SightKind::Fore).and_then(|row| Some((row, row.booked?)));
        ends = Some((start, fore.map_or(first, |(_, booked)| booked)));
        let points = rows.iter().filter(|row| row.sight != SightKind::Back);
        if let Some((fore, _)) = fore {
            sights += up * (nm(fore.reading) - nm(back.reading));
            // rise or fall from reading to reading, the foresight last
            let between = points.clone().filter(|row| row.sight == SightKind::Intermediate);
            let mut last = nm(back.reading);
            for row in between.chain([fore]) {
                rises += up * (nm(row.reading) - last);
                last = nm(row.reading);
            }
        }
        for (row, booked) in points.filter_map(|row| Some((row, row.booked?))) {
            taken += nm(booked.elevation) - up * nm(row.reading);
            by_line += nm(first.line);
        }
    }
    let Some((start, end)) = ends else { return Vec::new() };
    let difference = nm(end.elevation) - start;
    let closing = about.known.map(|known| (CheckKind::Closing, nm(end.adjusted()), nm(known)));
    let all = [
        (CheckKind::Sights, sights, difference),
        (CheckKind::Rises, rises, difference),
        (CheckKind::Intermediate, taken, by_line),
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

fn nm(length: Length) -> i128 {
    i128::from(length.nm())
}

/// Takes a sum as a length; one that is too long for it stands at its end, and `holds` was told before.
fn length(nm: i128) -> Length {
    let end = if nm < 0 { i64::MIN } else { i64::MAX };
    Length::from_nm(i64::try_from(nm).unwrap_or(end))
}
