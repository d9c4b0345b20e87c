//! Holes in base plates and the washers that must cover them.

use super::authority::Authority;
use super::part::Series;
use super::row;
use crate::length::Length;
use crate::source::{Node, Walk};

/// What the table asks for at one rod diameter.
#[derive(Clone, Debug)]
pub struct HoleRow {
    /// The recommended hole.
    pub hole: Length,
    /// The least width or diameter of the washer.
    pub washer: Length,
    /// The least thickness of the washer.
    pub thickness: Length,
    /// On whose word.
    pub authority: Authority,
}

/// Up to which clearance a plain washer may stand instead of a plate washer.
#[derive(Clone, Debug)]
pub struct PlainRow {
    /// Rod diameters up to this one.
    pub up_to: Length,
    /// Hole diameter less rod diameter, at most.
    pub clearance: Length,
    /// On whose word.
    pub authority: Authority,
}

/// The table of holes and washers.
#[derive(Clone, Debug)]
pub struct Holes {
    /// The rows by rod diameter.
    pub series: Series<HoleRow>,
    /// The exception for small clearances, by rising rod diameter.
    pub plain: Vec<PlainRow>,
}

impl Holes {
    /// Finds the exception that holds for a rod diameter.
    #[must_use]
    pub fn plain(&self, diameter: Length) -> Option<&PlainRow> {
        self.plain.iter().find(|row| diameter <= row.up_to)
    }
}

pub(super) fn read(walk: Walk<'_>, root: &Node) -> Option<Holes> {
    let table = walk.table(root, "the catalog file")?;
    let walk = row::units(walk, &table)?;
    let head = row::head(walk, &table)?;
    let rows = row::rows(walk, table.need(walk, "row", "[[row]]"), head.source.as_ref(), |row, authority| {
        let diameter = row::need(walk, row, "diameter");
        let hole = row::need(walk, row, "hole");
        let washer = row::need(walk, row, "washer");
        let thickness = row::need(walk, row, "thickness");
        Some((diameter?, HoleRow { hole: hole?, washer: washer?, thickness: thickness?, authority }))
    });
    let mut plain = row::rows(walk, table.get("plain"), head.source.as_ref(), |row, authority| {
        let up_to = row::need(walk, row, "up_to");
        let clearance = row::need(walk, row, "clearance");
        Some(PlainRow { up_to: up_to?, clearance: clearance?, authority })
    });
    plain.sort_by_key(|row| row.up_to);
    table.close(walk);
    Some(Holes { series: Series { name: head.name, title: head.title, unit: head.unit, rows }, plain })
}
