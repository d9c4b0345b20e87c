//! What a screen shows of the specification from tolerances.

use super::note::note;
use super::sources::Sources;
use super::{above, names};
use crate::catalog::{gap_left, spare_thread, spare_thread_authority};
use crate::detail::{Detail, Drawing, Kind, Likely, Origin, Specification, Spread, Terms};
use crate::length::{Length, Rounding};
use crate::model::{Base, Job, Units};
use crate::report::document::{Align, Document, Tone};
use crate::report::rules::source;
use crate::text::{Relation, Style, and, count};

/// Writes the head of the screen.
pub(super) fn head(document: &mut Document, detail: &Detail<'_>, style: Style) {
    let jobs: Vec<&str> = detail.jobs.iter().map(|studied| studied.job.name.as_str()).collect();
    document.heading(Tone::Plain, format!("{}: projection and thread to specify", and(&jobs)));
    let unknown = detail.kinds.iter().filter(|kind| kind.worst.is_none() || kind.concrete_unknown()).count();
    let failing = |kind: &&Kind<'_>| kind.drawings.iter().any(|drawing| drawing.meets() == Some(false));
    let short = detail.kinds.iter().filter(failing).count();
    let mut said = vec![format!("{} of base.", count(detail.kinds.len(), "kind"))];
    if unknown > 0 {
        said.push(format!("At {unknown} something is not known."));
    }
    if short > 0 {
        said.push(format!("At {short} a drawing asks for too little."));
    }
    let tone = if unknown + short > 0 {
        Tone::Ask
    } else {
        said.push("Each has a specification, and no drawing asks for less.".to_owned());
        Tone::Good
    };
    let said = said.join(" ");
    document.text(tone, said);
    let spreads = detail.asked.spreads;
    document.text(
        Tone::Quiet,
        format!(
            "Step {}. At {} rod tops are taken as {}, plates, washers and nuts as {}, the bearing plane {}. \
             {} These are house rules, not findings: --rod-tops, --parts and --bearing change them.",
            style.exact(detail.asked.step),
            detail.asked.probability.words(),
            taken(spreads.rod_tops),
            taken(spreads.parts),
            taken(spreads.bearing),
            "Uniform: anywhere in the band alike. Normal: the band is 1.96 standard deviations to each side.",
        ),
    );
}

fn taken(spread: Spread) -> &'static str {
    match spread {
        Spread::Uniform => "uniform",
        Spread::Normal => "normal",
        Spread::Worst => "at the worst",
    }
}

/// Writes one kind of base.
pub(super) fn kind(document: &mut Document, detail: &Detail<'_>, kind: &Kind<'_>, style: Style) {
    let Some(first) = kind.members.first() else { return };
    document.heading(Tone::Plain, format!("BASE {}", names(detail, kind)));
    document.text(Tone::Plain, parts(first.base, style));
    let (terms, worst) = match (&kind.terms, &kind.worst) {
        (Ok(terms), Some(worst)) => (terms, worst),
        (told, _) => {
            for missing in told.as_ref().err().into_iter().flatten() {
                document.item(Tone::Stop, "NO SPECIFICATION", *missing);
            }
            return;
        }
    };
    let where_from = above(terms.plane.origin);
    let said = format!(
        "projection {} {where_from}, full thread {}",
        style.exact(worst.projection),
        style.exact(worst.thread)
    );
    document.item(Tone::Good, "SPECIFY", said);
    if kind.concrete_unknown() {
        document.item(
            Tone::Ask,
            "NOT KNOWN",
            "how far the concrete may stand above its design: no [limits.pad] top is in force. All heights here count \
             from the concrete as cast, and a rod set by elevation loses whatever its pad is high. Set \
             [limits.pad] top, or set rods from their own pads",
        );
    }
    table(document, detail, terms, style);
    sums(document, detail, kind, terms, style);
    specified(document, detail, kind, worst, style);
    for (member, drawing) in kind.members.iter().zip(&kind.drawings) {
        today(document, (member.job, member.base), drawing, terms, style);
    }
    bed(document, first.job, first.base, terms, style);
    if let Some(lines) = note(kind, style) {
        document.heading(Tone::Plain, "NOTE FOR THE DRAWING");
        for line in lines {
            document.text(Tone::Plain, line);
        }
    }
}

