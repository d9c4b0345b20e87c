//! The packs under a column: what one is made of, and how many pieces they take together.
//!
//! The one home of pieces times packs. Wedges come out once the plate is at its height and are never counted.

use super::mass::{Mass, sum_of_masses};
use super::outline::PlateKind;
use crate::check::{ColumnCase, PackStack, pack_stack};
use crate::length::Length;
use crate::model::{Base, ShimSupply};
use crate::plan::StackPiece;

/// The packs under one column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ColumnPacks {
    /// How many; none where the drawings do not say.
    pub count: Option<u32>,
    /// The two sides of one in plan; none where the drawings do not say.
    pub size: Option<[Length; 2]>,
    /// How high each must be: the planned bed.
    pub height: Length,
    /// What makes one of that height, or comes nearest.
    pub each: PackStack,
}

/// Gives the packs under a column; none where its base is not set on packs, or no bed is planned.
#[must_use]
pub fn packs(base: &Base, shims: &ShimSupply, column: &ColumnCase) -> Option<ColumnPacks> {
    let packs = base.packs()?;
    let height = column.raise?.nominal;
    let each = pack_stack(shims, height);
    (height > Length::ZERO).then_some(ColumnPacks { count: packs.count, size: packs.size, height, each })
}

impl ColumnPacks {
    /// Gives the pieces of all packs together, thickest first; none where their number is not known, or nothing makes their
    /// height.
    #[must_use]
    pub fn pieces(&self) -> Option<Vec<StackPiece>> {
        let (count, stack) = (self.count?, self.each.exact.as_ref()?);
        let all = stack.pieces.iter();
        Some(all.map(|piece| StackPiece { count: piece.count.saturating_mul(count), ..*piece }).collect())
    }

    /// Gives the same as plates that are cut for a base, and how many of each kind.
    #[must_use]
    pub fn plates(&self, base: &str) -> Option<Vec<(PlateKind, u32)>> {
        let kind = |thickness: Length| PlateKind::of_pack(base, self.size, thickness);
        Some(self.pieces()?.into_iter().map(|piece| (kind(piece.thickness), piece.count)).collect())
    }

    /// Gives the mass of all packs; none where their pieces or their size are not known.
    #[must_use]
    pub fn mass(&self) -> Option<Mass> {
        sum_of_masses(self.plates("")?.into_iter().map(|(kind, count)| Some(kind.mass()?.times(count))))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::{Authority, Extent, ShimPiece};
    use crate::model::Raise;

    const EIGHTH: i64 = 3_175_000;

    fn supply(eighths: &[i64]) -> ShimSupply {
        let pieces = eighths.iter().map(|&it| ShimPiece {
            thickness: Extent::exact(Length::from_nm(it * EIGHTH)),
            authority: Authority::this_job(),
        });
        ShimSupply { series: None, pieces: pieces.collect(), most_pieces: 3, stock: None }
    }

    fn under(eighths: i64, count: Option<u32>) -> ColumnPacks {
        let height = Raise::exact(Length::from_nm(eighths * EIGHTH)).nominal;
        ColumnPacks { count, size: None, height, each: pack_stack(&supply(&[6, 4, 2, 1]), height) }
    }

    /// A bed of 1-3/8 in takes 3/4 + 1/2 + 1/8; four packs take four of each.
    #[test]
    fn the_pieces_are_those_of_one_pack_times_the_packs() {
        let pieces = under(11, Some(4)).pieces().unwrap();
        let shown: Vec<(i64, u32)> = pieces.iter().map(|it| (it.thickness.nm() / EIGHTH, it.count)).collect();
        assert_eq!(shown, [(6, 4), (4, 4), (1, 4)]);
    }

    /// Four packs of 3/4 + 1/2 + 1/8 in, 4 x 4 in: 4 x 16 x 1-3/8 = 88 in3, each of 16.387064 cm3; at 7.85 g/cm3 11320.2 g.
    #[test]
    fn packs_weigh_what_their_sides_and_pieces_make_and_nothing_without_a_size() {
        let four = under(11, Some(4));
        assert_eq!(four.mass(), None, "of no known size");
        let sides = [Length::from_nm(101_600_000); 2];
        let mass = ColumnPacks { size: Some(sides), ..four }.mass().unwrap();
        // exactly 11,320,183.8112 mg; of three kinds each piece goes up to the next milligram, four times
        let over = mass.milligrams().checked_sub(11_320_183).unwrap();
        assert!((1..=12).contains(&over), "{over}");
    }

    #[test]
    fn without_a_number_of_packs_or_a_pack_of_their_height_nothing_is_counted() {
        assert_eq!(under(11, None).pieces(), None);
        assert_eq!(under(19, Some(4)).pieces(), None, "more than three of 3/4 in");
    }
}
