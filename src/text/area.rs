//! Areas in square inches or square millimetres, always rounded down.

use super::length::{Style, System};

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
}
