//! A stretch of a wall line is too uneven, high to low.

use super::{Rule, differences_judged};
use crate::check::difference::DifferenceKind;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "wall-out",
    about: "stretches of a wall line",
    checks: "the highest and the lowest seat of a stretch, each from its design, differ by no more than the limit",
    why: "girts, panels and door frames of a wall follow its columns and show every wave",
    limit: |limits, style| {
        let wall = limits.wall.as_ref()?;
        let length = wall.length.as_ref().map_or_else(
            || "the whole line".to_owned(),
            |length| format!("any stretch up to {}", style.elevation(length.value)),
        );
        Some((
            format!("no more than {} over {length}", style.exact(wall.accept.value)),
            wall.accept.authority.clone(),
        ))
    },
    judge: |case| differences_judged(case, DifferenceKind::Wall),
};
