//! A value and its limit, refined until the printed pair tells the exact verdict.

use super::length::{Style, System, decimal, inches};
use crate::length::{Length, Rounding, Unit};

/// How a value has to stand to its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relation {
    /// The value may be the limit or less.
    AtMost,
    /// The value must be the limit or more.
    AtLeast,
}

impl Relation {
    /// Tells whether a value keeps its limit.
    #[must_use]
    pub fn holds(self, value: Length, limit: Length) -> bool {
        match self {
            Self::AtMost => value <= limit,
            Self::AtLeast => value >= limit,
        }
    }
}

/// A value and its limit as words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// The value.
    pub value: String,
    /// The limit.
    pub limit: String,
}

/// One way of writing a length, coarse to fine.
#[derive(Clone, Copy)]
enum Grain {
    Fraction(i64),
    InchDecimals(u32),
    MillimetreDecimals(u32),
}

impl Grain {
    fn step(self) -> Length {
        Length::from_nm(match self {
            Self::Fraction(fraction) => Unit::Inch.nm() / fraction,
            Self::InchDecimals(places) => Unit::Inch.nm() / 10_i64.pow(places),
            Self::MillimetreDecimals(places) => Unit::Millimetre.nm() / 10_i64.pow(places),
        })
    }

    fn write(self, length: Length) -> (Length, String) {
        let rounded = length.to_step(self.step(), Rounding::Nearest);
        let about = if rounded == length { "" } else { "~" };
        let words = match self {
            Self::Fraction(fraction) => inches(rounded, fraction),
            Self::InchDecimals(places) => format!("{}\"", decimal(rounded, Unit::Inch, places)),
            Self::MillimetreDecimals(places) => format!("{} mm", decimal(rounded, Unit::Millimetre, places)),
        };
        (rounded, format!("{about}{words}"))
    }
}

impl Style {
    /// Writes a value and its limit together, never "1/4 against 1/4" under a fail.
    ///
    /// # Example
    /// ```
    /// use rodreach::length::Length;
    /// use rodreach::text::{Relation, Style, System};
    /// let quarter = Length::from_nm(6_350_000);
    /// let over = Length::from_nm(6_350_001);
    /// let shown = Style::new(System::Inch, 16).pair(over, quarter, Relation::AtMost);
    /// assert_eq!((shown.value.as_str(), shown.limit.as_str()), ("6.350001 mm", "6.35 mm"));
    /// ```
    #[must_use]
    pub fn pair(self, value: Length, limit: Length, relation: Relation) -> Shown {
        let verdict = relation.holds(value, limit);
        let mut grains = match self.system() {
            System::Inch => vec![
                Grain::Fraction(Unit::Inch.nm() / self.step().nm()),
                Grain::Fraction(32),
                Grain::Fraction(64),
                Grain::InchDecimals(3),
                Grain::InchDecimals(4),
            ],
            System::Metric => vec![Grain::MillimetreDecimals(1)],
        };
        grains.extend((2..=5).map(Grain::MillimetreDecimals));
        for grain in grains {
            let (value_rounded, value) = grain.write(value);
            let (limit_rounded, limit) = grain.write(limit);
            if relation.holds(value_rounded, limit_rounded) == verdict {
                return Shown { value, limit };
            }
        }
        let finest = Grain::MillimetreDecimals(6);
        Shown { value: finest.write(value).1, limit: finest.write(limit).1 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::length::{Bare, read};
    use proptest::prelude::*;

    fn back(text: &str) -> Length {
        read(text.trim_start_matches('~'), Bare { number: None, fraction: None }).unwrap()
    }

    proptest! {
        #[test]
        fn a_printed_pair_read_back_tells_the_exact_verdict(
            limit in -20_000_000_i64..20_000_000,
            off in prop_oneof![-3_i64..4, -2_000_000_i64..2_000_000],
            metric: bool,
            least: bool,
        ) {
            let system = if metric { System::Metric } else { System::Inch };
            let relation = if least { Relation::AtLeast } else { Relation::AtMost };
            let (value, limit) = (Length::from_nm(limit + off), Length::from_nm(limit));
            let shown = Style::new(system, 16).pair(value, limit, relation);
            prop_assert_eq!(
                relation.holds(back(&shown.value), back(&shown.limit)),
                relation.holds(value, limit),
                "{:?}", shown
            );
        }
    }

    #[test]
    fn a_coarse_pair_stays_coarse_while_it_tells_the_truth() {
        let shown = Style::new(System::Inch, 16).pair(
            Length::from_nm(9_525_000),
            Length::from_nm(6_350_000),
            Relation::AtMost,
        );
        assert_eq!((shown.value.as_str(), shown.limit.as_str()), ("3/8\"", "1/4\""));
    }
}
