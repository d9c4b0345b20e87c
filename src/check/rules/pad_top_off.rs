//! The top of the concrete stands too far from its design elevation.

use super::between::{bound, outcome, words};
use super::subjects::{does_not_apply, each_column, house_rule, mark};
use super::wording::term;
use super::{Rule, style};
use crate::catalog::{Authority, Limit};
use crate::check::case::{Case, ColumnCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::levels::Datum;
use crate::text::{Relation, Style};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "pad-top-off",
    about: "top of concrete from its design",
    checks: "pad - (design seat - designed bed) lies within the limits, where elevations are absolute",
    why: "concrete cast too high leaves no room for its grout, too low it wants packs or a bed nobody designed",
    limit: |limits, style| {
        let top = limits.pad.as_ref()?.top.as_ref()?;
        Some((words(top.value, style), top.authority.clone()))
    },
    judge,
};

/// The top of the concrete under one column, what it was worked out from, and its limits.
#[derive(Clone, Copy, Debug)]
struct Top {
    pad: Length,
    plus_minus: Length,
    seat: Length,
    bed: Length,
    limits: [Length; 2],
}

impl Top {
    /// Gives how far the concrete stands above its design.
    fn off(self) -> Length {
        self.pad - (self.seat - self.bed)
    }
}

/// Why a top is not compared.
#[derive(Clone, Copy, Debug)]
enum Not {
    /// It is not to be compared.
    Applies(&'static str),
    /// Something is missing.
    Known(&'static str),
}

fn limit<'a>(case: &Case<'a>) -> Option<&'a Limit<[Length; 2]>> {
    case.job.limits.tables.pad.as_ref()?.top.as_ref()
}

fn known(case: &Case<'_>, column: &ColumnCase) -> Result<Top, Not> {
    let limits = limit(case).ok_or(Not::Applies("no limit is set for the top of concrete"))?.value;
    if !matches!(case.levels.datum(), Datum::Absolute(_)) {
        return Err(Not::Applies("the heights are relative, so no top of concrete is compared"));
    }
    let seat = case.column(column.index).seat.or(case.job.seat);
    let seat = seat.ok_or(Not::Known("its design seat is not given, so its concrete cannot be compared"))?;
    let pad = column.pad.ok_or(Not::Known("its pad is not measured, so its concrete cannot be compared"))?;
    let bed = case.base(column.index).bed;
    Ok(Top { pad: pad.elevation, plus_minus: pad.plus_minus, seat, bed, limits })
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    each_column(case, |case, column| {
        let top = known(case, column);
        let mark = mark(case, column);
        let style = style(case.job);
        let (outcome, text) = match &top {
            Ok(top) => (outcome(top.off(), top.limits), sentence(mark, *top, style)),
            Err(Not::Applies(why)) => (does_not_apply(why), format!("{mark}: {why}")),
            Err(Not::Known(why)) => {
                let missing = if column.pad.is_none() { "the pad" } else { "the design seat" };
                (Outcome::Unknown(Level::Note, missing.to_owned()), format!("{mark}: {why}"))
            }
        };
        let top = top.ok();
        Finding {
            subject: Subject::column(column.index),
            outcome,
            actual: top.map(Top::off),
            limit: top.map(|top| bound(top.off(), top.limits).0),
            text,
            arithmetic: top.map_or_else(Vec::new, |top| arithmetic(top, style)),
            authority: authority(case),
        }
    })
}

fn authority(case: &Case<'_>) -> Authority {
    let none = || house_rule("a limit that is not set does not apply");
    limit(case).map_or_else(none, |limit| limit.authority.clone())
}

fn sentence(mark: &str, top: Top, style: Style) -> String {
    let (bound, relation) = bound(top.off(), top.limits);
    let shown = style.pair(top.off(), bound, relation);
    let most = if relation == Relation::AtMost { "highest" } else { "lowest" };
    let said = format!(
        "{mark}: its concrete is {} from its design, {} is the {most} allowed",
        shown.value, shown.limit
    );
    match outcome(top.off(), top.limits) {
        Outcome::Fail(_) => format!(
            "{said} (good to +-{}); ask the engineer whether it may stay",
            style.write(top.plus_minus, Rounding::Up)
        ),
        _ => said,
    }
}

