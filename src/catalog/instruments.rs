//! Instruments, and what one reading with them is taken to be good to where the job does not say.

use super::authority::{Authority, read_authority};
use super::row;
use crate::length::Length;
use crate::source::{Node, Table, Walk};

/// A kind of instrument.
#[derive(Clone, Debug)]
pub struct InstrumentKind {
    /// What a job file calls it.
    pub name: String,
    /// What it is.
    pub title: String,
    /// One reading at no distance is good to plus or minus this, at 95 %.
    pub reading: Length,
    /// What that grows by with the length of the sight, rise over run, at 95 %; the two add as squares.
    pub per_sight: Option<[Length; 2]>,
    /// What a reading whose sight length is not known is good to, in an inch job and in a metric one.
    pub without_sight: [Length; 2],
    /// What to watch, a sentence each.
    pub watch: Vec<String>,
    /// The bubble that sets its line of sight, where it has one.
    pub bubble: Option<Bubble>,
    /// On whose word the figures stand.
    pub authority: Authority,
}

/// The bubble that sets a line of sight.
#[derive(Clone, Debug)]
pub struct Bubble {
    /// What one division is worth, in seconds of arc.
    pub seconds: i64,
    /// On whose word that stands.
    pub authority: Authority,
}

/// One second of arc, as rise over a run of [`RUN`].
///
/// # Source
/// The definition of the second of arc, pi / 648 000 (The International System of Units, table of units accepted for
/// use with the SI), cut after ten digits.
const SECOND_OF_ARC: i128 = 4_848_136_811;

/// The run that [`SECOND_OF_ARC`] belongs to.
const RUN: i128 = 1_000_000_000_000_000;

/// Most seconds of arc that a division is worth.
const MOST_SECONDS: i64 = 3_600;

impl Bubble {
    /// Gives what half a division is worth over a sight, rounded up to the next nanometre.
    ///
    /// # Units
    /// The angle is taken as its own tangent, which is 0.01 % too little for a whole degree.
    ///
    /// # Example
    /// ```
    /// use rodreach::catalog::{Authority, Bubble, Standing};
    /// use rodreach::length::Length;
    /// let bubble = Bubble { seconds: 20, authority: Authority::this_job() };
    /// // half of 20 seconds, 10 times 4.848 micrometres a metre, over 30 m
    /// assert_eq!(bubble.half_a_division_over(Length::from_nm(30_000_000_000)).nm(), 1_454_442);
    /// ```
    #[must_use]
    pub fn half_a_division_over(&self, sight: Length) -> Length {
        let twice = i128::from(sight.abs().nm()) * i128::from(self.seconds.abs()) * SECOND_OF_ARC;
        let under = 2 * RUN;
        let up = twice / under + i128::from(twice % under != 0);
        Length::from_nm(i64::try_from(up).unwrap_or(i64::MAX))
    }
}

impl InstrumentKind {
    /// Tells whether a job's word for an instrument means this kind: its name, blanks for hyphens.
    #[must_use]
    pub fn is_called(&self, word: &str) -> bool {
        let called: Vec<&str> = word.split([' ', '-']).filter(|part| !part.is_empty()).collect();
        called.join("-").eq_ignore_ascii_case(&self.name)
    }
}

pub(super) fn read(walk: Walk<'_>, root: &Node) -> Option<Vec<InstrumentKind>> {
    let table = walk.table(root, "the catalog file")?;
    let walk = row::units(walk, &table)?;
    let head = row::head(walk, &table)?;
    let rows = row::rows(walk, table.need(walk, "row", "[[row]]"), head.source.as_ref(), |row, authority| {
        kind(walk, row, authority)
    });
    table.close(walk);
    Some(rows)
}

fn kind(walk: Walk<'_>, row: &Table<'_>, authority: Authority) -> Option<InstrumentKind> {
    let name = row.need(walk, "name", "\"optical-level\"").and_then(|node| walk.name(node));
    let title = row.need(walk, "title", "\"what it is\"").and_then(|node| walk.name(node));
    let reading = row::need(walk, row, "reading");
    let per_sight = row.get("per_sight").and_then(|node| walk.lengths(node));
    let without_sight = row.need(walk, "without_sight", "[\"1/16 in\", \"1.5 mm\"]");
    let without_sight = without_sight.and_then(|node| walk.lengths(node));
    let watch = row.need(walk, "watch", "[\"what to watch\"]").and_then(|node| walk.list(node));
    let watch = watch.map(|items| items.iter().filter_map(|item| walk.text(item)).collect());
    let bubble = match row.get("bubble") {
        Some(node) => Some(bubble(walk, node)?),
        None => None,
    };
    Some(InstrumentKind {
        name: name?,
        title: title?,
        reading: reading?,
        per_sight,
        without_sight: without_sight?,
        watch: watch?,
        bubble,
        authority,
    })
}

