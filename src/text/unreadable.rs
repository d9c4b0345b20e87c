//! The words for a text that is not a length.

use crate::length::Unreadable;
use crate::quantity::NotRead;

/// The forms a length may be written in, for a message.
pub const FORMS: &str =
    "a length such as 3/8, 1-1/2, 2'-11 3/4\", 2.98 ft, 0.375 in, 12 mm, 1.2 cm or 0.896 m";

/// Says what is wrong with a text and how to mend it.
#[must_use]
pub fn why_unreadable(why: Unreadable) -> (&'static str, &'static str) {
    match why {
        Unreadable::Empty => ("there is no length here", FORMS),
        Unreadable::NeedsUnit => (
            "this number has no unit, and none is stated for it",
            "write the unit behind it (4.52 ft, 54-1/4 in, 1378 mm), or state it once with levels_units under [measure]",
        ),
        Unreadable::FractionNeedsUnit => {
            ("this fraction has no unit in a job in millimetres", "write the unit behind it, as in 3/8 in")
        }
        Unreadable::Date => (
            "this is a date: a spreadsheet has turned a fraction into it",
            "read the measurement again from the field notes and write it as text, as in 1/8 or 0.125 in",
        ),
        Unreadable::DecimalComma => ("a comma stands in the number", "write a decimal point, as in 4.52"),
        Unreadable::NotPlain => {
            ("this number is not written in plain digits", "write it without an exponent, as in 0.375 or 3/8")
        }
        Unreadable::ZeroDenominator => {
            ("a fraction cannot be divided by 0", "write the fraction again, as in 3/8")
        }
        Unreadable::FractionTooLarge => (
            "the fraction behind the whole number is one or more",
            "write it reduced, as in 1-1/2 for 1 and 1/2",
        ),
        Unreadable::InchesTooLarge => {
            ("the inches behind the feet are twelve or more", "write 3'-2 for 2 ft and 14 in, or 38 in")
        }
        Unreadable::UnknownUnit => {
            ("this unit is not known", "use in, ft, mm, cm or m, or the marks ' and \"")
        }
        Unreadable::TooManyDigits => ("this number has more digits than a length can use", FORMS),
        Unreadable::OutOfRange => ("this is beyond 10 km", "check the number and its unit"),
        Unreadable::Form => ("this is not a length", FORMS),
    }
}

/// Says what is wrong with a text that is no force or no stress; `what` it was to be, and how that is written.
#[must_use]
pub fn why_not_read(why: NotRead, what: &str, forms: &str) -> (String, String) {
    let written = format!("write {forms}");
    let (message, fix) = match why {
        NotRead::Empty => (format!("there is no {what} here"), written),
        NotRead::NeedsUnit => ("this number has no unit".to_owned(), written),
        NotRead::Negative => {
            (format!("a {what} cannot be less than 0 here"), "write it without a sign".to_owned())
        }
        NotRead::Comma => {
            ("a comma stands in the number".to_owned(), "write it without, as in 1200 or 4.5".to_owned())
        }
        NotRead::NotPlain => ("this number is not written in plain digits".to_owned(), written),
        NotRead::Mass => (
            "this unit is one of mass, not of force".to_owned(),
            "write the force the drawings have, in kip, lb, kN or N".to_owned(),
        ),
        NotRead::UnknownUnit => (format!("this is not a unit of a {what}"), written),
        NotRead::TooManyDigits => (format!("this number has more digits than a {what} can use"), written),
        NotRead::OutOfRange => (
            format!("this {what} is beyond anything that is built"),
            "check the number and its unit".to_owned(),
        ),
        NotRead::Form => (format!("this is not a {what}"), written),
    };
    (message, fix)
}
