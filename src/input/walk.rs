//! walk.csv, the short form: one row a column, its pad and the lowest and highest of its rods.

use super::base::Bases;
use super::columns::{Entry, Roster, base_cell, has_rows};
use super::context::{Context, Lengths, remark};
use super::data_table::{DataTable, Row};
use super::header::Spec;
use super::levels::Levels;
use super::load::Opened;
use super::points::Points;
use super::rod_list::{RodLists, Which};
use super::rods::{Figures, condition, projection};
use crate::length::Length;
use crate::model::{Setup, Sight, SightKind};
use crate::source::{Place, Problem};
use crate::text::quoted;
use std::collections::BTreeMap;

/// The name of the setup that the readings of a walk form.
const SETUP: &str = "walk";

/// What a walk adds to.
pub(super) struct Into<'j> {
    /// The columns.
    pub(super) roster: &'j mut Roster,
    /// The points.
    pub(super) points: &'j mut Points,
    /// The rods.
    pub(super) rods: &'j mut RodLists,
}

/// Reads a walk; without other columns its marks are the columns.
pub(super) fn read(
    context: Context<'_>,
    opened: Opened,
    bases: &Bases,
    rods_origin: Length,
    into: &mut Into<'_>,
) -> Levels {
    let mut levels = Levels::default();
    let own = into.roster.entries.is_empty() && !into.roster.broken;
    let file = match opened {
        Opened::NotAsked => return levels,
        Opened::Failed => {
            into.roster.broken |= own;
            return levels;
        }
        Opened::At(file) => file,
    };
    let spec = Spec {
        required: &["mark", "reading", "low", "high"],
        optional: &["base", "thread", "condition", "note"],
    };
    let Some(mut table) = DataTable::open(file, context.files, context.walk.problems, spec) else {
        into.roster.broken |= own;
        return levels;
    };
    let lengths = Lengths::new(context);
    let mut seen: BTreeMap<usize, Place> = BTreeMap::new();
    let mut rows = 0;
    for row in &mut table {
        rows += 1;
        let mark = row.cell("mark");
        let reading = row.cell("reading");
        let height = lengths.read(&reading, context.readings);
        let measured = rods(context, &row, &lengths, rods_origin);
        let thread = lengths.size(&row.cell("thread"), context.walk.bare);
        let Some(name) = context.name(&mark.text, mark.place) else {
            into.roster.broken |= own;
            continue;
        };
        let column = match own {
            true => add(context, into.roster, bases, &row, name),
            false => find(context, into.roster, bases, &row, &name),
        };
        let Some(column) = column else { continue };
        if let Some(first) = seen.get(&column) {
            context.twice(&format!("the column {}", quoted(&mark.text)), mark.place, *first);
            continue;
        }
        seen.insert(column, mark.place);
        for (which, figures) in measured {
            into.rods.give(context, column, which, figures);
        }
        into.rods.besides(column, thread, condition(&row.cell("condition")));
        if let Some(height) = height {
            let point = into.points.number(&mark.text);
            levels.sights.push(Sight {
                setup: 0,
                point,
                kind: SightKind::Intermediate,
                reading: height,
                distance: None,
                place: reading.place,
            });
        }
    }
    lengths.finish();
    if !levels.sights.is_empty() {
        levels.setups.push(Setup::named(SETUP));
    }
    if own {
        into.roster.broken |= !has_rows(context, file, rows, table.is_whole());
    }
    levels
}

/// Adds the column of a row.
fn add(context: Context<'_>, roster: &mut Roster, bases: &Bases, row: &Row, mark: String) -> Option<usize> {
    let base = base_cell(context, bases, &row.cell("base"));
    let place = row.cell("mark").place;
    let note = remark(&row.cell("note").text);
    roster.add(context, Entry { mark, place, base, at: None, seat: None, note })
}

/// Finds the column of a row; its base, if given, must be the column's.
fn find(context: Context<'_>, roster: &mut Roster, bases: &Bases, row: &Row, mark: &str) -> Option<usize> {
    let cell = row.cell("base");
    let base = if cell.is_blank() { None } else { bases.find(context, &cell.text, cell.place) };
    let column = roster.find(context, mark, row.cell("mark").place)?;
    let entry = roster.entries.get_mut(column)?;
    entry.note = remark(&row.cell("note").text).or_else(|| entry.note.take());
    if let (Some(given), Some(known)) = (base, entry.base)
        && given != known
    {
        let [given, known] =
            [given, known].map(|base| bases.slots.get(base).map_or("", |slot| slot.mark.as_str()));
        context.note(
            Problem::at(cell.place, format!("`{mark}` stands on base `{known}`, not on `{given}`"))
                .fix(format!("correct this cell, or the column at {}", context.written(entry.place))),
        );
    }
    Some(column)
}

/// Reads the lowest and the highest rod of a row, those that are given.
fn rods(
    context: Context<'_>,
    row: &Row,
    lengths: &Lengths<'_>,
    rods_origin: Length,
) -> Vec<(Which, Figures)> {
    let mut found = Vec::new();
    for (name, which) in [("low", Which::Low), ("high", Which::High)] {
        let cell = row.cell(name);
        if !cell.is_blank() {
            let projection = projection(context, &cell, lengths, rods_origin);
            found.push((
                which,
                Figures { projection, thread: None, condition: None, named: cell.place, place: cell.place },
            ));
        }
    }
    found
}
