//! Whether packs go in at the middles of the edges of a plate, clear of its rod holes and of each other.

use crate::length::Length;

/// A plate with its rods at four corners, and the packs that shall stand under it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Under {
    /// The sides of the plate.
    pub(super) plate: [Length; 2],
    /// The spacing of the four rods, along the same sides.
    pub(super) pattern: [Length; 2],
    /// The diameter of their holes.
    pub(super) hole: Length,
    /// The sides of one pack.
    pub(super) pack: [Length; 2],
    /// What is kept free between a pack and the edges of the plate.
    pub(super) cover: Length,
}

impl Under {
    /// Tells whether a pair of packs fits at the middles of two opposite edges; `along` is the side from one to the other.
    ///
    /// # Units
    /// Everything is doubled, so that halves stay whole.
    fn pair_fits(&self, along: usize, deep: Length, wide: Length) -> bool {
        let (length, across) = (self.plate[along], self.plate[1 - along]);
        let outer = length - self.cover * 2;
        let inner = outer - deep * 2;
        if inner < Length::ZERO || wide + self.cover * 2 > across {
            return false;
        }
        let beside = wide <= self.pattern[1 - along] - self.hole;
        let within = inner >= self.pattern[along] + self.hole;
        let beyond = outer <= self.pattern[along] - self.hole;
        beside || within || beyond
    }

    /// Lists how a pair may lie at the edges along one side: how deep it reaches in, and how wide it is.
    fn ways(&self, along: usize) -> impl Iterator<Item = (Length, Length)> {
        let [a, b] = self.pack;
        let this = *self;
        [(a, b), (b, a)].into_iter().filter(move |(deep, wide)| this.pair_fits(along, *deep, *wide))
    }

    /// Tells whether two packs fit at two opposite edges.
    #[must_use]
    pub(super) fn two_fit(&self) -> bool {
        self.ways(0).next().is_some() || self.ways(1).next().is_some()
    }

    /// Tells whether four packs fit at the four edges.
    #[must_use]
    pub(super) fn four_fit(&self) -> bool {
        let inner = |along: usize, deep: Length| self.plate[along] - self.cover * 2 - deep * 2;
        self.ways(0).any(|(deep_x, wide_x)| {
            self.ways(1).any(|(deep_y, wide_y)| {
                // one pair ends beside the other, or before it
                wide_y <= inner(0, deep_x) || wide_x <= inner(1, deep_y)
            })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn under(plate: [i64; 2], pattern: [i64; 2], hole: i64, pack: [i64; 2], cover: i64) -> Under {
        let nm = Length::from_nm;
        Under {
            plate: plate.map(nm),
            pattern: pattern.map(nm),
            hole: nm(hole),
            pack: pack.map(nm),
            cover: nm(cover),
        }
    }

    /// In sixteenths: a plate of 16 x 16 in, packs of 4 x 4 in an inch inside its edges. From the middle they reach from 3 to
    /// 7 in out and 2 in to each side, so holes of 1-5/16 in on a pattern of 5-5/16 in just clear them at their sides.
    #[test]
    fn four_packs_of_four_inches_go_in_where_the_holes_just_clear_them() {
        assert!(under([256, 256], [85, 85], 21, [64, 64], 16).four_fit());
        assert!(!under([256, 256], [84, 84], 21, [64, 64], 16).four_fit());
        assert!(
            under([256, 256], [75, 75], 21, [64, 64], 16).four_fit(),
            "rods inside the packs: 3 in less 21/32"
        );
        assert!(!under([256, 256], [76, 76], 21, [64, 64], 16).four_fit());
    }

    /// Four packs of 4 x 4 in an inch inside: the packs of one pair end 2 in from the middle where the plate is 14 in long.
    #[test]
    fn packs_do_not_lie_on_each_other() {
        assert!(under([224, 224], [192, 192], 21, [64, 64], 16).four_fit());
        assert!(under([223, 224], [192, 192], 21, [64, 64], 16).four_fit(), "beside the other pair");
        assert!(!under([223, 223], [192, 192], 21, [64, 64], 16).four_fit());
        assert!(under([223, 223], [192, 192], 21, [64, 64], 16).two_fit());
    }

    #[test]
    fn packs_are_turned_where_only_that_fits() {
        let narrow = under([100, 300], [60, 260], 20, [90, 40], 5);
        assert!(narrow.two_fit());
        assert!(
            !under([89, 300], [60, 260], 20, [90, 90], 0).two_fit(),
            "wider than the plate and than half of it"
        );
    }

    proptest! {
        /// Against laying every pack and every hole out as a square on the plate.
        #[test]
        fn what_fits_is_what_lies_apart_when_laid_out(
            plate in prop::array::uniform2(20_i64..120), pattern in prop::array::uniform2(10_i64..110),
            hole in 1_i64..15, pack in prop::array::uniform2(4_i64..50), cover in 0_i64..12,
        ) {
            let asked = under(plate, pattern, hole, pack, cover);
            // everything doubled, from the middle of the plate: [x from, x to, y from, y to]
            let turned = [pack, [pack[1], pack[0]]];
            let east = |[deep, wide]: [i64; 2]| {
                let edge = plate[0] - 2 * cover;
                [[edge - 2 * deep, edge, -wide, wide], [-edge, 2 * deep - edge, -wide, wide]]
            };
            let north = |[deep, wide]: [i64; 2]| {
                let edge = plate[1] - 2 * cover;
                [[-wide, wide, edge - 2 * deep, edge], [-wide, wide, -edge, 2 * deep - edge]]
            };
            let holes: Vec<[i64; 4]> = [(1, 1), (1, -1), (-1, 1), (-1, -1)].iter().map(|(x, y)| {
                let (x, y) = (x * pattern[0], y * pattern[1]);
                [x - hole, x + hole, y - hole, y + hole]
            }).collect();
            let apart = |a: &[i64; 4], b: &[i64; 4]| a[1] <= b[0] || b[1] <= a[0] || a[3] <= b[2] || b[3] <= a[2];
            let good = |packs: &[[i64; 4]]| {
                let inside = packs.iter().all(|it| {
                    let (x, y) = (plate[0] - 2 * cover, plate[1] - 2 * cover);
                    it[0] >= -x && it[1] <= x && it[2] >= -y && it[3] <= y
                });
                let clear = packs.iter().all(|it| holes.iter().all(|hole| apart(it, hole)));
                let each = (0..packs.len()).all(|i| (0..i).all(|j| apart(&packs[i], &packs[j])));
                inside && clear && each
            };
            let two = turned.iter().any(|it| good(&east(*it)) || good(&north(*it)));
            let four = turned.iter().any(|x| turned.iter().any(|y| good(&[east(*x), north(*y)].concat())));
            prop_assert_eq!(asked.two_fit(), two);
            prop_assert_eq!(asked.four_fit(), four);
        }
    }
}
