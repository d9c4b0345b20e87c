//! Reading a length from text, digit by digit, never through floating point.

use super::{Length, Unit};

/// What a number without a unit means where it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bare {
    /// The unit of a bare whole or decimal number; none is an error.
    pub number: Option<Unit>,
    /// The unit of a bare fraction (`3/8`, `1-1/2`); none is an error.
    pub fraction: Option<Unit>,
}

impl Bare {
    /// Takes every bare number as one unit.
    #[must_use]
    pub const fn of(unit: Unit) -> Self {
        Self { number: Some(unit), fraction: Some(unit) }
    }
}

/// Why a text is not a length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unreadable {
    /// There is no text.
    Empty,
    /// A whole or decimal number stands without a unit where none is implied.
    NeedsUnit,
    /// A fraction stands without a unit where none is implied.
    FractionNeedsUnit,
    /// The text looks like a date, as a spreadsheet makes of a fraction.
    Date,
    /// A comma stands where a decimal point is expected.
    DecimalComma,
    /// The number is written with an exponent, in hexadecimal, or is not finite.
    NotPlain,
    /// A fraction is divided by zero.
    ZeroDenominator,
    /// The fraction of a mixed number is one or more.
    FractionTooLarge,
    /// The inches after feet are twelve or more.
    InchesTooLarge,
    /// The unit is not one that is read.
    UnknownUnit,
    /// The number has more digits than any length needs.
    TooManyDigits,
    /// The length is beyond 10 km.
    OutOfRange,
    /// The text has none of the forms of a length.
    Form,
}

/// Most digits of one number that are read.
const MOST_DIGITS: usize = 24;

/// Reads a length in any of the forms a crew or a drawing writes.
///
/// `3/8`, `1-1/2`, `1 1/2"`, `2'-11 3/4"`, `2'-6`, `3'`, `2.98 ft`, `0.375 in`,
/// `12 mm`, `1.2 cm`, `0.896 m`, with a leading sign, with primes and vulgar
/// fractions. What is finer than 1 nm rounds to the nearest, ties away from zero.
///
/// # Errors
/// Tells why the text is not a length; see [`Unreadable`].
///
/// # Example
/// ```
/// use rodreach::length::{Bare, Length, Unit, read};
/// let nm = |text| read(text, Bare::of(Unit::Inch)).map(Length::nm);
/// assert_eq!(nm("2'-11 3/4\""), Ok(908_050_000));
/// assert_eq!(nm("-0'-6\""), Ok(-152_400_000));
/// assert_eq!(nm("12 mm"), Ok(12_000_000));
/// ```
pub fn read(text: &str, bare: Bare) -> Result<Length, Unreadable> {
    let plain = plain(text);
    if plain.is_empty() {
        return Err(Unreadable::Empty);
    }
    if looks_like_date(&plain) {
        return Err(Unreadable::Date);
    }
    let mut rest = Cursor { left: &plain };
    let negative = match rest.peek() {
        Some('-') => rest.skip(),
        Some('+') => !rest.skip(),
        _ => false,
    };
    let value = quantity(&mut rest, bare).map_err(|why| better_reason(&plain, why))?;
    if value > i128::from(Length::MOST_READ.nm()) {
        return Err(Unreadable::OutOfRange);
    }
    let nm = i64::try_from(value).map_err(|_| Unreadable::OutOfRange)?;
    Ok(Length::from_nm(if negative { -nm } else { nm }))
}

/// Brings primes, dashes, blanks and vulgar fractions to their plain forms.
fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for c in text.trim().chars() {
        match c {
            '\u{2032}' | '\u{2019}' => plain.push('\''),
            '\u{2033}' | '\u{201d}' => plain.push('"'),
            '\u{2212}' => plain.push('-'),
            '\u{2044}' => plain.push('/'),
            '\u{a0}' | '\u{2009}' | '\u{202f}' => plain.push(' '),
            _ => match vulgar(c) {
                Some(fraction) => {
                    if plain.ends_with(|last: char| last.is_ascii_digit()) {
                        plain.push(' ');
                    }
                    plain.push_str(fraction);
                }
                None => plain.push(c),
            },
        }
    }
    plain.trim().to_owned()
}

