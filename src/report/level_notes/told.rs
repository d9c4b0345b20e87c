//! What the readings tell of the instrument, what they cannot tell, and which reading more would help most.

use crate::check::{entangled_words, slope_words, untold_words};
use crate::length::{Length, Rounding};
use crate::levels::{FoundSlope, Levelled};
use crate::model::{Job, Slope};
use crate::report::document::{Align, Document, Tone};
use crate::text::{Style, System, and};

/// Tells the slopes that were found, over a run that a crew can picture.
pub(in crate::report) fn slopes(document: &mut Document, job: &Job, levels: &Levelled, style: Style) {
    if levels.slopes().is_empty() {
        return;
    }
    let (run, over) = match style.system() {
        System::Inch => (Length::from_nm(30_480_000_000), "100 ft"),
        System::Metric => (Length::from_nm(30_000_000_000), "30 m"),
    };
    let on = |slope: Slope| {
        let rise = i128::from(slope.rise.nm()) * i128::from(run.nm()) / i128::from(slope.run.nm().max(1));
        Length::from_nm(i64::try_from(rise).unwrap_or(i64::MAX))
    };
    let row = |it: &FoundSlope| {
        vec![
            slope_words(job, it.slope),
            it.plus_minus.map_or("?".to_owned(), |_| style.signed(on(it.value), Rounding::Nearest)),
            it.plus_minus.map_or("?".to_owned(), |it| style.write(on(it), Rounding::Up)),
        ]
    };
    document.heading(Tone::Plain, format!("FOUND WITH THE HEIGHTS, over {over}"));
    document.grid(
        &[("slope", Align::Left), ("rise", Align::Right), ("+- (95 %)", Align::Right)],
        levels.slopes().iter().map(row).collect(),
    );
}

/// Tells what cannot be told apart, or hardly, and what would tell it.
pub(in crate::report) fn untold(document: &mut Document, job: &Job, levels: &Levelled) {
    let untold = untold_words(job, levels.untold());
    if !untold.is_empty() {
        document.heading(Tone::Stop, "CANNOT BE TOLD");
        for words in untold {
            document.item(Tone::Stop, "-", words);
        }
        document.text(Tone::Plain, "Pads whose height hangs on it have no elevation.");
    }
    if !levels.entangled().is_empty() {
        document.heading(Tone::Ask, "HARDLY TOLD APART");
        for entangled in levels.entangled() {
            document.item(Tone::Ask, "-", entangled_words(job, entangled));
        }
    }
}

/// Tells which reading more would help most.
pub(in crate::report) fn extra(document: &mut Document, job: &Job, levels: &Levelled, style: Style) {
    let Some(extra) = levels.extra() else { return };
    let (Some(setup), Some(point)) =
        (job.readings.setups.get(extra.setup), job.readings.points.get(extra.point))
    else {
        return;
    };
    let known = style.write(extra.known_to, Rounding::Up);
    let (setup, again) = (&setup.name, levels.readings(extra.point) > 0);
    let verb = if again { "read" } else { "read for the first time" };
    let first = if extra.first_check { " It would be the first reading that checks anything." } else { "" };
    document.heading(Tone::Plain, "ONE READING MORE would help most");
    document.text(
        Tone::Plain,
        format!("{point}, {verb} from setup {setup} (known there to +-{known} now).{first}"),
    );
}

/// Tells the blocks that share no point with the rest.
pub(in crate::report) fn blocks(document: &mut Document, job: &Job, levels: &Levelled) {
    if levels.blocks().is_empty() {
        return;
    }
    document.heading(Tone::Stop, "NOT CONNECTED");
    for block in levels.blocks() {
        let names: Vec<&str> =
            block.iter().filter_map(|it| job.readings.points.get(*it)).map(String::as_str).collect();
        let verb = if names.len() == 1 { "shares" } else { "share" };
        document.item(Tone::Plain, "-", format!("{} {verb} no point with the rest", and(&names)));
    }
    document.text(Tone::Plain, "Read one pad of each again from a setup that also reads a pad of the rest.");
}