fn parts(base: &Base, style: Style) -> String {
    let washers: Vec<&str> = base.washers.iter().map(|washer| washer.series.as_str()).collect();
    let nuts: Vec<String> = base.nuts.iter().map(|nut| nut.called()).collect();
    let bed = match base.has_bed() {
        true => format!("a designed bed of {}", style.exact(base.bed)),
        false => "no designed bed".to_owned(),
    };
    format!(
        "Rods {}, plate {}, washer {}, nut {}, {bed}.",
        base.rods.called(),
        style.exact(base.plate.thickness.nominal),
        if washers.is_empty() { "none".to_owned() } else { washers.join(" + ") },
        nuts.join(" + "),
    )
}

/// Writes every term with its band, the sum so far and its source.
fn table(document: &mut Document, detail: &Detail<'_>, terms: &Terms, style: Style) {
    let mut sources = Sources::default();
    let mut so_far = Length::ZERO;
    let rows = terms.list.iter().map(|term| {
        so_far = so_far + term.most;
        vec![
            term.name.clone(),
            style.exact(term.least),
            style.exact(term.most),
            style.exact(so_far),
            taken(detail.asked.spreads.of(term)).to_owned(),
            sources.number(&term.authority),
        ]
    });
    let columns = [
        ("what", Align::Left),
        ("asks for least", Align::Right),
        ("most", Align::Right),
        ("so far", Align::Right),
        ("taken as", Align::Left),
        ("source", Align::Right),
    ];
    let rows = rows.collect();
    document.grid(&columns, rows);
    let plane = &terms.plane;
    let (from, counted) = match plane.origin {
        Origin::Design => (plane.design, "from its design level"),
        Origin::Pad => (Length::ZERO, "above the concrete under it"),
    };
    let end = |height: Length| style.signed(height - from, Rounding::Nearest);
    document.item(
        Tone::Plain,
        "plate",
        format!(
            "{counted} from {} ({}) to {} ({})",
            end(plane.low.height),
            plane.low.why,
            end(plane.high.height),
            plane.high.why
        ),
    );
    sources.list(document);
    if plane.low.authority != plane.high.authority {
        document.item(Tone::Quiet, "lowest", source(&plane.low.authority));
    }
}

/// Writes the sums: parts, at design level, worst case, and at the stated probability.
fn sums(document: &mut Document, detail: &Detail<'_>, kind: &Kind<'_>, terms: &Terms, style: Style) {
    let parts = style.exact(terms.parts());
    document.item(
        Tone::Plain,
        "parts",
        format!("{parts}: gap, plate, washers, nuts and the thread beyond, each at its most"),
    );
    let level = style.exact(terms.at_design());
    document.item(
        Tone::Plain,
        "at level",
        format!("{level}: the same with the rod as low as may be, plate at its design level"),
    );
    let worst = style.exact(terms.worst());
    document.item(Tone::Plain, "worst", format!("{worst}: all terms at their worst"));
    let Some((likely, _)) = &kind.likely else { return };
    // as fine as the grid, and up
    let up = |length: Length| style.exact(length.to_step(likely.grid, Rounding::Up));
    document.item(
        Tone::Plain,
        detail.asked.probability.words(),
        format!(
            "{}: so many rods are full with it, one by one, not all rods of a building; by convolution, which is no more \
             than {} too large. Root-sum-square, which takes the sum as normal, has {}{}",
            up(likely.convolved),
            style.exact(likely.grid_error),
            up(likely.root_sum_square),
            beyond(likely, terms)
        ),
    );
}

fn beyond(likely: &Likely, terms: &Terms) -> &'static str {
    if likely.root_sum_square > terms.worst() { ", more than the worst case can be" } else { "" }
}

