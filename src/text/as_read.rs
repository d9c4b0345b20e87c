//! Lengths as the readings of a job are written: decimals of their unit, or fractions of an inch.

use super::length::{Style, System};
use crate::length::{Length, Unit};

/// Most decimals a reading is written with.
const MOST_PLACES: u32 = 6;

/// Decimals of a reading in whose unit it cannot be written to its last digit.
const ROUNDED_PLACES: u32 = 4;

/// How the readings of a job, and what is worked out from them, are written.
///
/// Decimals are as many in every number, as in a level book, and stand without their unit: say it once
/// ([`AsRead::unit_words`]). `~` stands before what is not exact.
///
/// # Example
/// ```
/// use rodreach::length::{Length, Unit};
/// use rodreach::text::{AsRead, Style, System};
/// let style = Style::new(System::Metric, 16);
/// let read = [Length::from_nm(1_210_000_000), Length::from_nm(985_500_000)];
/// let metres = AsRead::of(Some(Unit::Metre), style, &read);
/// assert_eq!(metres.write(read[0]), "1.2100");
/// assert_eq!(metres.signed(Length::from_nm(7_000_000)), "+0.0070");
/// assert_eq!(metres.write(Length::from_nm(1)), "~0.0000");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AsRead(Form);

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Form {
    Decimals { unit: Unit, places: u32 },
    Fractions(i64),
}

impl AsRead {
    /// Chooses how to write readings so that all of them are exact, where that can be.
    ///
    /// Readings in inches, and readings of an inch job that states no unit, are fractions where they are whole
    /// 1/64 in; readings in feet only where no decimals write them. A metric job without a unit is in metres.
    #[must_use]
    pub fn of(unit: Option<Unit>, style: Style, readings: &[Length]) -> Self {
        let inch = style.system() == System::Inch;
        let unit = unit.unwrap_or(if inch { Unit::Inch } else { Unit::Metre });
        let places = readings.iter().map(|it| places(*it, unit)).try_fold(0, |most, it| Some(most.max(it?)));
        let fraction = fraction(style.fraction(), readings);
        Self(match (unit, places, fraction) {
            (Unit::Inch, _, Some(fraction)) | (Unit::Foot, None, Some(fraction)) => Form::Fractions(fraction),
            (_, Some(places), _) => Form::Decimals { unit, places },
            (_, None, _) => Form::Decimals { unit, places: ROUNDED_PLACES },
        })
    }

    /// Gives what writes shares of what was read: exact with two decimals more at most, else to one more.
    #[must_use]
    pub fn finer(self, shares: &[Length]) -> Self {
        Self(match self.0 {
            Form::Fractions(_) => Form::Fractions(64),
            Form::Decimals { unit, places: coarse } => {
                let exact = |it: &Length| places(*it, unit).filter(|it| *it <= coarse + 2);
                let needed = shares.iter().map(exact).try_fold(coarse, |most, it| Some(most.max(it?)));
                Form::Decimals { unit, places: needed.unwrap_or(coarse + 1) }
            }
        })
    }

    /// Tells whether all lengths are written exactly.
    #[must_use]
    pub fn is_exact(self, lengths: &[Length]) -> bool {
        lengths.iter().all(|it| match self.0 {
            Form::Fractions(fraction) => it.nm() % (Unit::Inch.nm() / fraction) == 0,
            Form::Decimals { unit, places } => self::places(*it, unit).is_some_and(|needed| needed <= places),
        })
    }

    /// Writes a length.
    #[must_use]
    pub fn write(self, length: Length) -> String {
        match self.0 {
            Form::Fractions(fraction) => Style::new(System::Inch, fraction).elevation(length),
            Form::Decimals { unit, places } => decimals(length, unit, places),
        }
    }

    /// Writes a length with its sign, a plus too.
    #[must_use]
    pub fn signed(self, length: Length) -> String {
        let text = self.write(length);
        let nought = !text.contains(|c: char| matches!(c, '1'..='9'));
        if length.is_negative() || nought {
            return text;
        }
        match text.strip_prefix('~') {
            Some(rounded) => format!("~+{rounded}"),
            None => format!("+{text}"),
        }
    }

