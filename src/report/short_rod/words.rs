//! How much of each nut is on thread, what is published of that, and rods that stand far too high.

use super::percent;
use crate::catalog::Authority;
use crate::check::{HighRod, Published, Said, ShortRod};
use crate::length::{Length, Rounding};
use crate::model::Base;
use crate::report::document::{Align, Document, Tone};
use crate::report::rules::source;
use crate::text::{Relation, Style};

/// Adds the share of every nut on thread.
pub(super) fn engaged(document: &mut Document, base: &Base, rods: &[ShortRod]) {
    document.heading(Tone::Ask, "A ROD THAT IS NOT FULL: for the engineer, no verdict");
    if rods.iter().any(|rod| rod.referred) {
        document.text(
            Tone::Plain,
            "Nothing brings the column where it must be; this is told of the plate left on its pad.",
        );
    }
    let of_rod = |rod: &ShortRod| -> Vec<Vec<String>> {
        let shares = rod.nuts.iter().zip(&rod.nuts_worst).zip(&base.nuts);
        let rows = shares.map(|((nominal, worst), nut)| {
            vec![rod.rod.to_string(), nut.series.clone(), percent(*nominal), percent(*worst)]
        });
        rows.collect()
    };
    document.grid(
        &[
            ("rod", Align::Left),
            ("nut, from the plate up", Align::Left),
            ("on thread", Align::Right),
            ("at the worst", Align::Right),
        ],
        rods.iter().flat_map(of_rod).collect(),
    );
    document.text(
        Tone::Quiet,
        "on thread: share of the nut's height, parts at their nominal; at the worst: every part at its most and the \
         rod's +- off. Both are cut, never rounded up.",
    );
    if rods.iter().any(|rod| !rod.thread_measured) {
        document.text(
            Tone::Plain,
            "The thread was not measured: all of the rod above the pad is taken for thread, so no share can be more \
             and any may be less.",
        );
    }
}

/// Adds what every publication says of the outer nut.
pub(super) fn published(document: &mut Document, rods: &[ShortRod]) {
    document
        .heading(Tone::Plain, "WHAT IS PUBLISHED OF IT: which of these counts is the engineer's decision");
    let rows = rods
        .iter()
        .flat_map(|rod| rod.published.iter().map(move |it| (rod, it)))
        .map(|(rod, it)| vec![rod.rod.to_string(), it.name.to_owned(), it.words.to_owned(), told(it)]);
    document.grid(
        &[("rod", Align::Left), ("by", Align::Left), ("it asks for", Align::Wrap), ("the rod", Align::Wrap)],
        rows.collect(),
    );
    for it in rods.first().map(|rod| rod.published.as_slice()).unwrap_or_default() {
        document.item(Tone::Quiet, it.name, source(&it.authority));
    }
}

fn told(it: &Published) -> String {
    let strength =
        it.estimate.map_or(String::new(), |share| format!(": {} of the nut's strength", percent(share)));
    match it.said {
        Said::Kept => format!("has it at the worst{strength}"),
        Said::IfThreaded => format!("has it at the worst if all of that is thread{strength}"),
        Said::Unsure => "too close to call, so it has not".to_owned(),
        Said::NotKept => "has it not".to_owned(),
    }
}

/// Adds the rods that stand far too high.
pub(super) fn high(document: &mut Document, rods: &[HighRod], style: Style) {
    if rods.is_empty() {
        return;
    }
    document.heading(Tone::Ask, "A ROD THAT STANDS FAR TOO HIGH");
    let pair = |it: &(Length, Length, Authority)| style.pair(it.0, it.1, Relation::AtMost);
    let mut sources: Vec<&Authority> = Vec::new();
    for rod in rods {
        let top = rod.top.as_ref().map(|it| {
            let shown = pair(it);
            format!("its top is {} above its design, {} is the most allowed", shown.value, shown.limit)
        });
        let projection = rod.projection.as_ref().map(|it| {
            let shown = pair(it);
            format!("it stands {} more than drawn, asked about above {}", shown.value, shown.limit)
        });
        let told: Vec<String> = top.into_iter().chain(projection).collect();
        document.item(Tone::Ask, format!("rod {}", rod.rod), told.join("; "));
        for (_, _, authority) in rod.top.iter().chain(&rod.projection) {
            if !sources.contains(&authority) {
                sources.push(authority);
            }
        }
    }
    document.text(
        Tone::Plain,
        "Ask the engineer: is it the rod that was drawn, and is enough of it in the concrete? A rod that stands too high \
         may be one of full length with its embedment lost (AISC Design Guide 1, 2nd ed., 2.11.3, as quoted by one \
         second party). Do not cut it to height before that is answered.",
    );
    for authority in sources {
        document.item(Tone::Quiet, " ", format!("source, {}", source(authority)));
    }
}

/// Writes a length that something must be covered by, up.
pub(super) fn up(style: Style, length: Length) -> String {
    style.write(length, Rounding::Up)
}
