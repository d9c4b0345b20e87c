//! What to watch with the instruments in use, and what half a division of a bubble costs.

use crate::catalog::InstrumentKind;
use crate::check::style;
use crate::length::{Length, Rounding, Unit};
use crate::levels::Levelled;
use crate::model::{Job, Units};
use crate::report::document::{Document, Tone};
use crate::text::{Style, System};
use std::collections::BTreeSet;

/// Adds what to watch to the screen of `level`; nothing where no kind of instrument of the catalog was named.
pub fn watch(document: &mut Document, job: &Job, levels: &Levelled, kinds: &[InstrumentKind]) {
    let named: BTreeSet<&str> =
        job.readings.instruments.iter().filter_map(|instrument| instrument.kind.as_deref()).collect();
    let style = style(job);
    for kind in kinds.iter().filter(|kind| named.contains(kind.name.as_str())) {
        document.heading(Tone::Plain, format!("WHAT TO WATCH, {}", kind.name));
        for sentence in &kind.watch {
            document.item(Tone::Plain, "-", sentence.clone());
        }
        if job.readings.kinds_assumed.contains(&kind.name) {
            document.text(Tone::Plain, good_to(job, kind, style));
        }
        if let Some(bubble) = &kind.bubble {
            let (sight, known) = longest(job, levels, &kind.name);
            let cost = style.write(bubble.half_a_division_over(sight), Rounding::Up);
            let over = match known {
                true => format!("the longest sight, {}", style.elevation(sight)),
                false => format!("{} (no sight length is known)", style.elevation(sight)),
            };
            document.text(
                Tone::Plain,
                format!(
                    "Half a division of a bubble of {} seconds of arc ({}) costs {cost} over {over}.",
                    bubble.seconds,
                    bubble.authority.kind.words()
                ),
            );
        }
    }
}

/// Says what a reading is taken to be good to, where the job leaves that to the catalog.
fn good_to(job: &Job, kind: &InstrumentKind, style: Style) -> String {
    let [inch, metric] = kind.without_sight;
    let without = match job.units {
        Units::Inch => inch,
        Units::Millimetre => metric,
    };
    // the catalog is in millimetres
    let metric = Style::new(System::Metric, 16);
    let grows = kind.per_sight.map_or(String::new(), |[rise, run]| {
        let [reading, rise] = [kind.reading, rise].map(|length| metric.exact(length));
        format!(", with a sight length as +-{reading} and +-{rise} over {}", metric.elevation(run))
    });
    format!(
        "The job does not say what its readings are good to: each is taken as +-{}{grows} ({}; rodreach catalog {}). State yours.",
        style.exact(without),
        kind.authority.kind.words(),
        kind.name
    )
}

