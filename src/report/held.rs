//! Why a column is held, in one line for the crew.

use crate::check::{Case, ColumnCase, Hold, RodCase};
use crate::length::{Length, Rounding};
use crate::model::{Condition, RodLabel, State};
use crate::text::{Style, and};

/// Says why a column is held, reason by reason.
pub(super) fn reasons(case: &Case<'_>, column: &ColumnCase, style: Style) -> Vec<String> {
    column.hold.iter().map(|hold| reason(case, column, *hold, style)).collect()
}

fn reason(case: &Case<'_>, column: &ColumnCase, hold: Hold, style: Style) -> String {
    let base = case.base(column.index);
    match hold {
        Hold::RodUnmeasured => format!("{} not measured", rods(column, State::Unmeasured)),
        Hold::RodUnsure => format!("{}: nut full or not is too close to call", rods(column, State::Unsure)),
        Hold::RodScant => format!("{}: less thread beyond the nut than wanted", rods(column, State::Scant)),
        Hold::RodShort => {
            let deepest = worst(column, State::Short, |rod| rod.result.beyond).map_or(Length::ZERO, |it| -it);
            format!(
                "{}: nut not full, short by {}",
                rods(column, State::Short),
                style.write(deepest, Rounding::Up)
            )
        }
        Hold::RodRunsOut => format!("{}: thread runs out under the nut", rods(column, State::RunsOut)),
        Hold::RodCondition => {
            let noted = case.column(column.index).rods.iter().filter_map(|rod| match &rod.condition {
                Condition::Noted(note) => Some(format!("rod {} {note}", rod.label)),
                Condition::Sound => None,
            });
            format!("{}: the engineer decides", and(&noted.collect::<Vec<_>>()))
        }
        Hold::RodsTooFew => format!("only {} rods", base.rods.count),
        Hold::TallStack => "stack higher than without asking".to_owned(),
        Hold::Grout => "on grout: the engineer agrees first".to_owned(),
        Hold::Grind => "pad to be ground: the engineer agrees first".to_owned(),
        Hold::PadTilted => {
            let falls = column.shape.as_ref().map_or(Length::ZERO, |shape| shape.counts().value);
            format!("pad falls {}: more than a flat shim may bridge", style.write(falls, Rounding::Up))
        }
        Hold::LevellingNut => "levelling nuts: no room in the bed, or no thread where they sit".to_owned(),
    }
}

/// Names the sound rods in a state: `rod 3`, `rods 1 and 3`.
pub(super) fn rods(column: &ColumnCase, state: State) -> String {
    let labels: Vec<RodLabel> = column
        .rods
        .iter()
        .filter(|rod| rod.sound && rod.result.state == state)
        .map(|rod| rod.label)
        .collect();
    let names: Vec<String> = labels.iter().map(ToString::to_string).collect();
    match names.as_slice() {
        [one] => format!("rod {one}"),
        _ if names.len() == column.rods.len() => "all rods".to_owned(),
        _ => format!("rods {}", and(&names)),
    }
}

fn worst(column: &ColumnCase, state: State, of: impl Fn(&RodCase) -> Option<Length>) -> Option<Length> {
    column.rods.iter().filter(|rod| rod.sound && rod.result.state == state).filter_map(of).min()
}
