//! Reading forces and stresses from text, digit by digit, never through floating point.

use super::force::{Force, ForceUnit};
use super::stress::{Stress, StressUnit};

/// Why a text is not a force or not a stress.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotRead {
    /// There is no text.
    Empty,
    /// A number stands without a unit; only 0 needs none, and only as a force.
    NeedsUnit,
    /// The number is less than 0.
    Negative,
    /// A comma stands in the number.
    Comma,
    /// The number is written with an exponent, in hexadecimal, or is not finite.
    NotPlain,
    /// The unit is one of mass.
    Mass,
    /// The unit is not one that is read here.
    UnknownUnit,
    /// The number has more digits than are used.
    TooManyDigits,
    /// The value is beyond what is read.
    OutOfRange,
    /// The text is not a number with a unit.
    Form,
}

/// Most digits of one number that are read.
const MOST_DIGITS: usize = 18;

/// Reads a force: `12 kip`, `500 lb`, `53.4 kN`, `300 N`, or `0` for none.
///
/// # Errors
/// Tells why the text is not a force; see [`NotRead`].
pub fn read_force(text: &str) -> Result<Force, NotRead> {
    let (number, unit) = number(text)?;
    let unit = match unit {
        "" if number.over == 0 => ForceUnit::Newton,
        "" => return Err(NotRead::NeedsUnit),
        "kip" | "kips" => ForceUnit::Kip,
        "lb" | "lbs" | "lbf" => ForceUnit::Pound,
        "kN" => ForceUnit::Kilonewton,
        "N" => ForceUnit::Newton,
        other => return Err(unknown(other)),
    };
    let force = Force::from_parts(number.times(unit.parts()).ok_or(NotRead::OutOfRange)?);
    if force > Force::MOST_READ { Err(NotRead::OutOfRange) } else { Ok(force) }
}

/// Reads a stress: `3000 psi`, `3 ksi`, `20 MPa`, `20 N/mm2`.
///
/// # Errors
/// Tells why the text is not a stress; see [`NotRead`].
pub fn read_stress(text: &str) -> Result<Stress, NotRead> {
    let (number, unit) = number(text)?;
    let unit = match unit {
        "" => return Err(NotRead::NeedsUnit),
        "psi" => StressUnit::Psi,
        "ksi" => StressUnit::Ksi,
        "MPa" | "N/mm2" | "N/mm\u{b2}" => StressUnit::Megapascal,
        other => return Err(unknown(other)),
    };
    let stress = Stress::from_parts(number.times(unit.parts()).ok_or(NotRead::OutOfRange)?);
    if stress > Stress::MOST_READ { Err(NotRead::OutOfRange) } else { Ok(stress) }
}

/// A number that is not less than 0.
struct Number {
    over: i128,
    under: i128,
}

impl Number {
    /// Gives so many times a unit, to the nearest, ties away from zero.
    fn times(&self, unit: i128) -> Option<i128> {
        let scaled = self.over.checked_mul(unit)?;
        let (whole, rest) = (scaled / self.under, scaled % self.under);
        Some(if rest >= self.under - rest { whole + 1 } else { whole })
    }
}

/// Takes a number off the front of a text, and leaves its unit.
fn number(text: &str) -> Result<(Number, &str), NotRead> {
    let text = text.trim();
    let unsigned = text.strip_prefix('+').unwrap_or(text);
    let (body, negative) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(body) => (body, true),
        None => (unsigned, false),
    };
    if body.is_empty() {
        return Err(if text.is_empty() { NotRead::Empty } else { NotRead::Form });
    }
    if ["inf", "infinity", "nan"].contains(&body.to_ascii_lowercase().as_str()) {
        return Err(NotRead::NotPlain);
    }
    let end = body.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(body.len());
    let (digits, rest) = body.split_at(end);
    let (head, tail) = digits.split_once('.').unwrap_or((digits, "0"));
    if digits.is_empty() || tail.is_empty() || tail.contains('.') {
        return Err(NotRead::Form);
    }
    match rest.chars().next() {
        Some(',') => return Err(NotRead::Comma),
        Some('e' | 'E' | 'x' | 'X') => return Err(NotRead::NotPlain),
        _ => {}
    }
    let tail = tail.trim_end_matches('0');
    let all = format!("{head}{tail}");
    let all = all.trim_start_matches('0');
    if all.len() > MOST_DIGITS || tail.len() > MOST_DIGITS {
        return Err(NotRead::TooManyDigits);
    }
    let over = if all.is_empty() { 0 } else { all.parse().map_err(|_| NotRead::Form)? };
    if negative && over != 0 {
        return Err(NotRead::Negative);
    }
    let under = 10_i128.pow(u32::try_from(tail.len()).unwrap_or(0));
    Ok((Number { over, under }, rest.trim()))
}

