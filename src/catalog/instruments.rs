//! Instruments, and what one reading with them is taken to be good to where the job does not say.

use super::authority::Authority;
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
    /// On whose word the figures stand.
    pub authority: Authority,
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
    Some(InstrumentKind {
        name: name?,
        title: title?,
        reading: reading?,
        per_sight,
        without_sight: without_sight?,
        watch: watch?,
        authority,
    })
}

#[cfg(test)]
mod tests {
    use super::super::load;

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
}
