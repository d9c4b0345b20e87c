//! What may be done about a rod that is not full, in the order in which it is to be thought of.

use super::another_plan;
use super::words::up;
use crate::catalog::Authority;
use crate::check::{Case, ColumnCase, Lower, ShortRod};
use crate::length::{Length, Rounding};
use crate::model::State;
use crate::report::document::{Document, Tone};
use crate::report::rules::source;
use crate::text::Style;

/// Adds what may be done.
pub(super) fn ladder(
    document: &mut Document,
    case: &Case<'_>,
    column: &ColumnCase,
    rods: &[ShortRod],
    less_raise: Option<&[Length]>,
    style: Style,
) {
    let mark = &case.column(column.index).mark;
    let mut sources: Vec<&Authority> = Vec::new();
    document.heading(Tone::Plain, "WHAT MAY BE DONE, in this order");
    for rod in rods {
        document.item(Tone::Plain, "1 a lower seat", format!("rod {}: {}", rod.rod, lower(case, rod, style)));
    }
    for rod in rods {
        document.item(Tone::Plain, "2 a thinner washer", format!("rod {}: {}", rod.rod, thinner(rod, style)));
        for it in rod.ladder.washers.iter().flatten() {
            for authority in [&it.authority, &it.over_hole] {
                if !sources.contains(&authority) {
                    sources.push(authority);
                }
            }
        }
    }
    document.item(Tone::Plain, "3 another plan", another_plan::words(mark, less_raise, style));
    let coupling = rods.first().map_or(Length::ZERO, |rod| rod.ladder.coupling);
    document.item(
        Tone::Ask,
        "4 the engineer",
        format!(
            "an extension of the rod, a coupling nut, a new rod. A coupling nut needs a wider hole in the plate and \
             washers over it, and reaches over each of the two rods by {} at least.",
            up(style, coupling)
        ),
    );
    document.item(
        Tone::Stop,
        "never",
        "no weld, cut, bend or other repair of a rod, and no new one, without the approval of the engineer of record. A \
         nut welded to a rod is no prequalified joint and is not recommended.",
    );
    for authority in sources {
        document.item(Tone::Quiet, "2", source(authority));
    }
    document.item(
        Tone::Quiet,
        "4",
        "common practice: one rod diameter in a coupling nut from either side is a rule of thumb of the trade; no \
         standard was found. published: AISC Design Guide 1, 2nd ed., 2.11.3, as quoted by one second party, on coupling \
         nuts and on welded nuts",
    );
    document.item(Tone::Quiet, "never", "published: 29 CFR 1926.755(b)(1), the text was read");
}

fn lower(case: &Case<'_>, rod: &ShortRod, style: Style) -> String {
    let Some(lower) = rod.ladder.lower else {
        return "it is full at no lower raise".to_owned();
    };
    let others = if lower.all_rods { "" } else { ", though not every measured sound rod is full there" };
    let mut told = format!(
        "full from {} lower down, at a raise of {}{others}",
        up(style, lower.by),
        style.signed(lower.to, Rounding::Down)
    );
    if lower.to.is_negative() {
        let into = up(style, -lower.to);
        told += &match &case.job.limits.tables.grind {
            Some(grind) if -lower.to <= grind.most.value => {
                format!("; that is {into} off the pad, which the limits let be ground if the engineer agrees")
            }
            Some(grind) => format!(
                "; that is {into} off the pad, and the limits let no more than {} be ground",
                style.write(grind.most.value, Rounding::Down)
            ),
            None => format!("; that is {into} off the pad, and the limits have no grinding"),
        };
    }
    told + "; " + &limits(lower, style)
}

fn limits(lower: Lower, style: Style) -> String {
    match lower.lowest {
        Some(lowest) if lower.to < lowest => format!(
            "the limits ask for a raise of {} at least, all other seats as planned",
            style.signed(lowest, Rounding::Up)
        ),
        _ if lower.unknown => {
            "whether the limits leave that is not known, a pad beside it is not measured or is referred"
                .to_owned()
        }
        Some(_) => "the limits leave that, all other seats as planned".to_owned(),
        None => "no limit stands against that".to_owned(),
    }
}

fn thinner(rod: &ShortRod, style: Style) -> String {
    let Some(washers) = &rod.ladder.washers else {
        return "the hole in the plate is not given, so no washer can be named".to_owned();
    };
    if washers.is_empty() {
        return "no washer of the catalog is thinner at its most and covers the hole".to_owned();
    }
    let told = washers.iter().map(|it| {
        let then = match it.state {
            State::Full => "the nut is full with it",
            State::Unsure => "too close to call with it",
            State::Scant => "the nut is full with it, thread beyond scant",
            _ => "not full with it either",
        };
        format!("{} instead of {} gains {}, {then}", it.series, it.instead_of, style.exact(it.gain))
    });
    told.collect::<Vec<_>>().join("; ")
}
