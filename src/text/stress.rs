//! Stresses: of concrete in psi or MPa, of steel in ksi or MPa, every digit.

use super::force::steps;
use super::length::{Style, System};
use crate::quantity::{Stress, StressUnit};

/// Most decimals of a stress that are written.
const MOST_PLACES: u32 = 3;

impl Style {
    /// Writes a strength of concrete with every digit, in the other system's unit where it has none to the end in
    /// this one.
    ///
    /// # Example
    /// ```
    /// use rodreach::quantity::read_stress;
    /// use rodreach::text::{Style, System};
    /// let [inch, metric] = [System::Inch, System::Metric].map(|it| Style::new(it, 16));
    /// assert_eq!(inch.concrete(read_stress("3 ksi").unwrap()), "3000 psi");
    /// assert_eq!(metric.concrete(read_stress("3 ksi").unwrap()), "3000 psi");
    /// assert_eq!(inch.concrete(read_stress("20.5 MPa").unwrap()), "20.5 MPa");
    /// ```
    #[must_use]
    pub fn concrete(self, stress: Stress) -> String {
        self.stress(stress, (StressUnit::Psi, "psi"))
    }

    /// Writes a strength of steel likewise, in ksi or MPa.
    #[must_use]
    pub fn steel(self, stress: Stress) -> String {
        self.stress(stress, (StressUnit::Ksi, "ksi"))
    }

    fn stress(self, stress: Stress, inch: (StressUnit, &'static str)) -> String {
        let metric = (StressUnit::Megapascal, "MPa");
        let order = if self.system() == System::Inch { [inch, metric] } else { [metric, inch] };
        let parts = 10_i64.pow(MOST_PLACES);
        let exact = order.into_iter().find(|(unit, _)| stress.is_whole(*unit, parts));
        let (unit, name) = exact.unwrap_or(order[0]);
        let about = if exact.is_some() { "" } else { "~" };
        format!("{about}{} {name}", steps(stress.steps_down(unit, parts), MOST_PLACES))
    }
}
