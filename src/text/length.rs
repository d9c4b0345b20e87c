//! Lengths in inch fractions or millimetres, with the rounding always chosen.

use crate::length::{Length, Rounding, Unit};

/// Inch or metric wording.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum System {
    /// Fractions of an inch, feet and inches for elevations.
    Inch,
    /// Millimetres.
    Metric,
}

/// How a job's answers are written.
///
/// # Units
/// Inch jobs in fractions of 1/16, 1/32 or 1/64 in; metric jobs to 0.1 mm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Style {
    system: System,
    fraction: i64,
}

impl Style {
    /// Makes a style; a fraction other than 32 or 64 is 16.
    #[must_use]
    pub const fn new(system: System, fraction: i64) -> Self {
        let fraction = match fraction {
            32 | 64 => fraction,
            _ => 16,
        };
        Self { system, fraction }
    }

    /// Gives the wording, inch or metric.
    #[must_use]
    pub const fn system(self) -> System {
        self.system
    }

    /// Gives the parts of an inch that answers are written in.
    pub(super) const fn fraction(self) -> i64 {
        self.fraction
    }

    /// Gives the step that answers are rounded to.
    #[must_use]
    pub const fn step(self) -> Length {
        match self.system {
            System::Inch => Length::from_nm(Unit::Inch.nm() / self.fraction),
            System::Metric => Length::from_nm(100_000),
        }
    }

    /// Writes a length, `~` before it where it is not exact.
    ///
    /// # Example
    /// ```
    /// use rodreach::length::{Length, Rounding};
    /// use rodreach::text::{Style, System};
    /// let inch = Style::new(System::Inch, 16);
    /// assert_eq!(inch.write(Length::from_nm(34_925_000), Rounding::Down), "1-3/8\"");
    /// assert_eq!(inch.write(Length::from_nm(-3_000_000), Rounding::Down), "~-1/8\"");
    /// ```
    #[must_use]
    pub fn write(self, length: Length, rounding: Rounding) -> String {
        let rounded = length.to_step(self.step(), rounding);
        let about = if rounded == length { "" } else { "~" };
        match self.system {
            System::Inch => format!("{about}{}", inches(rounded, self.fraction)),
            System::Metric => format!("{about}{} mm", decimal(rounded, Unit::Millimetre, 1)),
        }
    }

    /// Writes a length with its sign, a plus too.
    #[must_use]
    pub fn signed(self, length: Length, rounding: Rounding) -> String {
        let text = self.write(length, rounding);
        if text.contains('-') && length.is_negative() || length == Length::ZERO {
            return text;
        }
        match text.strip_prefix('~') {
            Some(text) if !text.starts_with('0') => format!("~+{text}"),
            Some(_) => text,
            None => format!("+{text}"),
        }
    }

    /// Tells whether a range holds a whole step, so that its bounds can be rounded into it.
    #[must_use]
    pub fn has_a_step_in(self, low: Length, high: Length) -> bool {
        low.to_step(self.step(), Rounding::Up) <= high.to_step(self.step(), Rounding::Down)
    }

    /// Writes an elevation or another long length: feet and inches, or metres.
    #[must_use]
    pub fn elevation(self, length: Length) -> String {
        self.elevation_to(length, Rounding::Nearest)
    }

    /// Writes an elevation, rounded the stated way.
    #[must_use]
    pub fn elevation_to(self, length: Length, rounding: Rounding) -> String {
        let rounded = length.to_step(self.step(), rounding);
        let about = if rounded == length { "" } else { "~" };
        match self.system {
            System::Inch if rounded.abs().nm() >= Unit::Foot.nm() => {
                let sign = if rounded.is_negative() { "-" } else { "" };
                let feet = rounded.abs().nm() / Unit::Foot.nm();
                let rest = Length::from_nm(rounded.abs().nm() % Unit::Foot.nm());
                format!("{about}{sign}{feet}'-{}", inches(rest, self.fraction))
            }
            System::Inch => format!("{about}{}", inches(rounded, self.fraction)),
            System::Metric if rounded.abs().nm() >= Unit::Metre.nm() => {
                format!("{about}{} m", decimal(rounded, Unit::Metre, 4))
            }
            System::Metric => format!("{about}{} mm", decimal(rounded, Unit::Millimetre, 1)),
        }
    }

    /// Writes a length with every digit it has, never rounded.
    ///
    /// A whole number of 1/64 in is a fraction in an inch job; all else is millimetres.
    #[must_use]
    pub fn exact(self, length: Length) -> String {
        let sixty_fourth = Length::from_nm(Unit::Inch.nm() / 64);
        if self.system == System::Inch && length.to_step(sixty_fourth, Rounding::Down) == length {
            return inches(length, 64);
        }
        let ten_thousandth = Length::from_nm(Unit::Inch.nm() / 10_000);
        if self.system == System::Inch && length.to_step(ten_thousandth, Rounding::Down) == length {
            return format!("{}\"", decimal(length, Unit::Inch, 4));
        }
        format!("{} mm", decimal(length, Unit::Millimetre, 6))
    }
}