/// Writes what to specify at the worst case and at the stated probability, and the advice beside it.
fn specified(
    document: &mut Document,
    detail: &Detail<'_>,
    kind: &Kind<'_>,
    worst: &Specification,
    style: Style,
) {
    let row = |name: String, spec: &Specification| {
        let [low, high] = spec.allowed;
        vec![
            name,
            style.exact(spec.projection),
            style.write(spec.thread_least, Rounding::Up),
            style.exact(spec.thread),
            style.exact(spec.thread_advised),
            format!("{} to {}", style.write(low, Rounding::Up), style.write(high, Rounding::Down)),
        ]
    };
    let mut rows = vec![row("worst case".to_owned(), worst)];
    rows.extend(kind.likely.iter().map(|(_, spec)| row(detail.asked.probability.words(), spec)));
    document.grid(
        &[
            ("specified for", Align::Left),
            ("projection", Align::Right),
            ("thread least", Align::Right),
            ("thread", Align::Right),
            ("advised", Align::Right),
            ("plate may stand", Align::Left),
        ],
        rows,
    );
    let origin = kind.terms.as_ref().map_or(Origin::Design, |terms| terms.plane.origin);
    let levelling = kind.terms.as_ref().ok().and_then(|terms| terms.levelling);
    let reaches = levelling.map_or_else(
        || ", no washer added".to_owned(),
        |parts| format!(", down below the levelling nut and its washer, {} at most", style.exact(parts.most)),
    );
    document.item(
        Tone::Plain,
        "thread",
        format!(
            "the least with the rod as high and the plate as low as they may be{reaches}; then on the step"
        ),
    );
    let metric = detail.jobs.first().is_some_and(|first| first.job.units == Units::Millimetre);
    document.item(
        Tone::Plain,
        "advised",
        format!(
            "{} more than the least thread, on the step; advice, not mixed with the figure",
            style.exact(spare_thread(metric))
        ),
    );
    document.item(Tone::Quiet, " ", source(&spare_thread_authority()));
    document.item(
        Tone::Plain,
        "plate",
        format!(
            "where its underside may stand {}, shim tolerance apart, with every rod within its limits",
            above(origin)
        ),
    );
}

/// Writes what the drawing of a job has today.
fn today(
    document: &mut Document,
    (job, base): (&Job, &Base),
    drawing: &Drawing,
    terms: &Terms,
    style: Style,
) {
    let of = |meets: bool, value: Length, least: Length| {
        let shown = style.pair(value, least, Relation::AtLeast);
        let verdict = if meets { "enough" } else { "TOO LITTLE" };
        format!("{}, {verdict}: the least is {}", shown.value, shown.limit)
    };
    let projection = match (drawing.projection, drawing.projection_meets) {
        (Some(projection), Some(meets)) => format!("projection {}", of(meets, projection, terms.worst())),
        _ => "no projection given".to_owned(),
    };
    let thread = match (drawing.thread, drawing.thread_meets) {
        (Some(thread), Some(meets)) => format!("thread {}", of(meets, thread, drawing.thread_least)),
        _ => "no thread given".to_owned(),
    };
    let allowed = drawing.allowed.map(|[low, high]| match drawing.thread {
        _ if high < low => "; the plate may stand nowhere".to_owned(),
        Some(_) => format!(
            "; the plate may stand from {} to {}",
            style.write(low, Rounding::Up),
            style.write(high, Rounding::Down)
        ),
        None => format!("; the plate may stand up to {}", style.write(high, Rounding::Down)),
    });
    let tone = match drawing.meets() {
        Some(true) => Tone::Good,
        Some(false) => Tone::Ask,
        None => Tone::Plain,
    };
    let said =
        format!("{} of {}: {projection}; {thread}{}", base.mark, job.name, allowed.unwrap_or_default());
    document.item(tone, "today", said);
}

/// Writes what is left for a designed bed where the concrete is within its limits.
fn bed(document: &mut Document, job: &Job, base: &Base, terms: &Terms, style: Style) {
    let top = job.limits.tables.pad.as_ref().and_then(|pad| pad.top.as_ref());
    let (Some(top), true) = (top, base.has_bed() && terms.plane.origin == Origin::Design) else { return };
    let [least, most] = gap_left(base.bed, top.value);
    let beyond = job.limits.tables.grout.as_ref().map_or(String::new(), |grout| {
        let (thin, thick) = (least < grout.least.value, most > grout.most.value);
        let allowed = format!("{} to {}", style.exact(grout.least.value), style.exact(grout.most.value));
        match (thin, thick) {
            (false, false) => format!("; within the beds allowed, {allowed}"),
            (true, false) => {
                format!("; thinner at the worst than the beds allowed, {allowed}: the plate then rises")
            }
            (false, true) => {
                format!("; thicker at the worst than the beds allowed, {allowed}: ask the engineer")
            }
            (true, true) => format!("; beyond the beds allowed at both ends, {allowed}: ask the engineer"),
        }
    });
    let said = format!(
        "{} to {} with the plate at its design level and the concrete within its limits{beyond}. What the concrete \
         is off changes the bed; it takes nothing from the thread above the plate unless the plate must rise",
        style.exact(least),
        style.exact(most)
    );
    document.item(Tone::Plain, "bed left", said);
    document.item(Tone::Quiet, " ", source(&top.authority));
}
