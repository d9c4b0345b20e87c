//! Why a column is held, in one line for the crew.

use crate::check::{Case, ColumnCase, Fit, Hold, Reach, RodCase, room};
use crate::length::{Length, Rounding};
use crate::model::{Base, Condition, RodLabel, State};
use crate::text::{Style, and};

/// Says why a column is held, reason by reason.
pub(in crate::report) fn reasons(case: &Case<'_>, column: &ColumnCase, style: Style) -> Vec<String> {
    column.hold.iter().map(|hold| reason(case, column, *hold, style)).collect()
}

/// Says why a column is held, for one reason.
pub(in crate::report) fn reason(case: &Case<'_>, column: &ColumnCase, hold: Hold, style: Style) -> String {
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
        Hold::ConcreteStrength => {
            "concrete tested under 75 percent of its strength: the engineer decides".to_owned()
        }
        Hold::PadTilted => {
            let falls = column.shape.as_ref().map_or(Length::ZERO, |shape| shape.counts().value);
            format!("pad falls {}: more than a flat shim may bridge", style.write(falls, Rounding::Up))
        }
        Hold::LevellingNut => levelling(base, column),
    }
}

/// Says why levelling nuts cannot be set: no room for them, or the rods whose thread ends above them.
fn levelling(base: &Base, column: &ColumnCase) -> String {
    let bed = column.raise.map(|raise| raise.nominal);
    let no_room = room(base, bed, column).is_some_and(|room| room.fit() == Fit::No);
    let ends = column.rods.iter().filter(|rod| {
        let reach = base.levelling().and_then(|it| Reach::of(base, it, bed, rod, rod.thread?));
        rod.sound && reach.is_some_and(|reach| reach.fit() == Fit::No)
    });
    let ends: Vec<String> = ends.map(|rod| rod.label.to_string()).collect();
    let rods = match ends.as_slice() {
        [] => None,
        [one] => Some(format!("rod {one}: thread ends above the levelling nut")),
        _ if ends.len() == column.rods.len() => {
            Some("all rods: thread ends above the levelling nut".to_owned())
        }
        _ => Some(format!("rods {}: thread ends above the levelling nut", and(&ends))),
    };
    let room = no_room.then(|| "no room for the levelling nuts in the bed".to_owned());
    [room, rods].into_iter().flatten().collect::<Vec<_>>().join("; ")
}

/// Names the sound rods in a state: `rod 3`, `rods 1 and 3`.
pub(in crate::report) fn rods(column: &ColumnCase, state: State) -> String {
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