/// Writes a whole number of `1/fraction` in as a reduced fraction with its inch mark.
pub(super) fn inches(length: Length, fraction: i64) -> String {
    let sign = if length.is_negative() { "-" } else { "" };
    let parts = length.abs().nm() / (Unit::Inch.nm() / fraction);
    let (whole, mut over, mut under) = (parts / fraction, parts % fraction, fraction);
    while over != 0 && over % 2 == 0 {
        over /= 2;
        under /= 2;
    }
    match (whole, over) {
        (_, 0) => format!("{sign}{whole}\""),
        (0, _) => format!("{sign}{over}/{under}\""),
        _ => format!("{sign}{whole}-{over}/{under}\""),
    }
}

/// Writes so many units with at most `places` decimals, trailing noughts dropped.
///
/// Digits beyond `places` are cut; callers round first.
pub(super) fn decimal(length: Length, unit: Unit, places: u32) -> String {
    let sign = if length.is_negative() { "-" } else { "" };
    let nm = i128::from(length.abs().nm());
    let unit = i128::from(unit.nm());
    let scale = 10_i128.pow(places.min(12));
    let scaled = nm * scale / unit;
    let (whole, rest) = (scaled / scale, scaled % scale);
    if rest == 0 {
        let sign = if whole == 0 { "" } else { sign };
        return format!("{sign}{whole}");
    }
    let width = places as usize;
    let tail = format!("{rest:0width$}");
    format!("{sign}{whole}.{}", tail.trim_end_matches('0'))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIXTEENTH: i64 = 1_587_500;

    fn inch(nm: i64, way: Rounding) -> String {
        Style::new(System::Inch, 16).write(Length::from_nm(nm), way)
    }

    #[test]
    fn fractions_are_reduced_and_keep_their_sign() {
        assert_eq!(inch(0, Rounding::Down), "0\"");
        assert_eq!(inch(SIXTEENTH * 8, Rounding::Down), "1/2\"");
        assert_eq!(inch(-SIXTEENTH * 23, Rounding::Down), "-1-7/16\"");
        assert_eq!(inch(SIXTEENTH * 32, Rounding::Down), "2\"");
    }

    #[test]
    fn what_is_not_exact_says_so_and_goes_the_stated_way() {
        assert_eq!(inch(SIXTEENTH + 1, Rounding::Down), "~1/16\"");
        assert_eq!(inch(SIXTEENTH + 1, Rounding::Up), "~1/8\"");
        assert_eq!(inch(-1, Rounding::Down), "~-1/16\"");
        let mm = Style::new(System::Metric, 16);
        assert_eq!(mm.write(Length::from_nm(12_340_000), Rounding::Down), "~12.3 mm");
        assert_eq!(mm.write(Length::from_nm(12_300_000), Rounding::Down), "12.3 mm");
        assert_eq!(mm.write(Length::from_nm(-50_000), Rounding::Nearest), "~-0.1 mm");
    }

    #[test]
    fn signs_are_written_on_both_sides_of_zero() {
        let inch = Style::new(System::Inch, 16);
        assert_eq!(inch.signed(Length::from_nm(SIXTEENTH * 3), Rounding::Down), "+3/16\"");
        assert_eq!(inch.signed(Length::from_nm(SIXTEENTH * -24), Rounding::Down), "-1-1/2\"");
        assert_eq!(inch.signed(Length::from_nm(SIXTEENTH * 24), Rounding::Down), "+1-1/2\"");
        assert_eq!(inch.signed(Length::ZERO, Rounding::Down), "0\"");
        assert_eq!(inch.signed(Length::from_nm(1), Rounding::Down), "~0\"");
    }

    #[test]
    fn elevations_are_feet_and_inches_or_metres() {
        let inch = Style::new(System::Inch, 16);
        let nm = Unit::Foot.nm() * 99 + SIXTEENTH * 190;
        assert_eq!(inch.elevation(Length::from_nm(nm)), "99'-11-7/8\"");
        assert_eq!(inch.elevation(Length::from_nm(-nm)), "-99'-11-7/8\"");
        let mm = Style::new(System::Metric, 16);
        assert_eq!(mm.elevation(Length::from_nm(100_003_400_000)), "100.0034 m");
    }

    #[test]
    fn exact_never_rounds() {
        let inch = Style::new(System::Inch, 16);
        assert_eq!(inch.exact(Length::from_nm(396_875 * 47)), "47/64\"");
        assert_eq!(inch.exact(Length::from_nm(19_253_200)), "0.758\"");
        assert_eq!(inch.exact(Length::from_nm(1_234_567)), "1.234567 mm");
    }
}
