//! levels.csv: the readings of any number of setups.

use super::columns::Roster;
use super::context::{Context, Lengths};
use super::data_table::{Cell, DataTable, MOST_FAULTS};
use super::header::Spec;
use super::load::Opened;
use super::points::{Marks, Points};
use super::spots::{self, Spots};
use crate::model::{Setup, Sight, SightKind};
use crate::source::{Place, Problem};
use crate::text::quoted;
use std::collections::BTreeMap;

/// Setups and sights.
#[derive(Default)]
pub(super) struct Levels {
    /// The names of the setups, in the order of reading.
    pub(super) setups: Vec<Setup>,
    /// The sights, in the order of reading.
    pub(super) sights: Vec<Sight>,
    /// Whether points may be missing because something could not be read.
    pub(super) broken: bool,
}

/// How often a point is named, and how it was sighted last.
struct Named {
    times: usize,
    kind: Option<SightKind>,
    place: Place,
}

/// Reads the level notes.
pub(super) fn read(
    context: Context<'_>,
    opened: Opened,
    roster: &mut Roster,
    marks: &Marks,
    (points, spots): (&mut Points, &mut Spots),
) -> Levels {
    let mut levels = Levels::default();
    let file = match opened {
        Opened::NotAsked => return levels,
        Opened::Failed => {
            levels.broken = true;
            return levels;
        }
        Opened::At(file) => file,
    };
    let spec = Spec { required: &["point", "reading"], optional: &["setup", "sight", "distance", "spot"] };
    let Some(mut table) = DataTable::open(file, context.files, context.walk.problems, spec) else {
        levels.broken = true;
        return levels;
    };
    let lengths = Lengths::new(context);
    let one_setup = !table.has("setup");
    let mut numbers: BTreeMap<String, usize> = BTreeMap::new();
    let mut named: BTreeMap<String, Named> = BTreeMap::new();
    for row in &mut table {
        let point = row.cell("point");
        let name = context.name(&point.text, point.place);
        let setup = if one_setup { Some("1".to_owned()) } else { setup(context, &row.cell("setup")) };
        let kind = kind(context, &row.cell("sight"));
        let cell = row.cell("reading");
        let reading = lengths.read(&cell, context.readings);
        let distance = row.cell("distance");
        let sight = lengths.size(&distance, context.readings);
        let spot_cell = row.cell("spot");
        let spot = spots::kind(context, &spot_cell);
        let Some(name) = name else {
            levels.broken = true;
            continue;
        };
        let Some(spot) = spot else { continue };
        let times = named.entry(name.clone()).or_insert(Named { times: 0, kind, place: point.place });
        times.times += 1;
        times.kind = kind;
        if let (true, Some(what), Some(column)) = (cell.is_blank(), &spot, roster.get(&name)) {
            spots.without_reading(column, what.clone(), spot_cell.place);
        }
        let (Some(setup), Some(kind), Some(reading)) = (setup, kind, reading) else { continue };
        let setup = *numbers.entry(setup).or_insert_with_key(|name| {
            levels.setups.push(Setup::named(name));
            levels.setups.len() - 1
        });
        let point = match spot {
            None => Some(points.number(&name)),
            Some(what) => {
                let at = if roster.get(&name).is_some() { &spot_cell } else { &point };
                spots.number(context, (&name, what), at, (roster, marks), points)
            }
        };
        let Some(point) = point else { continue };
        levels.sights.push(Sight { setup, point, kind, reading, distance: sight, place: cell.place });
    }
    lengths.finish();
    levels.broken |= !table.is_whole();
    if !roster.entries.is_empty() && !roster.broken && !marks.broken {
        strangers(context, &named, roster, marks);
    }
    levels
}

fn setup(context: Context<'_>, cell: &Cell) -> Option<String> {
    if cell.is_blank() {
        context.note(
            Problem::at(cell.place, "the setup of this reading is missing")
                .fix("write the number or name of the setup in every row"),
        );
        return None;
    }
    context.name(&cell.text, cell.place)
}

/// Reads the kind of a sight; blank is an intermediate sight.
fn kind(context: Context<'_>, cell: &Cell) -> Option<SightKind> {
    let kinds = [SightKind::Back, SightKind::Intermediate, SightKind::Fore];
    if cell.is_blank() {
        return Some(SightKind::Intermediate);
    }
    let found = kinds.into_iter().find(|kind| cell.text.eq_ignore_ascii_case(kind.short()));
    if found.is_none() {
        context.note(
            Problem::at(cell.place, format!("{} is not a kind of sight", quoted(&cell.text)))
                .fix("use BS (backsight), IS (intermediate sight) or FS (foresight); blank is IS"),
        );
    }
    found
}

/// Notes points that are most likely mistyped marks: named once, and not to carry the run on.
fn strangers(context: Context<'_>, named: &BTreeMap<String, Named>, roster: &mut Roster, marks: &Marks) {
    let unknown = named.iter().filter(|(name, point)| {
        let once = point.times == 1 && point.kind == Some(SightKind::Intermediate);
        once && roster.get(name).is_none() && !marks.has(name)
    });
    let unknown: Vec<(&str, Place)> = unknown.map(|(name, point)| (name.as_str(), point.place)).collect();
    for (name, place) in unknown.into_iter().take(MOST_FAULTS) {
        roster.stranger(context, name, place);
    }
}
