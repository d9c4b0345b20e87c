//! How far a steel plate may be thicker or thinner than its name.

use super::authority::Authority;
use super::row;
use crate::length::{Length, Unit};
use crate::source::{Node, Walk};

/// The tolerance of a band of thicknesses.
#[derive(Clone, Debug)]
pub struct PlateRow {
    /// From this thickness on.
    pub from: Length,
    /// Up to, but not with, this thickness.
    pub below: Length,
    /// How much thinner a plate may be.
    pub under: Length,
    /// How much thicker a plate may be.
    pub over: Length,
    /// On whose word.
    pub authority: Authority,
}

/// A table of plate tolerances.
#[derive(Clone, Debug)]
pub struct PlateTable {
    /// What a limit set calls it.
    pub name: String,
    /// What it is.
    pub title: String,
    /// The unit its figures are written in.
    pub unit: Unit,
    /// Its bands.
    pub rows: Vec<PlateRow>,
}

impl PlateTable {
    /// Finds the band of a thickness.
    #[must_use]
    pub fn row(&self, thickness: Length) -> Option<&PlateRow> {
        self.rows.iter().find(|row| row.from <= thickness && thickness < row.below)
    }
}

pub(super) fn read(walk: Walk<'_>, root: &Node) -> Option<PlateTable> {
    let table = walk.table(root, "the catalog file")?;
    let walk = row::units(walk, &table)?;
    let head = row::head(walk, &table)?;
    let rows = row::rows(walk, table.need(walk, "row", "[[row]]"), head.source.as_ref(), |row, authority| {
        let [from, below, under, over] =
            ["from", "below", "under", "over"].map(|key| row::need(walk, row, key));
        Some(PlateRow { from: from?, below: below?, under: under?, over: over?, authority })
    });
    table.close(walk);
    Some(PlateTable { name: head.name, title: head.title, unit: head.unit, rows })
}
