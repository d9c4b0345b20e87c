//! A surveyor's file of points, `point,northing,easting,elevation,description`: which pad or rod each row is.

use super::columns::Roster;
use super::context::{Context, Lengths};
use super::csv_lines::split;
use super::data_table::{Cell, DataTable, Row};
use super::elevations::{Into, Known};
use super::header::Spec;
use super::spots::rod_label;
use crate::length::{Bare, Length, Unit, Unreadable, read as read_length};
use crate::model::{ElevationReading, RodLabel, SpotKind, Unmatched};
use crate::source::{FileId, Files, Place, Problem, nearest};
use crate::text::quoted;
use std::collections::{BTreeMap, BTreeSet};

/// The columns, in the order they stand in where there is no header row.
const COLUMNS: [&str; 5] = ["point", "northing", "easting", "elevation", "description"];

/// Numbers that the first row of a file without a header row holds at least.
const NUMBERS: usize = 2;

/// How a surveyor's file begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Begins {
    /// With a header row.
    Header,
    /// With its first point.
    Point,
}

/// Gives the cells of the first row of a file that is not blank.
pub(super) fn first_row(files: &Files, file: FileId) -> Vec<&str> {
    let text = files.text(file);
    if let Some(sheet) = files.sheet(file) {
        let row = sheet.rows().next().unwrap_or_default();
        return row.iter().filter_map(|cell| text.get(cell.start..cell.end)).collect();
    }
    let blank = |line: &&str| line.chars().all(|c| c == ',' || c.is_whitespace());
    let Some(line) = text.lines().find(|line| !blank(line)) else { return Vec::new() };
    let cells = split(line).cells.into_iter();
    cells.filter_map(|(from, to)| Some(line.get(from..to)?.trim().trim_matches('"').trim())).collect()
}

/// Tells whether a file is a surveyor's, by its first row; none is a plain file of elevations.
pub(super) fn begins(cells: &[&str]) -> Option<Begins> {
    let numbers = cells.iter().filter(|cell| is_number(cell)).count();
    if cells.len() >= COLUMNS.len() - 1 && numbers >= NUMBERS {
        return Some(Begins::Point);
    }
    // mistyped or not
    let coordinate = |cell: &&str| nearest(&cell.to_lowercase(), ["northing", "easting"]).is_some();
    cells.iter().any(coordinate).then_some(Begins::Header)
}

fn is_number(cell: &str) -> bool {
    matches!(read_length(cell, Bare::of(Unit::Foot)), Ok(_) | Err(Unreadable::OutOfRange))
}

/// What a row of the file is.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Target {
    /// A pad or a benchmark, by its mark.
    Mark(String),
    /// The top of a rod of a column.
    Rod(usize, RodLabel),
}

/// The marks that a row may name.
struct Names<'a> {
    roster: &'a Roster,
    exact: BTreeSet<&'a str>,
    /// By the mark in small letters; none where two marks are written alike.
    small: BTreeMap<String, Option<&'a str>>,
}

impl<'a> Names<'a> {
    fn of(known: &Known<'a>) -> Self {
        let roster = known.roster;
        let exact: BTreeSet<&str> =
            roster.entries.iter().map(|entry| entry.mark.as_str()).chain(known.marks.names()).collect();
        let mut small = BTreeMap::new();
        for mark in &exact {
            small
                .entry(mark.to_ascii_lowercase())
                .and_modify(|only: &mut Option<&str>| *only = None)
                .or_insert(Some(*mark));
        }
        Self { roster, exact, small }
    }

