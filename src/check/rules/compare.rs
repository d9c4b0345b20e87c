//! What the rules on differences have in common: the outcome, the sentence, the arithmetic.

use super::style;
use super::subjects::{does_not_apply, house_rule, mark};
use crate::check::case::{Case, ColumnCase};
use crate::check::difference::{Difference, DifferenceKind, Verdict};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::Rounding;
use crate::levels::Datum;
use crate::model::LineKind;
use crate::text::{Relation, Style, and};
use std::collections::BTreeSet;

/// Judges every difference of one kind; a column that is in none of them is told why.
pub(super) fn differences_judged(case: &Case<'_>, kind: DifferenceKind) -> Vec<Finding> {
    let of_kind = case.differences.iter().filter(|difference| difference.kind == kind);
    let mut findings: Vec<Finding> = of_kind.map(|difference| finding(case, difference)).collect();
    let compared: BTreeSet<usize> =
        findings.iter().flat_map(|finding| finding.subject.columns.iter().copied()).collect();
    let left = case.columns.iter().filter(|column| !compared.contains(&column.index));
    findings.extend(left.map(|column| not_compared(case, kind, column)));
    findings
}

fn not_compared(case: &Case<'_>, kind: DifferenceKind, column: &ColumnCase) -> Finding {
    let (why, outcome) = if kind == DifferenceKind::Wall && spacing_unknown(case, column.index) {
        let why = "the spacing of its wall line is not known, so no stretch is compared; give it, or ask the engineer";
        (why, Outcome::Unknown(Level::Ask, "the spacing of its line".to_owned()))
    } else if kind == DifferenceKind::Design && only_design_limits(case) {
        let why =
            "its seat is held against its design alone, and heights or design seat are missing: give them";
        (why, Outcome::Unknown(Level::Ask, "its seat from its design".to_owned()))
    } else {
        let why = why_not_compared(case, kind, column.index);
        (why, does_not_apply(why))
    };
    Finding {
        subject: Subject::column(column.index),
        outcome,
        actual: None,
        limit: None,
        text: format!("{}: {why}", mark(case, column)),
        arithmetic: Vec::new(),
        authority: house_rule("a limit that is not set does not apply"),
    }
}

/// Tells whether the design seat is all that the limits in force hold a seat against.
fn only_design_limits(case: &Case<'_>) -> bool {
    let tables = &case.job.limits.tables;
    let on_lines = tables.neighbours.is_some() || tables.wall.is_some();
    let accepted = case.job.lines.iter().any(|line| line.accept.is_some());
    tables.design.is_some() && tables.building.is_none() && !on_lines && !accepted
}

/// Tells whether a column stands on a wall line whose stretches cannot be measured out.
fn spacing_unknown(case: &Case<'_>, index: usize) -> bool {
    let limited = case.job.limits.tables.wall.as_ref().is_some_and(|wall| wall.length.is_some());
    let walls = case.job.lines.iter().filter(|line| line.kind == LineKind::Wall);
    limited
        && walls
            .filter(|line| line.columns.contains(&index))
            .any(|line| line.spacing.len() + 1 < line.columns.len())
}

