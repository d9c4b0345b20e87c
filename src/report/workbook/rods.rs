//! Every rod: what was measured of it, and what the plan leaves on it.

use super::super::document::Tone;
use super::WorkSheet;
use super::layout::{Item, lay, length, long, said, text, verdict, whole, word};
use crate::check::{Case, style};
use crate::length::Rounding;
use crate::model::{Condition, State};
use crate::source::Files;

/// Makes the sheet.
pub(super) fn sheet(case: &Case<'_>, files: &Files) -> WorkSheet {
    let style = style(case.job);
    let heads = [
        word("mark", 9),
        word("rod", 7),
        word("state", 12),
        length("projection", 12),
        length("plus_minus", 10),
        length("thread", 12),
        length("beyond", 12),
        length("beyond_worst", 12),
        length("thread_left", 12),
        word("extra_washers", 9),
        long("condition", 24),
        long("measured", 20),
        long("where", 26),
    ];
    let down = |it| style.signed(it, Rounding::Down);
    let rows = case.columns.iter().flat_map(|column| {
        let of_job = case.column(column.index);
        of_job.rods.iter().zip(&column.rods).map(move |(rod, worked)| {
            let result = &worked.result;
            let how = match (rod.projection.is_some(), rod.one_for_all, worked.by_level.is_some()) {
                (false, ..) => "not measured",
                (true, _, true) => "by level, or by level and tape",
                (true, true, false) => "one value for all rods",
                (true, false, false) => "by tape",
            };
            let condition = match &rod.condition {
                Condition::Sound => String::new(),
                Condition::Noted(noted) => noted.clone(),
            };
            vec![
                text(of_job.mark.clone()),
                text(rod.label.to_string()),
                state(result.state),
                said(worked.projection, |it| style.exact(it)),
                said(worked.projection.map(|_| worked.plus_minus), |it| style.write(it, Rounding::Up)),
                said(worked.thread, |it| style.exact(it)),
                said(result.beyond, down),
                said(result.beyond_worst, down),
                said(result.thread_left, down),
                whole(result.extra_washers),
                text(condition),
                text(how),
                text(rod.place.map(|place| files.row_words(place)).unwrap_or_default()),
            ]
        })
    });
    lay("Rods", style.system(), &heads, rows.collect())
}

/// Gives a state as JSON has it; only full is a pass.
const fn state(state: State) -> Item {
    match state {
        State::Full => verdict(Tone::Good, "full"),
        State::Scant => verdict(Tone::Ask, "scant"),
        State::Unsure => verdict(Tone::Ask, "unsure"),
        State::Short => verdict(Tone::Stop, "short"),
        State::RunsOut => verdict(Tone::Stop, "runs-out"),
        State::Unmeasured => verdict(Tone::Ask, "unmeasured"),
    }
}
