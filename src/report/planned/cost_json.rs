//! What a plan costs, as JSON has it.

use crate::plan::{Cost, Optimum};
use serde::Serialize;

/// How good a plan is known to be.
#[derive(Serialize)]
pub(in crate::report) struct OptimumJson {
    proven: bool,
    gap: Option<GapJson>,
}

/// What a plan costs, and what no plan costs less than.
#[derive(Serialize)]
struct GapJson {
    cost: CostJson,
    at_least: CostJson,
}

/// The components of a cost, in their order.
#[derive(Serialize)]
pub(in crate::report) struct CostJson {
    refer: u32,
    grind: u32,
    grout: u32,
    held: u32,
    pieces: u32,
    thickness_nm: i64,
}

impl From<Optimum> for OptimumJson {
    fn from(optimum: Optimum) -> Self {
        let proven = optimum.is_proven();
        let gap = GapJson { cost: optimum.cost.into(), at_least: optimum.at_least.into() };
        Self { proven, gap: (!proven).then_some(gap) }
    }
}

impl From<Cost> for CostJson {
    fn from(cost: Cost) -> Self {
        Self {
            refer: cost.refer,
            grind: cost.grind,
            grout: cost.grout,
            held: cost.held,
            pieces: cost.pieces,
            thickness_nm: cost.thickness.nm(),
        }
    }
}
