//! What the tables of parts have in common: an extent and a series of rows.

use crate::length::{Length, Unit};
use crate::source::{Node, Problem, Walk};

/// The least, nominal and most of one dimension.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Extent {
    /// The least a part may measure.
    pub least: Length,
    /// What a part is called by; the most, where none is published.
    pub nominal: Length,
    /// The most a part may measure.
    pub most: Length,
}

impl Extent {
    /// Gives an extent without any tolerance.
    #[must_use]
    pub const fn exact(length: Length) -> Self {
        Self { least: length, nominal: length, most: length }
    }

    /// Reads `[least, most]` or `[least, nominal, most]`.
    #[must_use]
    pub fn read(walk: Walk<'_>, node: &Node) -> Option<Self> {
        let items = walk.list(node)?;
        let extent = if items.len() == 2 {
            let [least, most] = walk.lengths(node)?;
            Self { least, nominal: most, most }
        } else {
            let [least, nominal, most] = walk.lengths(node)?;
            Self { least, nominal, most }
        };
        let ordered = extent.least <= extent.nominal && extent.nominal <= extent.most;
        if !ordered || extent.least.is_negative() || extent.most <= Length::ZERO {
            walk.problems.note(
                Problem::at(node.place, "these are not a least, a nominal and a most")
                    .fix("write [least, nominal, most], each no less than the one before, none negative"),
            );
            return None;
        }
        Some(extent)
    }
}

/// A named table of parts, one row a rod diameter.
#[derive(Clone, Debug)]
pub struct Series<Row> {
    /// What a job file calls it.
    pub name: String,
    /// What it is.
    pub title: String,
    /// The unit its figures are written in.
    pub unit: Unit,
    /// Its rows by rod diameter.
    pub rows: Vec<(Length, Row)>,
}

impl<Row> Series<Row> {
    /// Finds the row of exactly this rod diameter.
    #[must_use]
    pub fn row(&self, diameter: Length) -> Option<&Row> {
        self.rows.iter().find(|(found, _)| *found == diameter).map(|(_, row)| row)
    }
}
