//! Nuts: height and width across flats.

use super::authority::Authority;
use super::part::{Extent, Series};
use super::row;
use crate::length::Length;
use crate::source::{Node, Walk};

/// A nut of one size.
#[derive(Clone, Debug)]
pub struct Nut {
    /// Its height.
    pub height: Extent,
    /// Its most width across flats, where known.
    pub flats: Option<Length>,
    /// On whose word.
    pub authority: Authority,
}

pub(super) fn read(walk: Walk<'_>, root: &Node) -> Option<Series<Nut>> {
    row::series(walk, root, |walk, row, authority| {
        let height = row.need(walk, "height", "[\"0.710\", \"47/64\", \"0.758\"]");
        let flats = row.get("flats").and_then(|node| walk.thickness(node));
        Some(Nut { height: Extent::read(walk, height?)?, flats, authority })
    })
}
