//! The stacks of shims that can be made, one for each height.

use super::action::StackPiece;
use crate::length::Length;
use crate::model::ShimSupply;
use std::collections::BTreeMap;

/// A stack of shims.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stack {
    /// Its height.
    pub height: Length,
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

/// Gives every height that can be stacked up to a limit, each with its fewest pieces.
///
/// Of stacks with equally many pieces the one with the thickest piece first is taken.
#[must_use]
pub fn stacks(supply: &ShimSupply, tallest: Option<Length>) -> Vec<Stack> {
    let thicknesses: Vec<Length> = supply.pieces.iter().map(|piece| piece.thickness.nominal).collect();
    let fits = |height: Length| tallest.is_none_or(|tallest| height <= tallest);
    let mut found: BTreeMap<Length, Vec<usize>> = BTreeMap::new();
    // layers by number of pieces: the first stack to reach a height has the fewest
    let mut layer: BTreeMap<Length, Vec<usize>> = BTreeMap::from([(Length::ZERO, Vec::new())]);
    for _ in 0..supply.most_pieces {
        let mut next: BTreeMap<Length, Vec<usize>> = BTreeMap::new();
        for (height, stack) in &layer {
            // pieces are listed thickest first, so a stack only grows thinner
            let from = stack.last().copied().unwrap_or(0);
            for (kind, thickness) in thicknesses.iter().enumerate().skip(from) {
                let height = *height + *thickness;
                if !fits(height) {
                    continue;
                }
                let mut grown = stack.clone();
                grown.push(kind);
                // a lower index is a thicker piece
                let best = next.entry(height).or_insert_with(|| grown.clone());
                if grown < *best {
                    *best = grown;
                }
            }
        }
        for (height, stack) in &next {
            found.entry(*height).or_insert_with(|| stack.clone());
        }
        layer = next;
    }
    found.into_iter().map(|(height, stack)| Stack { height, pieces: counted(&thicknesses, &stack) }).collect()
}

fn counted(thicknesses: &[Length], stack: &[usize]) -> Vec<StackPiece> {
    let mut pieces: Vec<StackPiece> = Vec::new();
    for kind in stack {
        let thickness = thicknesses[*kind];
        match pieces.last_mut() {
            Some(last) if last.thickness == thickness => last.count += 1,
            _ => pieces.push(StackPiece { thickness, count: 1 }),
        }
    }
    pieces
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
        ShimSupply { series: None, pieces: pieces.collect(), most_pieces }
    }

    fn shown(stack: &Stack) -> Vec<(i64, u32)> {
        stack.pieces.iter().map(|piece| (piece.thickness.nm(), piece.count)).collect()
    }

    #[test]
    fn a_height_takes_its_fewest_pieces_and_the_thickest_first() {
        let made = stacks(&supply(&[6, 4, 3, 2], 3), Some(Length::from_nm(9)));
        let find = |nm: i64| made.iter().find(|stack| stack.height.nm() == nm).map(shown);
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
            made.iter().map(|stack| (stack.height.nm(), stack.count() as usize)).collect();
        assert_eq!(counted, fewest);
    }
}
