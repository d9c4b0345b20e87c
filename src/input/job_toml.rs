//! The head of the job file: name, units, limits, and the lists of tables in it.

use super::load::{AskedBy, Wanted};
use crate::length::Length;
use crate::model::Units;
use crate::source::{Kind, Node, Place, Problem, Table, Walk};
use crate::text::{or, quoted};
use std::path::Path;

/// What `[job]` says.
pub(super) struct Head {
    /// The name of the job.
    pub(super) name: Option<String>,
    /// The units; inches where the job does not say, which was noted.
    pub(super) units: Units,
    /// The fraction answers are written in.
    pub(super) fraction: i64,
    /// The limit set, as written, and where.
    pub(super) limits: Option<(String, Place)>,
    /// The design elevation of all columns.
    pub(super) seat: Option<Length>,
    /// The file of columns.
    pub(super) columns: Option<Wanted>,
    /// Where the table stands.
    pub(super) place: Place,
}

/// Reads `[job]`.
///
/// `limits_given` tells that the command line names the limit set.
pub(super) fn head(walk: Walk<'_>, root: &Table<'_>, limits_given: bool) -> Option<Head> {
    let node = root.need(
        walk,
        "job",
        r#"{ name = "…", units = "in", limits = "low-rise" }, best as a table [job]"#,
    )?;
    let table = walk.table(node, "[job]")?;
    let name = table.need(walk, "name", "\"the name of the job\"").and_then(|node| walk.name(node));
    let units = table.need(walk, "units", "\"in\" or \"mm\"").and_then(|node| units(walk, node));
    let units = units.unwrap_or(Units::Inch);
    let walk = Walk { bare: units.bare(), ..walk };
    let limits = if limits_given { table.get("limits") } else { table.need(walk, "limits", "\"low-rise\"") };
    let limits = limits.and_then(|node| Some((walk.name(node)?, node.place)));
    let seat = table.get("seat").and_then(|node| walk.length(node));
    let columns = table.get("columns").and_then(|node| wanted(walk, node));
    let fraction = table.get("fraction").and_then(|node| fraction(walk, node)).unwrap_or(16);
    table.close(walk);
    Some(Head { name, units, fraction, limits, seat, columns, place: table.place() })
}

fn units(walk: Walk<'_>, node: &Node) -> Option<Units> {
    let text = walk.text(node)?;
    match text.trim() {
        "in" => Some(Units::Inch),
        "mm" => Some(Units::Millimetre),
        _ => {
            walk.problems.note(
                Problem::at(node.place, format!("{} is not a unit of a job", quoted(&text)))
                    .fix("use units = \"in\" or units = \"mm\""),
            );
            None
        }
    }
}

fn fraction(walk: Walk<'_>, node: &Node) -> Option<i64> {
    let fraction = walk.whole(node, 16, 64)?;
    if matches!(fraction, 16 | 32 | 64) {
        return Some(fraction);
    }
    walk.problems.note(
        Problem::at(node.place, format!("answers are not written in fractions of 1/{fraction}"))
            .fix("use fraction = 16, 32 or 64"),
    );
    None
}

/// Takes a node as the name of a file in the job's folder.
pub(super) fn wanted(walk: Walk<'_>, node: &Node) -> Option<Wanted> {
    Some(Wanted::named(Path::new(&walk.name(node)?), AskedBy::Key(node.place)))
}

/// Takes a key as a list of tables `[[key]]`.
pub(super) fn entries<'n>(walk: Walk<'_>, root: &Table<'n>, key: &'static str) -> &'n [Node] {
    let Some(node) = root.get(key) else { return &[] };
    if matches!(node.kind, Kind::Table(_)) {
        walk.problems.note(
            Problem::at(node.place, format!("`{key}` is one table, a list of them is expected"))
                .fix(format!("write [[{key}]] with two brackets")),
        );
        return std::slice::from_ref(node);
    }
    walk.list(node).unwrap_or_default()
}

/// Takes a key as a choice of words.
pub(super) fn one_of<T: Copy, const N: usize>(
    walk: Walk<'_>,
    node: &Node,
    choices: [(&str, T); N],
) -> Option<T> {
    let text = walk.text(node)?;
    let found = choices.iter().find(|(word, _)| *word == text.trim());
    if found.is_none() {
        let words: Vec<String> = choices.iter().map(|(word, _)| format!("\"{word}\"")).collect();
        walk.problems.note(
            Problem::at(node.place, format!("{} is not known here", quoted(&text)))
                .fix(format!("use {}", or(&words))),
        );
    }
    found.map(|(_, value)| *value)
}
