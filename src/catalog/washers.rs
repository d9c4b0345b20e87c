//! Washers: thickness, outer size and hole.

use super::authority::{Authority, read_authority};
use super::part::{Extent, Series};
use super::row;
use crate::length::Length;
use crate::source::{Node, Walk};

/// A washer of one size.
#[derive(Clone, Debug)]
pub struct Washer {
    /// Its thickness.
    pub thickness: Extent,
    /// Its outer diameter, or its side where square, where known.
    pub outer: Option<Length>,
    /// Its hole, where known.
    pub inner: Option<Length>,
    /// On whose word its hole stands.
    pub inner_authority: Authority,
    /// On whose word.
    pub authority: Authority,
}

pub(super) fn read(walk: Walk<'_>, root: &Node) -> Option<Series<Washer>> {
    row::series(walk, root, |walk, row, authority| {
        let thickness = row.need(walk, "thickness", "[\"0.122\", \"0.148\", \"0.177\"]");
        let outer = row.get("outer").and_then(|node| walk.thickness(node));
        let inner = row.get("inner").and_then(|node| walk.thickness(node));
        let own = row.get("inner_source").and_then(|node| read_authority(walk, node));
        let inner_authority = own.unwrap_or_else(|| authority.clone());
        Some(Washer { thickness: Extent::read(walk, thickness?)?, outer, inner, inner_authority, authority })
    })
}