fn arithmetic(top: Top, style: Style) -> Vec<String> {
    vec![
        "pad - (design seat - designed bed)".to_owned(),
        format!(
            "{} - ({} - {}) = {}",
            term(top.pad, style),
            term(top.seat, style),
            style.exact(top.bed),
            style.exact(top.off()),
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{
        SIXTEENTH, blank_pad, clean_job, findings, make_relative, nm, set_pad, the_table, told,
    };
    use super::*;

    fn passes(off: i64, limits: [i64; 2]) -> bool {
        matches!(outcome(nm(off), limits.map(nm)), Outcome::Pass { .. })
    }

    /// ACI 117-10, 3.3.1 (as quoted by a second party): top of foundation +1/2 in., -2 in.
    #[test]
    fn aci_117_allows_a_foundation_half_an_inch_high_to_two_inches_low() {
        let limits = [-50_800_000, 12_700_000];
        let told = [12_700_000, 12_700_001, -50_800_000, -50_800_001].map(|off| passes(off, limits));
        assert_eq!(told, [true, false, true, false]);
    }

    /// EN 1090-2, Annex B (2008: D.2.20; as quoted by a second party): foundation level -15 mm, +5 mm.
    #[test]
    fn en_1090_2_allows_a_foundation_5_mm_high_to_15_mm_low() {
        let limits = [-15_000_000, 5_000_000];
        let told = [5_000_000, 5_000_001, -15_000_000, -15_000_001].map(|off| passes(off, limits));
        assert_eq!(told, [true, false, true, false]);
    }

    /// Judges the clean job with a designed bed of 1-1/2 in. and A1 so many nanometres above its design seat.
    fn on_a_bed(above: i64) -> Finding {
        let mut job = clean_job();
        job.bases[0].bed = nm(24 * SIXTEENTH);
        set_pad(&mut job, 0, above);
        findings(&job, &RULE).swap_remove(0)
    }

    #[test]
    fn the_concrete_is_compared_with_the_seat_less_its_bed() {
        let at = -24 * SIXTEENTH;
        assert_eq!(on_a_bed(at).outcome, Outcome::Pass { margin: Some(nm(8 * SIXTEENTH)) });
        let high = on_a_bed(at + 8 * SIXTEENTH + 1);
        assert_eq!((high.level(), high.limit), (Some(Level::Ask), Some(nm(8 * SIXTEENTH))));
        assert_eq!(high.authority, the_table());
        let low = on_a_bed(at - 36 * SIXTEENTH);
        assert_eq!(
            low.text,
            "A1: its concrete is -2-1/4\" from its design, -2\" is the lowest allowed (good to +-~1/16\"); \
             ask the engineer whether it may stay"
        );
        assert!(low.arithmetic[1].ends_with("= -2-1/4\""), "{:?}", low.arithmetic);
    }

    #[test]
    fn what_is_missing_is_no_pass() {
        let mut job = clean_job();
        blank_pad(&mut job, 0);
        let found = findings(&job, &RULE);
        assert!(matches!(found[0].outcome, Outcome::Unknown(..)), "{found:?}");
        let mut job = clean_job();
        job.seat = None;
        assert_eq!(told(&findings(&job, &RULE)), [Some(Level::Note); 2]);
    }

    #[test]
    fn relative_heights_and_no_limit_are_not_compared() {
        let mut job = clean_job();
        make_relative(&mut job);
        assert_eq!(told(&findings(&job, &RULE)), [None, None]);
        let mut job = clean_job();
        job.limits.tables.pad.as_mut().unwrap().top = None;
        set_pad(&mut job, 0, 999 * SIXTEENTH);
        assert_eq!(told(&findings(&job, &RULE)), [None, None]);
    }
}
