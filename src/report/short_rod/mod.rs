//! Rods that are not full, and rods that stand far too high, in `explain`: facts for the engineer, no verdict.

mod another_plan;
mod json;
mod ladder;
mod strength;
mod words;

pub(super) use json::{HighRodJson, ShortRodJson};

use super::document::Document;
use crate::catalog::Catalog;
use crate::check::{Case, ColumnCase, HighRod, ShortRod, high_rods, short_rods};
use crate::length::Length;
use crate::model::{Base, Share};
use crate::order::ThreadStrength;
use crate::plan::Considered;
use crate::text::Style;

/// What `explain` tells the engineer of the rods of one column.
pub(super) struct ForTheEngineer {
    short: Vec<ShortRod>,
    high: Vec<HighRod>,
    less_raise: Option<Vec<Length>>,
    strength: Option<ThreadStrength>,
}

impl ForTheEngineer {
    /// Gathers it.
    pub(super) fn of(
        case: &Case<'_>,
        column: &ColumnCase,
        catalog: &Catalog,
        considered: &[Considered],
    ) -> Self {
        let rods = &case.base(column.index).rods;
        Self {
            short: short_rods(case, column, catalog),
            high: high_rods(case, column),
            less_raise: another_plan::raises(column, considered),
            strength: ThreadStrength::of(catalog, rods.diameter, rods.pitch),
        }
    }

    /// Adds it to the screen; nothing where every rod is full and none too high.
    pub(super) fn tell(&self, document: &mut Document, case: &Case<'_>, column: &ColumnCase, style: Style) {
        let base: &Base = case.base(column.index);
        if !self.short.is_empty() {
            words::engaged(document, base, &self.short);
            words::published(document, &self.short);
            strength::strength(document, self.strength.as_ref(), &self.short, style);
            ladder::ladder(document, case, column, &self.short, self.less_raise.as_deref(), style);
        }
        words::high(document, &self.high, style);
    }

    /// Gives the rods that are not full as JSON has them.
    pub(super) fn short_json(&self) -> Vec<ShortRodJson> {
        self.short
            .iter()
            .map(|rod| ShortRodJson::of(rod, self.less_raise.as_deref(), self.strength.as_ref()))
            .collect()
    }

    /// Gives the rods that stand too high as JSON has them.
    pub(super) fn high_json(&self) -> Vec<HighRodJson> {
        self.high.iter().map(HighRodJson::of).collect()
    }
}

/// Writes a share in percent, one decimal, cut and never rounded up to the whole.
fn percent(share: Share) -> String {
    let tenths = i128::from(share.part.nm()) * 1000 / i128::from(share.whole.nm().max(1));
    format!("{}.{} %", tenths / 10, tenths % 10)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_is_never_rounded_up_to_the_whole_nut() {
        let of = |part, whole| percent(Share { part: Length::from_nm(part), whole: Length::from_nm(whole) });
        assert_eq!(of(99_999, 100_000), "99.9 %");
        assert_eq!(of(51, 63), "80.9 %");
        assert_eq!(of(0, 63), "0.0 %");
        assert_eq!(of(63, 63), "100.0 %");
    }
}