    /// Finds a mark as it is written, or the only one that differs in capitals alone.
    fn mark(&self, text: &str) -> Option<&'a str> {
        let exact = self.exact.get(text).copied();
        exact.or_else(|| self.small.get(&text.to_ascii_lowercase()).copied().flatten())
    }

    /// Finds what a text means: a mark, or the top of a rod as in `A1 rod 2`.
    fn target(&self, text: &str) -> Option<Target> {
        let text = words(text).join(" ");
        if let Some(mark) = self.mark(&text) {
            return Some(Target::Mark(mark.to_owned()));
        }
        let (mark, label) = rod(&text)?;
        let column = self.roster.get(self.mark(&mark)?)?;
        Some(Target::Rod(column, label))
    }

    /// Gives the column of a target; none of a benchmark.
    fn column(&self, target: &Target) -> Option<usize> {
        match target {
            Target::Mark(mark) => self.roster.get(mark),
            Target::Rod(column, _) => Some(*column),
        }
    }
}

fn words(text: &str) -> Vec<&str> {
    text.split_whitespace().collect()
}

/// Splits `A1 rod 2` into the mark, which may be blank, and the rod.
fn rod(text: &str) -> Option<(String, RodLabel)> {
    let words = words(text);
    let (label, front) = words.split_last()?;
    let (rod, mark) = front.split_last()?;
    rod.eq_ignore_ascii_case("rod").then_some(())?;
    Some((mark.join(" "), rod_label(&label.to_lowercase())?))
}

/// Tells whether a text is a number as instruments count points, which says nothing about the column of that name.
fn is_count(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit())
}

/// What a point and its description say together.
#[derive(Debug, PartialEq, Eq)]
enum Said {
    This(Target),
    Nothing,
    Two(Target, Target),
}

/// Puts together what the point and what the description of a row say.
fn said(names: &Names<'_>, point: &str, description: &str) -> Said {
    let by_point = names.target(point);
    let by_description = names.target(description);
    match (by_point, by_description) {
        (None, None) => Said::Nothing,
        (None, Some(it)) => Said::This(it),
        (Some(Target::Mark(mark)), None) => {
            if let (Some((alone, label)), Some(column)) = (rod(description), names.roster.get(&mark))
                && alone.is_empty()
            {
                return Said::This(Target::Rod(column, label));
            }
            // the third point of a file is not the column 3, unless something else says so
            let named = words(description).iter().any(|word| word.eq_ignore_ascii_case(&mark));
            if is_count(&mark) && !description.trim().is_empty() && !named {
                return Said::Nothing;
            }
            Said::This(Target::Mark(mark))
        }
        (Some(it), None) => Said::This(it),
        (Some(one), Some(other)) if one == other => Said::This(one),
        // the pad and a rod of one column: the rod says more
        (Some(Target::Mark(mark)), Some(Target::Rod(column, label)))
        | (Some(Target::Rod(column, label)), Some(Target::Mark(mark)))
            if names.column(&Target::Mark(mark.clone())) == Some(column) =>
        {
            Said::This(Target::Rod(column, label))
        }
        (Some(one), Some(other)) => Said::Two(one, other),
    }
}

