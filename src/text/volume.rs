//! Volumes in cubic feet or litres, with the rounding always chosen.

use super::length::{Style, System};
use crate::length::{Rounding, Volume};

/// A thousandth of a cubic foot, in cubic nanometres.
const THOUSANDTH_FT3: u128 = 28_316_846_592_000_000_000_000;

/// A tenth of a litre, in cubic nanometres.
const TENTH_LITRE: u128 = 100_000_000_000_000_000_000_000;

impl Style {
    /// Writes a volume, `~` before it where it is not exact.
    ///
    /// # Units
    /// Writes 0.001 ft3 in inch jobs, 0.1 l in metric ones.
    ///
    /// # Example
    /// ```
    /// use rodreach::length::{Rounding, read_volume};
    /// use rodreach::text::{Style, System};
    /// let volume = read_volume("660 in3").unwrap();
    /// assert_eq!(Style::new(System::Inch, 16).volume(volume, Rounding::Up), "~0.382 ft3");
    /// assert_eq!(Style::new(System::Metric, 16).volume(volume, Rounding::Down), "~10.8 l");
    /// ```
    #[must_use]
    pub fn volume(self, volume: Volume, rounding: Rounding) -> String {
        let (step, parts, places, unit) = match self.system() {
            System::Inch => (THOUSANDTH_FT3, 1000, 3, "ft3"),
            System::Metric => (TENTH_LITRE, 10, 1, "l"),
        };
        let steps = match rounding {
            Rounding::Up => volume.nm3().div_ceil(step),
            Rounding::Down => volume.nm3() / step,
            Rounding::Nearest => (volume.nm3() / (step / 2)).div_ceil(2),
        };
        let about = if volume.nm3().is_multiple_of(step) { "" } else { "~" };
        format!("{about}{}.{:0places$} {unit}", steps / parts, steps % parts)
    }
}
