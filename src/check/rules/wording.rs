//! Words that several rules share.

use crate::catalog::InPitches;
use crate::length::{Length, Rounding};
use crate::model::Interval;
use crate::text::{Style, and};

/// Most names that a sentence lists.
const MOST_NAMES: usize = 5;

/// Most characters of a crew's note that a sentence quotes.
const MOST_QUOTED: usize = 40;

/// Lists names, the first few of many.
pub(super) fn some_of(names: &[&str]) -> String {
    match names.get(..MOST_NAMES) {
        Some(first) if names.len() > MOST_NAMES + 1 => {
            format!("{} and {} more", first.join(", "), names.len() - MOST_NAMES)
        }
        _ => and(names),
    }
}

/// Quotes what the crew wrote, on one line and not too long.
pub(super) fn quoted(note: &str) -> String {
    let plain: String = note.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    let plain = plain.trim();
    if plain.chars().count() <= MOST_QUOTED {
        return format!("\"{plain}\"");
    }
    let head: String = plain.chars().take(MOST_QUOTED).collect();
    format!("\"{}…\"", head.trim_end())
}

/// Writes a limit that may be counted in pitches.
#[must_use]
pub fn in_pitches(limit: InPitches, style: Style) -> String {
    match limit {
        InPitches::Length(length) => style.exact(length),
        InPitches::Pitches(1) => "1 pitch".to_owned(),
        InPitches::Pitches(pitches) => format!("{pitches} pitches"),
    }
}

/// Writes a length that is put into a formula, in brackets where it is negative.
pub(super) fn term(length: Length, style: Style) -> String {
    let exact = style.exact(length);
    if length.is_negative() { format!("({exact})") } else { exact }
}

/// Writes where a plate may stand from its pad, each bound rounded into the interval.
///
/// # Example
/// `from 1/8" to 3/8" above its pad`, `from 1/8" below to 1/4" above its pad`, `up to 3/8" above its pad`.
pub(super) fn raises(interval: Interval, style: Style) -> String {
    let Interval { low, high } = interval;
    let whole = low.zip(high).is_none_or(|(low, high)| style.has_a_step_in(low, high));
    // an interval narrower than a step is written with every digit
    let up = |length: Length| if whole { style.write(length, Rounding::Up) } else { style.exact(length) };
    let down = |length: Length| if whole { style.write(length, Rounding::Down) } else { style.exact(length) };
    match (low, high) {
        (None, None) => "anywhere from its pad".to_owned(),
        (None, Some(high)) if high.is_negative() => format!("{} or more below its pad", up(-high)),
        (None, Some(high)) => format!("up to {} above its pad", down(high)),
        (Some(low), None) if low.is_negative() => format!("no more than {} below its pad", down(-low)),
        (Some(low), None) => format!("{} or more above its pad", up(low)),
        (Some(low), Some(high)) if low == high && low.is_negative() => {
            format!("{} below its pad", down(-low))
        }
        (Some(low), Some(high)) if low == high => format!("{} above its pad", down(low)),
        (Some(low), Some(high)) if !low.is_negative() => {
            format!("from {} to {} above its pad", up(low), down(high))
        }
        (Some(low), Some(high)) if high <= Length::ZERO => {
            format!("from {} to {} below its pad", down(-low), up(-high))
        }
        (Some(low), Some(high)) => format!("from {} below to {} above its pad", down(-low), down(high)),
    }
}

