//! Volumes in cubic feet or litres, always rounded up.

use super::length::{Style, System};
use crate::length::Volume;

/// A thousandth of a cubic foot, in cubic nanometres.
const THOUSANDTH_FT3: u128 = 28_316_846_592_000_000_000_000;

/// A tenth of a litre, in cubic nanometres.
const TENTH_LITRE: u128 = 100_000_000_000_000_000_000_000;

impl Style {
    /// Writes a volume, up, `~` before it where it is not exact.
    ///
    /// # Units
    /// Writes 0.001 ft3 in inch jobs, 0.1 l in metric ones.
    ///
    /// # Example
    /// ```
    /// use rodreach::length::read_volume;
    /// use rodreach::text::{Style, System};
    /// let volume = read_volume("660 in3").unwrap();
    /// assert_eq!(Style::new(System::Inch, 16).volume(volume), "~0.382 ft3");
    /// assert_eq!(Style::new(System::Metric, 16).volume(volume), "~10.9 l");
    /// ```
    #[must_use]
    pub fn volume(self, volume: Volume) -> String {
        let (step, parts, places, unit) = match self.system() {
            System::Inch => (THOUSANDTH_FT3, 1000, 3, "ft3"),
            System::Metric => (TENTH_LITRE, 10, 1, "l"),
        };
        let steps = volume.nm3().div_ceil(step);
        let about = if volume.nm3().is_multiple_of(step) { "" } else { "~" };
        format!("{about}{}.{:0places$} {unit}", steps / parts, steps % parts)
    }
}
