//! Why what was planned then does not fit, or may not, in words.

use super::super::check::held::reason;
use crate::check::{Case, Difference, DifferenceKind, StillFits, Why};
use crate::length::Rounding;
use crate::model::Action;
use crate::text::{Relation, Style};

/// Says why, of one column; `case` is the earlier plan at the new measurement.
pub(super) fn why(case: &Case<'_>, column: usize, why: Why, style: Style) -> String {
    match why {
        Why::New => "not in the earlier answer: nothing was planned for it".to_owned(),
        Why::NothingThen(Action::Refer) => "was left to the engineer: nothing was planned for it".to_owned(),
        Why::NothingThen(_) => "its pad was not measured: nothing was planned for it".to_owned(),
        Why::NoPad => "its pad is not measured now".to_owned(),
        Why::Held(hold) => match case.columns.get(column) {
            Some(of) => reason(case, of, hold, style),
            None => hold.name().to_owned(),
        },
        Why::UnknownShim(thickness) => {
            format!(
                "{} is not among the shims of this job: its tolerance is not known",
                style.exact(thickness)
            )
        }
        Why::OtherBase => "stands on another base now: plates and shims of the earlier one do not".to_owned(),
        Why::OtherSetting => {
            "its plate is set on something else now: what was sent for it may not be it".to_owned()
        }
        Why::OtherPacks => {
            "its packs of then are not told, or are not those of now in number, size or height".to_owned()
        }
        Why::OtherLevelling => "its levelling nuts of then are not told, or are not those of now".to_owned(),
        Why::Apart(at) => difference(case, at, |it| apart(case, it, style)),
        Why::Close(at) => difference(case, at, |it| format!("{}, too close to call", apart(case, it, style))),
    }
}

fn difference(case: &Case<'_>, at: usize, words: impl Fn(&Difference) -> String) -> String {
    case.differences.get(at).map(words).unwrap_or_default()
}

/// Says how far columns stand apart: `A3 - A4 5/16" apart, 3/16" accepted`.
fn apart(case: &Case<'_>, it: &Difference, style: Style) -> String {
    let shown = it.value.map(|value| style.pair(value.abs(), it.limit, Relation::AtMost));
    let (value, limit) = match shown {
        Some(shown) => (shown.value, shown.limit),
        None => ("?".to_owned(), style.write(it.limit, Rounding::Down)),
    };
    let marks = case.marks(&it.columns);
    let ends = || match (marks.first(), marks.last()) {
        (Some(first), Some(last)) => format!("{first} - {last}"),
        _ => String::new(),
    };
    match it.kind {
        DifferenceKind::Neighbours => format!("{} {value} apart, {limit} accepted", ends()),
        DifferenceKind::Wall => format!("along the wall {} {value} high to low, {limit} accepted", ends()),
        DifferenceKind::Building => format!("over the building {value} high to low, {limit} accepted"),
        DifferenceKind::Design => format!("{value} from the design seat, {limit} accepted"),
    }
}

/// Says whether what was planned then fits, in a cell.
pub(super) const fn fits(fit: StillFits) -> &'static str {
    match fit {
        StillFits::Yes => "yes",
        StillFits::Ask => "ask",
        StillFits::Unknown => "?",
        StillFits::No => "NO",
    }
}
