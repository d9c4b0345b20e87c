//! Reading one catalog file: its head, and its rows with their sources.

use super::authority::{Authority, read_authority};
use super::part::Series;
use crate::length::{Bare, Length, Unit};
use crate::source::{Node, Problem, Table, Walk};

/// The head of a catalog file.
pub(super) struct Head {
    pub(super) name: String,
    pub(super) title: String,
    pub(super) unit: Unit,
    pub(super) source: Option<Authority>,
}

/// Reads the units of a file and gives the walk that reads its bare numbers.
pub(super) fn units<'p>(walk: Walk<'p>, table: &Table<'_>) -> Option<Walk<'p>> {
    let node = table.need(walk, "units", "\"in\"")?;
    let unit = match walk.text(node)?.as_str() {
        "in" => Unit::Inch,
        "mm" => Unit::Millimetre,
        other => {
            walk.problems.note(
                Problem::at(node.place, format!("`{other}` is not a unit of a catalog"))
                    .fix("use \"in\" or \"mm\""),
            );
            return None;
        }
    };
    Some(Walk { bare: Bare::of(unit), ..walk })
}

/// Reads name, title and the source that holds where a row has none.
pub(super) fn head(walk: Walk<'_>, table: &Table<'_>) -> Option<Head> {
    let name = table.need(walk, "name", "\"name\"").and_then(|node| walk.name(node));
    let title = table.need(walk, "title", "\"what it is\"").and_then(|node| walk.name(node));
    let source = table.get("source").and_then(|node| read_authority(walk, node));
    let unit = walk.bare.number.unwrap_or(Unit::Millimetre);
    Some(Head { name: name?, title: title?, unit, source })
}

/// Reads the rows of a list with a function of one row and its source.
pub(super) fn rows<Row>(
    walk: Walk<'_>,
    node: Option<&Node>,
    source: Option<&Authority>,
    mut read: impl FnMut(&Table<'_>, Authority) -> Option<Row>,
) -> Vec<Row> {
    let Some(items) = node.and_then(|node| walk.list(node)) else {
        return Vec::new();
    };
    let mut rows = Vec::with_capacity(items.len());
    for item in items {
        let Some(table) = walk.table(item, "row") else { continue };
        let own = table.get("source").and_then(|node| read_authority(walk, node));
        match own.or_else(|| source.cloned()) {
            Some(authority) => rows.extend(read(&table, authority)),
            None => walk.problems.note(Problem::at(table.place(), "this row has no source")),
        }
        table.close(walk);
    }
    rows
}

/// Reads a whole file whose rows are found by rod diameter.
pub(super) fn series<Row>(
    walk: Walk<'_>,
    root: &Node,
    mut read: impl FnMut(Walk<'_>, &Table<'_>, Authority) -> Option<Row>,
) -> Option<Series<Row>> {
    let table = walk.table(root, "the catalog file")?;
    let walk = units(walk, &table)?;
    let head = head(walk, &table)?;
    let rows = rows(walk, table.need(walk, "row", "[[row]]"), head.source.as_ref(), |row, authority| {
        let _called = row.get("size");
        let diameter = row.need(walk, "diameter", "\"3/4\"").and_then(|node| walk.thickness(node));
        let read = read(walk, row, authority);
        Some((diameter?, read?))
    });
    table.close(walk);
    Some(Series { name: head.name, title: head.title, unit: head.unit, rows })
}

/// Takes a key of a row as a length that must be there.
pub(super) fn need(walk: Walk<'_>, row: &Table<'_>, key: &'static str) -> Option<Length> {
    row.need(walk, key, "\"1/2\"").and_then(|node| walk.size(node))
}
