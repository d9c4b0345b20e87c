//! A number of a sheet as the text a person would have written: its digits, and what its format says of them.

/// Most decimals of a number that was measured: 1 nm in millimetres, and every 1/64 in.
const MOST_DECIMALS: usize = 6;

/// Why a number is not used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Odd {
    /// It has more decimals than a measurement.
    TooFine,
    /// It is shown as a fraction and is not a whole number of 1/64.
    NoFraction,
    /// It is shown as something else than it is: its format.
    Shown(String),
}

/// How a format shows a number.
#[derive(Debug, PartialEq, Eq)]
struct Shown {
    fraction: bool,
    /// What stands behind the digits, such as a unit.
    behind: String,
}

/// Writes a number as it is meant.
///
/// A number shown as a fraction is a fraction, whole ones too (`54/1`): what a fraction without a unit means in a
/// job is the reader's matter. What the format puts behind the digits, such as `mm`, stands behind them.
pub(super) fn written(digits: &str, format: &str) -> Result<String, Odd> {
    let shown = shown(format).ok_or_else(|| Odd::Shown(format.to_owned()))?;
    let decimals = digits.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    if decimals > MOST_DECIMALS {
        return Err(if shown.fraction { Odd::NoFraction } else { Odd::TooFine });
    }
    let number = if shown.fraction { fraction(digits).ok_or(Odd::NoFraction)? } else { digits.to_owned() };
    Ok(match shown.behind.as_str() {
        "" => number,
        behind => format!("{number} {behind}"),
    })
}

/// Writes a decimal as a fraction of 1/64 or coarser.
fn fraction(digits: &str) -> Option<String> {
    let (sign, body) = digits.strip_prefix('-').map_or(("", digits), |body| ("-", body));
    let (whole, decimals) = body.split_once('.').unwrap_or((body, ""));
    let whole: u64 = whole.parse().ok()?;
    let millionths: u64 = format!("{decimals:0<MOST_DECIMALS$}").parse().ok()?;
    let sixty_fourths = millionths * 64;
    if !sixty_fourths.is_multiple_of(1_000_000) {
        return None;
    }
    let (mut over, mut under) = (sixty_fourths / 1_000_000, 64);
    while over != 0 && over % 2 == 0 {
        over /= 2;
        under /= 2;
    }
    Some(match (whole, over) {
        (_, 0) => format!("{sign}{whole}/1"),
        (0, _) => format!("{sign}{over}/{under}"),
        _ => format!("{sign}{whole}-{over}/{under}"),
    })
}

/// Tells how a format shows a number; none where that is another number than the one it is.
fn shown(format: &str) -> Option<Shown> {
    let general = || Shown { fraction: false, behind: String::new() };
    if format.is_empty() || format == "@" {
        return Some(general());
    }
    let lower = format.to_ascii_lowercase();
    let plain = match lower.strip_prefix("general") {
        Some(_) => format!("0{}", format.get("general".len()..)?),
        None => format.to_owned(),
    };
    let (mut fraction, mut digits, mut scaled) = (false, false, false);
    let mut literal = String::new();
    let mut chars = plain.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            ';' => break,
            '"' => literal.extend(chars.by_ref().take_while(|c| *c != '"')),
            '\\' => literal.extend(chars.next()),
            '_' | '*' => drop(chars.next()),
            '[' => {
                let inside: String = chars.by_ref().take_while(|c| *c != ']').collect();
                literal.push_str(bracket(&inside)?);
            }
            '0' | '#' | '?' => {
                // text inside a number or before it, such as a currency
                if !literal.trim().is_empty() {
                    return None;
                }
                (digits, scaled) = (true, false);
            }
            '1'..='9' if fraction => {}
            // a comma that no digit follows divides by a thousand
            ',' => scaled = digits,
            '.' if scaled => return None,
            '.' | ' ' | '(' | ')' | '-' | '+' => literal.extend((c == ' ').then_some(' ')),
            '/' => fraction = true,
            'e' | 'E' if matches!(chars.peek(), Some('+' | '-')) => drop(chars.next()),
            '%' => return None,
            other => literal.push(other),
        }
    }
    (digits && !scaled).then(|| Shown { fraction, behind: literal.trim().to_owned() })
}

/// Gives the text that a part of a format in brackets shows; none where it makes the format hang on the value.
fn bracket(inside: &str) -> Option<&str> {
    if let Some(symbol) = inside.strip_prefix('$') {
        return Some(symbol.split('-').next().unwrap_or_default());
    }
    inside.chars().all(|c| c.is_ascii_alphanumeric()).then_some("")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plain_number_is_its_digits() {
        for format in
            ["", "General", "0.00", "#,##0.00", "0.00E+00", "@", "0.000_);[Red](0.000)", "[Blue]0.0"]
        {
            assert_eq!(written("4.33", format).as_deref(), Ok("4.33"), "{format}");
        }
        assert_eq!(written("-1234", "#,##0").as_deref(), Ok("-1234"));
    }

    #[test]
    fn a_number_shown_as_a_fraction_is_one_and_hides_nothing() {
        for format in ["# ?/?", "# ??/??", "# ??/16", "# ?/8", "#\\ ?/?"] {
            assert_eq!(written("54.25", format).as_deref(), Ok("54-1/4"), "{format}");
        }
        assert_eq!(written("0.015625", "# ?/?").as_deref(), Ok("1/64"));
        assert_eq!(written("-2.625", "# ??/??").as_deref(), Ok("-2-5/8"));
        assert_eq!(written("54", "# ?/?").as_deref(), Ok("54/1"));
        assert_eq!(written("0.1", "# ?/?"), Err(Odd::NoFraction));
        assert_eq!(written("0.3333333333333333", "# ?/?"), Err(Odd::NoFraction));
    }

    #[test]
    fn the_unit_that_a_format_shows_stands_behind_the_number() {
        assert_eq!(written("12", "0\" mm\"").as_deref(), Ok("12 mm"));
        assert_eq!(written("4.33", "0.00\\ \"ft\"").as_deref(), Ok("4.33 ft"));
        assert_eq!(written("2.5", "# ?/?\\\"").as_deref(), Ok("2-1/2 \""));
        assert_eq!(written("12", "General\" mm\"").as_deref(), Ok("12 mm"));
        assert_eq!(written("12", "0[$ mm-409]").as_deref(), Ok("12 mm"));
    }

    #[test]
    fn a_number_that_is_shown_as_another_is_refused() {
        for format in ["0%", "0.0,", "0,.0", "$0.00", "\"R\"0", "[>1]0.0", "\"hidden\"", "[$€-2]0.00"] {
            assert_eq!(written("4.33", format), Err(Odd::Shown(format.to_owned())), "{format}");
        }
    }

    #[test]
    fn what_a_calculation_left_behind_the_sixth_decimal_is_refused() {
        assert_eq!(written("3.1299999999999994", "0.00"), Err(Odd::TooFine));
        assert_eq!(written("3.1299999", ""), Err(Odd::TooFine));
        assert_eq!(written("3.129999", "").as_deref(), Ok("3.129999"));
    }
}
