//! The heights along each line, drawn before and after the plan.

use super::super::document::{Document, Figure, Tone};
use super::levels::{Compared, apart, neighbours};
use super::plan::{how_apart, short_under};
use crate::check::Case;
use crate::draw::{Apart, Profile, ProfileColumn, ProfileData, profiles};
use crate::length::{Length, Rounding};
use crate::levels::Datum;
use crate::model::{Line, LineKind};
use crate::plan::Action;
use crate::text::{Relation, Style};

/// Adds a drawing a line, in parts where it is long.
pub(super) fn section(document: &mut Document, case: &Case<'_>, style: Style) {
    if case.job.lines.is_empty() {
        return;
    }
    document.heading(Tone::Plain, "PROFILES: every line before and after the plan");
    let compared = neighbours(case);
    for line in &case.job.lines {
        let data = data(case, line, &compared, style);
        let all = profiles(&data, style);
        let many = all.len();
        for (number, profile) in (1..).zip(all) {
            document.figure(figure(line, &data, profile, (number, many)));
        }
    }
}

fn data(case: &Case<'_>, line: &Line, compared: &Compared<'_>, style: Style) -> ProfileData {
    let shown = |height: Option<Length>| {
        let height = height.map(|it| it - case.zero);
        (height, height.map_or("?".to_owned(), |it| style.signed(it, Rounding::Nearest)))
    };
    let column = |&index: &usize| {
        let column = &case.columns[index];
        ProfileColumn {
            mark: case.column(index).mark.clone(),
            pad: shown(column.pad.map(|pad| pad.departure)),
            seat: shown(column.seat_departure),
            under: short_under(case.choice(index), !column.may_set(), style),
            grout: case.choice(index).action == Action::Grout,
        }
    };
    let steps = line.columns.windows(2).map(|pair| {
        let found = compared.get(&(line.name.as_str(), pair[0], pair[1])).copied();
        match found {
            Some(it) => {
                let how = how_apart(it);
                let words = match (how, it.value) {
                    (_, None) => "?".to_owned(),
                    (Apart::Over | Apart::Close, _) => apart(it, style),
                    (_, Some(value)) => style.pair(value.abs(), it.limit, Relation::AtMost).value,
                };
                (words, how)
            }
            None => {
                let of = |index: usize| case.columns[index].seat_departure;
                let step = of(pair[0]).zip(of(pair[1])).map(|(a, b)| (b - a).abs());
                let words = step.map_or("?".to_owned(), |it| style.write(it, Rounding::Up));
                (words, Apart::NotCompared)
            }
        }
    });
    ProfileData {
        columns: line.columns.iter().map(column).collect(),
        spacing: line.spacing.clone(),
        steps: steps.collect(),
        band: band(case, line, style),
    }
}

/// Finds the band the seats of a line must stay in: from the design seat, else of its wall, else of the building.
fn band(case: &Case<'_>, line: &Line, style: Style) -> Option<([Length; 2], String)> {
    let tables = &case.job.limits.tables;
    if let (Some(design), Datum::Absolute(_)) = (&tables.design, case.levels.datum()) {
        let accept = design.accept.value;
        let words = format!("band: {} from the design seat", style.exact(accept));
        return Some(([-accept, accept], words));
    }
    let lowest = |columns: &mut dyn Iterator<Item = usize>| {
        columns.filter_map(|index| case.columns[index].seat_departure).min().map(|low| low - case.zero)
    };
    if let (Some(wall), LineKind::Wall) = (&tables.wall, line.kind) {
        let low = lowest(&mut line.columns.iter().copied())?;
        let accept = wall.accept.value;
        let longest = wall.length.as_ref().map(|length| length.value);
        let long = line.spacing.iter().copied().sum::<Length>();
        let over = match longest.filter(|longest| long > *longest) {
            Some(longest) => format!("; it holds over any {} of it", style.elevation(longest)),
            None => String::new(),
        };
        let words = format!("band: {} over the lowest seat of this wall{over}", style.exact(accept));
        return Some(([low, low + accept], words));
    }
    let building = tables.building.as_ref()?;
    let low = lowest(&mut (0..case.columns.len()))?;
    let accept = building.accept.value;
    let words = format!("band: {} over the lowest seat of the building", style.exact(accept));
    Some(([low, low + accept], words))
}

fn figure(line: &Line, data: &ProfileData, profile: Profile, (number, many): (usize, usize)) -> Figure {
    let part = if many > 1 { format!(", part {number} of {many}") } else { String::new() };
    let kind = if line.kind == LineKind::Wall { "wall" } else { "frame" };
    let title = format!("Line {} ({kind}){part}: pads before, seats after", line.name);
    let scale = match profile.along {
        Some(along) => format!(
            "Along the line {}; heights {}, drawn {} times larger than distances.",
            along.words(),
            profile.up.words(),
            profile.up.times(along)
        ),
        None => {
            format!("Columns stand at equal distances here, not to scale; heights {}.", profile.up.words())
        }
    };
    let [first, last] = profile.columns;
    let each = data.columns.get(first..=last).unwrap_or_default().iter();
    let each = each.map(|it| format!("{}: pad {}, {}, seat {}", it.mark, it.pad.1, it.under, it.seat.1));
    let steps = data.steps.get(first..last).unwrap_or_default().iter().map(|(words, _)| words.clone());
    let alt = format!(
        "{}. Steps from seat to seat: {}. {}",
        each.collect::<Vec<_>>().join("; "),
        steps.collect::<Vec<_>>().join(", "),
        data.band.as_ref().map(|(_, words)| format!("{words}.")).unwrap_or_default()
    );
    Figure { title, alt, picture: profile.picture, notes: vec![scale], beside: false, only_drawn: false }
}
