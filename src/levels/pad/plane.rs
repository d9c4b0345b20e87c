//! The plane that fits places of a pad best, as whole-numbered shares of their heights.

/// A place of a pad, counted in half plates from its centre: x to the east, y to the north, -1, 0 or 1 each.
pub(in crate::levels) type At = [i64; 2];

/// The least-squares plane through places: its height in the middle and its rises, each a sum of heights.
///
/// Every share is a whole number over [`Plane::whole`], so that nothing is rounded here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::levels) struct Plane {
    /// What the shares are parts of, more than 0.
    pub(in crate::levels) whole: i128,
    /// What each place adds to the height in the middle; together the whole.
    pub(in crate::levels) middle: Vec<i128>,
    /// What each place adds to the rise from the middle to the east side; together nothing.
    pub(in crate::levels) east: Vec<i128>,
    /// Likewise to the north side.
    pub(in crate::levels) north: Vec<i128>,
}

impl Plane {
    /// Fits the plane; none where fewer than three places are there, or all stand in one line.
    pub(in crate::levels) fn through(places: &[At]) -> Option<Self> {
        let sum = |of: fn(i128, i128) -> i128| {
            let each = places.iter().map(|[x, y]| of(i128::from(*x), i128::from(*y)));
            each.sum::<i128>()
        };
        let (n, x, y) = (sum(|_, _| 1), sum(|x, _| x), sum(|_, y| y));
        let (xx, xy, yy) = (sum(|x, _| x * x), sum(|x, y| x * y), sum(|_, y| y * y));
        // the normal equations, solved by their cofactors
        let middle = [xx * yy - xy * xy, xy * y - x * yy, x * xy - xx * y];
        let east = [middle[1], n * yy - y * y, x * y - n * xy];
        let north = [middle[2], east[2], n * xx - x * x];
        let whole = n * middle[0] + x * middle[1] + y * middle[2];
        if whole == 0 {
            return None;
        }
        let shares = |row: [i128; 3]| {
            let each = places.iter();
            each.map(|[x, y]| row[0] + row[1] * i128::from(*x) + row[2] * i128::from(*y)).collect()
        };
        Some(Self { whole, middle: shares(middle), east: shares(east), north: shares(north) })
    }

    /// Gives what each place adds to how far it stands above the plane itself.
    pub(in crate::levels) fn above(&self, place: usize, [x, y]: At) -> Vec<i128> {
        let (x, y) = (i128::from(x), i128::from(y));
        let plane = self.middle.iter().zip(&self.east).zip(&self.north);
        let plane = plane.map(|((middle, east), north)| middle + east * x + north * y);
        plane
            .enumerate()
            .map(|(other, share)| if other == place { self.whole - share } else { -share })
            .collect()
    }
}

/// Sums heights by their shares.
pub(in crate::levels) fn sum(shares: &[i128], heights: &[i128]) -> i128 {
    shares.iter().zip(heights).map(|(share, height)| share * height).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::array::uniform3;
    use proptest::prelude::*;

    const CORNERS: [At; 4] = [[-1, 1], [1, 1], [1, -1], [-1, -1]];

    #[test]
    fn four_corners_share_the_middle_and_each_rise_evenly() {
        let plane = Plane::through(&CORNERS).unwrap();
        let quarter = plane.whole / 4;
        assert_eq!(plane.middle, [quarter; 4]);
        assert_eq!(plane.east, [-quarter, quarter, quarter, -quarter]);
        assert_eq!(plane.north, [quarter, quarter, -quarter, -quarter]);
    }

    #[test]
    fn three_corners_make_the_middle_of_the_two_across() {
        let plane = Plane::through(&CORNERS[..3]).unwrap();
        assert_eq!(plane.middle, [plane.whole / 2, 0, plane.whole / 2], "north-west, north-east, south-east");
    }

    #[test]
    fn places_in_one_line_make_no_plane() {
        for line in [&[][..], &[[0, 0]], &[[-1, 1], [1, -1]], &[[-1, 1], [0, 0], [1, -1]], &[[1, 1]; 5]] {
            assert_eq!(Plane::through(line), None, "{line:?}");
        }
    }

    fn places() -> impl Strategy<Value = Vec<At>> {
        proptest::collection::vec([-1_i64..=1, -1_i64..=1], 3..9)
    }

    proptest! {
        #[test]
        fn shares_of_the_middle_make_the_whole_and_those_of_a_rise_nothing(places in places()) {
            if let Some(plane) = Plane::through(&places) {
                prop_assert!(plane.whole > 0);
                prop_assert_eq!(plane.middle.iter().sum::<i128>(), plane.whole);
                prop_assert_eq!(plane.east.iter().sum::<i128>(), 0);
                prop_assert_eq!(plane.north.iter().sum::<i128>(), 0);
            }
        }

        #[test]
        fn a_plane_is_found_exactly(places in places(), plane in uniform3(-9_999_999_i128..9_999_999)) {
            let [middle, east, north] = plane;
            let height = |at: &At| middle + east * i128::from(at[0]) + north * i128::from(at[1]);
            let heights: Vec<i128> = places.iter().map(height).collect();
            if let Some(plane) = Plane::through(&places) {
                prop_assert_eq!(sum(&plane.middle, &heights), middle * plane.whole);
                prop_assert_eq!(sum(&plane.east, &heights), east * plane.whole);
                prop_assert_eq!(sum(&plane.north, &heights), north * plane.whole);
                for (place, at) in places.iter().enumerate() {
                    prop_assert_eq!(sum(&plane.above(place, *at), &heights), 0);
                }
            }
        }

        #[test]
        fn no_other_plane_leaves_less(
            places in places(),
            noise in proptest::collection::vec(-99_i128..99, 9),
            other in uniform3(-3_i128..=3),
        ) {
            let Some(plane) = Plane::through(&places) else { return Ok(()) };
            let squares = |off: [i128; 3]| -> i128 {
                let each = places.iter().enumerate().map(|(place, at)| {
                    let own = sum(&plane.above(place, *at), &noise[..places.len()]);
                    own - off[0] - off[1] * i128::from(at[0]) - off[2] * i128::from(at[1])
                });
                each.map(|left| left * left).sum()
            };
            prop_assert!(squares([0; 3]) <= squares(other));
        }
    }
}
