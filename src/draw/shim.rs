//! The outline of a shim plate of full bearing: the base plate's, with its rod holes.

use crate::length::Length;
use crate::model::Base;

/// The outline of a shim plate, its first side along x.
///
/// # Units
/// Exact nanometres from the corner at the lower left, x to the right, y up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShimOutline {
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
pub enum HolesUnknown {
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

/// Gives the outline of a shim under a base, with the holes of its rods in the middle of the plate.
///
/// Where what is left of a side beside the pattern is an odd number of nanometres the holes stand half a nanometre to
/// the lower left; their spacing is exact.
///
/// # Errors
/// Says what is missing: nothing is guessed, since plates are cut from it.
pub fn shim_outline(base: &Base) -> Result<ShimOutline, HolesUnknown> {
    let size = base.plate.size.ok_or(HolesUnknown::Size)?;
    let diameter = base.plate.holes.ok_or(HolesUnknown::Diameter)?;
    let pattern = base.rods.pattern.ok_or(HolesUnknown::Pattern)?;
    if base.rods.count != 4 {
        return Err(HolesUnknown::Count(base.rods.count));
    }
    let first = |side: usize| Length::from_nm((size[side] - pattern[side]).nm().div_euclid(2));
    let [left, low] = [first(0), first(1)];
    let [right, high] = [left + pattern[0], low + pattern[1]];
    let clear = |side: usize, low: Length| low * 2 > diameter && pattern[side] > diameter;
    if !clear(0, left) || !clear(1, low) {
        return Err(HolesUnknown::Clash);
    }
    let hole = |x: Length, y: Length| Hole { centre: [x, y], diameter };
    let holes = vec![hole(left, high), hole(right, high), hole(right, low), hole(left, low)];
    Ok(ShimOutline { size, holes })
}

impl HolesUnknown {
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
}
