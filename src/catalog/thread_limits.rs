//! Limits of size of threads: how thin a rod's thread and how wide a nut's may be.

use super::authority::Authority;
use super::part::Series;
use super::row;
use crate::length::Length;
use crate::source::{Node, Walk};

/// The limits of one thread that its shear areas are worked out from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ThreadLimits {
    /// The pitch, up to the next nanometre.
    pub pitch: Length,
    /// The least major diameter of the rod.
    pub rod_major: Length,
    /// The least pitch diameter of the rod.
    pub rod_pitch: Length,
    /// The most minor diameter of the nut.
    pub nut_minor: Length,
    /// The most pitch diameter of the nut.
    pub nut_pitch: Length,
    /// On whose word.
    pub authority: Authority,
}

pub(super) fn read(walk: Walk<'_>, root: &Node) -> Option<Series<ThreadLimits>> {
    row::series(walk, root, |walk, row, authority| {
        let pitch = row::need(walk, row, "pitch");
        let rod_major = row::need(walk, row, "rod_major");
        let rod_pitch = row::need(walk, row, "rod_pitch");
        let nut_minor = row::need(walk, row, "nut_minor");
        let nut_pitch = row::need(walk, row, "nut_pitch");
        Some(ThreadLimits {
            pitch: pitch?,
            rod_major: rod_major?,
            rod_pitch: rod_pitch?,
            nut_minor: nut_minor?,
            nut_pitch: nut_pitch?,
            authority,
        })
    })
}