fn vulgar(c: char) -> Option<&'static str> {
    Some(match c {
        '½' => "1/2",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅕' => "1/5",
        '⅖' => "2/5",
        '⅗' => "3/5",
        '⅘' => "4/5",
        '⅙' => "1/6",
        '⅚' => "5/6",
        '⅐' => "1/7",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        '⅑' => "1/9",
        '⅒' => "1/10",
        _ => return None,
    })
}

/// Tells a date that a spreadsheet has made of a fraction: `8-Jan`, `1/8/2026`, `2026-01-08`.
fn looks_like_date(plain: &str) -> bool {
    const MONTHS: [&str; 12] =
        ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
    let parts: Vec<&str> = plain.split(['/', '-', '.', ' ']).filter(|part| !part.is_empty()).collect();
    let month = |part: &str| {
        part.get(..3).is_some_and(|head| MONTHS.contains(&head.to_ascii_lowercase().as_str()))
            && part.chars().all(|c| c.is_ascii_alphabetic())
    };
    let digits = |part: &str| part.chars().all(|c| c.is_ascii_digit());
    let joined = |mark: char| {
        let three: Vec<&str> = plain.split(mark).collect();
        three.len() == 3 && three.iter().all(|part| !part.is_empty() && digits(part))
    };
    (parts.len() > 1 && parts.iter().any(|part| month(part)) && parts.iter().any(|part| digits(part)))
        || joined('/')
        || joined('-')
        || joined('.')
}

/// Names a likelier slip than "none of the forms", where there is one.
fn better_reason(plain: &str, why: Unreadable) -> Unreadable {
    if why != Unreadable::Form && why != Unreadable::UnknownUnit {
        return why;
    }
    let body = plain.trim_start_matches(['+', '-']).to_ascii_lowercase();
    let starts_with_digit = body.starts_with(|c: char| c.is_ascii_digit());
    let exponent = starts_with_digit
        && body.split_once('e').is_some_and(|(_, power)| {
            power.trim_start_matches(['+', '-']).starts_with(|c: char| c.is_ascii_digit())
        });
    if exponent || body.starts_with("0x") || body == "inf" || body == "nan" || body == "infinity" {
        return Unreadable::NotPlain;
    }
    let comma = body.split_once(',').is_some_and(|(head, tail)| {
        head.chars().all(|c| c.is_ascii_digit()) && tail.starts_with(|c: char| c.is_ascii_digit())
    });
    if comma { Unreadable::DecimalComma } else { why }
}

/// The text still to be read.
struct Cursor<'t> {
    left: &'t str,
}

impl<'t> Cursor<'t> {
    fn peek(&self) -> Option<char> {
        self.left.chars().next()
    }

    /// Steps over one character; always true, so that a caller can say what it met.
    fn skip(&mut self) -> bool {
        let mut chars = self.left.chars();
        chars.next();
        self.left = chars.as_str();
        true
    }

    fn eat(&mut self, wanted: char) -> bool {
        self.peek() == Some(wanted) && self.skip()
    }

    fn blanks(&mut self) -> bool {
        let before = self.left.len();
        self.left = self.left.trim_start_matches(' ');
        before != self.left.len()
    }

    fn digits(&mut self) -> &'t str {
        let end = self.left.find(|c: char| !c.is_ascii_digit()).unwrap_or(self.left.len());
        let (digits, left) = self.left.split_at(end);
        self.left = left;
        digits
    }
}

