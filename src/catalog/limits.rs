//! A limit set: what is allowed, table by table, each value with its authority.

use super::authority::Authority;
use super::engagement::Engagement;
use crate::length::{Length, Unit};

/// A value and on whose word it stands.
#[derive(Clone, Debug)]
pub struct Limit<T> {
    /// The value.
    pub value: T,
    /// On whose word.
    pub authority: Authority,
}

/// What is wanted and what is accepted.
#[derive(Clone, Debug)]
pub struct Accept {
    /// What good work comes to.
    pub desired: Option<Limit<Length>>,
    /// What is still accepted.
    pub accept: Limit<Length>,
}

/// High to low over a stretch of wall.
#[derive(Clone, Debug)]
pub struct WallAccept {
    /// What good work comes to.
    pub desired: Option<Limit<Length>>,
    /// What is still accepted.
    pub accept: Limit<Length>,
    /// The stretch; none is the whole line.
    pub length: Option<Limit<Length>>,
}

/// Limits of shim stacks.
#[derive(Clone, Debug)]
pub struct ShimLimits {
    /// Highest stack without asking.
    pub most: Option<Limit<Length>>,
    /// Highest stack at all.
    pub tall: Option<Limit<Length>>,
    /// Most pieces of one stack.
    pub pieces: Option<Limit<u32>>,
}

/// Limits of grout beds.
#[derive(Clone, Debug)]
pub struct Grout {
    /// Thinnest bed.
    pub least: Limit<Length>,
    /// Thickest bed.
    pub most: Limit<Length>,
    /// The step beds are planned in.
    pub step: Limit<Length>,
}

/// Limits of grinding.
#[derive(Clone, Debug)]
pub struct Grind {
    /// Deepest grinding.
    pub most: Limit<Length>,
    /// The step grinding is planned in.
    pub step: Limit<Length>,
}

/// Limits of the pads themselves.
#[derive(Clone, Debug)]
pub struct PadLimits {
    /// Most fall across the plate that a flat shim may bridge.
    pub tilt: Option<Limit<Length>>,
    /// Top of concrete from its design, the design seat less the designed bed: lowest and highest.
    pub top: Option<Limit<[Length; 2]>>,
}

/// Limits of the rods themselves.
#[derive(Clone, Debug)]
pub struct RodLimits {
    /// Fewest rods of a column.
    pub least: Option<Limit<u32>>,
    /// Top of rod from its design, lowest and highest.
    pub top: Option<Limit<[Length; 2]>>,
}

/// The tables of a limit set; an absent table does not apply.
#[derive(Clone, Debug, Default)]
pub struct Limits {
    /// Thread on both sides of the nut.
    pub engagement: Option<Engagement>,
    /// Next columns on a line.
    pub neighbours: Option<Accept>,
    /// Stretches of a wall line.
    pub wall: Option<WallAccept>,
    /// All columns.
    pub building: Option<Accept>,
    /// From the design seat, where elevations are absolute.
    pub design: Option<Accept>,
    /// The pads.
    pub pad: Option<PadLimits>,
    /// Shim stacks.
    pub shim: Option<ShimLimits>,
    /// Grout beds.
    pub grout: Option<Grout>,
    /// Grinding.
    pub grind: Option<Grind>,
    /// The rods.
    pub rods: Option<RodLimits>,
    /// The plate tolerance table, by its name in `catalogs/plates`.
    pub plates: Option<Limit<String>>,
}

/// A named limit set.
#[derive(Clone, Debug)]
pub struct LimitSet {
    /// What a job file calls it.
    pub name: String,
    /// What it is.
    pub title: String,
    /// The unit its values are written in.
    pub unit: Unit,
    /// Its tables.
    pub limits: Limits,
}
