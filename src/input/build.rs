//! Putting the parts of a job together.

use super::base::{self, Bases};
use super::columns::{self, Roster};
use super::context::Context;
use super::elevations::{self, Known};
use super::job_toml::{self, Head};
use super::levels::Levels;
use super::load::{AskedBy, Folder, Form, Opened, Wanted};
use super::measure::{self, Measure};
use super::points::{self, Points};
use super::rod_list::RodLists;
use super::spots::Spots;
use super::{Override, differences, instruments, levels, limits, lines, rods, setups, shims, walk};
use crate::catalog::Catalog;
use crate::length::Bare;
use crate::model::{Column, Job, Readings};
use crate::source::{Files, Kind, Node, Problem, Problems, Walk, parse};
use std::path::Path;

/// What is done with the measurements of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Measurements {
    /// They are read.
    Read,
    /// They are left out: their files need not be there.
    LeftOut,
}

/// Reads a job, and tells whether it names a walk; none where it cannot be used, which was noted.
pub(super) fn build(
    path: &Path,
    (with, measurements): (&Override, Measurements),
    catalog: &Catalog,
    files: &mut Files,
    problems: &Problems,
) -> Option<(Job, bool)> {
    let folder = Folder::of_job(path, problems)?;
    let job_file = folder.read_job(files, problems)?;
    let root = parse(job_file, files, problems);
    if !problems.none() && !has(&root, &["job", "base"]) {
        return None;
    }
    let walk = Walk { problems, bare: Bare { number: None, fraction: None } };
    let root = walk.table(&root, "the job file")?;
    let Some(head) = job_toml::head(walk, &root, with.limits.is_some()) else {
        // nothing else can be read without units, but a mistyped table may be why
        let others =
            ["measure", "benchmark", "instrument", "setup", "base", "column", "line", "shims", "limits"];
        let _ = others.map(|key| root.get(key));
        root.close(walk);
        return None;
    };
    let walk = Walk { bare: head.units.bare(), ..walk };
    let in_force =
        limits::in_force(walk, &head, with.limits.as_deref(), root.get("limits"), (&folder, files), catalog);
    let mut measure = measure::read(walk, &root, &head, with, catalog);
    let short = measure.walk.is_some();
    let blank = measurements == Measurements::LeftOut;
    if blank {
        measure.leave_out(head.columns.is_none() && root.get("column").is_none());
    }
    let opened = Sheets::open(&folder, &head, &measure, files, problems);
    let context = Context { files, walk, readings: measure.readings };

    let tables = in_force.as_ref().map(|limits| &limits.tables);
    let bases = base::read(context, &root, catalog, tables, head.units);
    let supply = shims::read(context, &root, &head, catalog, tables);
    let marks = points::benchmarks(context, &root);
    let columns_place = head.columns.as_ref().map_or(head.place, |wanted| match wanted.by {
        AskedBy::Key(place) => place,
        AskedBy::Flag(_) => head.place,
    });
    let mut roster = columns::read(context, &root, (opened.columns, columns_place), &bases);
    let mut points = Points::default();
    let mut rod_lists = RodLists::default();
    let mut into = walk::Into { roster: &mut roster, points: &mut points, rods: &mut rod_lists };
    let walked = walk::read(context, opened.walk, &bases, measure.rods_origin, &mut into);
    rods::read(context, opened.rods, &bases, measure.rods_origin, &mut roster, &mut rod_lists);
    let lines = lines::read(context, &root, &mut roster, tables, head.units);
    let mut spots = Spots::default();
    let mut read = levels::read(context, opened.levels, &mut roster, &marks, (&mut points, &mut spots));
    if opened.levels == Opened::NotAsked {
        read = walked;
    }
    let with_instrument =
        instruments::With { catalog, units: head.units, plus_minus: measure.levels_plus_minus };
    let instruments = instruments::read(context, &root, with_instrument, measure.kind);
    let described = setups::read(context, &root, &instruments);
    match blank {
        true => read = Levels { setups: described.into_setups(), ..Levels::default() },
        false => setups::describe(context, described, &instruments, &mut read),
    }
    let known = Known { roster: &roster, marks: &marks, levels: &read };
    let mut unmatched = Vec::new();
    let mut into = elevations::Into { points: &mut points, spots: &mut spots, unmatched: &mut unmatched };
    let elevations =
        elevations::read(context, opened.elevations, &known, &mut into, measure.levels_plus_minus.0);
    let differences =
        differences::read(context, opened.differences, &known, &mut points, measure.levels_plus_minus.0);
    root.close(walk);
    something_to_do(context, &head, &roster, &bases, (&opened, blank));

    let benchmarks = marks.finish(&mut points);
    let columns = assemble(context, roster, &bases, &points, (&mut rod_lists, &spots));
    let (spots, unread) = spots.finish();
    if let (Some(columns), false) = (&columns, blank) {
        let marked = |point: usize| benchmarks.iter().any(|it| it.point == point && it.at.is_some());
        setups::complete(context, &instruments, &read, (columns, &spots), marked);
    }
    let bases: Option<Vec<_>> = bases.slots.into_iter().map(|slot| slot.base).collect();
    let job = Job {
        name: head.name?,
        units: head.units,
        fraction: head.fraction,
        limits: in_force?,
        seat: head.seat,
        bases: bases?,
        columns: columns?,
        lines,
        shims: supply?,
        readings: Readings {
            setups: read.setups,
            instruments: instruments.found.into_iter().map(|(instrument, _)| instrument).collect(),
            points: points.names,
            spots,
            unread,
            sights: read.sights,
            elevations,
            differences,
            benchmarks,
            unmatched,
            sense: measure.sense,
            unit: measure.readings.number,
            plus_minus: measure.levels_plus_minus.0,
            plus_minus_assumed: measure.levels_plus_minus.1,
            kinds_assumed: instruments.kinds_assumed,
        },
        rods_plus_minus: measure.rods_plus_minus.0,
        rods_plus_minus_assumed: measure.rods_plus_minus.1,
        measured: measure.measured,
        files: context.files.names().map(str::to_owned).collect(),
    };
    Some((job, short))
}

