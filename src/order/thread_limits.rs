//! The limits of size that the shear areas of a thread need: tabulated for metric threads, worked out for inch ones.
#![allow(
    clippy::float_arithmetic,
    clippy::disallowed_types,
    reason = "the tolerances of ASME B1.1 are roots; they are rounded to its 0.0001 in at once"
)]

use crate::catalog::{Authority, Catalog, Pitch, Standing, ThreadLimits};
use crate::length::{Length, Unit};

/// A ten-thousandth of an inch, in nanometres: the step ASME B1.1 rounds to.
const STEP: i64 = Unit::Inch.nm() / 10_000;

/// Finds the limits of a thread: class 2A/2B of an inch rod, 6g/6H of a metric one; none where neither is known.
#[must_use]
pub fn thread_limits(catalog: &Catalog, diameter: Length, pitch: Pitch) -> Option<(Unit, ThreadLimits)> {
    let mut metric =
        catalog.thread_limits.iter().filter_map(|table| Some((table.unit, table.row(diameter)?)));
    if let Some((unit, limits)) = metric.find(|(_, it)| it.pitch == pitch.times(1)) {
        return Some((unit, limits.clone()));
    }
    let inch = catalog.threads.iter().filter(|table| table.unit == Unit::Inch);
    let known = inch.filter_map(|table| table.row(diameter)).any(|row| row.pitch == pitch);
    known.then(|| (Unit::Inch, class_2(diameter, pitch)))
}

/// Works out the limits of class 2A and 2B of a UNC thread.
///
/// # Source
/// ASME B1.1, tolerance formulas from memory: Td2 = 0.0015 d^(1/3) + 0.0015 sqrt(d) + 0.015 P^(2/3) (the engagement
/// is d for UNC); allowance 0.3 Td2; major 0.060 P^(2/3); nut pitch 1.3 Td2; nut minor 0.25 P - 0.4 P^2.
///
/// # Units and errors
/// Inches, each term rounded to 0.0001, the minor diameter of the nut to 0.001 as the tables have it. Within 0.0001 in of
/// every limit that was seen tabulated.
fn class_2(diameter: Length, pitch: Pitch) -> ThreadLimits {
    let (threads, over) = pitch.threads_over();
    let d = inches(diameter);
    let p = inches(over) / as_float(threads);
    let two_thirds = p.cbrt().powi(2);
    let tolerance = 0.0015 * d.cbrt() + 0.0015 * d.sqrt() + 0.015 * two_thirds;
    let allowance = steps(0.3 * tolerance);
    let major = steps(d);
    let pitch_diameter = steps(d - 0.649_519 * p);
    let minor = steps(d - 1.082_532 * p) + steps(0.25 * p - 0.4 * p * p);
    ThreadLimits {
        pitch: pitch.times(1),
        rod_major: length(major - allowance - steps(0.06 * two_thirds)),
        rod_pitch: length(pitch_diameter - allowance - steps(tolerance)),
        nut_minor: length((minor + 5).div_euclid(10) * 10),
        nut_pitch: length(pitch_diameter + steps(1.3 * tolerance)),
        authority: Authority::new(
            Standing::FromMemory,
            "ASME B1.1, classes 2A and 2B, worked out by its tolerance formulas as remembered; within 0.0001 in of every \
             limit seen tabulated, and equal to one public data set at 1/2, 3/4 and 1 in; the standard itself was not \
             opened",
        ),
    }
}

#[allow(clippy::cast_precision_loss, reason = "lengths stay below 2^53 nm")]
fn as_float(whole: i64) -> f64 {
    whole as f64
}

fn inches(length: Length) -> f64 {
    as_float(length.nm()) / as_float(Unit::Inch.nm())
}

/// Gives whole steps, to the nearest, ties down: the tolerance of 1-8 is 0.00675 in, and tabulated as 0.0067.
#[allow(clippy::cast_possible_truncation, reason = "no thread comes near 2^63 steps")]
fn steps(inches: f64) -> i64 {
    (inches * 10_000.0 - 0.5 - 1e-6).ceil() as i64
}

fn length(steps: i64) -> Length {
    Length::from_nm(steps.saturating_mul(STEP))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::load;

    /// The limits of the inch threads as tabulated in inches: least major and pitch diameter of the rod (2A), most minor and
    /// pitch diameter of the nut (2B). Nut limits from one public sheet, rod limits from one public data set at 1/2,
    /// 3/4 and 1 in and otherwise from memory.
    const TABULATED: [(&str, [i64; 4]); 13] = [
        ("1/2", [4876, 4435, 4340, 4565]),
        ("5/8", [6113, 5589, 5460, 5732]),
        ("3/4", [7353, 6773, 6630, 6927]),
        ("7/8", [8592, 7946, 7780, 8110]),
        ("1", [9830, 9101, 8900, 9276]),
        ("1-1/8", [11064, 10228, 9980, 10416]),
        ("1-1/4", [12314, 11476, 11230, 11668]),
        ("1-3/8", [13544, 12563, 12250, 12771]),
        ("1-1/2", [14794, 13812, 13500, 14022]),
        ("1-3/4", [17268, 16085, 15680, 16317]),
        ("2", [19751, 18433, 17950, 18681]),
        ("2-1/4", [22251, 20931, 20450, 21183]),
        ("2-1/2", [24731, 23241, 22670, 23511]),
    ];

    fn limits(catalog: &Catalog, size: &str) -> [i64; 4] {
        let diameter = crate::length::read(size, crate::length::Bare::of(Unit::Inch)).unwrap();
        let unc = catalog.threads.iter().find(|table| table.name == "unc").unwrap();
        let (unit, found) = thread_limits(catalog, diameter, unc.row(diameter).unwrap().pitch).unwrap();
        assert_eq!(unit, Unit::Inch);
        [found.rod_major, found.rod_pitch, found.nut_minor, found.nut_pitch].map(|it| it.nm() / STEP)
    }

    #[test]
    fn class_2_limits_come_within_a_ten_thousandth_of_those_tabulated() {
        let catalog = load().unwrap();
        for (size, tabulated) in TABULATED {
            let found = limits(&catalog, size);
            let off = found.iter().zip(tabulated).map(|(found, tabulated)| (found - tabulated).abs());
            assert!(off.max().unwrap() <= 1, "{size}: {found:?}, tabulated {tabulated:?}");
        }
        for size in ["1/2", "3/4", "1"] {
            let (_, tabulated) = TABULATED.iter().find(|(it, _)| *it == size).unwrap();
            assert_eq!(limits(&catalog, size), *tabulated, "{size}");
        }
    }

    #[test]
    fn a_thread_of_another_pitch_has_no_limits() {
        let catalog = load().unwrap();
        let inch = Length::from_nm(Unit::Inch.nm());
        assert_eq!(thread_limits(&catalog, inch, Pitch::new(12, inch)), None, "1-12 is not UNC");
        let twelve = Length::from_nm(12_000_000);
        assert_eq!(thread_limits(&catalog, twelve, Pitch::new(1, Length::from_nm(1_500_000))), None);
        assert!(thread_limits(&catalog, twelve, Pitch::new(1, Length::from_nm(1_750_000))).is_some());
    }
}