/// Reads a surveyor's file.
pub(super) fn read(
    context: Context<'_>,
    (file, begins): (FileId, Begins),
    known: &Known<'_>,
    into: &mut Into<'_>,
    plus_minus: Length,
) -> Vec<ElevationReading> {
    let spec = Spec {
        required: &["point", "elevation"],
        optional: &["northing", "easting", "description", "plus_minus"],
    };
    let table = match begins {
        Begins::Header => DataTable::open(file, context.files, context.walk.problems, spec),
        Begins::Point => {
            Some(DataTable::without_header(file, context.files, context.walk.problems, &COLUMNS))
        }
    };
    let Some(mut table) = table else { return Vec::new() };
    let names = Names::of(known);
    let lengths = Lengths::new(context);
    let faults_before = context.walk.problems.count();
    let mut found = Vec::new();
    let mut once = BTreeSet::new();
    let (mut rows, mut matched) = (0, 0);
    let mut unitless = None;
    for row in &mut table {
        rows += 1;
        if let Some(place) = without_unit(context, &row) {
            unitless.get_or_insert(place);
            continue;
        }
        let shot = shot(context, &row, &lengths, plus_minus);
        let (point, description) = (row.cell("point"), row.cell("description"));
        let target = match said(&names, &point.text, &description.text) {
            Said::This(target) => target,
            Said::Nothing => {
                into.unmatched.push(unmatched(&point, &description));
                continue;
            }
            Said::Two(..) => {
                matched += 1;
                context.note(contradiction(&point, &description));
                continue;
            }
        };
        matched += 1;
        let Some(shot) = shot else { continue };
        // a row that was exported twice is one shot
        let same = COLUMNS.map(|column| row.cell(column).text);
        if !once.insert(same) {
            continue;
        }
        let point = match target {
            Target::Mark(mark) => into.points.number(&mark),
            Target::Rod(column, label) => {
                let Some(entry) = known.roster.entries.get(column) else { continue };
                into.spots.of_column((column, &entry.mark), (SpotKind::Rod(label), shot.place), into.points)
            }
        };
        found.push(ElevationReading {
            point,
            elevation: shot.elevation,
            plus_minus: shot.plus_minus,
            place: shot.place,
        });
    }
    lengths.finish();
    if let Some(place) = unitless {
        context.note(
            Problem::at(
                place,
                "this surveyor's file may be in feet or in metres, and the job does not say which",
            )
            .fix("add levels_units = \"ft\" or \"m\" under [measure]; the unit is never guessed"),
        );
    }
    let sure = !known.roster.broken && !known.marks.broken && table.is_whole();
    if matched == 0 && sure && context.walk.problems.count() == faults_before {
        context.note(nothing(&names, file, rows));
    }
    found
}

/// Gives the first number of a row that needs a unit and has none.
fn without_unit(context: Context<'_>, row: &Row) -> Option<Place> {
    let numbers = ["northing", "easting", "elevation"].map(|column| row.cell(column));
    let needs = |cell: &&Cell| read_length(&cell.text, context.readings) == Err(Unreadable::NeedsUnit);
    numbers.iter().find(needs).map(|cell| cell.place)
}

/// The elevation of one row, where it has one.
struct Shot {
    elevation: Length,
    plus_minus: Length,
    place: Place,
}

fn shot(context: Context<'_>, row: &Row, lengths: &Lengths<'_>, plus_minus: Length) -> Option<Shot> {
    for column in ["northing", "easting"] {
        let cell = row.cell(column);
        // coordinates of a whole state lie beyond any length of a job; they are not used, only read
        if !matches!(read_length(&cell.text, context.readings), Err(Unreadable::OutOfRange)) {
            let _ = lengths.read(&cell, context.readings);
        }
    }
    let cell = row.cell("elevation");
    let elevation = lengths.read(&cell, context.readings);
    let own = row.cell("plus_minus");
    let plus_minus = if own.is_blank() { Some(plus_minus) } else { lengths.size(&own, context.readings) };
    Some(Shot { elevation: elevation?, plus_minus: plus_minus?, place: cell.place })
}

fn unmatched(point: &Cell, description: &Cell) -> Unmatched {
    let plain = |text: &str| text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    Unmatched {
        point: plain(&point.text),
        description: plain(&description.text),
        place: if point.is_blank() { description.place } else { point.place },
    }
}

fn contradiction(point: &Cell, description: &Cell) -> Problem {
    let (one, other) = (quoted(&point.text), quoted(&description.text));
    Problem::at(description.place, format!("the point says {one} and its description {other}: which is it?"))
        .fix("leave the mark in one of the two; number points otherwise than columns, as in 1001")
}

/// The fault of a file that has nothing to do with this job.
fn nothing(names: &Names<'_>, file: FileId, rows: usize) -> Problem {
    let place = Place { file, start: 0, end: 0 };
    if rows == 0 {
        return Problem::at(place, "this surveyor's file has no points").fix("write one row for each point");
    }
    let known = super::context::known_names(names.exact.iter().copied());
    let known = known.map_or(String::new(), |known| format!("; {known}"));
    Problem::at(place, "no point of this surveyor's file is a column or a benchmark of this job").fix(format!(
        "write the mark of the column, or the mark and its rod as in A1 rod 2, as point or as description{known}"
    ))
}