/// Writes a union of raises; none is said so.
pub(super) fn all_raises(intervals: &[Interval], style: Style) -> Option<String> {
    let each: Vec<String> = intervals.iter().map(|interval| raises(*interval, style)).collect();
    if each.is_empty() { None } else { Some(each.join(" or ")) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::System;
    use proptest::prelude::*;

    const SIXTEENTH: i64 = 1_587_500;

    fn written(low: Option<i64>, high: Option<i64>) -> String {
        let interval = Interval { low: low.map(Length::from_nm), high: high.map(Length::from_nm) };
        raises(interval, Style::new(System::Inch, 16))
    }

    #[test]
    fn a_range_is_written_from_the_pad_on_either_side() {
        let s = SIXTEENTH;
        assert_eq!(written(Some(2 * s), Some(6 * s)), "from 1/8\" to 3/8\" above its pad");
        assert_eq!(written(Some(-2 * s), Some(4 * s)), "from 1/8\" below to 1/4\" above its pad");
        assert_eq!(written(Some(-6 * s), Some(-2 * s)), "from 3/8\" to 1/8\" below its pad");
        assert_eq!(written(None, Some(6 * s)), "up to 3/8\" above its pad");
        assert_eq!(written(None, Some(-6 * s)), "3/8\" or more below its pad");
        assert_eq!(written(Some(6 * s), None), "3/8\" or more above its pad");
        assert_eq!(written(Some(6 * s), Some(6 * s)), "3/8\" above its pad");
    }

    #[test]
    fn the_written_bounds_lie_inside_the_range() {
        let s = SIXTEENTH;
        assert_eq!(written(Some(2 * s + 1), Some(6 * s - 1)), "from ~3/16\" to ~5/16\" above its pad");
        assert_eq!(written(Some(-6 * s + 1), Some(-2 * s - 1)), "from ~5/16\" to ~3/16\" below its pad");
        assert_eq!(written(Some(-2 * s + 1), Some(4 * s - 1)), "from ~1/16\" below to ~3/16\" above its pad");
        assert_eq!(written(None, Some(-6 * s - 1)), "~7/16\" or more below its pad");
    }

    #[test]
    fn a_range_narrower_than_a_step_keeps_every_digit() {
        assert_eq!(written(Some(2_000_000), Some(2_500_000)), "from 2 mm to 2.5 mm above its pad");
    }

    proptest! {
        #[test]
        fn a_metric_range_read_back_lies_inside(low in -9_000_000_i64..9_000_000, wide in 0_i64..9_000_000) {
            let interval =
                Interval { low: Some(Length::from_nm(low)), high: Some(Length::from_nm(low + wide)) };
            let words = raises(interval, Style::new(System::Metric, 16));
            let below = words.find("below");
            let numbers = words.match_indices(" mm").map(|(at, _)| {
                let number = words[..at].rsplit([' ', '~']).next().unwrap();
                let nm = crate::length::read(number, crate::length::Bare::of(crate::length::Unit::Millimetre));
                let sign = if below.is_some_and(|below| at < below) { -1 } else { 1 };
                nm.unwrap().nm() * sign
            });
            for nm in numbers {
                prop_assert!(interval.contains(Length::from_nm(nm)), "{words}: {nm}");
            }
        }
    }

    #[test]
    fn a_note_is_quoted_on_one_short_line() {
        assert_eq!(quoted("bent\u{1b}[31m\n"), "\"bent [31m\"");
        assert_eq!(quoted(&"x".repeat(50)).chars().count(), 43);
    }

    #[test]
    fn many_names_are_cut_and_counted() {
        assert_eq!(some_of(&["A", "B", "C", "D", "E", "F"]), "A, B, C, D, E and F");
        assert_eq!(some_of(&["A", "B", "C", "D", "E", "F", "G"]), "A, B, C, D, E and 2 more");
    }

    #[test]
    fn a_negative_length_stands_in_brackets_in_a_formula() {
        let style = Style::new(System::Inch, 16);
        assert_eq!(term(Length::from_nm(-SIXTEENTH), style), "(-1/16\")");
        assert_eq!(term(Length::from_nm(SIXTEENTH), style), "1/16\"");
    }

    #[test]
    fn pitches_are_counted() {
        let style = Style::new(System::Metric, 16);
        assert_eq!(in_pitches(InPitches::Pitches(1), style), "1 pitch");
        assert_eq!(in_pitches(InPitches::Pitches(2), style), "2 pitches");
        assert_eq!(in_pitches(InPitches::Length(Length::from_nm(2_500_000)), style), "2.5 mm");
    }
}