fn unknown(unit: &str) -> NotRead {
    match unit {
        "kg" | "t" | "tonne" | "tonnes" | "ton" | "tons" => NotRead::Mass,
        _ if unit.chars().all(|c| c.is_alphanumeric() || c == '/') => NotRead::UnknownUnit,
        _ => NotRead::Form,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_form_of_a_force_is_read_exactly() {
        let same =
            [("12 kip", "12000 lb"), ("12kips", "12000lbf"), ("0.5 kip", "500 lbs"), ("53.4 kN", "53400 N")];
        for (one, other) in same {
            assert_eq!(read_force(one), read_force(other), "{one}");
        }
        for none in ["0", "0.0", "-0", "+0", "0 kip"] {
            assert_eq!(read_force(none), Ok(Force::ZERO), "{none}");
        }
        assert_eq!(read_force("1 N").unwrap().millinewtons_down(), 1000);
        assert_eq!(read_force("+.5 kN"), read_force("500 N"));
    }

    #[test]
    fn every_form_of_a_stress_is_read_exactly() {
        assert_eq!(read_stress("3000 psi"), read_stress("3 ksi"));
        assert_eq!(read_stress("20 MPa"), read_stress("20.0 N/mm2"));
        assert_eq!(read_stress("20 N/mm\u{b2}"), Ok(Stress::of(20, StressUnit::Megapascal)));
    }

    #[test]
    fn what_is_no_force_says_why() {
        let wanted = [
            ("", NotRead::Empty),
            ("12", NotRead::NeedsUnit),
            ("-3 kip", NotRead::Negative),
            ("\u{2212}3 kip", NotRead::Negative),
            ("1,200 lb", NotRead::Comma),
            ("1.2e3 lb", NotRead::NotPlain),
            ("0x10 lb", NotRead::NotPlain),
            ("inf", NotRead::NotPlain),
            ("5 t", NotRead::Mass),
            ("5 kg", NotRead::Mass),
            ("12 psi", NotRead::UnknownUnit),
            ("12 kipps", NotRead::UnknownUnit),
            ("12 mN", NotRead::UnknownUnit),
            ("kip", NotRead::Form),
            ("12. kip", NotRead::Form),
            ("1.2.3 kip", NotRead::Form),
            ("1/2 kip", NotRead::Form),
            ("12 kip.", NotRead::Form),
            ("-", NotRead::Form),
            ("0.1234567890123456789 kip", NotRead::TooManyDigits),
            ("1234567890123456789 N", NotRead::TooManyDigits),
            ("1000001 kN", NotRead::OutOfRange),
            ("999999999999999999 kip", NotRead::OutOfRange),
        ];
        for (text, why) in wanted {
            assert_eq!(read_force(text), Err(why), "{text}");
        }
    }

    #[test]
    fn what_is_no_stress_says_why() {
        let wanted = [
            ("0", NotRead::NeedsUnit),
            ("3000", NotRead::NeedsUnit),
            ("3000 psf", NotRead::UnknownUnit),
            ("20 mPa", NotRead::UnknownUnit),
            ("20 kip", NotRead::UnknownUnit),
            ("3,000 psi", NotRead::Comma),
            ("110000 MPa", NotRead::OutOfRange),
        ];
        for (text, why) in wanted {
            assert_eq!(read_stress(text), Err(why), "{text}");
        }
    }

    #[test]
    fn nothing_that_is_written_here_stops_the_reader() {
        for text in [
            ".",
            "..",
            "+",
            "+-3",
            "--3",
            "9.9.9",
            "\u{b2}",
            "3 \u{b2}",
            "3\u{a0}kip",
            "0.000000000000000000 N",
        ] {
            let _ = (read_force(text), read_stress(text));
        }
    }
}
