//! The columns of a job: `[[column]]` or columns.csv, and looking them up by mark.

use super::base::Bases;
use super::context::{Context, Lengths};
use super::data_table::{Cell, DataTable, Row};
use super::header::Spec;
use super::job_toml::entries;
use super::load::Opened;
use crate::length::Length;
use crate::source::{FileId, Place, Problem, Table};
use crate::text::quoted;
use std::collections::BTreeMap;

/// Unknown marks whose nearest name is looked for.
const MOST_COMPARED: usize = 50;

/// One column as it is read.
pub(super) struct Entry {
    /// Its mark.
    pub(super) mark: String,
    /// Where the mark stands.
    pub(super) place: Place,
    /// Its base, where that is known.
    pub(super) base: Option<usize>,
    /// Its position.
    pub(super) at: Option<[Length; 2]>,
    /// Its own design elevation.
    pub(super) seat: Option<Length>,
    /// What the crew noted.
    pub(super) note: Option<String>,
}

/// All columns, by mark.
#[derive(Default)]
pub(super) struct Roster {
    /// The columns in job order.
    pub(super) entries: Vec<Entry>,
    by_mark: BTreeMap<String, usize>,
    /// Whether marks may be missing because something could not be read.
    pub(super) broken: bool,
    strangers: usize,
}

impl Roster {
    /// Adds a column, unless its mark stands already.
    pub(super) fn add(&mut self, context: Context<'_>, entry: Entry) -> Option<usize> {
        if let Some(first) = self.by_mark.get(&entry.mark).and_then(|at| self.entries.get(*at)) {
            context.twice(&format!("the column {}", quoted(&entry.mark)), entry.place, first.place);
            return None;
        }
        self.by_mark.insert(entry.mark.clone(), self.entries.len());
        self.entries.push(entry);
        Some(self.entries.len() - 1)
    }

    /// Gives a column by its mark.
    pub(super) fn get(&self, mark: &str) -> Option<usize> {
        self.by_mark.get(mark).copied()
    }

    /// Gives a column by its mark, and notes one that is not known.
    pub(super) fn find(&mut self, context: Context<'_>, mark: &str, place: Place) -> Option<usize> {
        let found = self.get(mark);
        if found.is_none() && !self.broken {
            self.stranger(context, mark, place);
        }
        found
    }

    /// Notes a mark that is not known.
    pub(super) fn stranger(&mut self, context: Context<'_>, mark: &str, place: Place) {
        self.strangers += 1;
        let message = format!("{} is not a column of this job", quoted(mark));
        if self.entries.is_empty() {
            if self.strangers == 1 {
                let fix =
                    "it has no columns at all: add [[column]] tables to the job file, or a file of columns";
                context.note(Problem::at(place, message).fix(fix));
            }
        } else if self.strangers <= MOST_COMPARED {
            context.unknown(place, message, mark, self.entries.iter().map(|entry| entry.mark.as_str()));
        } else {
            context.note(Problem::at(place, message));
        }
    }
}

/// Reads `[[column]]` or the file of columns.
pub(super) fn read(context: Context<'_>, root: &Table<'_>, file: (Opened, Place), bases: &Bases) -> Roster {
    let mut roster = Roster::default();
    let tables = entries(context.walk, root, "column");
    let (opened, place) = file;
    if !tables.is_empty() && opened != Opened::NotAsked {
        context.note(
            Problem::at(place, "[[column]] and a file of columns cannot stand together")
                .fix("use one of the two"),
        );
    }
    for node in tables {
        match context.walk.table(node, "[[column]]").and_then(|table| from_table(context, &table, bases)) {
            Some(entry) => {
                roster.add(context, entry);
            }
            None => roster.broken = true,
        }
    }
    match opened {
        _ if !tables.is_empty() => {}
        Opened::NotAsked => {}
        Opened::Failed => roster.broken = true,
        Opened::At(file) => from_file(context, file, bases, &mut roster),
    }
    positions(context, &roster);
    roster
}

