//! Areas in square inches or square millimetres: of thread in fine steps, of plates in coarse ones.

use super::force::steps;
use super::length::{Style, System};
use crate::length::Rounding;
use crate::quantity::Area;

impl Style {
    /// Writes an area, down, `~` before it where it is not exact.
    ///
    /// # Units
    /// Takes square micrometres (1/1,000,000 mm2); writes 0.0001 in2 in inch jobs, 0.1 mm2 in metric ones.
    ///
    /// # Example
    /// ```
    /// use rodreach::text::{Style, System};
    /// assert_eq!(Style::new(System::Inch, 16).area(215_806_020), "0.3345 in2");
    /// assert_eq!(Style::new(System::Metric, 16).area(244_794_000), "~244.7 mm2");
    /// ```
    #[must_use]
    pub fn area(self, square_micrometres: i64) -> String {
        let (step, parts, places, unit) = match self.system() {
            System::Inch => (64_516, 10_000, 4, "in2"),
            System::Metric => (100_000, 10, 1, "mm2"),
        };
        let steps = square_micrometres.max(0) / step;
        let about = if steps * step == square_micrometres { "" } else { "~" };
        format!("{about}{}.{:0places$} {unit}", steps / parts, steps % parts)
    }

    /// Writes the area of a plate to 0.1 in2 or 1 mm2, `~` before it where it is not exact.
    ///
    /// # Example
    /// ```
    /// use rodreach::length::Rounding;
    /// use rodreach::quantity::Area;
    /// use rodreach::text::{Style, System};
    /// let area = Area::from_square_nanometres(272_485_000_000_000_000);
    /// assert_eq!(Style::new(System::Inch, 16).area_of(area, Rounding::Down), "~422.3 in2");
    /// assert_eq!(Style::new(System::Metric, 16).area_of(area, Rounding::Up), "272485 mm2");
    /// ```
    #[must_use]
    pub fn area_of(self, area: Area, rounding: Rounding) -> String {
        let (step, places, unit) = match self.system() {
            System::Inch => (64_516_000_000_000, 1, "in2"),
            System::Metric => (1_000_000_000_000, 0, "mm2"),
        };
        let nanometres = area.square_nanometres();
        let down = nanometres.div_euclid(step);
        let exact = down * step == nanometres;
        let count = match rounding {
            _ if exact => down,
            Rounding::Down => down,
            Rounding::Up => down + 1,
            Rounding::Nearest => (nanometres + step / 2).div_euclid(step),
        };
        let about = if exact { "" } else { "~" };
        format!("{about}{} {unit}", steps(count, places))
    }
}
