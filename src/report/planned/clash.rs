//! Which columns cannot be held where somebody wants them, and by which limit.

use crate::check::{chain, style};
use crate::model::Job;
use crate::plan::{Hurdle, Stop};
use crate::text::and;

/// Says which columns that are held stand in each other's way, and limit by limit why.
#[must_use]
pub fn clash_words(job: &Job, hurdle: &Hurdle) -> String {
    let style = style(job);
    let held = hurdle.links.iter().filter(|link| link.stop == Stop::HeldAt).map(|link| {
        let mark = job.columns.get(link.column).map_or("?", |column| column.mark.as_str());
        match link.last_open {
            Some(raise) => format!("{mark} at {}", style.exact(raise)),
            None => mark.to_owned(),
        }
    });
    let held: Vec<String> = held.collect();
    let together = if held.len() > 1 { " together" } else { "" };
    let mut words = format!("{} cannot be held{together}; nothing was planned", and(&held));
    // here the columns between are not for the engineer: wherever they go, they go too far
    let mut between = hurdle.clone();
    let last = between.links.len().saturating_sub(1);
    for link in
        between.links.iter_mut().take(last).filter(|link| link.stop == Stop::Free && link.tie.is_some())
    {
        link.stop = Stop::Nothing;
    }
    for told in chain(job, style, &between) {
        words.push_str(&format!("\n  - {told}"));
    }
    words
}