fn from_table(context: Context<'_>, table: &Table<'_>, bases: &Bases) -> Option<Entry> {
    let walk = context.walk;
    let mark = table.need(walk, "mark", "\"A1\"");
    let mark = mark.and_then(|node| Some((context.name(&walk.text(node)?, node.place)?, node.place)));
    let base = match table.get("base") {
        Some(node) => walk.name(node).and_then(|name| bases.find(context, &name, node.place)),
        None => only_base(context, bases, table.place()),
    };
    let at = table.get("at").and_then(|node| walk.lengths(node));
    let seat = table.get("seat").and_then(|node| walk.length(node));
    table.close(walk);
    let (mark, place) = mark?;
    Some(Entry { mark, place, base, at, seat, note: None })
}

/// Gives the base of a column that names none.
pub(super) fn only_base(context: Context<'_>, bases: &Bases, place: Place) -> Option<usize> {
    let only = bases.only();
    if only.is_none() && bases.whole && !bases.slots.is_empty() {
        let marks: Vec<String> = bases.slots.iter().take(12).map(|slot| slot.mark.clone()).collect();
        context.note(
            Problem::at(place, "the base of this column is missing, and there is more than one kind")
                .fix(format!("name its base: {}", marks.join(", "))),
        );
    }
    only
}

/// Gives the base that a cell names, or the only one where it is blank.
pub(super) fn base_cell(context: Context<'_>, bases: &Bases, cell: &Cell) -> Option<usize> {
    if cell.is_blank() {
        only_base(context, bases, cell.place)
    } else {
        bases.find(context, &cell.text, cell.place)
    }
}

fn from_file(context: Context<'_>, file: FileId, bases: &Bases, roster: &mut Roster) {
    let spec = Spec { required: &["mark"], optional: &["base", "x", "y", "seat"] };
    let Some(mut table) = DataTable::open(file, context.files, context.walk.problems, spec) else {
        roster.broken = true;
        return;
    };
    let lengths = Lengths::new(context);
    let mut rows = 0;
    for row in &mut table {
        rows += 1;
        match from_row(context, &row, &lengths, bases) {
            Some(entry) => {
                roster.add(context, entry);
            }
            None => roster.broken = true,
        }
    }
    lengths.finish();
    roster.broken |= !has_rows(context, file, rows, table.is_whole());
}

/// Notes a file of columns that has none, and tells whether it may be used.
pub(super) fn has_rows(context: Context<'_>, file: FileId, rows: usize, whole: bool) -> bool {
    if rows == 0 && whole {
        let end = context.files.text(file).trim_end().len();
        let place = Place { file, start: end, end };
        context.note(
            Problem::at(place, "this file has a header row and no rows").fix("write one row for each column"),
        );
    }
    rows > 0 && whole
}

fn from_row(context: Context<'_>, row: &Row, lengths: &Lengths<'_>, bases: &Bases) -> Option<Entry> {
    let bare = context.walk.bare;
    let mark = row.cell("mark");
    let name = context.name(&mark.text, mark.place);
    let base = base_cell(context, bases, &row.cell("base"));
    let (x, y) = (row.cell("x"), row.cell("y"));
    let position = [lengths.read(&x, bare), lengths.read(&y, bare)];
    if x.is_blank() != y.is_blank() {
        let blank = if x.is_blank() { &x } else { &y };
        context.note(
            Problem::at(blank.place, "one of the two coordinates of this column is missing")
                .fix("fill in both x and y, or leave both blank"),
        );
    }
    let at = match position {
        [Some(x), Some(y)] => Some([x, y]),
        _ => None,
    };
    let seat = lengths.read(&row.cell("seat"), bare);
    Some(Entry { mark: name?, place: mark.place, base, at, seat, note: None })
}

/// Notes columns that stand at the same position.
fn positions(context: Context<'_>, roster: &Roster) {
    let mut first: BTreeMap<[Length; 2], &Entry> = BTreeMap::new();
    for entry in &roster.entries {
        let Some(at) = entry.at else { continue };
        if let Some(other) = first.get(&at) {
            context.note(
                Problem::at(
                    entry.place,
                    format!("{} stands where {} stands", quoted(&entry.mark), quoted(&other.mark)),
                )
                .fix("check both positions"),
            );
        } else {
            first.insert(at, entry);
        }
    }
}
