//! What stands in the way of a column, in words: a sentence for each column of the chain.

use crate::length::Length;
use crate::model::{Job, State};
use crate::plan::{Hurdle, HurdleLink, Stop, Tie, Way};
use crate::text::Style;

/// Tells a chain of limits, a sentence a column, first cause first.
///
/// # Example
/// `A4 can stand no lower than on its pad (nothing goes lower)`, then `next columns on line A may be 3/16" apart:
/// A3 must stand 1/4" or more above its pad, and can stand no higher than 1/8" above its pad (rod 2 would be short
/// at 3/16")`.
#[must_use]
pub fn chain(job: &Job, style: Style, hurdle: &Hurdle) -> Vec<String> {
    let last = hurdle.links.len().saturating_sub(1);
    hurdle
        .links
        .iter()
        .enumerate()
        .map(|(place, link)| told(job, style, hurdle.way, link, place == last))
        .collect()
}

fn told(job: &Job, style: Style, way: Way, link: &HurdleLink, last: bool) -> String {
    let mark = job.columns.get(link.column).map_or("?", |column| column.mark.as_str());
    // the first cannot come nearer, all others cannot go further
    let (nearer, further, or_more) = match way {
        Way::Up => ("lower", "higher", "or more"),
        Way::Down => ("higher", "lower", "or less"),
    };
    let why = stop(style, &link.stop, if link.tie.is_none() { nearer } else { further });
    let Some((tie, most)) = link.tie else {
        return match (link.last_open, &link.stop) {
            (_, Stop::HeldAt) => format!("{mark} is held {}", stands(style, link.raise.unwrap_or_default())),
            (_, Stop::Free) => format!("{mark} must keep its own limit"),
            (Some(open), _) => format!("{mark} can stand no {nearer} than {} ({why})", stands(style, open)),
            (None, _) => format!("nothing is open at {mark} ({why})"),
        };
    };
    let needed = link.needed.unwrap_or_default();
    let must = format!(
        "{} may be {} apart: {mark} must stand {}",
        tied(job, tie),
        style.exact(most),
        must_stand(style, needed, or_more)
    );
    if last {
        return match (&link.stop, link.last_open) {
            (Stop::HeldAt, Some(open)) => format!("{must}, and is held {}", stands(style, open)),
            (_, Some(open)) => {
                format!("{must}, and can stand no {further} than {} ({why})", stands(style, open))
            }
            (Stop::Free, None) => format!("{must}, and that leaves its limit from the design seat"),
            (_, None) => format!("{must}, and nothing is open there"),
        };
    }
    match (&link.stop, link.raise) {
        (Stop::Free, _) => format!("{must}; it is for the engineer too and may stand anywhere"),
        (_, Some(raise)) if raise != needed => {
            format!("{must}; the next it can take is {}", stands(style, raise))
        }
        _ => must,
    }
}

/// Writes a place from the pad that is the nearest allowed: `1/4" or more above its pad`.
fn must_stand(style: Style, raise: Length, or_more: &str) -> String {
    if raise == Length::ZERO {
        let where_ = if or_more == "or more" { "on its pad or higher" } else { "on its pad or lower" };
        return where_.to_owned();
    }
    // below the pad "or more" is a smaller distance
    let side = match (raise.is_negative(), or_more == "or more") {
        (false, _) => format!("{or_more} above its pad"),
        (true, true) => "or less below its pad".to_owned(),
        (true, false) => "or more below its pad".to_owned(),
    };
    format!("{} {side}", style.exact(raise.abs()))
}

/// Writes a place from the pad: `on its pad`, `1/4" above its pad`, `1/8" below its pad`.
fn stands(style: Style, raise: Length) -> String {
    match raise.nm() {
        0 => "on its pad".to_owned(),
        nm if nm < 0 => format!("{} below its pad", style.exact(-raise)),
        _ => format!("{} above its pad", style.exact(raise)),
    }
}

fn tied(job: &Job, tie: Tie) -> String {
    let name = |line: usize| job.lines.get(line).map_or("?", |line| line.name.as_str());
    match tie {
        Tie::Neighbours { line } => format!("next columns on line {}", name(line)),
        Tie::Wall { line } => format!("columns of wall {}", name(line)),
        Tie::Building => "columns of the building".to_owned(),
    }
}

/// Says what ends the options, the way they should go on.
fn stop(style: Style, stop: &Stop, way: &str) -> String {
    let at = |raise: &Length| match raise.nm() {
        0 => "left as it is".to_owned(),
        nm if nm < 0 => format!("with {} ground", style.exact(-*raise)),
        _ => format!("with {} under the plate", style.exact(*raise)),
    };
    match stop {
        Stop::Free => "it is for the engineer too".to_owned(),
        Stop::Nothing => format!("no option goes {way}"),
        Stop::HeldAt => "it is held there".to_owned(),
        Stop::Design { raise } => format!("{} it leaves the limit from its design seat", at(raise)),
        Stop::Rod { raise, rod, state } => {
            let would = match state {
                State::RunsOut => "would run out of thread",
                _ => "would be short",
            };
            format!("rod {rod} {would} {}", at(raise))
        }
    }
}
