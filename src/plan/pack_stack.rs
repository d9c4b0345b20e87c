//! What a pack under a plate is made of: the best stack of the job's shims for the height of the bed.

use super::stacks::{Stack, stacks};
use crate::length::Length;
use crate::model::ShimSupply;

/// What comes nearest to the height a pack must have.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PackStack {
    /// The best stack of just that height; none where the pieces make none.
    pub exact: Option<Stack>,
    /// The highest stack below it, where there is none of just that height.
    pub below: Option<Stack>,
    /// The lowest stack above it, likewise.
    pub above: Option<Stack>,
}

/// Composes a pack of so many pieces at most: fewest pieces first, then thickest piece first.
///
/// Pieces on hand are not counted, as the plan does not take packs from them.
#[must_use]
pub fn pack_stack(supply: &ShimSupply, height: Length) -> PackStack {
    let thickest = supply.pieces.iter().map(|piece| piece.thickness.nominal).max().unwrap_or(Length::ZERO);
    let mut found = PackStack::default();
    // the lowest stack above is no higher than this and one piece more
    for stack in stacks(supply, Some(height + thickest)) {
        let made = stack.height.nominal;
        // of one height the first is the best
        if made == height && found.exact.is_none() {
            found.exact = Some(stack);
        } else if made < height && found.below.as_ref().is_none_or(|it| it.height.nominal < made) {
            found.below = Some(stack);
        } else if made > height && found.above.is_none() {
            found.above = Some(stack);
        }
    }
    match found.exact {
        Some(_) => PackStack { below: None, above: None, ..found },
        None => found,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::{Authority, Extent, ShimPiece};
    use crate::plan::StackPiece;
    use proptest::prelude::*;

    fn supply(nm: &[i64], most_pieces: u32) -> ShimSupply {
        let pieces = nm.iter().map(|&nm| ShimPiece {
            thickness: Extent::exact(Length::from_nm(nm)),
            authority: Authority::this_job(),
        });
        ShimSupply { series: None, pieces: pieces.collect(), most_pieces, stock: None }
    }

    fn shown(stack: Option<&Stack>) -> Vec<(i64, u32)> {
        let pieces = |stack: &Stack| {
            stack.pieces.iter().map(|it: &StackPiece| (it.thickness.nm(), it.count)).collect()
        };
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
        /// Against summing up every choice of up to three pieces.
        #[test]
        fn the_nearest_heights_are_those_of_counting_all_choices(
            mut pieces in prop::collection::btree_set(1_i64..15, 1..5), height in 1_i64..40,
        ) {
            let list: Vec<i64> = pieces.iter().rev().copied().collect();
            pieces.insert(0);
            let all = pieces.iter().flat_map(|a| pieces.iter().flat_map(move |b| pieces_of(*a, *b)));
            let mut sums: Vec<i64> =
                all.flat_map(|two| pieces.iter().map(move |c| two + c)).filter(|sum| *sum > 0).collect();
            sums.sort_unstable();
            let found = pack_stack(&supply(&list, 3), Length::from_nm(height));
            let nm = |stack: &Option<Stack>| stack.as_ref().map(|it| it.height.nominal.nm());
            if sums.contains(&height) {
                prop_assert_eq!((nm(&found.exact), nm(&found.below), nm(&found.above)), (Some(height), None, None));
            } else {
                prop_assert_eq!(nm(&found.exact), None);
                prop_assert_eq!(nm(&found.below), sums.iter().copied().filter(|it| *it < height).max());
                prop_assert_eq!(nm(&found.above), sums.iter().copied().filter(|it| *it > height).min());
            }
        }
    }

    fn pieces_of(a: i64, b: i64) -> std::iter::Once<i64> {
        std::iter::once(a + b)
    }
}
