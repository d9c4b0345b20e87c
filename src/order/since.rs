//! What an earlier plan needed against what the new one needs: shims and packs by base and thickness, washers and levelling
//! nuts by base. What the new one needs is what its hardware has, as in an order.

use super::fastener::FastenerKind;
use super::hardware::{HardwareRow, added_washers};
use crate::length::Length;
use crate::model::{Earlier, EarlierColumn, Job, RodLabel};
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// Shims of one thickness, cut to the plate of one base.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShimsSince {
    /// The mark of the base: shims are cut to its outline, those of another are not counted.
    pub base: String,
    /// The thickness.
    pub thickness: Length,
    /// How many the earlier plan and the new plan need.
    pub counts: Counts,
}

/// Washers added under nuts at one base.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WashersSince {
    /// The mark of the base.
    pub base: String,
    /// How many the earlier plan and the new plan need.
    pub counts: Counts,
}

/// How many an earlier plan and the new plan need.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// The earlier plan.
    pub then: u32,
    /// The new plan.
    pub now: u32,
}

impl Counts {
    /// Gives how many the new plan needs beyond those of the earlier one.
    #[must_use]
    pub const fn missing(self) -> u32 {
        self.now.saturating_sub(self.then)
    }

    /// Gives how many of the earlier plan the new one leaves over.
    #[must_use]
    pub const fn left(self) -> u32 {
        self.then.saturating_sub(self.now)
    }
}

/// Pieces of packs of one thickness and one outline, for the plates of one base.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PacksSince {
    /// The mark of the base.
    pub base: String,
    /// The two sides of a piece, where known.
    pub size: Option<[Length; 2]>,
    /// The thickness.
    pub thickness: Length,
    /// How many the earlier plan and the new plan need.
    pub counts: Counts,
}

/// Levelling nuts, or the washers on them, at one base.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LevellingSince {
    /// The mark of the base.
    pub base: String,
    /// What they are.
    pub kind: FastenerKind,
    /// Their series, and their grade where given.
    pub series: String,
    /// How many stood in the earlier answer and stand there now.
    pub counts: Counts,
}

/// Adds to what the earlier plan needs.
fn then(counts: &mut Counts, number: u32) {
    counts.then = counts.then.saturating_add(number);
}

/// Adds to what the new plan needs.
fn now(counts: &mut Counts, number: u32) {
    counts.now = counts.now.saturating_add(number);
}

/// Counts the shims of both plans by base, thickest first; `rows` is the hardware of the new one.
#[must_use]
pub fn shims_since(rows: &[HardwareRow], earlier: &Earlier) -> Vec<ShimsSince> {
    let mut all: BTreeMap<(String, Reverse<Length>), Counts> = BTreeMap::new();
    for column in &earlier.columns {
        for (thickness, count) in &column.stack {
            then(all.entry((column.base.clone(), Reverse(*thickness))).or_default(), *count);
        }
    }
    for row in rows {
        for piece in &row.stack {
            now(all.entry((row.base.clone(), Reverse(piece.thickness))).or_default(), piece.count);
        }
    }
    let each = all.into_iter();
    each.map(|((base, Reverse(thickness)), counts)| ShimsSince { base, thickness, counts }).collect()
}

/// Counts the pieces of the packs of both plans by base and size, thickest first; those that are not known
/// ([`packs_not_known`]) are not in it.
#[must_use]
pub fn packs_since(rows: &[HardwareRow], earlier: &Earlier) -> Vec<PacksSince> {
    type Key = (String, Option<[Length; 2]>, Reverse<Length>);
    let mut all: BTreeMap<Key, Counts> = BTreeMap::new();
    for column in &earlier.columns {
        let Some(packs) = &column.packs else { continue };
        for (thickness, count) in packs.pieces.iter().flatten() {
            then(all.entry((column.base.clone(), packs.size, Reverse(*thickness))).or_default(), *count);
        }
    }
    for row in rows {
        for (kind, count) in row.pack_plates().unwrap_or_default() {
            now(
                all.entry((row.base.clone(), kind.outline.size, Reverse(kind.thickness))).or_default(),
                count,
            );
        }
    }
    let since = |((base, size, Reverse(thickness)), counts)| PacksSince { base, size, thickness, counts };
    all.into_iter().map(since).collect()
}

