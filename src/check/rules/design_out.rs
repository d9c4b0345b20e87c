//! A seat stands too far from its design elevation.

use super::{Rule, differences_judged};
use crate::check::difference::DifferenceKind;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "design-out",
    about: "every seat from its design",
    checks: "the seat of a column differs from its design elevation by no more than the limit, \
             where elevations are absolute",
    why: "what joins the frame to its surroundings, floors, cranes and doors, is made for the design level",
    limit: |limits, style| {
        let accept = &limits.design.as_ref()?.accept;
        Some((format!("no more than {}", style.exact(accept.value)), accept.authority.clone()))
    },
    judge: |case| differences_judged(case, DifferenceKind::Design),
};