/// A number as written: whole, decimal, fraction or mixed.
#[derive(Clone, Copy)]
struct Number {
    over: i128,
    under: i128,
    form: NumberForm,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum NumberForm {
    Whole,
    Decimal,
    Fraction,
}

impl Number {
    /// Gives the nanometres of so many units, to the nearest, ties away from zero.
    fn nm(self, unit: Unit) -> i128 {
        let scaled = self.over.saturating_mul(i128::from(unit.nm()));
        let (whole, rest) = (scaled / self.under, scaled % self.under);
        if rest.saturating_mul(2) >= self.under { whole + 1 } else { whole }
    }
}

fn quantity(rest: &mut Cursor<'_>, bare: Bare) -> Result<i128, Unreadable> {
    let first = number(rest)?;
    rest.blanks();
    if rest.left.is_empty() {
        let unit = match first.form {
            NumberForm::Fraction => bare.fraction.ok_or(Unreadable::FractionNeedsUnit)?,
            NumberForm::Whole | NumberForm::Decimal => bare.number.ok_or(Unreadable::NeedsUnit)?,
        };
        return Ok(first.nm(unit));
    }
    if !rest.eat('\'') {
        return Ok(first.nm(unit(rest.left)?));
    }
    rest.blanks();
    if rest.left.is_empty() {
        return Ok(first.nm(Unit::Foot));
    }
    if first.form != NumberForm::Whole {
        return Err(Unreadable::Form);
    }
    rest.eat('-');
    rest.blanks();
    let inches = number(rest)?;
    rest.blanks();
    if !matches!(rest.left, "" | "\"" | "in") {
        return Err(Unreadable::Form);
    }
    if inches.over >= inches.under.saturating_mul(12) {
        return Err(Unreadable::InchesTooLarge);
    }
    let feet_as_inches = first.over.saturating_mul(12).saturating_mul(inches.under);
    let total =
        Number { over: inches.over.saturating_add(feet_as_inches), under: inches.under, form: inches.form };
    Ok(total.nm(Unit::Inch))
}

fn unit(text: &str) -> Result<Unit, Unreadable> {
    Ok(match text {
        "in" | "\"" => Unit::Inch,
        "ft" => Unit::Foot,
        "mm" => Unit::Millimetre,
        "cm" => Unit::Centimetre,
        "m" => Unit::Metre,
        _ if text.chars().all(char::is_alphabetic) => return Err(Unreadable::UnknownUnit),
        _ => return Err(Unreadable::Form),
    })
}

fn number(rest: &mut Cursor<'_>) -> Result<Number, Unreadable> {
    let head = rest.digits();
    if rest.peek() == Some('.') {
        rest.skip();
        let tail = rest.digits();
        if tail.is_empty() {
            return Err(Unreadable::Form);
        }
        let tail = tail.trim_end_matches('0');
        let under = 10_i128.checked_pow(u32::try_from(tail.len()).unwrap_or(u32::MAX));
        let (Some(under), true) = (under, head.len() + tail.len() <= MOST_DIGITS) else {
            return Err(Unreadable::TooManyDigits);
        };
        let over = whole(&format!("{head}{tail}"))?;
        return Ok(Number { over, under, form: NumberForm::Decimal });
    }
    if head.is_empty() {
        return Err(Unreadable::Form);
    }
    let first = whole(head)?;
    if rest.eat('/') {
        let under = denominator(rest)?;
        return Ok(Number { over: first, under, form: NumberForm::Fraction });
    }
    mixed(rest, first)
}

/// Reads the fraction of a mixed number (`1-1/2`, `1 1/2`), if one follows.
fn mixed(rest: &mut Cursor<'_>, first: i128) -> Result<Number, Unreadable> {
    let alone = Number { over: first, under: 1, form: NumberForm::Whole };
    let mut ahead = Cursor { left: rest.left };
    let dash = ahead.eat('-');
    if !dash && !ahead.blanks() {
        return Ok(alone);
    }
    let over = ahead.digits();
    if over.is_empty() || !ahead.eat('/') {
        return Ok(alone);
    }
    let (over, under) = (whole(over)?, denominator(&mut ahead)?);
    if over >= under {
        return Err(Unreadable::FractionTooLarge);
    }
    rest.left = ahead.left;
    let over = first.saturating_mul(under).saturating_add(over);
    Ok(Number { over, under, form: NumberForm::Fraction })
}

fn denominator(rest: &mut Cursor<'_>) -> Result<i128, Unreadable> {
    let digits = rest.digits();
    if digits.is_empty() {
        return Err(Unreadable::Form);
    }
    match whole(digits)? {
        0 => Err(Unreadable::ZeroDenominator),
        under if under > 1_000_000 => Err(Unreadable::TooManyDigits),
        under => Ok(under),
    }
}

fn whole(digits: &str) -> Result<i128, Unreadable> {
    let digits = digits.trim_start_matches('0');
    if digits.is_empty() {
        return Ok(0);
    }
    if digits.len() > MOST_DIGITS {
        return Err(Unreadable::TooManyDigits);
    }
    digits.parse().map_err(|_| Unreadable::Form)
}
