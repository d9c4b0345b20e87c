//! The spot of a reading: the pad itself, the top of a rod, or another place on the pad.

use super::columns::Roster;
use super::context::Context;
use super::data_table::Cell;
use super::points::{Marks, Points};
use crate::model::{RodLabel, Spot, SpotKind};
use crate::source::{Place, Problem};
use crate::text::quoted;
use std::collections::{BTreeMap, BTreeSet};

/// Reads what a spot is; none is the pad itself.
pub(super) fn kind(context: Context<'_>, cell: &Cell) -> Option<Option<SpotKind>> {
    let word = cell.text.split_whitespace().collect::<Vec<_>>().join(" ");
    if word.is_empty() || word.eq_ignore_ascii_case("pad") {
        return Some(None);
    }
    let lower = word.to_lowercase();
    if lower != "rod" && !lower.starts_with("rod ") {
        return Some(Some(SpotKind::Place(context.name(&word, cell.place)?)));
    }
    let label = lower.strip_prefix("rod ").and_then(rod_label);
    if label.is_none() {
        context.note(
            Problem::at(cell.place, format!("{}: which rod is this?", quoted(&cell.text)))
                .fix("write rod and its number, such as rod 2, or rod low or rod high"),
        );
    }
    label.map(|label| Some(SpotKind::Rod(label)))
}

/// Reads which rod a word in small letters means: `low`, `high` or a number from 1.
pub(super) fn rod_label(word: &str) -> Option<RodLabel> {
    match word {
        "low" => Some(RodLabel::Low),
        "high" => Some(RodLabel::High),
        number if number.chars().all(|c| c.is_ascii_digit()) => {
            number.parse().ok().filter(|number| *number > 0).map(RodLabel::Number)
        }
        _ => None,
    }
}

/// The spots of a job, each a point of its own.
#[derive(Default)]
pub(super) struct Spots {
    found: Vec<Spot>,
    by_column: BTreeMap<(usize, String), usize>,
    rods: BTreeMap<usize, Vec<(RodLabel, Place)>>,
    unread: Vec<(usize, SpotKind)>,
}

impl Spots {
    /// Gives the point of a spot of a column, a new one where it was not named before; none where the mark is no column.
    pub(super) fn number(
        &mut self,
        context: Context<'_>,
        (name, what): (&str, SpotKind),
        cell: &Cell,
        (roster, marks): (&mut Roster, &Marks),
        points: &mut Points,
    ) -> Option<usize> {
        let Some(column) = roster.get(name) else {
            if marks.has(name) {
                context.note(
                    Problem::at(
                        cell.place,
                        format!("{} is a benchmark, and a spot belongs to a column", quoted(name)),
                    )
                    .fix("leave the spot blank, or write the mark of the column"),
                );
            } else if !roster.broken {
                roster.stranger(context, name, cell.place);
            }
            return None;
        };
        Some(self.of_column((column, name), (what, cell.place), points))
    }

    /// Gives the point of a spot of a column that is known, a new one where it was not named before.
    pub(super) fn of_column(
        &mut self,
        (column, name): (usize, &str),
        (what, place): (SpotKind, Place),
        points: &mut Points,
    ) -> usize {
        let word = what.to_string();
        let key = (column, word.to_lowercase());
        if let Some(point) = self.by_column.get(&key) {
            return *point;
        }
        if matches!(what, SpotKind::Place(_)) {
            // the pad has a height by its spots, whether it is read itself or not
            points.number(name);
        }
        if let SpotKind::Rod(label) = what {
            self.rods.entry(column).or_default().push((label, place));
        }
        let point = points.fresh(&format!("{name} {word}"));
        self.by_column.insert(key, point);
        self.found.push(Spot { point, column, what });
        point
    }

    /// Gives the rods of a column whose tops were read, each with the place where it is named first.
    pub(super) fn rods(&self, column: usize) -> &[(RodLabel, Place)] {
        self.rods.get(&column).map_or(&[], Vec::as_slice)
    }

    /// Takes a spot of a column that is named without a reading.
    pub(super) fn without_reading(&mut self, column: usize, what: SpotKind, place: Place) {
        if let SpotKind::Rod(label) = what {
            self.rods.entry(column).or_default().push((label, place));
        }
        self.unread.push((column, what));
    }

    /// Gives the spots in the order of reading, and those that were named and never read.
    pub(super) fn finish(self) -> (Vec<Spot>, Vec<(usize, SpotKind)>) {
        let mut named = BTreeSet::new();
        let never = self.unread.into_iter().filter(|(column, what)| {
            let key = (*column, what.to_string().to_lowercase());
            !self.by_column.contains_key(&key) && named.insert(key)
        });
        (self.found, never.collect())
    }
}
