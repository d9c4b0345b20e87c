//! Two next columns on a line stand too far apart in height.

use super::{Rule, differences_judged};
use crate::check::difference::DifferenceKind;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "neighbours-out",
    about: "next columns on a line",
    checks: "the seats of two next columns, each from its design, differ by no more than the limit",
    why: "steel between two columns of unequal height is forced, out of level, or does not fit",
    limit: |limits, style| {
        let accept = &limits.neighbours.as_ref()?.accept;
        Some((format!("no more than {}", style.exact(accept.value)), accept.authority.clone()))
    },
    judge: |case| differences_judged(case, DifferenceKind::Neighbours),
};
