//! Forces in kips or kilonewtons, with the rounding always chosen.

use super::length::{Style, System};
use super::pair::Shown;
use crate::length::Rounding;
use crate::quantity::{Force, ForceUnit};

/// Writes whole steps of `1/10^places` with their decimals, trailing noughts dropped.
pub(super) fn steps(count: i128, places: u32) -> String {
    let scale = 10_i128.pow(places);
    let sign = if count < 0 { "-" } else { "" };
    let (whole, rest) = (count.abs() / scale, count.abs() % scale);
    if rest == 0 {
        return format!("{sign}{whole}");
    }
    let width = places as usize;
    let tail = format!("{rest:0width$}");
    format!("{sign}{whole}.{}", tail.trim_end_matches('0'))
}

/// Most decimals of a kip or a kilonewton that are written.
const MOST_PLACES: u32 = 6;

impl Style {
    const fn force_unit(self) -> (ForceUnit, &'static str) {
        match self.system() {
            System::Inch => (ForceUnit::Kip, "kip"),
            System::Metric => (ForceUnit::Kilonewton, "kN"),
        }
    }

    /// Writes a force to 0.1 kip or 0.1 kN, `~` before it where it is not exact.
    ///
    /// # Example
    /// ```
    /// use rodreach::length::Rounding;
    /// use rodreach::quantity::read_force;
    /// use rodreach::text::{Style, System};
    /// let force = read_force("729.36 kip").unwrap();
    /// assert_eq!(Style::new(System::Inch, 16).force(force, Rounding::Down), "~729.3 kip");
    /// assert_eq!(Style::new(System::Metric, 16).force(force, Rounding::Up), "~3244.4 kN");
    /// ```
    #[must_use]
    pub fn force(self, force: Force, rounding: Rounding) -> String {
        self.force_to(force, 1, rounding).1
    }

    /// Writes a force with every digit it has, in the other system's unit where it has none to the end in this one.
    ///
    /// # Example
    /// ```
    /// use rodreach::quantity::read_force;
    /// use rodreach::text::{Style, System};
    /// let metric = Style::new(System::Metric, 16);
    /// assert_eq!(metric.force_exact(read_force("12 kip").unwrap()), "12 kip");
    /// assert_eq!(metric.force_exact(read_force("12500 N").unwrap()), "12.5 kN");
    /// ```
    #[must_use]
    pub fn force_exact(self, force: Force) -> String {
        let kips = (ForceUnit::Kip, "kip");
        let kilonewtons = (ForceUnit::Kilonewton, "kN");
        let order = if self.system() == System::Inch { [kips, kilonewtons] } else { [kilonewtons, kips] };
        for (unit, name) in order {
            let parts = 10_i64.pow(MOST_PLACES);
            let down = force.steps_down(unit, parts);
            if down == force.steps_up(unit, parts) {
                return format!("{} {name}", steps(down, MOST_PLACES));
            }
        }
        self.force_to(force, MOST_PLACES, Rounding::Up).1
    }

    /// Writes a load, up, and what it may come to, down, refined until the printed pair tells the exact verdict.
    ///
    /// # Example
    /// ```
    /// use rodreach::quantity::read_force;
    /// use rodreach::text::{Style, System};
    /// let read = |text| read_force(text).unwrap();
    /// let shown = Style::new(System::Inch, 16).force_pair(read("26.48 kip"), read("26.52 kip"));
    /// assert_eq!((shown.value.as_str(), shown.limit.as_str()), ("~26.5 kip", "~26.5 kip"));
    /// ```
    #[must_use]
    pub fn force_pair(self, load: Force, most: Force) -> Shown {
        let verdict = load <= most;
        for places in 1..=MOST_PLACES {
            let (load_steps, value) = self.force_to(load, places, Rounding::Up);
            let (most_steps, limit) = self.force_to(most, places, Rounding::Down);
            if (load_steps <= most_steps) == verdict {
                return Shown { value, limit };
            }
        }
        // a load within a thousandth of a pound of its limit, and no more than it
        let limit = self.force_to(most, MOST_PLACES, Rounding::Down).1;
        Shown { value: limit.clone(), limit }
    }

    /// Writes a moment in whole pound inches or newton metres, down, `~` before it.
    ///
    /// # Units
    /// Takes newton millimetres.
    ///
    /// # Example
    /// ```
    /// use rodreach::text::{Style, System};
    /// assert_eq!(Style::new(System::Metric, 16).moment(896_700), "~896 N m");
    /// assert_eq!(Style::new(System::Inch, 16).moment(896_700), "~7936 lb in");
    /// ```
    #[must_use]
    pub fn moment(self, newton_millimetres: i64) -> String {
        let value = i128::from(newton_millimetres);
        match self.system() {
            // a pound inch is 112.984 829 027 616 7 N mm
            System::Inch => format!("~{} lb in", (value * 10_000_000_000).div_euclid(1_129_848_290_277)),
            System::Metric => format!("~{} N m", value.div_euclid(1000)),
        }
    }

    fn force_to(self, force: Force, places: u32, rounding: Rounding) -> (i128, String) {
        let (unit, name) = self.force_unit();
        let parts = 10_i64.pow(places);
        let (down, up) = (force.steps_down(unit, parts), force.steps_up(unit, parts));
        let rounded = match rounding {
            Rounding::Down => down,
            Rounding::Up => up,
            Rounding::Nearest => (force.steps_down(unit, parts * 2) + 1).div_euclid(2),
        };
        let about = if down == up { "" } else { "~" };
        (rounded, format!("{about}{} {name}", steps(rounded, places)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::read_force;

    #[test]
    fn a_pair_never_says_the_same_of_a_load_that_is_over_and_never_more_of_one_that_is_not() {
        let inch = Style::new(System::Inch, 16);
        let read = |text: &str| read_force(text).unwrap();
        let told = |load: &str, most: &str| {
            let shown = inch.force_pair(read(load), read(most));
            (shown.value, shown.limit)
        };
        let both = |one: &str, other: &str| (one.to_owned(), other.to_owned());
        assert_eq!(told("12 kip", "26.58 kip"), both("12 kip", "~26.5 kip"), "down");
        assert_eq!(told("26.52 kip", "26.52 kip"), both("26.52 kip", "26.52 kip"));
        assert_eq!(told("26.5200001 kip", "26.52 kip"), both("~26.6 kip", "~26.5 kip"), "over");
        assert_eq!(told("26.519999 kip", "26.52 kip"), both("~26.52 kip", "26.52 kip"));
        let third = read("1 kN");
        assert_eq!(
            inch.force_pair(third, third).value,
            inch.force_pair(third, third).limit,
            "no end in kips"
        );
    }

    #[test]
    fn noughts_are_written_once() {
        let metric = Style::new(System::Metric, 16);
        assert_eq!(metric.force_exact(Force::ZERO), "0 kN");
        assert_eq!(metric.force(read_force("0.04 kN").unwrap(), Rounding::Down), "~0 kN");
        assert_eq!(metric.force(read_force("0.04 kN").unwrap(), Rounding::Nearest), "~0 kN");
    }
}
