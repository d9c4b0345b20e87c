//! Nuts and washers as they are counted and bought.

use crate::length::Length;
use crate::model::{Base, NutPart, WasherPart};

/// What a fastener is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FastenerKind {
    /// A nut.
    Nut,
    /// A washer.
    Washer,
}

/// A nut or a washer: all of it are alike.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fastener {
    /// What it is.
    pub kind: FastenerKind,
    /// The size of its rod, as it is called.
    pub size: String,
    /// Its series, and its grade where given.
    pub name: String,
    /// Its thickness or height, where it is of no series: two that were measured are alike only where they measure the same.
    pub measured: Option<Length>,
}

/// What the parts are called whose dimensions the job gives.
const AS_MEASURED: &str = "as measured";

impl Fastener {
    /// Gives a washer of a base.
    #[must_use]
    pub fn washer(base: &Base, washer: &WasherPart) -> Self {
        Self::of(FastenerKind::Washer, base, washer.series.clone(), &washer.series, washer.thickness.nominal)
    }

    /// Gives a nut of a base.
    #[must_use]
    pub fn nut(base: &Base, nut: &NutPart) -> Self {
        Self::of(FastenerKind::Nut, base, nut.called(), &nut.series, nut.height.nominal)
    }

    fn of(kind: FastenerKind, base: &Base, name: String, series: &str, nominal: Length) -> Self {
        let measured = (series == AS_MEASURED).then_some(nominal);
        Self { kind, size: base.rods.size.clone(), name, measured }
    }

    /// Gives the nuts and washers that the drawings have at one column of a base, and how many of each.
    #[must_use]
    pub fn drawn(base: &Base) -> Vec<(Self, u32)> {
        let mut all = Vec::new();
        let nuts = base.nuts.iter().map(|nut| Self::nut(base, nut));
        for part in nuts.chain(base.washers.iter().map(|washer| Self::washer(base, washer))) {
            add(&mut all, part, base.rods.count);
        }
        all
    }

    /// Gives the levelling nuts and the washers on them that the drawings have at one column of a base, and how many of each.
    #[must_use]
    pub fn levelling(base: &Base) -> Vec<(Self, u32)> {
        let mut all = Vec::new();
        let Some(levelling) = base.levelling() else { return all };
        let washer = levelling.washer.as_ref().map(|washer| Self::washer(base, washer));
        for part in [Self::nut(base, &levelling.nut)].into_iter().chain(washer) {
            add(&mut all, part, base.rods.count);
        }
        all
    }
}

/// Adds so many of a thing to a list that counts things, in the order in which they came.
pub(super) fn add<T: PartialEq>(counted: &mut Vec<(T, u32)>, thing: T, number: u32) {
    match counted.iter_mut().find(|(known, _)| *known == thing) {
        Some((_, count)) => *count = count.saturating_add(number),
        None => counted.push((thing, number)),
    }
}
