//! `[[line]]`: wall and frame lines, their columns in order and the distances between them.

use super::columns::Roster;
use super::context::Context;
use super::find_lines::{distance, found};
use super::job_toml::{entries, one_of};
use crate::catalog::Limits;
use crate::length::Length;
use crate::model::{Line, LineKind, Units};
use crate::source::{Kind, Node, Place, Problem, Table};
use crate::text::count;
use std::collections::BTreeMap;

/// Reads every `[[line]]`, or finds lines from the positions where there is none.
pub(super) fn read(
    context: Context<'_>,
    root: &Table<'_>,
    roster: &mut Roster,
    limits: Option<&Limits>,
    units: Units,
) -> Vec<Line> {
    let tables = entries(context.walk, root, "line");
    if tables.is_empty() {
        let positions: Vec<Option<[Length; 2]>> = roster.entries.iter().map(|entry| entry.at).collect();
        return found(&positions, units);
    }
    let mut lines: Vec<Line> = Vec::new();
    let mut names: BTreeMap<String, Place> = BTreeMap::new();
    for node in tables {
        let Some(table) = context.walk.table(node, "[[line]]") else { continue };
        let name = table.need(context.walk, "name", "\"A\"");
        let name =
            name.and_then(|node| Some((context.name(&context.walk.text(node)?, node.place)?, node.place)));
        let line = one(context, &table, roster, limits);
        table.close(context.walk);
        let Some((name, place)) = name else { continue };
        if let Some(first) = names.get(&name) {
            context.twice(&format!("the line `{name}`"), place, *first);
            continue;
        }
        names.insert(name.clone(), place);
        lines.extend(line.map(|line| Line { name, ..line }));
    }
    lines
}

fn one(
    context: Context<'_>,
    table: &Table<'_>,
    roster: &mut Roster,
    limits: Option<&Limits>,
) -> Option<Line> {
    let walk = context.walk;
    let kind = table
        .need(walk, "kind", "\"wall\" or \"frame\"")
        .and_then(|node| one_of(walk, node, [("wall", LineKind::Wall), ("frame", LineKind::Frame)]));
    let list = table.need(walk, "columns", "[\"A1\", \"A2\"]");
    let columns = list.and_then(|node| columns(context, node, roster));
    let number = list.map(|node| if let Kind::List(items) = &node.kind { items.len() } else { 0 });
    let own = table.get("spacing").map(|node| spacing(context, node, number?));
    let accept = match table.get("accept") {
        Some(node) => Some(walk.size(node)?),
        None => None,
    };
    let (kind, columns) = (kind?, columns?);
    let spacing = match own {
        Some(own) => own?,
        None => positions(&columns, roster).unwrap_or_default(),
    };
    let needed = kind == LineKind::Wall && limits.is_some_and(|limits| limits.wall.is_some());
    if needed && spacing.is_empty() {
        context.note(
            Problem::at(
                table.place(),
                "the distances along this wall line are not known, and its limit needs them",
            )
            .fix("add spacing = [\"20'\", …] between its columns, or the position `at` of each of them"),
        );
        return None;
    }
    Some(Line { name: String::new(), kind, columns, spacing, accept, found: false })
}

fn columns(context: Context<'_>, node: &Node, roster: &mut Roster) -> Option<Vec<usize>> {
    let items = context.walk.list(node)?;
    if items.len() < 2 {
        let message = format!("a line has at least 2 columns, this has {}", items.len());
        context.note(Problem::at(node.place, message).fix("name its columns in order"));
        return None;
    }
    let mut seen: BTreeMap<usize, Place> = BTreeMap::new();
    let mut columns = Vec::with_capacity(items.len());
    for item in items {
        let column = context.walk.name(item).and_then(|mark| roster.find(context, &mark, item.place));
        let Some(column) = column else { continue };
        if let Some(first) = seen.insert(column, item.place) {
            context.twice("this column", item.place, first);
        }
        columns.push(column);
    }
    (seen.len() == items.len()).then_some(columns)
}

/// Reads one distance a gap, or one for all.
fn spacing(context: Context<'_>, node: &Node, columns: usize) -> Option<Vec<Length>> {
    let gaps = columns.saturating_sub(1);
    let Kind::List(items) = &node.kind else {
        return context.walk.thickness(node).map(|one| vec![one; gaps]);
    };
    let lengths: Vec<Option<Length>> = items.iter().map(|item| context.walk.thickness(item)).collect();
    if columns >= 2 && items.len() != gaps {
        context.note(
            Problem::at(
                node.place,
                format!(
                    "{} have {} between them, {} given here",
                    count(columns, "column"),
                    count(gaps, "distance"),
                    if items.len() == 1 { "1 is".to_owned() } else { format!("{} are", items.len()) }
                ),
            )
            .fix("give one distance for each gap, or a single length for all of them"),
        );
        return None;
    }
    lengths.into_iter().collect()
}

/// Gives the distances from the positions, where all are known.
fn positions(columns: &[usize], roster: &Roster) -> Option<Vec<Length>> {
    let at: Option<Vec<[Length; 2]>> = columns.iter().map(|column| roster.entries.get(*column)?.at).collect();
    at.map(|at| at.windows(2).filter_map(|pair| Some(distance(*pair.first()?, *pair.last()?))).collect())
}
