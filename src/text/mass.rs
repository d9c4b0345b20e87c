//! Masses in pounds or kilograms, always rounded up.

use super::length::{Style, System};

/// A tenth of a pound, in millionths of a milligram.
const TENTH_POUND: u128 = 45_359_237_000;

/// A tenth of a kilogram, in millionths of a milligram.
const TENTH_KILOGRAM: u128 = 100_000_000_000;

impl Style {
    /// Writes a mass, up; no mass of a plate is exact, so no `~` stands before it.
    ///
    /// # Units
    /// Takes milligrams; writes 0.1 lb in inch jobs, 0.1 kg in metric ones.
    ///
    /// # Example
    /// ```
    /// use rodreach::text::{Style, System};
    /// assert_eq!(Style::new(System::Inch, 16).mass(2_206_765), "4.9 lb");
    /// assert_eq!(Style::new(System::Metric, 16).mass(2_206_765), "2.3 kg");
    /// ```
    #[must_use]
    pub fn mass(self, milligrams: u64) -> String {
        let (step, unit) = match self.system() {
            System::Inch => (TENTH_POUND, "lb"),
            System::Metric => (TENTH_KILOGRAM, "kg"),
        };
        let tenths = (u128::from(milligrams) * 1_000_000).div_ceil(step);
        format!("{}.{} {unit}", tenths / 10, tenths % 10)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A pound is 0.45359237 kg: the definition (NIST Handbook 44, Appendix C).
    #[test]
    fn a_pound_is_453_592_milligrams_and_a_little_more() {
        let inch = Style::new(System::Inch, 16);
        assert_eq!(inch.mass(453_592), "1.0 lb");
        assert_eq!(inch.mass(453_593), "1.1 lb");
        assert_eq!(inch.mass(0), "0.0 lb");
        assert_eq!(Style::new(System::Metric, 16).mass(1_000_000), "1.0 kg");
        assert_eq!(Style::new(System::Metric, 16).mass(1_000_001), "1.1 kg");
    }
}
