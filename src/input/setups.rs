//! `[[setup]]`: which instrument stood where, and how level.

use super::context::Context;
use super::instruments::{Instruments, tilt};
use super::job_toml::entries;
use super::levels::Levels;
use crate::model::{Column, LineOfSight, Setup, Sight, Spot, Tilt};
use crate::source::{Place, Problem, Table};
use crate::text::{count, quoted};

/// The setups a job describes.
#[derive(Default)]
pub(super) struct Described {
    setups: Vec<(Setup, Place)>,
    broken: bool,
}

impl Described {
    /// Gives the setups as they are described.
    pub(super) fn into_setups(self) -> Vec<Setup> {
        self.setups.into_iter().map(|(setup, _)| setup).collect()
    }
}

/// Reads every `[[setup]]`.
pub(super) fn read(context: Context<'_>, root: &Table<'_>, instruments: &Instruments) -> Described {
    let mut found = Described::default();
    for node in entries(context.walk, root, "setup") {
        let table = context.walk.table(node, "[[setup]]");
        match table.and_then(|table| one(context, &table, instruments)) {
            Some((setup, place)) => {
                if let Some((_, first)) = found.setups.iter().find(|(it, _)| it.name == setup.name) {
                    context.twice(&format!("the setup {}", quoted(&setup.name)), place, *first);
                }
                found.setups.push((setup, place));
            }
            None => found.broken = true,
        }
    }
    found
}

fn one(context: Context<'_>, table: &Table<'_>, instruments: &Instruments) -> Option<(Setup, Place)> {
    let walk = context.walk;
    let name = table.need(walk, "name", "\"1\", as the level notes call it");
    let name = name.and_then(|node| Some((context.name(&walk.text(node)?, node.place)?, node.place)));
    let with = table.get("instrument").map(|node| {
        let name = walk.name(node)?;
        let found = instruments.found.iter().position(|(it, _)| it.name == name);
        if found.is_none() && !instruments.broken {
            no_instrument(context, instruments, &name, node.place);
        }
        found
    });
    let at = table.get("at").map(|node| walk.lengths(node));
    let own_tilt = table.get("tilt").map(|node| tilt(walk, node));
    let turned = table.get("turned").map(|node| walk.whole(node, -360, 360));
    table.close(walk);
    let (name, place) = name?;
    let mut setup = Setup::named(&name);
    if let Some(with) = with {
        setup.instrument = Some(with?);
    }
    if let Some(at) = at {
        setup.at = Some(at?);
    }
    if let Some(tilt) = own_tilt {
        setup.tilt = tilt?;
    }
    if let Some(turned) = turned {
        setup.turned = turned?;
    }
    Some((setup, place))
}

/// Notes a setup whose instrument is not described.
fn no_instrument(context: Context<'_>, instruments: &Instruments, name: &str, place: Place) {
    let message = format!("{} is no [[instrument]]", quoted(name));
    let known = instruments.found.iter().map(|(it, _)| it.name.as_str()).filter(|name| !name.is_empty());
    if known.clone().next().is_some() {
        context.unknown(place, message, name, known);
        return;
    }
    let fix = match instruments.found.is_empty() {
        true => "add an [[instrument]] of this name, or take the key out",
        false => "give the [[instrument]] this name, or take the key out: there is only one",
    };
    context.note(Problem::at(place, message).fix(fix));
}

/// Puts what is described into the setups of the level notes.
pub(super) fn describe(
    context: Context<'_>,
    described: Described,
    instruments: &Instruments,
    levels: &mut Levels,
) {
    let only = (instruments.found.len() == 1 && !instruments.broken).then_some(0);
    let mut left = described.setups;
    for setup in &mut levels.setups {
        let at = left.iter().position(|(it, _)| it.name == setup.name);
        if let Some(at) = at {
            *setup = left.remove(at).0;
        }
        setup.instrument = setup.instrument.or(only);
    }
    if levels.broken || described.broken {
        return;
    }
    let names: Vec<String> = levels.setups.iter().map(|setup| setup.name.clone()).collect();
    for (setup, place) in left {
        let message = format!("{} is no setup of the level notes", quoted(&setup.name));
        context.unknown(place, message, &setup.name, names.iter().map(String::as_str));
    }
    if instruments.found.len() > 1
        && let Some(setup) = levels.setups.iter().find(|setup| setup.instrument.is_none())
        && let Some((_, place)) = instruments.found.get(1)
    {
        context.note(
            Problem::at(
                *place,
                format!("with which of the instruments was setup {} read?", quoted(&setup.name)),
            )
            .fix(format!("add [[setup]] with name = {:?} and its instrument", setup.name)),
        );
    }
}

/// Notes sights whose length or whose place in plan is needed and not known.
pub(super) fn complete(
    context: Context<'_>,
    instruments: &Instruments,
    levels: &Levels,
    (columns, spots): (&[Column], &[Spot]),
    position: impl Fn(usize) -> bool,
) {
    let stands = |point: usize| {
        let own = columns.iter().any(|it| it.point == Some(point) && it.at.is_some());
        let of_column = |spot: &Spot| columns.get(spot.column).is_some_and(|it| it.at.is_some());
        own || position(point) || spots.iter().any(|spot| spot.point == point && of_column(spot))
    };
    let mut without_length: Vec<&Sight> = Vec::new();
    let mut without_place: Vec<&Sight> = Vec::new();
    for sight in &levels.sights {
        let Some(setup) = levels.setups.get(sight.setup) else { continue };
        let instrument = setup.instrument.and_then(|it| instruments.found.get(it)).map(|(it, _)| it);
        let needs_length = instrument.is_some_and(|it| {
            it.line != LineOfSight::Level || (it.per_sight.is_some() && it.without_sight == it.reading)
        });
        let tilted = setup.tilt != Tilt::Level || instrument.is_some_and(|it| it.tilt != Tilt::Level);
        let placed = stands(sight.point);
        if needs_length && sight.distance.is_none() && !(setup.at.is_some() && placed) {
            without_length.push(sight);
        }
        if tilted && !placed {
            without_place.push(sight);
        }
    }
    let tell = |sights: &[&Sight], what: &str, fix: &str| {
        if let Some(first) = sights.first() {
            let more = match sights.len() {
                1 => String::new(),
                all => format!(", as of {} more", count(all - 1, "reading")),
            };
            context.note(Problem::at(first.place, format!("{what}{more}")).fix(fix));
        }
    };
    tell(
        &without_length,
        "the sight length of this reading is needed and not known",
        "fill in `distance`, or give the position of the column and `at` of its [[setup]]",
    );
    tell(
        &without_place,
        "where this point stands in plan is needed, since its setup may be tilted, and not known",
        "give the column its position, or the benchmark `at`; a turning point cannot be read by a setup with a tilt",
    );
}
