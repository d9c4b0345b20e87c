//! Every option at a column and why it was not taken.

use crate::check::{Case, style};
use crate::length::Length;
use crate::model::State;
use crate::plan::{Action, Considered, Cost, Fate, Tie};
use crate::report::check::json::{PieceJson, stack};
use crate::report::document::{Align, Document, Tone};
use crate::report::planned::cost_json::CostJson;
use crate::report::planned::hurdle_json::limit;
use crate::report::under::under;
use crate::text::{Style, count};
use serde::Serialize;

/// Adds the section to a document: options that fare alike stand in one row.
pub(in crate::report) fn options(document: &mut Document, case: &Case<'_>, considered: &[Considered]) {
    let style = style(case.job);
    document.heading(Tone::Plain, "OPTIONS, and why each was not taken");
    let mut rows: Vec<(Action, String, String, [String; 2])> = Vec::new();
    for it in considered {
        // the designed bed is told above the list
        let designed = Length::ZERO;
        let raise = Some(it.option.raise.nominal);
        let what = under(style, it.option.action, raise, &it.option.stack, designed);
        let told = [fate(case, style, it), whole(case, style, it)];
        match rows.last_mut() {
            Some((action, _, last, before)) if *action == it.option.action && *before == told => *last = what,
            _ => rows.push((it.option.action, what.clone(), what, told)),
        }
    }
    let rows = rows.into_iter().map(|(_, first, last, [why, whole])| {
        let what = if first == last { first } else { format!("{first} to {last}") };
        vec![what, why, whole]
    });
    let heads =
        [("under the plate", Align::Wrap), ("why not", Align::Wrap), ("the whole plan then", Align::Wrap)];
    document.grid(&heads, rows.collect());
    document.text(
        Tone::Quiet,
        "why not: with all other seats as planned. the whole plan then: planned anew with this option held here; \
         blank where that was not tried or cannot be.",
    );
}

fn fate(case: &Case<'_>, style: Style, it: &Considered) -> String {
    let held = if it.held { "held; " } else { "" };
    match it.fate {
        Fate::Taken => "TAKEN".to_owned(),
        Fate::Rod(rod, State::RunsOut) => format!("rod {rod} would run out of thread"),
        Fate::Rod(rod, _) => format!("rod {rod} would be short"),
        Fate::Design => "leaves the limit from the design seat".to_owned(),
        Fate::Apart { tie, column } => {
            let what = match tie {
                Tie::Neighbours { line } => format!("next columns on line {}", case.job.lines[line].name),
                Tie::Wall { line } => format!("wall {}", case.job.lines[line].name),
                Tie::Building => "the building".to_owned(),
            };
            format!("{held}too far from {} ({what})", case.column(column).mark)
        }
        Fate::HeldElsewhere => format!("{held}would do; you hold the column elsewhere"),
        Fate::Dearer => format!("{held}would do, and needs more ({})", needs(style, it)),
        Fate::NoFlatter if it.option.on_bed.is_some() => {
            format!("{held}would do, no flatter, no nearer the designed bed or no lower")
        }
        Fate::NoFlatter => format!("{held}would do, no flatter or no lower"),
    }
}

/// Says what an option needs by itself.
fn needs(style: Style, it: &Considered) -> String {
    if let Some(bed) = it.option.on_bed {
        return format!("seat {} from its design", style.exact(bed.counts));
    }
    match it.option.action {
        Action::Shim => {
            let pieces = count(it.option.pieces as usize, "piece");
            format!("{pieces}, {} high", style.exact(it.option.raise.nominal))
        }
        Action::Grout => "grout".to_owned(),
        Action::Grind => "grinding".to_owned(),
        _ => "nothing".to_owned(),
    }
}

/// Says what the whole plan would need more, or less, from the weightiest difference on.
fn whole(case: &Case<'_>, style: Style, it: &Considered) -> String {
    let (Some(with), Some(now)) = (it.whole, case.plan.optimum) else { return String::new() };
    difference(style, now.cost, with)
}

fn difference(style: Style, now: Cost, with: Cost) -> String {
    let names = ["for the engineer", "to grind", "on grout", "held", "shim piece"];
    let plural = |name: &str, number: i64| if name == "shim piece" && number != 1 { "s" } else { "" };
    for ((name, now), with) in names.iter().zip(now.components()).zip(with.components()) {
        match with - now {
            0 => {}
            more if more > 0 => return format!("{more} more {name}{}", plural(name, more)),
            less => return format!("{} fewer {name}{}", -less, plural(name, -less)),
        }
    }
    match with.thickness - now.thickness {
        Length::ZERO => "needs as much".to_owned(),
        more if more > Length::ZERO => format!("{} thicker in all", style.exact(more)),
        less => format!("{} thinner in all", style.exact(-less)),
    }
}

/// One option as JSON has it.
#[derive(Serialize)]
pub(in crate::report) struct ConsideredJson {
    action: Action,
    raise_nm: i64,
    stack: Vec<PieceJson>,
    held: bool,
    fate: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    rod: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    from: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    limit: Option<&'static str>,
    whole: Option<CostJson>,
}

/// Gives every option.
pub(in crate::report) fn value(case: &Case<'_>, considered: &[Considered]) -> Vec<ConsideredJson> {
    considered
        .iter()
        .map(|it| {
            let (fate, rod, from, limit) = match it.fate {
                Fate::Taken => ("taken", None, None, None),
                Fate::Rod(rod, State::RunsOut) => ("rod-runs-out", Some(rod.to_string()), None, None),
                Fate::Rod(rod, _) => ("rod-short", Some(rod.to_string()), None, None),
                Fate::Design => ("design", None, None, None),
                Fate::Apart { tie, column } => {
                    let from = Some(case.column(column).mark.clone());
                    ("apart", None, from, Some(limit(case, tie).0))
                }
                Fate::HeldElsewhere => ("held-elsewhere", None, None, None),
                Fate::Dearer => ("dearer", None, None, None),
                Fate::NoFlatter => ("no-flatter", None, None, None),
            };
            ConsideredJson {
                action: it.option.action,
                raise_nm: it.option.raise.nominal.nm(),
                stack: stack(&it.option.stack),
                held: it.held,
                fate,
                rod,
                from,
                limit,
                whole: it.whole.map(CostJson::from),
            }
        })
        .collect()
}
