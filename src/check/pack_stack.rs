//! What a pack under a plate is made of: the best stack of the job's shims for the height of the bed.
//!
//! Worked out here and not taken from the planner, which plans no packs; a test holds both ways of stacking together.

use crate::length::Length;
use crate::model::{Raise, ShimSupply};
use crate::plan::StackPiece;

/// One pack.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pack {
    /// Its height, with the least and the most it may be.
    pub height: Raise,
    /// Its pieces, thickest first.
    pub pieces: Vec<StackPiece>,
}

/// What comes nearest to the height a pack must have.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PackStack {
    /// The best pack of just that height; none where the pieces make none.
    pub exact: Option<Pack>,
    /// The highest pack below it, where there is none of just that height.
    pub below: Option<Pack>,
    /// The lowest pack above it, likewise.
    pub above: Option<Pack>,
}

/// Composes a pack of so many pieces at most: fewest pieces first, then thickest piece first.
///
/// Pieces on hand are not counted, as the plan does not take packs from them.
#[must_use]
pub fn pack_stack(supply: &ShimSupply, height: Length) -> PackStack {
    let mut search = Search { supply, height, exact: None, below: None, above: None };
    search.grow(0, Length::ZERO, &mut Vec::new());
    let pack = |picked: Option<Picked>| picked.map(|picked| picked.pack(supply));
    match search.exact {
        Some(_) => PackStack { exact: pack(search.exact), below: None, above: None },
        None => PackStack { exact: None, below: pack(search.below), above: pack(search.above) },
    }
}

/// Pieces by their place in the supply, and what they sum up to.
#[derive(Clone)]
struct Picked {
    sum: Length,
    kinds: Vec<usize>,
}

impl Picked {
    fn pack(&self, supply: &ShimSupply) -> Pack {
        let mut pieces: Vec<StackPiece> = Vec::new();
        for shim in self.kinds.iter().filter_map(|kind| supply.pieces.get(*kind)) {
            let thickness = shim.thickness.nominal;
            match pieces.last_mut() {
                Some(last) if last.thickness == thickness => last.count += 1,
                _ => pieces.push(StackPiece { thickness, count: 1 }),
            }
        }
        let height = supply.raise_of(pieces.iter().map(|piece| (piece.thickness, piece.count)));
        Pack { height, pieces }
    }
}

/// What was found so far.
struct Search<'a> {
    supply: &'a ShimSupply,
    height: Length,
    exact: Option<Picked>,
    below: Option<Picked>,
    above: Option<Picked>,
}

impl Search<'_> {
    /// Adds pieces from one thickness on, pieces being listed thickest first; what reaches the height grows no more.
    fn grow(&mut self, from: usize, sum: Length, kinds: &mut Vec<usize>) {
        if kinds.len() >= usize::try_from(self.supply.most_pieces).unwrap_or(usize::MAX) {
            return;
        }
        for (kind, shim) in self.supply.pieces.iter().enumerate().skip(from) {
            let sum = sum + shim.thickness.nominal;
            kinds.push(kind);
            self.keep(sum, kinds);
            if sum < self.height {
                self.grow(kind, sum, kinds);
            }
            kinds.pop();
        }
    }

    /// Keeps a pack where it is better: nearer, then of fewer pieces; of equals the first has the thickest pieces.
    fn keep(&mut self, sum: Length, kinds: &[usize]) {
        let off = (sum - self.height).abs();
        let place = match sum.cmp(&self.height) {
            std::cmp::Ordering::Less => &mut self.below,
            std::cmp::Ordering::Equal => &mut self.exact,
            std::cmp::Ordering::Greater => &mut self.above,
        };
        let height = self.height;
        let better = place
            .as_ref()
            .is_none_or(|held| (off, kinds.len()) < ((held.sum - height).abs(), held.kinds.len()));
        if better {
            *place = Some(Picked { sum, kinds: kinds.to_vec() });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::{Authority, Extent, ShimPiece};
    use crate::plan::every_stack;
    use proptest::prelude::*;

    fn supply(nm: &[i64], most_pieces: u32) -> ShimSupply {
        let pieces = nm.iter().map(|&nm| ShimPiece {
            thickness: Extent::exact(Length::from_nm(nm)),
            authority: Authority::this_job(),
        });
        ShimSupply { series: None, pieces: pieces.collect(), most_pieces, stock: None }
    }

    fn shown(stack: Option<&Pack>) -> Vec<(i64, u32)> {
        let pieces =
            |stack: &Pack| stack.pieces.iter().map(|it: &StackPiece| (it.thickness.nm(), it.count)).collect();
        stack.map(pieces).unwrap_or_default()
    }

    /// Shims of 3/4, 1/2, 1/4 and 1/8 in, counted in eighths, three a stack.
    #[test]
    fn a_bed_of_an_inch_and_a_half_takes_two_of_three_quarters() {
        let supply = supply(&[6, 4, 2, 1], 3);
        let found = pack_stack(&supply, Length::from_nm(12));
        assert_eq!(shown(found.exact.as_ref()), [(6, 2)]);
        assert_eq!((found.below, found.above), (None, None));
        let found = pack_stack(&supply, Length::from_nm(11));
        assert_eq!(shown(found.exact.as_ref()), [(6, 1), (4, 1), (1, 1)]);
    }

    #[test]
    fn where_nothing_makes_the_height_the_nearest_on_either_side_are_given() {
        let supply = supply(&[6, 4], 2);
        let found = pack_stack(&supply, Length::from_nm(9));
        assert_eq!(found.exact, None);
        assert_eq!(shown(found.below.as_ref()), [(4, 2)]);
        assert_eq!(shown(found.above.as_ref()), [(6, 1), (4, 1)]);
        let low = pack_stack(&supply, Length::from_nm(3));
        assert_eq!((low.below.is_none(), shown(low.above.as_ref())), (true, vec![(4, 1)]));
        let high = pack_stack(&supply, Length::from_nm(13));
        assert_eq!((shown(high.below.as_ref()), high.above.is_none()), (vec![(6, 2)], true));
        assert_eq!(
            pack_stack(&ShimSupply { pieces: Vec::new(), ..supply }, Length::from_nm(9)),
            PackStack::default()
        );
    }

    proptest! {
        /// Against every stack the planner can make, which sorts each height by pieces and then by thickness.
        #[test]
        fn packs_are_the_best_of_all_stacks_that_can_be_made(
            pieces in prop::collection::btree_set(1_i64..15, 0..5), most in 1_u32..5, height in 1_i64..60,
        ) {
            let list: Vec<i64> = pieces.iter().rev().copied().collect();
            let supply = supply(&list, most);
            let all = every_stack(&supply, None);
            let best = |nm: i64| all.get(&Length::from_nm(nm)).and_then(|stacks| stacks.first()).map(|it| it.pieces.clone());
            let heights: Vec<i64> = all.keys().map(|it| it.nm()).collect();
            let below = heights.iter().copied().filter(|it| *it < height).max();
            let above = heights.iter().copied().filter(|it| *it > height).min();
            let found = pack_stack(&supply, Length::from_nm(height));
            let pieces = |pack: &Option<Pack>| pack.as_ref().map(|it| it.pieces.clone());
            if let Some(exact) = best(height) {
                prop_assert_eq!((pieces(&found.exact), found.below, found.above), (Some(exact), None, None));
            } else {
                prop_assert_eq!(pieces(&found.exact), None);
                prop_assert_eq!(pieces(&found.below), below.and_then(best));
                prop_assert_eq!(pieces(&found.above), above.and_then(best));
            }
        }
    }
}