/// Lists the columns whose packs are not known, then or now: those of the new plan first.
#[must_use]
pub fn packs_not_known(rows: &[HardwareRow], earlier: &Earlier) -> Vec<String> {
    let now = rows.iter().filter(|row| row.pack_plates().is_none()).map(|row| &row.mark);
    let open = |column: &&EarlierColumn| column.packs.as_ref().is_some_and(|packs| packs.pieces.is_none());
    let mut all: Vec<String> = Vec::new();
    for mark in now.chain(earlier.columns.iter().filter(open).map(|column| &column.mark)) {
        if !all.contains(mark) {
            all.push(mark.clone());
        }
    }
    all
}

/// Counts the levelling nuts of both answers, and the washers on them, by base.
#[must_use]
pub fn levelling_since(rows: &[HardwareRow], earlier: &Earlier) -> Vec<LevellingSince> {
    let mut all: Vec<LevellingSince> = Vec::new();
    let mut at = |base: &str, kind: FastenerKind, series: &str, number: u32, add: fn(&mut Counts, u32)| {
        let known =
            all.iter_mut().find(|it| (it.base.as_str(), it.kind, it.series.as_str()) == (base, kind, series));
        if let Some(known) = known {
            add(&mut known.counts, number);
            return;
        }
        let mut counts = Counts::default();
        add(&mut counts, number);
        all.push(LevellingSince { base: base.to_owned(), kind, series: series.to_owned(), counts });
    };
    for column in &earlier.columns {
        let Some(it) = &column.levelling else { continue };
        at(&column.base, FastenerKind::Nut, &it.nut, it.count, then);
        if let Some(washer) = &it.washer {
            at(&column.base, FastenerKind::Washer, washer, it.count, then);
        }
    }
    for row in rows {
        for (part, count) in &row.under {
            at(&row.base, part.kind, &part.name, *count, now);
        }
    }
    all
}

/// Counts the washers that both plans add under nuts, by base; bases without any are left out.
///
/// A base that the job has no more is counted by the rods the earlier answer lists.
#[must_use]
pub fn washers_since(job: &Job, rows: &[HardwareRow], earlier: &Earlier) -> Vec<WashersSince> {
    let mut all: BTreeMap<String, Counts> = BTreeMap::new();
    let rods_of = |base: &str| job.bases.iter().find(|it| it.mark == base).map(|it| it.rods.count);
    for column in &earlier.columns {
        let rods: Vec<(RodLabel, u32)> =
            column.rods.iter().map(|rod| (rod.label, rod.extra_washers)).collect();
        let listed = u32::try_from(rods.len()).unwrap_or(u32::MAX);
        let added = added_washers(&rods, rods_of(&column.base).unwrap_or(listed));
        then(all.entry(column.base.clone()).or_default(), added);
    }
    for row in rows {
        now(all.entry(row.base.clone()).or_default(), row.extra.as_ref().map_or(0, |(_, count)| *count));
    }
    let any = all.into_iter().filter(|(_, counts)| counts.then > 0 || counts.now > 0);
    any.map(|(base, counts)| WashersSince { base, counts }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_missing_and_what_is_left_over_never_stand_together() {
        let counts = |then, now| Counts { then, now };
        assert_eq!((counts(2, 5).missing(), counts(2, 5).left()), (3, 0));
        assert_eq!((counts(5, 2).missing(), counts(5, 2).left()), (0, 3));
        assert_eq!((counts(2, 2).missing(), counts(2, 2).left()), (0, 0));
    }
}
