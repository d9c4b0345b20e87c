//! A share in percent, exact.

/// A share of a whole, more than nothing and less than all of it.
///
/// # Units
/// Millionths, so that 99.9999 % is exact.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Percent(u32);

/// Millionths in one percent.
const ONE: u32 = 10_000;

impl Percent {
    /// Makes a share of so many millionths; none for nothing, for all and for more.
    #[must_use]
    pub const fn of_millionths(millionths: u32) -> Option<Self> {
        if millionths == 0 || millionths >= 100 * ONE { None } else { Some(Self(millionths)) }
    }

    /// Gives it in millionths.
    #[must_use]
    pub const fn millionths(self) -> u32 {
        self.0
    }

    /// Reads a percentage above 0 and below 100, with at most four decimals: `99`, `99.5`, `95 %`.
    ///
    /// # Example
    /// ```
    /// use rodreach::detail::Percent;
    /// assert_eq!(Percent::read("99.5 %").map(Percent::millionths), Some(995_000));
    /// assert_eq!(Percent::read("100"), None);
    /// ```
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let text = text.trim().trim_end_matches('%').trim_end();
        let (whole, decimals) = text.split_once('.').unwrap_or((text, ""));
        let digits = |text: &str| text.chars().all(|c| c.is_ascii_digit());
        if whole.is_empty() || whole.len() > 2 || decimals.len() > 4 || !digits(whole) || !digits(decimals) {
            return None;
        }
        if text.ends_with('.') {
            return None;
        }
        let parts: u32 = format!("{decimals:0<4}").parse().ok()?;
        Self::of_millionths(whole.parse::<u32>().ok()? * ONE + parts)
    }

    /// Writes it as it is said: `99 %`, `99.5 %`.
    #[must_use]
    pub fn words(self) -> String {
        let (whole, parts) = (self.0 / ONE, self.0 % ONE);
        let decimals = format!("{parts:04}");
        let decimals = decimals.trim_end_matches('0');
        if decimals.is_empty() { format!("{whole} %") } else { format!("{whole}.{decimals} %") }
    }

    /// Writes it with two decimals at most, down: for a share that is worked out.
    #[must_use]
    pub fn about(self) -> String {
        let cut = self.0 / 100 * 100;
        Self(cut.max(1)).words()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_percentage_is_read_exactly_and_written_back() {
        for (text, millionths, words) in [
            ("99", 990_000, "99 %"),
            ("95%", 950_000, "95 %"),
            (" 99.9999 ", 999_999, "99.9999 %"),
            ("0.5 %", 5_000, "0.5 %"),
            ("07.25", 72_500, "7.25 %"),
        ] {
            let read = Percent::read(text).unwrap();
            assert_eq!((read.millionths(), read.words().as_str()), (millionths, words), "{text}");
        }
        assert_eq!(Percent::read("86.6789").unwrap().about(), "86.67 %");
    }

    #[test]
    fn what_is_no_share_is_refused() {
        for text in ["", "0", "0.0000", "100", "100.0", "-5", "1e1", "99.", ".5", "99.99999", "9 9", "%", "٩"]
        {
            assert_eq!(Percent::read(text), None, "{text}");
        }
    }
}
