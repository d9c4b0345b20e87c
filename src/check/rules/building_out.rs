//! The columns of the building stand too far apart in height, high to low.

use super::{Rule, differences_judged};
use crate::check::difference::DifferenceKind;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "building-out",
    about: "all columns of the building",
    checks: "the highest and the lowest seat of all columns, each from its design, differ by no more than the limit",
    why: "the frame is made for one level and takes up only so much over its whole length",
    limit: |limits, style| {
        let accept = &limits.building.as_ref()?.accept;
        Some((format!("no more than {}", style.exact(accept.value)), accept.authority.clone()))
    },
    judge: |case| differences_judged(case, DifferenceKind::Building),
};
