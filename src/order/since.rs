//! What an earlier plan needed against what the new one needs: shims by base and thickness, added washers by base.

use super::hardware::added_washers;
use crate::check::Case;
use crate::length::Length;
use crate::model::{Earlier, RodLabel};
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

/// Counts the shims of both plans by base, thickest first.
#[must_use]
pub fn shims_since(case: &Case<'_>, earlier: &Earlier) -> Vec<ShimsSince> {
    let mut all: BTreeMap<(String, Reverse<Length>), Counts> = BTreeMap::new();
    for column in &earlier.columns {
        for (thickness, count) in &column.stack {
            let counts = all.entry((column.base.clone(), Reverse(*thickness))).or_default();
            counts.then = counts.then.saturating_add(*count);
        }
    }
    for column in &case.columns {
        for piece in &case.choice(column.index).stack {
            let base = case.base(column.index).mark.clone();
            let counts = all.entry((base, Reverse(piece.thickness))).or_default();
            counts.now = counts.now.saturating_add(piece.count);
        }
    }
    let each = all.into_iter();
    each.map(|((base, Reverse(thickness)), counts)| ShimsSince { base, thickness, counts }).collect()
}

/// Counts the washers that both plans add under nuts, by base; bases without any are left out.
///
/// A base that the job has no more is counted by the rods the earlier answer lists.
#[must_use]
pub fn washers_since(case: &Case<'_>, earlier: &Earlier) -> Vec<WashersSince> {
    let mut all: BTreeMap<String, Counts> = BTreeMap::new();
    let rods_of = |base: &str| case.job.bases.iter().find(|it| it.mark == base).map(|it| it.rods.count);
    for column in &earlier.columns {
        let rods: Vec<(RodLabel, u32)> =
            column.rods.iter().map(|rod| (rod.label, rod.extra_washers)).collect();
        let listed = u32::try_from(rods.len()).unwrap_or(u32::MAX);
        let counts = all.entry(column.base.clone()).or_default();
        let added = added_washers(&rods, rods_of(&column.base).unwrap_or(listed));
        counts.then = counts.then.saturating_add(added);
    }
    for column in &case.columns {
        let base = case.base(column.index);
        let rods: Vec<(RodLabel, u32)> =
            column.rods.iter().map(|rod| (rod.label, rod.result.extra_washers)).collect();
        let counts = all.entry(base.mark.clone()).or_default();
        counts.now = counts.now.saturating_add(added_washers(&rods, base.rods.count));
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