fn why_not_compared(case: &Case<'_>, kind: DifferenceKind, index: usize) -> &'static str {
    let tables = &case.job.limits.tables;
    let on_line = |wanted: Option<LineKind>| {
        let mut lines = case.job.lines.iter().filter(|line| wanted.is_none_or(|kind| line.kind == kind));
        lines.any(|line| line.columns.contains(&index))
    };
    match kind {
        DifferenceKind::Neighbours if !on_line(None) => "it stands in no line",
        DifferenceKind::Neighbours if tables.neighbours.is_none() => "no limit is set for next columns",
        DifferenceKind::Neighbours => "it has no next column on its line",
        DifferenceKind::Wall if tables.wall.is_none() => "no limit is set for stretches of a wall",
        DifferenceKind::Wall if !on_line(Some(LineKind::Wall)) => "it stands on no wall line",
        DifferenceKind::Wall => "its next columns are farther off than the stretch that is compared",
        DifferenceKind::Building if tables.building.is_none() => "no limit is set for the building",
        DifferenceKind::Building => "there is no other column",
        DifferenceKind::Design if tables.design.is_none() => "no limit is set from the design seat",
        DifferenceKind::Design if !matches!(case.levels.datum(), Datum::Absolute(_)) => {
            "the heights are relative, so no design seat is compared"
        }
        DifferenceKind::Design => "it has no design seat",
    }
}

/// A value beyond its limit is asked about, however uncertain; one that is close is noted.
fn outcome(difference: &Difference) -> Outcome {
    match (difference.value, difference.verdict) {
        (Some(value), _) if value.abs() > difference.limit => Outcome::Fail(Level::Ask),
        (_, Verdict::Unknown) => {
            Outcome::Unknown(Level::Note, "a pad is not measured or is referred".to_owned())
        }
        (_, Verdict::Unsure) => Outcome::Fail(Level::Note),
        (Some(value), _) => Outcome::Pass { margin: Some(difference.limit - value.abs()) },
        (None, _) => Outcome::Unknown(Level::Note, "nothing can be compared".to_owned()),
    }
}

fn finding(case: &Case<'_>, difference: &Difference) -> Finding {
    Finding {
        subject: Subject { columns: difference.columns.clone(), rod: None, line: difference.line.clone() },
        outcome: outcome(difference),
        actual: difference.value,
        limit: Some(difference.limit),
        text: sentence(case, difference),
        arithmetic: arithmetic(case, difference),
        authority: difference.authority.clone(),
    }
}

fn subject(case: &Case<'_>, difference: &Difference) -> String {
    let marks = case.marks(&difference.columns);
    let line = difference.line.as_ref().map(|line| format!("line {line}, ")).unwrap_or_default();
    match (difference.kind, marks.as_slice()) {
        (DifferenceKind::Building, _) => "the building, high to low".to_owned(),
        (DifferenceKind::Design, [mark]) => format!("{mark} from its design seat"),
        (DifferenceKind::Wall, [first, .., last]) => format!("{line}{first} to {last}, high to low"),
        _ => format!("{line}{}", and(&marks)),
    }
}

fn sentence(case: &Case<'_>, difference: &Difference) -> String {
    let style = style(case.job);
    let subject = subject(case, difference);
    let Some(value) = difference.value else {
        return format!("{subject}: cannot be compared, a pad is not measured or is referred");
    };
    let shown = style.pair(value.abs(), difference.limit, Relation::AtMost);
    let pair = format!("{subject}: {} apart, {} accepted", shown.value, shown.limit);
    let plus_minus = difference
        .plus_minus
        .map(|plus_minus| format!(" (good to +-{})", style.write(plus_minus, Rounding::Up)))
        .unwrap_or_default();
    match (value.abs() > difference.limit, difference.verdict) {
        (true, _) => format!("{pair}{plus_minus}; ask the engineer"),
        (_, Verdict::Unknown) => format!("{pair}{plus_minus}, the columns still missing left out"),
        (_, Verdict::Unsure) => {
            format!("{pair}, too close to be sure{plus_minus}: read it again to be certain")
        }
        _ => pair,
    }
}

fn arithmetic(case: &Case<'_>, difference: &Difference) -> Vec<String> {
    let style = style(case.job);
    let seats = difference.columns.iter().filter_map(|&index| {
        let departure = case.columns[index].seat_departure? - case.zero;
        Some((departure, format!("{} at {}", case.column(index).mark, style.exact(departure))))
    });
    let seats: Vec<_> = seats.collect();
    let (low, high) = (seats.iter().min_by_key(|seat| seat.0), seats.iter().max_by_key(|seat| seat.0));
    let mut lines = match (low, high, difference.value) {
        (Some(low), Some(high), Some(value)) if difference.kind != DifferenceKind::Design => vec![
            "highest seat less lowest seat, each from its design".to_owned(),
            format!("{}, {}: {}", high.1, low.1, style.exact(value.abs())),
        ],
        (Some(low), _, Some(_)) => vec!["seat less design seat".to_owned(), low.1.clone()],
        _ => Vec::new(),
    };
    lines.extend(with_plus_minus(difference, style));
    lines
}

/// Tells the verdict by value and +-: within, out, or too close to call.
///
/// Source: the zones of ISO 14253-1:2017 (within, out, and the uncertainty zone between, at 95 %), and simple acceptance
/// as JCGM 106:2012 has it; both as quoted by second parties, the standards themselves were not opened.
fn with_plus_minus(difference: &Difference, style: Style) -> Option<String> {
    let (value, plus_minus) = (difference.value?.abs(), difference.plus_minus?);
    let verdict = match difference.verdict {
        Verdict::Within => "within",
        Verdict::Out => "out",
        Verdict::Unsure => "too close to call",
        Verdict::Unknown => return None,
    };
    let (value, plus_minus) = (style.exact(value), style.write(plus_minus, Rounding::Up));
    let limit = style.exact(difference.limit);
    Some(format!(
        "{value} +- {plus_minus} (95 %) against {limit}: {verdict}; it is accepted by its value alone"
    ))
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{
        SIXTEENTH, blank_pad, clean_job, findings, make_relative, nm, set_pad, the_table, told,
    };
    use super::super::{Rule, building_out, design_out, neighbours_out, wall_out};
    use super::*;
    use crate::catalog::Authority;
    use crate::model::Job;

    /// Judges the clean job with A2 so much above A1, nothing done under either.
    fn apart(rule: &Rule, above: i64) -> Vec<Finding> {
        let mut job = clean_job();
        set_pad(&mut job, 1, above);
        findings(&job, rule)
    }

    /// Common practice: 3/16 in between next columns, 1/4 in along 60 ft of wall, 1/2 in over the building.
    #[test]
    fn a_difference_beyond_its_limit_is_asked_about_to_the_nanometre() {
        let limits = [(neighbours_out::RULE, 3), (wall_out::RULE, 4), (building_out::RULE, 8)];
        for (rule, sixteenths) in limits {
            let at = sixteenths * SIXTEENTH;
            for sign in [1, -1] {
                let over = apart(&rule, sign * (at + 1));
                assert_eq!(told(&over), [Some(Level::Ask)], "{}", rule.name);
                assert_eq!((over[0].limit, over[0].subject.columns.len()), (Some(nm(at)), 2));
                assert_eq!(over[0].authority, the_table());
                let close = apart(&rule, sign * at);
                assert_eq!(
                    close[0].outcome,
                    Outcome::Fail(Level::Note),
                    "{}: too close to be sure",
                    rule.name
                );
            }
            assert_eq!(apart(&rule, 0)[0].outcome, Outcome::Pass { margin: Some(nm(at)) });
        }
    }

    /// Common practice: a lower rod reading is a higher pad, 4'-6 1/4" against 4'-6 5/8" is 3/8 in.
    #[test]
    fn the_printed_pair_tells_the_verdict() {
        let found = apart(&neighbours_out::RULE, 6 * SIXTEENTH);
        assert!(
            found[0].text.starts_with("line A, A1 and A2: 3/8\" apart, 3/16\" accepted"),
            "{}",
            found[0].text
        );
        let found = apart(&neighbours_out::RULE, 3 * SIXTEENTH + 1);
        assert!(found[0].text.contains("4.762501 mm apart, 4.7625 mm accepted"), "{}", found[0].text);
    }

    #[test]
    fn a_seat_is_compared_with_its_design_only_where_elevations_are_absolute() {
        let found = apart(&design_out::RULE, 8 * SIXTEENTH + 1);
        assert_eq!(told(&found), [None, Some(Level::Ask)]);
        assert!(found[1].text.starts_with("A2 from its design seat"), "{}", found[1].text);
        let mut job = clean_job();
        make_relative(&mut job);
        let found = findings(&job, &design_out::RULE);
        assert_eq!(found.len(), 2);
        for finding in &found {
            assert!(matches!(&finding.outcome, Outcome::NotApplicable(why) if why.contains("relative")));
        }
    }

    #[test]
    fn a_missing_pad_is_no_pass() {
        let mut job = clean_job();
        blank_pad(&mut job, 1);
        for rule in [neighbours_out::RULE, wall_out::RULE, building_out::RULE, design_out::RULE] {
            let found = findings(&job, &rule);
            let last = found.last().unwrap();
            assert!(matches!(last.outcome, Outcome::Unknown(..)), "{}: {last:?}", rule.name);
        }
    }

    #[test]
    fn a_wall_whose_spacing_is_not_known_is_asked_about() {
        let mut job = clean_job();
        job.lines[0].spacing.clear();
        let found = findings(&job, &wall_out::RULE);
        assert_eq!(told(&found), [Some(Level::Ask); 2]);
    }

    #[test]
    fn a_limit_that_is_not_set_does_not_apply_and_a_lines_own_does() {
        let mut job: Job = clean_job();
        job.limits.tables.neighbours = None;
        job.limits.tables.wall = None;
        job.limits.tables.building = None;
        job.limits.tables.design = None;
        for rule in [neighbours_out::RULE, wall_out::RULE, building_out::RULE, design_out::RULE] {
            for finding in findings(&job, &rule) {
                assert!(matches!(finding.outcome, Outcome::NotApplicable(_)), "{}", rule.name);
            }
        }
        job.lines[0].accept = Some(nm(SIXTEENTH));
        let found = findings(&job, &neighbours_out::RULE);
        assert_eq!((found.len(), found[0].authority.clone()), (1, Authority::this_job()));
    }
}
