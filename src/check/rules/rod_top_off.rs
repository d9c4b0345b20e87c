//! The top of a rod stands too far from its design elevation.

use super::between::{bound, outcome, words};
use super::subjects::{does_not_apply, each_rod, house_rule, rod_name};
use super::wording::term;
use super::{Rule, style};
use crate::catalog::{Authority, Limit};
use crate::check::case::{Case, ColumnCase, RodCase};
use crate::check::finding::{Finding, Outcome, Subject};
use crate::length::Length;
use crate::levels::Datum;
use crate::text::{Relation, Style};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "rod-top-off",
    about: "top of every rod from its design",
    checks: "(pad + projection) - (design seat - bed + design projection) lies within the limits, where all are known",
    why: "a rod cast too high or too low may be the wrong rod, or have too little of it in the concrete",
    limit: |limits, style| {
        let top = limits.rods.as_ref()?.top.as_ref()?;
        Some((words(top.value, style), top.authority.clone()))
    },
    judge,
};

/// What is known of the top of one rod.
type Known = Result<Top, &'static str>;

/// The top of one rod from its design, what it was worked out from, and its limits.
#[derive(Clone, Copy, Debug)]
struct Top {
    pad: Length,
    projection: Length,
    /// The design of the pad: the design seat less the designed bed.
    design: Length,
    drawn: Length,
    limits: [Length; 2],
}

impl Top {
    /// Gives how far the top stands above its design.
    fn off(self) -> Length {
        (self.pad + self.projection) - (self.design + self.drawn)
    }
}

fn limit<'a>(case: &Case<'a>) -> Option<&'a Limit<[Length; 2]>> {
    case.job.limits.tables.rods.as_ref()?.top.as_ref()
}

fn known(case: &Case<'_>, column: &ColumnCase, rod: &RodCase) -> Known {
    let limits = limit(case).ok_or("no limit is set for the tops of rods")?.value;
    if !matches!(case.levels.datum(), Datum::Absolute(_)) {
        return Err("the heights are relative, so no top of rod is compared");
    }
    let seat = case.column(column.index).seat.or(case.job.seat).ok_or("it has no design seat")?;
    let design = seat - case.base(column.index).bed;
    let drawn = case.base(column.index).rods.projection.ok_or("the drawing's projection is not given")?;
    let pad = column.pad.ok_or("its pad is not measured")?.elevation;
    let projection = rod.projection.ok_or("the rod is not measured")?;
    Ok(Top { pad, projection, design, drawn, limits })
}

/// Gives how far the top of a rod stands above its design, the most allowed there and on whose word; none where
/// either is not known.
pub(in crate::check) fn top_of_rod(
    case: &Case<'_>,
    column: &ColumnCase,
    rod: &RodCase,
) -> Option<(Length, Length, Authority)> {
    let top = known(case, column, rod).ok()?;
    Some((top.off(), top.limits[1], authority(case)))
}

fn authority(case: &Case<'_>) -> Authority {
    let none = || house_rule("a limit that is not set does not apply");
    limit(case).map_or_else(none, |limit| limit.authority.clone())
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_rod(case, |case, column, rod| {
        let top = known(case, column, rod);
        let name = rod_name(case, column, rod);
        let style = style(case.job);
        Finding {
            subject: Subject::rod(column.index, rod.label),
            outcome: top.map_or_else(does_not_apply, |top| outcome(top.off(), top.limits)),
            actual: top.ok().map(Top::off),
            limit: top.ok().map(|top| bound(top.off(), top.limits).0),
            text: sentence(&name, top, style),
            arithmetic: top.map_or_else(|_| Vec::new(), |top| arithmetic(top, style)),
            authority: authority(case),
        }
    })
}

fn sentence(name: &str, top: Known, style: Style) -> String {
    let top = match top {
        Ok(top) => top,
        Err(why) => return format!("{name}: {why}"),
    };
    let (bound, relation) = bound(top.off(), top.limits);
    let shown = style.pair(top.off(), bound, relation);
    let most = if relation == Relation::AtMost { "highest" } else { "lowest" };
    let said =
        format!("{name}: its top is {} from its design, {} is the {most} allowed", shown.value, shown.limit);
    match outcome(top.off(), top.limits) {
        Outcome::Fail(_) => format!("{said}; ask the engineer whether it is the right rod"),
        _ => said,
    }
}

fn arithmetic(top: Top, style: Style) -> Vec<String> {
    vec![
        "(pad + rod) - (design seat + design projection)".to_owned(),
        format!(
            "({} + {}) - ({} + {}) = {}",
            term(top.pad, style),
            style.exact(top.projection),
            term(top.design, style),
            style.exact(top.drawn),
            style.exact(top.off()),
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIXTY_FOURTH: i64 = 396_875;

    fn passes(off: i64, limits: [i64; 2]) -> bool {
        let outcome = outcome(Length::from_nm(off), limits.map(Length::from_nm));
        matches!(outcome, Outcome::Pass { .. })
    }

    /// EN 1090-2:2008, D.2.20: the vertical protrusion of a foundation bolt cast solid may be -5 mm to +45 mm off.
    #[test]
    fn en_1090_2_allows_a_cast_rod_5_mm_low_to_45_mm_high() {
        let limits = [-5_000_000, 45_000_000];
        let told = [45_000_000, 46_000_000, -5_000_000, -6_000_000].map(|off| passes(off, limits));
        assert_eq!(told, [true, false, true, false]);
    }

    /// AISC 303 7.5.1 and ACI 117-10 2.3 (second parties): tops of anchor rods within 1/2 in.
    #[test]
    fn aisc_and_aci_allow_the_top_of_a_rod_half_an_inch_off() {
        let half = 32 * SIXTY_FOURTH;
        let told = [half, -half, 12_954_000].map(|off| passes(off, [-half, half]));
        assert_eq!(told, [true, true, false], "+0.5, -0.5 and +0.51 in");
        assert!(!passes(half + 1, [-half, half]));
        assert!(!passes(-half - 1, [-half, half]));
    }
}