    /// Writes a length with its unit, so that it can stand alone: `4.52 ft`, `4'-6-1/4"`.
    #[must_use]
    pub fn with_unit(self, length: Length) -> String {
        let symbol = match self.0 {
            Form::Fractions(_) => return self.write(length),
            Form::Decimals { unit, .. } => match unit {
                Unit::Inch => "in",
                Unit::Foot => "ft",
                Unit::Millimetre => "mm",
                Unit::Centimetre => "cm",
                Unit::Metre => "m",
            },
        };
        format!("{} {symbol}", self.write(length))
    }

    /// Names the unit of the numbers.
    #[must_use]
    pub const fn unit_words(self) -> &'static str {
        match self.0 {
            Form::Fractions(_) => "feet and inches",
            Form::Decimals { unit, .. } => match unit {
                Unit::Inch => "inches",
                Unit::Foot => "feet",
                Unit::Millimetre => "millimetres",
                Unit::Centimetre => "centimetres",
                Unit::Metre => "metres",
            },
        }
    }
}

/// Gives the fewest decimals that write a length exactly; none where too many would be needed.
fn places(length: Length, unit: Unit) -> Option<u32> {
    let nm = i128::from(length.nm());
    (0..=MOST_PLACES).find(|places| nm * 10_i128.pow(*places) % i128::from(unit.nm()) == 0)
}

/// Gives the coarsest fraction of an inch that writes all lengths exactly, no coarser than `least`.
fn fraction(least: i64, lengths: &[Length]) -> Option<i64> {
    let exact = |fraction: &i64| lengths.iter().all(|it| it.nm() % (Unit::Inch.nm() / fraction) == 0);
    [16, 32, 64].into_iter().filter(|it| *it >= least).find(exact)
}

