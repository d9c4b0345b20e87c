//! How far each pad moved, and whether that is more than the readings are good to.

use crate::check::case::{Case, PadCase};
use crate::length::Length;
use crate::levels::Datum;
use crate::model::{Earlier, EarlierColumn};

/// How far a pad moved between two measurements.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Moved {
    /// Up, or down where it is less than nothing.
    pub by: Length,
    /// What that is good to, at 95 %, taking both measurements as independent; none where it is not known, or where
    /// the pad counts as not moved because the others are compared with it.
    pub plus_minus: Option<Length>,
}

impl Moved {
    /// Tells whether a pad moved more than the readings are good to; none where that is not known.
    #[must_use]
    pub fn for_sure(self) -> Option<bool> {
        Some(self.by.abs() > self.plus_minus?)
    }
}

/// A pad that both answers have.
struct Both<'e> {
    index: usize,
    pad: PadCase,
    before: Length,
    earlier: &'e EarlierColumn,
}

impl Both<'_> {
    fn rise(&self) -> Length {
        self.pad.elevation - self.before
    }
}

/// What became of all pads.
pub(super) struct Moves {
    /// The column from which they are compared, where heights are known only against each other.
    pub(super) from: Option<usize>,
    /// How far each moved, in job order; none where one answer has no elevation of it.
    pub(super) each: Vec<Option<Moved>>,
    /// The columns whose pads are good to something else than then.
    pub(super) other_plus_minus: Vec<usize>,
}

/// Compares the pads of both answers.
///
/// Without a datum from outside on both sides heights are known only against each other. Then the pads are compared
/// from one that moved as the middle one of them did, so that a single pad read anew moves alone.
pub(super) fn moves(case: &Case<'_>, earlier: &Earlier) -> Moves {
    let both: Vec<Both<'_>> = (case.columns.iter())
        .filter_map(|column| {
            let before = earlier.column(&case.column(column.index).mark)?;
            Some(Both { index: column.index, pad: column.pad?, before: before.pad?, earlier: before })
        })
        .collect();
    let absolute = matches!(case.levels.datum(), Datum::Absolute(_)) && !earlier.is_relative();
    let from = if absolute { None } else { middle(&both) };
    let mut each = vec![None; case.columns.len()];
    for it in &both {
        let plus_minus = match from {
            None => it.earlier.plus_minus.map(|then| root(then, it.pad.plus_minus)),
            Some(from) if from.index == it.index => None,
            Some(from) => against(case, it, from),
        };
        let zero = from.map_or(Length::ZERO, Both::rise);
        if let Some(place) = each.get_mut(it.index) {
            *place = Some(Moved { by: it.rise() - zero, plus_minus });
        }
    }
    // without a datum a +- is against the pad at 0: where that is another one, so is its meaning
    let same_zero = from.is_none_or(|from| from.rise() == Length::ZERO);
    let other = both.iter().filter(|it| it.earlier.plus_minus != Some(it.pad.plus_minus));
    let other_plus_minus = other.filter(|_| same_zero).map(|it| it.index).collect();
    Moves { from: from.map(|from| from.index), each, other_plus_minus }
}

/// Finds the pad that moved as the middle one did; of two middle moves the lesser, of several pads the best known.
fn middle<'b, 'e>(both: &'b [Both<'e>]) -> Option<&'b Both<'e>> {
    let mut rises: Vec<Length> = both.iter().map(Both::rise).collect();
    rises.sort_unstable();
    let last = rises.len().checked_sub(1)?;
    let middle = [last / 2, last.div_ceil(2)].map(|at| rises[at]);
    let middle = middle.into_iter().min_by_key(|rise| rise.abs())?;
    let known = |it: &&Both<'e>| it.earlier.plus_minus.map_or((true, Length::ZERO), |it| (false, it));
    both.iter().filter(|it| it.rise() == middle).min_by_key(known)
}

/// Gives what the move of one pad against another is good to.
///
/// An earlier answer says each +- only against its own zero: their sum is never less than that of the difference.
fn against(case: &Case<'_>, it: &Both<'_>, from: &Both<'_>) -> Option<Length> {
    let then = it.earlier.plus_minus? + from.earlier.plus_minus?;
    let point = |index: usize| case.column(index).point;
    let now = case.levels.difference_plus_minus(point(it.index)?, point(from.index)?)?;
    Some(root(then, now))
}

/// Gives the root of the sum of two squares, up to whole nanometres.
fn root(one: Length, other: Length) -> Length {
    let square = |it: Length| u128::from(it.nm().unsigned_abs()).pow(2);
    let sum = square(one).saturating_add(square(other));
    let down = sum.isqrt();
    let up = if down.saturating_mul(down) == sum { down } else { down + 1 };
    Length::from_nm(i64::try_from(up).unwrap_or(i64::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_root_of_two_squares_goes_up() {
        let nm = Length::from_nm;
        assert_eq!(root(nm(3), nm(-4)), nm(5));
        assert_eq!(root(nm(1), nm(1)), nm(2));
        assert_eq!(root(nm(0), nm(0)), nm(0));
        assert_eq!(root(Length::MOST_READ, nm(0)), Length::MOST_READ);
    }

    #[test]
    fn a_move_within_its_plus_minus_is_not_sure() {
        let moved = |by, plus_minus: Option<i64>| Moved {
            by: Length::from_nm(by),
            plus_minus: plus_minus.map(Length::from_nm),
        };
        assert_eq!(moved(-3, Some(3)).for_sure(), Some(false));
        assert_eq!(moved(-4, Some(3)).for_sure(), Some(true));
        assert_eq!(moved(4, None).for_sure(), None);
    }
}