/// Tells whether a tree has all of these tables.
fn has(root: &Node, keys: &[&str]) -> bool {
    let Kind::Table(entries) = &root.kind else { return false };
    keys.iter().all(|wanted| entries.iter().any(|(key, _)| key.name == *wanted))
}

/// The CSV files of a job.
struct Sheets {
    columns: Opened,
    walk: Opened,
    levels: Opened,
    elevations: Opened,
    differences: Opened,
    rods: Opened,
}

impl Sheets {
    fn open(
        folder: &Folder,
        head: &Head,
        measure: &Measure<'_>,
        files: &mut Files,
        problems: &Problems,
    ) -> Self {
        let mut open = |wanted: &Option<Wanted>| folder.open(wanted.as_ref(), Form::Csv, files, problems);
        Self {
            columns: open(&head.columns),
            walk: open(&measure.walk),
            levels: open(&measure.levels),
            elevations: open(&measure.elevations),
            differences: open(&measure.differences),
            rods: open(&measure.rods),
        }
    }
}

/// Notes a job without anything to work on, and columns without any base.
fn something_to_do(
    context: Context<'_>,
    head: &Head,
    roster: &Roster,
    bases: &Bases,
    (opened, blank): (&Sheets, bool),
) {
    let none = roster.entries.is_empty() && !roster.broken;
    let unread =
        [opened.levels, opened.elevations, opened.differences].iter().all(|it| *it == Opened::NotAsked);
    if none && unread && !blank {
        context.note(
            Problem::at(head.place, "this job has no columns and no level notes").fix(
                "add [[column]] tables, columns = \"columns.csv\", or walk = \"walk.csv\" under [measure]",
            ),
        );
    }
    if !roster.entries.is_empty() && !bases.any {
        context.note(
            Problem::at(head.place, "the columns of this job stand on no [[base]]")
                .fix("add a [[base]] with its plate, rods, washers and nuts"),
        );
    }
}

/// Makes the columns of what was read of them.
fn assemble(
    context: Context<'_>,
    roster: Roster,
    bases: &Bases,
    points: &Points,
    (rods, spots): (&mut RodLists, &Spots),
) -> Option<Vec<Column>> {
    let columns: Vec<Option<Column>> = roster
        .entries
        .into_iter()
        .enumerate()
        .map(|(number, entry)| {
            let slot = entry.base.and_then(|base| bases.slots.get(base));
            // numbered rods beside low and high are told even where the count is not known
            let rods = rods.finish(context, number, slot.and_then(|slot| slot.count), spots.rods(number));
            let point = points.get(&entry.mark);
            Some(Column {
                base: entry.base?,
                mark: entry.mark,
                at: entry.at,
                seat: entry.seat,
                point,
                rods,
                note: entry.note,
            })
        })
        .collect();
    columns.into_iter().collect()
}
