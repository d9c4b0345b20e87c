//! What a plate is cut to: a full-bearing shim to the outline of the base plate with the holes for its rods, a piece of a pack
//! to its own two sides.

use super::mass::{Mass, plate_mass};
use crate::length::Length;
use crate::model::{Base, OutlineUnknown, PlateOutline};

/// The holes of a plate, one for each rod.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Holes {
    /// How many.
    pub count: u32,
    /// Their diameter, where known.
    pub diameter: Option<Length>,
    /// How far they stand apart, both ways, where known.
    pub pattern: Option<[Length; 2]>,
}

/// The outline of a plate.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Outline {
    /// Its two sides, where known.
    pub size: Option<[Length; 2]>,
    /// Its holes.
    pub holes: Holes,
}

/// What a plate is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PlateUse {
    /// A shim under the whole base plate.
    Shim,
    /// A piece of a pack.
    Pack,
}

/// One kind of plate: all plates of it are cut alike.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlateKind {
    /// What it is for: a piece of a pack is never taken for a shim, whatever its sides.
    pub purpose: PlateUse,
    /// Its outline and holes.
    pub outline: Outline,
    /// Its thickness.
    pub thickness: Length,
    /// The base it is for, where its outline is not fully known: then no other base can be said to have the same.
    pub only_for: Option<String>,
}

impl Holes {
    /// Gives the middles of the holes from the middle of the plate, counterclockwise from the corner with the least of
    /// both; known for four holes in the corners of their pattern, for other counts a job does not say where they are.
    #[must_use]
    pub fn at(&self) -> Option<[[Length; 2]; 4]> {
        let pattern = self.pattern?;
        // an odd spacing stays whole
        let [left, low] = pattern.map(|apart| Length::from_nm((-apart).nm().div_euclid(2)));
        let [right, high] = [left + pattern[0], low + pattern[1]];
        (self.count == 4).then_some([[left, low], [right, low], [right, high], [left, high]])
    }
}

impl Outline {
    /// Gives the outline of a base's plate.
    #[must_use]
    pub fn of(base: &Base) -> Self {
        let holes = Holes { count: base.rods.count, diameter: base.plate.holes, pattern: base.rods.pattern };
        Self { size: base.plate.size, holes }
    }

    /// Gives the outline with the place of every hole.
    ///
    /// # Errors
    /// As [`PlateOutline::new`].
    pub fn exact(&self) -> Result<PlateOutline, Vec<OutlineUnknown>> {
        PlateOutline::new(self.size, self.holes.count, self.holes.diameter, self.holes.pattern)
    }

    /// Tells whether all is known that a shop needs to cut it.
    #[must_use]
    pub fn can_be_cut(&self) -> bool {
        self.exact().map_or_else(|why| why == [OutlineUnknown::Clash], |_| true)
    }

    /// Tells whether the holes, four of them, lie within the plate and clear of each other; none where that is not known.
    #[must_use]
    pub fn holes_fit(&self) -> Option<bool> {
        self.holes.at()?;
        self.can_be_cut().then(|| self.exact().is_ok())
    }
}

impl PlateKind {
    /// Gives the kind of a shim plate under a base.
    #[must_use]
    pub fn under(base: &Base, thickness: Length) -> Self {
        let outline = Outline::of(base);
        let only_for = (!outline.can_be_cut()).then(|| base.mark.clone());
        Self { purpose: PlateUse::Shim, outline, thickness, only_for }
    }

    /// Gives the kind of a piece of the packs under a base: two sides, where known, and no holes.
    #[must_use]
    pub fn of_pack(base: &str, size: Option<[Length; 2]>, thickness: Length) -> Self {
        let outline = Outline { size, holes: Holes { count: 0, diameter: None, pattern: None } };
        let only_for = (!outline.can_be_cut()).then(|| base.to_owned());
        Self { purpose: PlateUse::Pack, outline, thickness, only_for }
    }

    /// Gives what kinds the packs of a base may have, in one thickness; none where its plate is not set on packs.
    #[must_use]
    pub(super) fn in_packs_of(base: &Base, thickness: Length) -> Option<Self> {
        Some(Self::of_pack(&base.mark, base.packs()?.size, thickness))
    }

    /// Gives the mass of one plate, where known.
    #[must_use]
    pub fn mass(&self) -> Option<Mass> {
        plate_mass(&self.outline, self.thickness)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(mm: i64) -> Length {
        Length::from_nm(mm * 1_000_000)
    }

    fn outline(size: [i64; 2], pattern: [i64; 2], count: u32) -> Outline {
        let holes = Holes { count, diameter: Some(mm(30)), pattern: Some(pattern.map(mm)) };
        Outline { size: Some(size.map(mm)), holes }
    }

    #[test]
    fn four_holes_stand_in_the_corners_of_their_pattern_and_of_six_nobody_knows() {
        let four = outline([300, 400], [160, 260], 4);
        let corners = [[-80, -130], [80, -130], [80, 130], [-80, 130]];
        assert_eq!(four.holes.at(), Some(corners.map(|corner| corner.map(mm))));
        assert!(four.can_be_cut());
        let six = outline([300, 400], [160, 260], 6);
        assert_eq!((six.holes.at(), six.can_be_cut(), six.holes_fit()), (None, false, None));
    }

    #[test]
    fn holes_that_run_over_the_edge_or_into_each_other_do_not_fit() {
        assert_eq!(outline([300, 400], [160, 260], 4).holes_fit(), Some(true));
        assert_eq!(outline([300, 290], [160, 260], 4).holes_fit(), Some(false), "290 = 260 + 30");
        assert_eq!(outline([300, 400], [30, 260], 4).holes_fit(), Some(false));
    }
}
