//! The instruments in `catalog`: what a reading is taken to be good to, the bubble, and what to watch.

use super::list::{Lister, Row};
use crate::catalog::{Authority, InstrumentKind};
use crate::length::Length;
use crate::text::{Style, System};

/// Lists every kind of instrument, a series each.
pub(super) fn instruments(kinds: &[InstrumentKind], rows: &mut Vec<Row>) {
    let style = Style::new(System::Metric, 16);
    for kind in kinds {
        let (series, title, authority) = (&kind.name, &kind.title, &kind.authority);
        let mut lister = Lister { kind: "instruments", series, title, style, rows };
        let one = |lister: &mut Lister<'_>, figure, length: Length, words: String, authority: &Authority| {
            lister.words("a reading", figure, words, authority);
            lister.nominal(length);
        };
        one(&mut lister, "at no distance", kind.reading, good_to(kind.reading, style), authority);
        if let Some([rise, run]) = kind.per_sight {
            let words = format!("{} over {}", good_to(rise, style), style.elevation(run));
            one(&mut lister, "grows by", rise, words, authority);
        }
        let [inch, metric] = kind.without_sight;
        let in_inches = Style::new(System::Inch, 64);
        one(&mut lister, "no sight length, in", inch, good_to(inch, in_inches), authority);
        one(&mut lister, "no sight length, mm", metric, good_to(metric, style), authority);
        if let Some(bubble) = &kind.bubble {
            let seconds = format!("{} seconds of arc a division", bubble.seconds);
            lister.words("the bubble", "sensitivity", seconds, &bubble.authority);
        }
        for sentence in &kind.watch {
            lister.words("the crew", "watch", sentence.clone(), authority);
        }
    }
}

fn good_to(length: Length, style: Style) -> String {
    format!("+-{}", style.exact(length))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::load;

    #[test]
    fn every_kind_is_listed_with_its_figures_and_what_to_watch() {
        let catalog = load().unwrap();
        let mut rows = Vec::new();
        instruments(&catalog.instruments, &mut rows);
        for kind in &catalog.instruments {
            let of_kind: Vec<&Row> = rows.iter().filter(|row| row.series == kind.name).collect();
            let figures = 3 + usize::from(kind.per_sight.is_some()) + usize::from(kind.bubble.is_some());
            assert_eq!(of_kind.len(), figures + kind.watch.len(), "{}", kind.name);
            assert!(of_kind.iter().all(|row| row.kind == "instruments"));
        }
        let words: Vec<&str> =
            rows.iter().filter(|row| row.series == "optical-level").map(|row| row.words.as_str()).collect();
        assert_eq!(words[..4], ["+-1 mm", "+-1.1 mm over 30 m", "+-1/16\"", "+-1.5 mm"]);
        assert_eq!(words[4], "20 seconds of arc a division");
    }
}