/// Writes so many units with exactly `places` decimals, to the nearest, ties away from zero.
fn decimals(length: Length, unit: Unit, places: u32) -> String {
    let scale = 10_i128.pow(places);
    let unit = i128::from(unit.nm());
    let scaled = i128::from(length.abs().nm()) * scale;
    let rounded = (scaled * 2 + unit) / (unit * 2);
    let about = if scaled % unit == 0 { "" } else { "~" };
    let sign = if length.is_negative() && rounded != 0 { "-" } else { "" };
    let (whole, rest) = (rounded / scale, rounded % scale);
    if places == 0 {
        return format!("{about}{sign}{whole}");
    }
    format!("{about}{sign}{whole}.{rest:0width$}", width = places as usize)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::length::{Bare, read};
    use proptest::prelude::*;

    fn lengths(unit: Unit, texts: &[&str]) -> Vec<Length> {
        texts.iter().map(|text| read(text, Bare::of(unit)).unwrap()).collect()
    }

    fn of(unit: Option<Unit>, system: System, texts: &[&str]) -> (AsRead, Vec<String>) {
        let read = lengths(unit.unwrap_or(Unit::Inch), texts);
        let writer = AsRead::of(unit, Style::new(system, 16), &read);
        (writer, read.into_iter().map(|it| writer.write(it)).collect())
    }

    #[test]
    fn readings_are_written_in_their_unit_with_as_many_decimals_as_the_longest() {
        let (feet, written) = of(Some(Unit::Foot), System::Inch, &["4.52", "4.5", "-3", "0"]);
        assert_eq!(written, ["4.52", "4.50", "-3.00", "0.00"]);
        assert_eq!(feet.unit_words(), "feet");
        let (metres, written) = of(Some(Unit::Metre), System::Inch, &["1.2", "0.00125"]);
        assert_eq!((metres.unit_words(), written.concat().as_str()), ("metres", "1.200000.00125"));
        assert_eq!(of(Some(Unit::Millimetre), System::Metric, &["1432", "7"]).1, ["1432", "7"]);
        assert_eq!(of(Some(Unit::Inch), System::Inch, &["54.23", "54.3"]).1, ["54.23", "54.30"]);
        assert_eq!(of(None, System::Metric, &["1200 mm", "0.35 m"]).1, ["1.20", "0.35"]);
    }

    #[test]
    fn a_reading_that_stands_alone_carries_its_unit() {
        for (unit, text) in [(Unit::Foot, "4.52 ft"), (Unit::Metre, "1.205 m"), (Unit::Inch, "4'-6-1/4\"")] {
            let read = lengths(unit, &[text]);
            assert_eq!(AsRead::of(Some(unit), Style::new(System::Inch, 16), &read).with_unit(read[0]), text);
        }
    }

    #[test]
    fn fractions_stay_fractions() {
        let (fractions, written) = of(None, System::Inch, &["4'-6 1/4\"", "5/32"]);
        assert_eq!(written, ["4'-6-1/4\"", "5/32\""]);
        assert_eq!(fractions.unit_words(), "feet and inches");
        assert_eq!(of(Some(Unit::Inch), System::Inch, &["54-1/4", "54.5"]).1, ["4'-6-1/4\"", "4'-6-1/2\""]);
        assert_eq!(of(Some(Unit::Foot), System::Inch, &["4'-6 1/4\"", "4.5"]).1, ["4'-6-1/4\"", "4'-6\""]);
    }

    #[test]
    fn what_no_form_writes_exactly_is_marked() {
        let texts = ["1/3", "4.52 ft"];
        assert_eq!(of(Some(Unit::Foot), System::Inch, &texts).1, ["~0.3333", "4.5200"]);
        assert_eq!(of(None, System::Inch, &["1/3"]).1, ["~0.3333"]);
    }

    #[test]
    fn shares_get_the_decimals_they_need_or_one_more() {
        let metres =
            AsRead::of(Some(Unit::Metre), Style::new(System::Metric, 16), &lengths(Unit::Metre, &["1.205"]));
        let exact = lengths(Unit::Metre, &["-0.00625", "149.8"]);
        let finer = metres.finer(&exact);
        assert_eq!(finer.write(exact[0]), "-0.00625");
        assert_eq!(finer.write(exact[1]), "149.80000");
        let third = [Length::from_nm(4_285_714)];
        assert_eq!(metres.finer(&third).signed(third[0]), "~+0.0043");
        assert_eq!(metres.finer(&[]).write(exact[1]), "149.800");
    }

    #[test]
    fn a_sign_stands_only_before_what_is_not_nothing() {
        let metres =
            AsRead::of(Some(Unit::Metre), Style::new(System::Metric, 16), &lengths(Unit::Metre, &["1.205"]));
        assert_eq!(metres.signed(Length::ZERO), "0.000");
        assert_eq!(metres.write(Length::from_nm(-1)), "~0.000");
        assert_eq!(metres.write(Length::from_nm(-500_000)), "~-0.001");
        assert_eq!(metres.signed(Length::from_nm(1)), "~0.000");
        assert_eq!(metres.signed(Length::from_nm(-7_000_000)), "-0.007");
        assert_eq!(metres.signed(Length::from_nm(7_000_000)), "+0.007");
    }

    proptest! {
        #[test]
        fn what_is_written_without_a_mark_reads_back_as_it_was(
            nm in prop::collection::vec(-10_000_000_000_000_i64..=10_000_000_000_000, 1..4),
            unit in prop_oneof![Just(None), Just(Some(Unit::Foot)), Just(Some(Unit::Metre)), Just(Some(Unit::Millimetre))],
            step in prop_oneof![Just(1_i64), Just(396_875), Just(3_048_000), Just(100_000)],
            inch in any::<bool>(),
        ) {
            let system = if inch { System::Inch } else { System::Metric };
            let all: Vec<Length> = nm.into_iter().map(|nm| Length::from_nm(nm / step * step)).collect();
            let writer = AsRead::of(unit, Style::new(system, 16), &all);
            let bare = match writer.unit_words() {
                "feet" => Unit::Foot,
                "metres" => Unit::Metre,
                "millimetres" => Unit::Millimetre,
                _ => Unit::Inch,
            };
            for length in all {
                let text = writer.write(length);
                prop_assert_eq!(writer.is_exact(&[length]), !text.starts_with('~'));
                match text.strip_prefix('~') {
                    None => prop_assert_eq!(read(&text, Bare::of(bare)).unwrap(), length),
                    Some(text) => {
                        let off = read(text, Bare::of(bare)).unwrap() - length;
                        prop_assert!(off.abs().nm() * 2 <= bare.nm() / 10_000 + 2, "{text}");
                    }
                }
            }
        }
    }
}
