//! Shim plates that can be had.

use super::authority::Authority;
use super::part::Extent;
use super::row;
use crate::length::Unit;
use crate::source::{Node, Walk};

/// One thickness of shim, with its tolerance.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShimPiece {
    /// Its thickness.
    pub thickness: Extent,
    /// On whose word.
    pub authority: Authority,
}

/// A series of shim thicknesses.
#[derive(Clone, Debug)]
pub struct ShimSeries {
    /// What a job file calls it.
    pub name: String,
    /// What it is.
    pub title: String,
    /// The unit its figures are written in.
    pub unit: Unit,
    /// Its thicknesses.
    pub pieces: Vec<ShimPiece>,
}

pub(super) fn read(walk: Walk<'_>, root: &Node) -> Option<ShimSeries> {
    let table = walk.table(root, "the catalog file")?;
    let walk = row::units(walk, &table)?;
    let head = row::head(walk, &table)?;
    let pieces =
        row::rows(walk, table.need(walk, "row", "[[row]]"), head.source.as_ref(), |row, authority| {
            let nominal = row.need(walk, "thickness", "\"1/8\"").and_then(|node| walk.thickness(node));
            let tolerance = row.need(walk, "tolerance", "[\"-0.01\", \"0.03\"]");
            let [lower, upper] = walk.lengths(tolerance?)?;
            let nominal = nominal?;
            let thickness = Extent { least: nominal + lower, nominal, most: nominal + upper };
            Some(ShimPiece { thickness, authority })
        });
    table.close(walk);
    Some(ShimSeries { name: head.name, title: head.title, unit: head.unit, pieces })
}