/// Gives the longest sight of a kind of instrument and true, or 100 ft or 30 m and false.
fn longest(job: &Job, levels: &Levelled, kind: &str) -> (Length, bool) {
    let readings = &job.readings;
    let by_kind = |setup: usize| {
        let instrument = readings.setups.get(setup).and_then(|setup| setup.instrument);
        let instrument = instrument.and_then(|it| readings.instruments.get(it));
        instrument.is_some_and(|it| it.kind.as_deref() == Some(kind))
    };
    let sights = readings.sights.iter().zip(levels.sight_lengths()).filter(|(sight, _)| by_kind(sight.setup));
    match sights.filter_map(|(_, length)| *length).max() {
        Some(longest) => (longest, true),
        None => match job.units {
            Units::Inch => (Length::from_nm(100 * Unit::Foot.nm()), false),
            Units::Millimetre => (Length::from_nm(30 * Unit::Metre.nm()), false),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::load;
    use crate::input::{Override, load as load_job};
    use crate::levels::reduce;
    use crate::report::Block;
    use std::fs;

    const JOB: &str = r#"[job]
name = "Shed"
units = "in"
limits = "low-rise"
[measure]
levels = "levels.csv"
levels_units = "ft"
[[base]]
mark = "B1"
plate = { thickness = "1/2" }
rods = { diameter = "3/4", count = 4 }
washers = ["wide"]
nuts = ["heavy-hex"]
[[column]]
mark = "A1"
[[column]]
mark = "A2"
"#;

    /// Gives the section as lines, for a job with this under `[measure]`, these tables behind it, and these level notes.
    fn told(measure: &str, tables: &str, levels: &str) -> Vec<String> {
        let folder = tempfile::TempDir::new().unwrap();
        let toml = JOB.replace("[[base]]", &format!("{measure}\n[[base]]")) + tables;
        fs::write(folder.path().join("job.toml"), toml).unwrap();
        fs::write(folder.path().join("levels.csv"), levels).unwrap();
        let job = load_job(folder.path(), &Override::default()).unwrap().job;
        let mut document = Document::default();
        watch(&mut document, &job, &reduce(&job), &load().unwrap().instruments);
        let lines = document.blocks.into_iter().filter_map(|block| match block {
            Block::Heading(_, text) | Block::Text(_, text) | Block::Item(_, _, text) => Some(text),
            _ => None,
        });
        lines.collect()
    }

    const PLAIN: &str = "point,reading\nA1,4.5\nA2,4.6\n";

    #[test]
    fn nothing_is_said_where_no_kind_of_the_catalog_is_named() {
        assert!(told("", "", PLAIN).is_empty());
        assert!(told("instrument = \"the old one\"", "", PLAIN).is_empty());
    }

    #[test]
    fn a_kind_tells_what_to_watch_what_it_is_taken_as_and_what_half_a_division_costs() {
        let lines = told("instrument = \"Optical level\"", "", PLAIN);
        assert_eq!(lines[0], "WHAT TO WATCH, optical-level");
        assert!(lines.iter().any(|it| it.contains("before the tripod is moved")), "{lines:?}");
        let end = &lines[lines.len() - 2..];
        assert_eq!(
            end[0],
            "The job does not say what its readings are good to: each is taken as +-1/16\", with a sight length as \
             +-1 mm and +-1.1 mm over 30 m (house rule; rodreach catalog optical-level). State yours."
        );
        // 1.4777 mm, and 1/16 in is 1.5875 mm
        assert_eq!(
            end[1],
            "Half a division of a bubble of 20 seconds of arc (published) costs ~1/16\" over 100'-0\" \
             (no sight length is known)."
        );
    }

    #[test]
    fn the_longest_sight_of_that_kind_counts_where_lengths_are_given() {
        let tables = "[[instrument]]\nname = \"L\"\nkind = \"optical-level\"\n\
                      [[instrument]]\nname = \"R\"\nkind = \"rotary-laser\"\n\
                      [[setup]]\nname = \"1\"\ninstrument = \"L\"\n[[setup]]\nname = \"2\"\ninstrument = \"R\"\n";
        let levels = "setup,point,reading,distance\n1,A1,4.5,20\n1,A2,4.6,250\n2,A1,4.5,900\n2,A2,4.6,800\n";
        let lines = told("", tables, levels);
        assert!(
            lines.iter().any(|it| it.ends_with("costs ~3/16\" over the longest sight, 250'-0\".")),
            "{lines:?}"
        );
        assert!(lines.iter().any(|it| it == "WHAT TO WATCH, rotary-laser"));
    }

    #[test]
    fn what_the_job_states_is_not_called_the_catalogs() {
        for lines in [
            told("instrument = \"optical level\"\nlevels_plus_minus = \"1/32\"", "", PLAIN),
            told("levels_plus_minus = \"1/32\"", "[[instrument]]\nkind = \"optical-level\"\n", PLAIN),
            told("", "[[instrument]]\nkind = \"optical-level\"\nplus_minus = \"1/32\"\n", PLAIN),
        ] {
            assert_eq!(lines[0], "WHAT TO WATCH, optical-level");
            assert!(!lines.iter().any(|it| it.contains("does not say")), "{lines:?}");
        }
    }
}
