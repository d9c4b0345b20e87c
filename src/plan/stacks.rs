//! The stacks of shims that can be made.

use super::action::StackPiece;
use crate::length::Length;
use crate::model::{Raise, ShimSupply};
use std::collections::BTreeMap;

/// A stack of shims.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stack {
    /// Its height, with the least and the most it may be.
    pub height: Raise,
    /// Its pieces, thickest first.
    pub pieces: Vec<StackPiece>,
}

impl Stack {
    /// Counts its pieces.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.pieces.iter().map(|piece| piece.count).sum()
    }
}

/// Gives every stack of a supply up to a limit: by height, then fewest pieces first, then thickest piece first.
#[must_use]
pub fn every_stack(supply: &ShimSupply, tallest: Option<Length>) -> BTreeMap<Length, Vec<Stack>> {
    let mut found = Vec::new();
    grow(supply, tallest, 0, &mut Vec::new(), &mut found);
    let mut by_height: BTreeMap<Length, Vec<Stack>> = BTreeMap::new();
    for stack in found {
        by_height.entry(stack.height.nominal).or_default().push(stack);
    }
    for stacks in by_height.values_mut() {
        // they were found thickest piece first
        stacks.sort_by_key(Stack::count);
    }
    by_height
}

/// Gives the stacks worth planning with, by height, the best of each height first.
///
/// A stack is left out where another of its height has no more pieces and cannot come out
/// lower or higher than it: whatever rod it stands at, it is never better.
#[must_use]
pub fn stacks(supply: &ShimSupply, tallest: Option<Length>) -> Vec<Stack> {
    let mut kept: Vec<Stack> = Vec::new();
    for stacks in every_stack(supply, tallest).into_values() {
        let from = kept.len();
        for stack in stacks {
            let beaten = kept.iter().skip(from).any(|other| {
                other.height.least >= stack.height.least && other.height.most <= stack.height.most
            });
            if !beaten {
                kept.push(stack);
            }
        }
    }
    kept
}

/// Adds pieces from one thickness on, pieces being listed thickest first.
fn grow(
    supply: &ShimSupply,
    tallest: Option<Length>,
    from: usize,
    pieces: &mut Vec<StackPiece>,
    found: &mut Vec<Stack>,
) {
    let count: u32 = pieces.iter().map(|piece| piece.count).sum();
    for (kind, shim) in supply.pieces.iter().enumerate().skip(from) {
        for more in (1..=supply.most_pieces.saturating_sub(count)).rev() {
            pieces.push(StackPiece { thickness: shim.thickness.nominal, count: more });
            let height = supply.raise_of(pieces.iter().map(|piece| (piece.thickness, piece.count)));
            if tallest.is_none_or(|tallest| height.nominal <= tallest) {
                found.push(Stack { height, pieces: pieces.clone() });
                grow(supply, tallest, kind + 1, pieces, found);
            }
            pieces.pop();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::{Authority, Extent, ShimPiece};

    fn supply(nm: &[i64], most_pieces: u32) -> ShimSupply {
        let pieces = nm.iter().map(|&nm| ShimPiece {
            thickness: Extent::exact(Length::from_nm(nm)),
            authority: Authority::this_job(),
        });
        ShimSupply { series: None, pieces: pieces.collect(), most_pieces, stock: None }
    }

    fn shown(stack: &Stack) -> Vec<(i64, u32)> {
        stack.pieces.iter().map(|piece| (piece.thickness.nm(), piece.count)).collect()
    }

    #[test]
    fn a_height_takes_its_fewest_pieces_and_the_thickest_first() {
        let made = stacks(&supply(&[6, 4, 3, 2], 3), Some(Length::from_nm(9)));
        let find = |nm: i64| made.iter().find(|stack| stack.height.nominal.nm() == nm).map(shown);
        assert_eq!(find(6), Some(vec![(6, 1)]));
        assert_eq!(find(8), Some(vec![(6, 1), (2, 1)]), "not 4 + 4");
        assert_eq!(find(9), Some(vec![(6, 1), (3, 1)]));
        assert_eq!(find(5), Some(vec![(3, 1), (2, 1)]));
        assert_eq!(find(1), None);
        assert_eq!(find(10), None, "above the limit");
    }

    #[test]
    fn every_stack_agrees_with_counting_all_of_them() {
        let thicknesses = [9, 6, 5, 3, 1];
        let made = stacks(&supply(&thicknesses, 3), Some(Length::from_nm(20)));
        let mut fewest: BTreeMap<i64, usize> = BTreeMap::new();
        for a in 0..=5 {
            for b in a..=5 {
                for c in b..=5 {
                    let picked: Vec<i64> =
                        [a, b, c].iter().filter_map(|&i| thicknesses.get(i).copied()).collect();
                    let sum: i64 = picked.iter().sum();
                    if !picked.is_empty() && sum <= 20 {
                        let count = fewest.entry(sum).or_insert(picked.len());
                        *count = (*count).min(picked.len());
                    }
                }
            }
        }
        let counted: BTreeMap<i64, usize> =
            made.iter().map(|stack| (stack.height.nominal.nm(), stack.count() as usize)).collect();
        assert_eq!(counted, fewest);
        assert_eq!(made.len(), fewest.len(), "exact pieces: one stack a height");
    }

    #[test]
    fn a_stack_of_more_pieces_stays_where_it_comes_out_closer() {
        let mut supply = supply(&[4, 2], 2);
        // the 4 is rough, the 2 exact
        supply.pieces[0].thickness.most = Length::from_nm(6);
        let made = stacks(&supply, None);
        let of_four: Vec<_> = made.iter().filter(|stack| stack.height.nominal.nm() == 4).map(shown).collect();
        assert_eq!(of_four, [vec![(4, 1)], vec![(2, 2)]]);
        supply.pieces[0].thickness.most = Length::from_nm(4);
        let made = stacks(&supply, None);
        let of_four: Vec<_> = made.iter().filter(|stack| stack.height.nominal.nm() == 4).map(shown).collect();
        assert_eq!(of_four, [vec![(4, 1)]]);
    }
}
