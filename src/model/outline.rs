//! What a full-bearing shim plate is cut to: the outline of the base plate, with every rod hole in its place.

use super::base::Base;
use crate::length::Length;

/// The outline of a plate, its first side along x.
///
/// # Units
/// Exact nanometres from the corner at the lower left, x to the right, y up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlateOutline {
    /// Its sides along x and y, as the job gives the base plate.
    pub size: [Length; 2],
    /// Its holes, clockwise from the upper left, as rods are numbered.
    pub holes: Vec<Hole>,
}

/// A round hole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hole {
    /// Its centre.
    pub centre: [Length; 2],
    /// Its diameter.
    pub diameter: Length,
}

/// Why an outline, or its holes, cannot be drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OutlineUnknown {
    /// The size of the plate is not given.
    Size,
    /// The diameter of the holes is not given.
    Diameter,
    /// The spacing of the rods is not given.
    Pattern,
    /// Two spacings place four rods and no other number.
    Count(u32),
    /// A hole does not lie within the plate, or two holes run into each other.
    Clash,
}

impl PlateOutline {
    /// Gives the outline of a base's plate.
    ///
    /// # Errors
    /// As [`PlateOutline::new`].
    pub fn of(base: &Base) -> Result<Self, Vec<OutlineUnknown>> {
        Self::new(base.plate.size, base.rods.count, base.plate.holes, base.rods.pattern)
    }

    /// Gives the outline of a plate with so many holes, their spacing about its middle.
    ///
    /// Where what is left of a side beside the spacing is an odd number of nanometres the holes stand half a nanometre
    /// to the lower left; their spacing is exact.
    ///
    /// # Errors
    /// Says all that is missing: nothing is guessed, since plates are cut from it.
    pub fn new(
        size: Option<[Length; 2]>,
        count: u32,
        diameter: Option<Length>,
        pattern: Option<[Length; 2]>,
    ) -> Result<Self, Vec<OutlineUnknown>> {
        let mut missing = Vec::new();
        let mut note = |is_missing: bool, what| {
            if is_missing {
                missing.push(what);
            }
        };
        note(size.is_none(), OutlineUnknown::Size);
        note(count > 0 && diameter.is_none(), OutlineUnknown::Diameter);
        note(!matches!(count, 0 | 4), OutlineUnknown::Count(count));
        note(count == 4 && pattern.is_none(), OutlineUnknown::Pattern);
        if !missing.is_empty() {
            return Err(missing);
        }
        match (size, diameter, pattern) {
            (Some(size), Some(diameter), Some(pattern)) if count > 0 => four_holes(size, diameter, pattern),
            (Some(size), ..) => Ok(Self { size, holes: Vec::new() }),
            (None, ..) => Err(vec![OutlineUnknown::Size]),
        }
    }
}

fn four_holes(
    size: [Length; 2],
    diameter: Length,
    pattern: [Length; 2],
) -> Result<PlateOutline, Vec<OutlineUnknown>> {
    let first = |side: usize| Length::from_nm((size[side] - pattern[side]).nm().div_euclid(2));
    let [left, low] = [first(0), first(1)];
    let [right, high] = [left + pattern[0], low + pattern[1]];
    let clear = |side: usize, low: Length| low * 2 > diameter && pattern[side] > diameter;
    if !clear(0, left) || !clear(1, low) {
        return Err(vec![OutlineUnknown::Clash]);
    }
    let hole = |x: Length, y: Length| Hole { centre: [x, y], diameter };
    let holes = vec![hole(left, high), hole(right, high), hole(right, low), hole(left, low)];
    Ok(PlateOutline { size, holes })
}

impl OutlineUnknown {
    /// Says what is missing.
    #[must_use]
    pub fn words(self) -> String {
        match self {
            Self::Size => "the size of the plate is not given (plate size)".to_owned(),
            Self::Diameter => "the diameter of the rod holes is not given (plate holes)".to_owned(),
            Self::Pattern => "the spacing of the rods is not given (rods pattern)".to_owned(),
            Self::Count(count) => format!("two spacings place four rods, the base has {count}"),
            Self::Clash => "a hole reaches the edge of the plate or another hole".to_owned(),
        }
    }

    /// Says how to mend it in the `[[base]]` of a job.
    #[must_use]
    pub const fn fix(self) -> &'static str {
        match self {
            Self::Size => "add size = [side, side] to its plate",
            Self::Diameter => "add holes = diameter to its plate",
            Self::Pattern => "add pattern = [spacing, spacing] to its rods",
            Self::Count(_) => "have it drawn from the base plate's own drawing",
            Self::Clash => "check size, holes and pattern against the base plate's drawing",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(mm: i64) -> Length {
        Length::from_nm(mm * 1_000_000)
    }

    fn plate(size: [i64; 2], pattern: [i64; 2], hole: i64) -> Result<PlateOutline, Vec<OutlineUnknown>> {
        PlateOutline::new(Some(size.map(mm)), 4, Some(mm(hole)), Some(pattern.map(mm)))
    }

    #[test]
    fn holes_stand_about_the_middle_clockwise_from_the_upper_left() {
        let centres: Vec<[Length; 2]> =
            plate([300, 400], [160, 260], 30).unwrap().holes.iter().map(|hole| hole.centre).collect();
        assert_eq!(centres, [[70, 330], [230, 330], [230, 70], [70, 70]].map(|at| at.map(mm)));
    }

    #[test]
    fn an_odd_nanometre_moves_the_holes_and_not_their_spacing() {
        let nm = Length::from_nm;
        let odd =
            PlateOutline::new(Some([nm(100), nm(101)]), 4, Some(nm(10)), Some([nm(51), nm(51)])).unwrap();
        let centres: Vec<[i64; 2]> = odd.holes.iter().map(|hole| hole.centre.map(Length::nm)).collect();
        assert_eq!(centres, [[24, 76], [75, 76], [75, 25], [24, 25]]);
    }

    #[test]
    fn a_hole_at_the_edge_or_at_another_is_no_outline() {
        assert!(plate([300, 291], [160, 260], 30).is_ok());
        for (size, pattern) in [([300, 290], [160, 260]), ([190, 400], [160, 260]), ([300, 400], [30, 260])] {
            assert_eq!(plate(size, pattern, 30), Err(vec![OutlineUnknown::Clash]));
        }
        assert_eq!(plate([300, 400], [160, 500], 30), Err(vec![OutlineUnknown::Clash]), "off the plate");
    }

    #[test]
    fn all_that_is_missing_is_said_at_once_and_nothing_is_guessed() {
        use OutlineUnknown::{Count, Diameter, Pattern, Size};
        assert_eq!(PlateOutline::new(None, 4, None, None), Err(vec![Size, Diameter, Pattern]));
        let [size, hole] = [Some([mm(300), mm(400)]), Some([mm(160), mm(260)])];
        assert_eq!(PlateOutline::new(size, 6, Some(mm(30)), hole), Err(vec![Count(6)]));
        assert_eq!(PlateOutline::new(size, 0, None, None).unwrap().holes, []);
    }
}
