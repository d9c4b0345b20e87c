//! A rod that bends where its plate stands clear of the concrete: figures for the engineer, never a verdict.
#![allow(
    clippy::float_arithmetic,
    clippy::disallowed_types,
    reason = "a moment is a worked-out figure, not a length that is compared"
)]

use super::Area;
use crate::length::Length;
use crate::quantity::{Force, Stress};

/// A moment.
///
/// # Units
/// Whole newton millimetres, down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Moment(i64);

impl Moment {
    /// Gives the moment in newton millimetres.
    #[must_use]
    pub const fn newton_millimetres(self) -> i64 {
        self.0
    }
}

/// What one rod comes to in bending by EN 1992-4: every figure down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RodBending {
    /// The characteristic moment without any tension, 1.2 W f_uk.
    pub alone: Moment,
    /// The design resistance in tension, A_s f_uk over its factor.
    pub tension: Force,
    /// The characteristic moment that the tension leaves.
    pub left: Moment,
    /// The design resistance in shear where the plate is free to turn, M / l_a over its factor.
    pub free: Force,
    /// The same where the plate cannot turn, twice as much.
    pub fixed: Force,
    /// The factors in tension and in shear, in hundredths, up.
    pub factors: [i64; 2],
}

impl RodBending {
    /// Works out one rod with its lever arm and its share of the tension; none without a lever arm or strength.
    ///
    /// Factors: EN 1992-4, Table 4.1, from memory: in tension 1.2 / (f_yk / f_uk), 1.4 at least; in shear f_uk / f_yk, 1.25
    /// at least, where f_uk is 800 MPa or less and f_yk no more than 0.8 of it, otherwise 1.5.
    #[must_use]
    pub fn of(area: Area, [yields, breaks]: [Stress; 2], arm: Length, tension: Force) -> Option<Self> {
        let (area, arm) = (area.square_millimetres(), float(arm.nm()) / 1e6);
        let [f_y, f_u] = [yields, breaks].map(|stress| float(stress.pascals()) / 1e6);
        if area <= 0.0 || arm <= 0.0 || f_y <= 0.0 || f_u <= 0.0 {
            return None;
        }
        let ratio = f_y / f_u;
        let in_tension = (1.2 / ratio).max(1.4);
        let in_shear = if f_u <= 800.0 && ratio <= 0.8 { (1.0 / ratio).max(1.25) } else { 1.5 };
        // W of a round bar with the stress area: pi d^3 / 32 = A^1.5 / (4 sqrt(pi))
        let modulus = area.powf(1.5) / (4.0 * std::f64::consts::PI.sqrt());
        let alone = 1.2 * modulus * f_u;
        let resists = area * f_u / in_tension;
        let pulls = float(tension.millinewtons_up()) / 1e3;
        let left = alone * (1.0 - pulls / resists).max(0.0);
        let shear = |alpha: f64| force(alpha * left / arm / in_shear);
        Some(Self {
            alone: moment(alone),
            tension: force(resists),
            left: moment(left),
            free: shear(1.0),
            fixed: shear(2.0),
            factors: [in_tension, in_shear].map(hundredths_up),
        })
    }
}

#[allow(clippy::cast_precision_loss, reason = "what is read stays far below 2^53")]
fn float(whole: i64) -> f64 {
    whole as f64
}

#[allow(clippy::cast_possible_truncation, reason = "no rod comes near 2^63 newton millimetres")]
fn moment(newton_millimetres: f64) -> Moment {
    Moment(newton_millimetres.floor() as i64)
}

#[allow(clippy::cast_possible_truncation, reason = "no rod comes near 2^63 millinewtons")]
fn force(newtons: f64) -> Force {
    Force::from_millinewtons((newtons * 1e3).floor() as i64)
}

#[allow(clippy::cast_possible_truncation, reason = "a factor is below ten")]
fn hundredths_up(factor: f64) -> i64 {
    // a factor that is whole in hundredths may come out a hair above
    (factor * 100.0 - 1e-9).ceil() as i64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{StressUnit, read_force};

    fn example(tension: &str) -> RodBending {
        let mpa = |mpa| Stress::of(mpa, StressUnit::Megapascal);
        let area = Area::from_square_micrometres(352_700_000);
        let arm = Length::from_nm(72_000_000);
        RodBending::of(area, [mpa(640), mpa(800)], arm, read_force(tension).unwrap()).unwrap()
    }

    /// To so many newtons or newton metres of a published figure.
    fn near(found: i64, published: i64, within: i64) {
        assert!((found - published).abs() <= within, "{found} for {published}");
    }

    /// EN 1992-4, 7.2.2.3.2 (7.37) and (7.38), a worked example quoted by a second party: M24 8.8, A_s 352.7 mm2, l_a 72
    /// mm, N 130 kN of N_Rd 188 kN: M0 897 N m, M 277 N m, V_Rd 6.16 kN with the plate fixed (6.15 here: the
    /// example rounds on the way).
    #[test]
    fn a_rod_m24_of_class_8_8_on_72_mm_bends_at_897_newton_metres_and_carries_6_kilonewtons_under_130_of_tension()
     {
        let rod = example("130 kN");
        near(rod.alone.newton_millimetres(), 897_000, 500);
        near(rod.tension.millinewtons_down(), 188_000_000, 500_000);
        near(rod.left.newton_millimetres(), 277_000, 500);
        near(rod.fixed.millinewtons_down(), 6_160_000, 10_000);
        near(rod.fixed.millinewtons_down(), rod.free.millinewtons_down() * 2, 1);
        assert_eq!(rod.factors, [150, 125]);
    }

    /// The same example with N 120 kN: M 325 N m, V_Rd 7.22 kN.
    #[test]
    fn the_same_rod_under_120_kilonewtons_of_tension_carries_7() {
        let rod = example("120 kN");
        near(rod.left.newton_millimetres(), 325_000, 500);
        near(rod.fixed.millinewtons_down(), 7_220_000, 10_000);
    }

    #[test]
    fn a_rod_that_is_pulled_to_its_end_carries_nothing_more() {
        let rod = example("200 kN");
        assert_eq!((rod.left.newton_millimetres(), rod.free, rod.fixed), (0, Force::ZERO, Force::ZERO));
        assert_eq!(example("0").left, example("0").alone);
    }

    #[test]
    fn a_brittle_grade_has_the_larger_factor_and_no_lever_arm_has_no_figure() {
        let mpa = |mpa| Stress::of(mpa, StressUnit::Megapascal);
        let area = Area::from_square_micrometres(352_700_000);
        let of = |strengths, arm| RodBending::of(area, strengths, Length::from_nm(arm), Force::ZERO);
        assert_eq!(of([mpa(900), mpa(1000)], 72_000_000).unwrap().factors, [140, 150]);
        assert_eq!(of([mpa(240), mpa(400)], 72_000_000).unwrap().factors, [200, 167]);
        assert!(of([mpa(240), mpa(400)], 0).is_none());
    }
}