/// Reads `{ seconds, source }`.
fn bubble(walk: Walk<'_>, node: &Node) -> Option<Bubble> {
    let table = walk.table(node, "bubble")?;
    let seconds = table.need(walk, "seconds", "20").and_then(|node| walk.whole(node, 1, MOST_SECONDS));
    let source = table.need(walk, "source", "{ kind, text }").and_then(|node| read_authority(walk, node));
    table.close(walk);
    Some(Bubble { seconds: seconds?, authority: source? })
}

#[cfg(test)]
mod tests {
    use super::super::load;
    use super::*;
    use crate::catalog::Standing;

    #[test]
    fn a_kind_is_known_by_its_name_with_blanks_or_hyphens() {
        let catalog = load().unwrap();
        let found =
            |word: &str| catalog.instruments.iter().find(|kind| kind.is_called(word)).map(|it| &it.name);
        assert_eq!(found("Optical level").unwrap(), "optical-level");
        assert_eq!(found("optical-level").unwrap(), "optical-level");
        assert_eq!(found("optical level, shop no. 3"), None);
    }

    #[test]
    fn every_kind_has_figures_that_can_be_used() {
        for kind in load().unwrap().instruments {
            assert!(!kind.watch.is_empty(), "{}", kind.name);
            assert!(kind.per_sight.is_none_or(|[rise, run]| rise.nm() > 0 && run.nm() > 0), "{}", kind.name);
            assert!(kind.without_sight.iter().all(|it| *it >= kind.reading), "{}", kind.name);
        }
    }

    #[test]
    fn the_first_kind_without_a_sight_length_is_the_programs_own_default() {
        let kinds = load().unwrap().instruments;
        let optical = kinds.iter().find(|kind| kind.name == "optical-level").unwrap();
        assert_eq!(optical.without_sight.map(Length::nm), [1_587_500, 1_500_000]);
    }

    /// Squares are compared in micrometres, which is fine enough and does not run over.
    fn squared(length: Length) -> i64 {
        (length.nm() / 1_000).pow(2)
    }

    #[test]
    fn a_reading_of_unknown_length_is_never_better_than_one_over_a_long_sight() {
        for kind in load().unwrap().instruments {
            let far = if kind.name == "no-instrument" { 8 } else { 30 };
            let grown = kind.per_sight.map_or(Length::ZERO, |[rise, run]| {
                Length::from_nm(rise.nm() * far / (run.nm() / 1_000_000_000))
            });
            let together = squared(kind.reading) + squared(grown);
            for without in kind.without_sight {
                assert!(squared(without) >= together, "{}: {without:?}, {grown:?}", kind.name);
            }
        }
    }

    #[test]
    fn no_figure_of_a_kind_passes_for_published() {
        for kind in load().unwrap().instruments {
            assert_eq!(kind.authority.kind, Standing::HouseRule, "{}", kind.name);
            assert!(!kind.authority.text.contains("to be sourced"), "{}", kind.name);
        }
    }

    #[test]
    fn the_least_certain_kind_is_the_one_without_an_instrument() {
        let kinds = load().unwrap().instruments;
        let (none, others): (Vec<_>, Vec<_>) = kinds.iter().partition(|kind| kind.name == "no-instrument");
        for other in others {
            let worse = none[0].without_sight.iter().zip(&other.without_sight).all(|(none, it)| none > it);
            assert!(worse, "{}", other.name);
        }
    }

    fn half(seconds: i64, nm: i64) -> i64 {
        let authority = Authority::new(Standing::HouseRule, "a test");
        Bubble { seconds, authority }.half_a_division_over(Length::from_nm(nm)).nm()
    }

    #[test]
    fn half_a_division_of_a_bubble_is_exact_to_a_nanometre_and_rounds_up() {
        // pi / 648 000 = 4.84813681109536e-6: 1 second over 1 m is 4848.136... nm
        assert_eq!(half(2, 1_000_000_000), 4_849);
        assert_eq!(half(1, 1_000_000_000), 2_425);
        assert_eq!(half(20, 30_480_000_000), 1_477_713);
        assert_eq!(half(2, 10_000_000_000_000), 48_481_369);
        assert_eq!((half(20, 0), half(3_600, i64::MIN + 1)), (0, half(3_600, i64::MAX)));
        // a radian is 206 265 seconds: the same by another way
        assert_eq!(half(2, 206_264_806_247), 1_000_000);
    }
}
