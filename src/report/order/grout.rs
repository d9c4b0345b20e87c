//! The grout of an order, on a screen.

use super::Told;
use crate::catalog::{Consistency, flow_authority};
use crate::length::Rounding;
use crate::order::Bags;
use crate::report::document::{Align, Document, Tone};
use crate::report::rules::source;

/// Adds the section, where a column is set on grout.
pub(super) fn add(document: &mut Document, told: &Told<'_>) {
    let grout = &told.list.grout;
    if grout.beds.is_empty() {
        return;
    }
    document.heading(Tone::Plain, "GROUT");
    grid(document, told);
    document.text(Tone::Plain, in_all(told));
    notes(document, told);
}

fn grid(document: &mut Document, told: &Told<'_>) {
    let style = told.style;
    let known = told.judged.case.job.supplies.grout.bag.is_some();
    let mut heads = vec![("column", Align::Left), ("bed", Align::Right), ("form", Align::Right)];
    heads.push(("holds", Align::Right));
    heads.extend(known.then_some(("bags", Align::Right)));
    heads.extend([("to flow", Align::Left), ("set", Align::Left)]);
    let rows = told.list.grout.beds.iter().filter_map(|&(row, bags)| {
        let bed = told.rows[row].grout.as_ref()?;
        let unknown = || "?".to_owned();
        let form = bed.form.map(|[a, b]| format!("{} x {}", style.exact(a), style.exact(b)));
        let mut cells = vec![
            told.rows[row].mark.clone(),
            style.write(bed.bed, Rounding::Nearest),
            form.unwrap_or_else(unknown),
            bed.volume.map_or_else(unknown, |volume| style.volume(volume, Rounding::Up)),
        ];
        cells.extend(known.then(|| bags.map_or_else(unknown, |bags| parts(bags.thousandths))));
        let wants = bed.wants.map(|[least, most]| {
            let [low, high] = [least, most].map(|wants| style.write(wants, Rounding::Up));
            let thin = if bed.is_thin() == Some(true) { ": thin" } else { "" };
            if least == most { format!("{high}{thin}") } else { format!("{low} to {high}{thin}") }
        });
        cells.push(wants.unwrap_or_else(unknown));
        cells.push(told.set(row));
        Some(cells)
    });
    document.grid(&heads, rows.collect());
}

/// Writes thousandths of a bag as hundredths, up.
fn parts(thousandths: u64) -> String {
    let hundredths = thousandths.div_ceil(10);
    format!("{}.{:02}", hundredths / 100, hundredths % 100)
}

/// Says what all forms hold and how many bags that is.
fn in_all(told: &Told<'_>) -> String {
    let (grout, supply) = (&told.list.grout, &told.judged.case.job.supplies.grout);
    let (Some(volume), Some(mixed)) = (grout.volume, grout.mixed) else {
        return "Where the size of a plate is not given, its grout is not known, nor is that of the job: give plate size."
            .to_owned();
    };
    let waste = supply.waste.value;
    let mut words = format!(
        "The forms hold {}; with {waste} % waste {}",
        told.style.volume(volume, Rounding::Up),
        told.style.volume(mixed, Rounding::Up)
    );
    if let (Some(bags), Some(apart)) = (grout.bags, grout.apart) {
        words.push_str(&format!(": {}, bought together", whole(bags)));
        if apart > bags.whole {
            words.push_str(&format!("; {apart} where each base is mixed from bags of its own"));
        }
    }
    format!("{words}.")
}

fn whole(bags: Bags) -> String {
    let noun = if bags.whole == 1 { "bag" } else { "bags" };
    format!("{} {noun} ({})", bags.whole, parts(bags.thousandths))
}

fn notes(document: &mut Document, told: &Told<'_>) {
    let supply = &told.judged.case.job.supplies.grout;
    match &supply.bag {
        Some(bag) => document.item(
            Tone::Quiet,
            "bag",
            format!("{}, yields {}; source, {}", bag.title, told.style.volume(bag.yields, Rounding::Down), source(&bag.authority)),
        ),
        None => document.item(
            Tone::Ask,
            "bag",
            "not named: put product = \"bag-50-lb\" (rodreach catalog grouts) or the yield on its data sheet, \
             yield = \"0.45 ft3\", under [grout]",
        ),
    }
    let at = supply.bag.as_ref().and_then(|bag| bag.consistency);
    if let Some((at, mixed)) = at.zip(supply.consistency).filter(|(at, mixed)| at != mixed) {
        let words = format!(
            "that yield is for {} grout and this job mixes {}: read the data sheet of the bag",
            at.words(),
            mixed.words()
        );
        document.item(Tone::Ask, " ", words);
    }
    document.item(
        Tone::Quiet,
        "waste",
        format!("{} %, counted in the bags; source, {}", supply.waste.value, source(&supply.waste.authority)),
    );
    let form = match (supply.edge, supply.shoulder) {
        (None, _) => {
            "at the edge of the plate: no edge is given under [grout], a form that stands clear holds more"
                .to_owned()
        }
        (Some(edge), shoulder) => format!(
            "{} clear of the plate on every side, grout {} above its underside there",
            told.style.exact(edge),
            told.style.exact(shoulder)
        ),
    };
    document.item(
        Tone::Quiet,
        "form",
        format!("{form}. Rods, nuts and packs in the grout and chamfers are not taken off."),
    );
    let consistency = supply.consistency.unwrap_or(Consistency::Flowable).words();
    let assumed = if supply.consistency.is_none() { "; no consistency is given" } else { "" };
    document.item(
        Tone::Quiet,
        "flow",
        format!(
            "the bed that {consistency} grout wants across the plate's shorter side (to flow){assumed}; told, not judged. \
             Source, {}",
            source(&flow_authority())
        ),
    );
}
