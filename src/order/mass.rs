//! The mass of shim plates: one of the few places where floats are right.
#![allow(
    clippy::float_arithmetic,
    clippy::disallowed_types,
    reason = "a mass is a measured figure, not a length"
)]

use super::outline::{Outline, PlateKind};
use crate::length::Length;
use crate::model::Job;
use crate::plan::Plan;

/// Steel, in kg/m3: EN 1993-1-1 and EN 1991-1-1 Table A.4 (published); 490 lb/ft3 agrees to 0.013 %.
pub const STEEL: u32 = 7850;

/// A mass, held as whole milligrams, so that masses add up to the last digit.
///
/// # Units
/// Milligrams.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Mass(u64);

impl Mass {
    /// No mass at all.
    pub const ZERO: Self = Self(0);

    /// Gives the mass in milligrams.
    #[must_use]
    pub const fn milligrams(self) -> u64 {
        self.0
    }

    /// Gives the mass in whole grams, to the nearest.
    #[must_use]
    pub const fn grams(self) -> u64 {
        self.0.saturating_add(500) / 1000
    }

    /// Gives so many times the mass.
    #[must_use]
    pub const fn times(self, number: u32) -> Self {
        Self(self.0.saturating_mul(number as u64))
    }

    /// Adds a mass.
    #[must_use]
    pub const fn plus(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

/// Sums masses; none where one of them is not known.
#[must_use]
pub fn sum_of_masses(masses: impl IntoIterator<Item = Option<Mass>>) -> Option<Mass> {
    masses.into_iter().try_fold(Mass::ZERO, |sum, mass| Some(sum.plus(mass?)))
}

/// Weighs one plate of steel, its holes taken out, up to the next milligram; none where its size or that of its holes is
/// not known, or nothing is left beside the holes.
#[must_use]
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "more than nothing, and below 2^63 mg"
)]
pub fn plate_mass(outline: &Outline, thickness: Length) -> Option<Mass> {
    let [width, depth] = outline.size?;
    let holes = match outline.holes.count {
        0 => 0.0,
        count => f64::from(count) * std::f64::consts::FRAC_PI_4 * metres(outline.holes.diameter?).powi(2),
    };
    let area = metres(width) * metres(depth) - holes;
    let milligrams = area * metres(thickness) * f64::from(STEEL) * 1e6;
    // what floats lose is far below a thousandth of a milligram
    (area > 0.0 && milligrams < 9e18).then(|| Mass((milligrams - 1e-3).ceil().max(0.0) as u64))
}

/// Weighs the shims of a plan, cut to each base plate's outline with its rod holes; none where the mass of a plate that
/// is used is not known.
#[must_use]
pub fn shim_mass(job: &Job, plan: &Plan) -> Option<Mass> {
    sum_of_masses(job.columns.iter().zip(&plan.choices).flat_map(|(column, choice)| {
        let base = job.base_of(column);
        choice
            .stack
            .iter()
            .map(|piece| Some(PlateKind::under(base, piece.thickness).mass()?.times(piece.count)))
    }))
}

#[allow(clippy::cast_precision_loss, reason = "lengths stay below 2^53 nm")]
fn metres(length: Length) -> f64 {
    length.nm() as f64 / 1e9
}

#[cfg(test)]
mod tests {
    use super::super::outline::Holes;
    use super::*;
    use crate::length::{Bare, Unit, read};
    use proptest::prelude::*;

    fn inches(text: &str) -> Length {
        read(text, Bare::of(Unit::Inch)).unwrap()
    }

    fn plate(size: [&str; 2], count: u32, diameter: Option<&str>) -> Outline {
        let holes = Holes { count, diameter: diameter.map(inches), pattern: None };
        Outline { size: Some(size.map(inches)), holes }
    }

    /// A plate of 3/4 in weighs 30.6288 lb/ft2 (a published table of steel plate, as quoted by a second party); the same
    /// of 490 lb/ft3 is 30.625.
    #[test]
    fn a_square_foot_of_three_quarter_inch_plate_weighs_30_6288_pounds() {
        let mass = plate_mass(&plate(["12", "12"], 0, None), inches("3/4")).unwrap();
        // 30.6288 lb of 0.45359237 kg
        let published = 13_892_990_i64;
        assert!((i64::try_from(mass.milligrams()).unwrap() - published).abs() < 50, "{mass:?}");
    }

    /// By hand: 10 x 14 less four of pi/4 x (15/16)2 is 137.23884 in2; by 1/8 in and 16.387064 cm3/in3 281.1177 cm3, and
    /// at 7.85 g/cm3 2206.774 g.
    #[test]
    fn holes_are_taken_out() {
        let mass = plate_mass(&plate(["10", "14"], 4, Some("15/16")), inches("1/8")).unwrap();
        assert_eq!(mass.grams(), 2207);
        assert_eq!(mass.times(4).grams(), 8827);
    }

    #[test]
    fn what_is_not_known_of_a_plate_leaves_its_mass_unknown() {
        let eighth = inches("1/8");
        assert_eq!(plate_mass(&plate(["10", "14"], 4, None), eighth), None);
        let no_size = Outline { size: None, ..plate(["1", "1"], 4, Some("1/2")) };
        assert_eq!(plate_mass(&no_size, eighth), None);
        assert_eq!(plate_mass(&plate(["1", "1"], 4, Some("15/16")), eighth), None, "all of it is holes");
        let known = plate_mass(&plate(["10", "14"], 4, Some("15/16")), eighth);
        assert_eq!(sum_of_masses([known, None]), None);
        assert_eq!(sum_of_masses([]), Some(Mass::ZERO));
    }

    proptest! {
        /// Steel of 7850 kg/m3 without holes, in whole numbers: millimetres and milligrams.
        #[test]
        fn a_plate_of_whole_millimetres_weighs_7_85_mg_a_cubic_millimetre(
            a in 1_i64..2000, b in 1_i64..2000, t in 1_i64..100,
        ) {
            let mm = |mm: i64| Length::from_nm(mm * Unit::Millimetre.nm());
            let outline = Outline {
                size: Some([mm(a), mm(b)]),
                holes: Holes { count: 0, diameter: None, pattern: None },
            };
            let hundredths = u64::try_from(a * b * t * 785).unwrap();
            prop_assert_eq!(plate_mass(&outline, mm(t)).unwrap().milligrams(), hundredths.div_ceil(100));
        }
    }
}
