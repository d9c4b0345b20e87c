//! Bags of grout: what one bag yields, and what is mixed beside what is needed.

use super::authority::{Authority, read_authority};
use super::limits::Limit;
use super::row;
use crate::length::{Unit, Volume};
use crate::source::{Node, Problem, Table, Walk};

/// How stiff grout is mixed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Consistency {
    /// It runs out of a flow cone.
    Fluid,
    /// It spreads on a flow table.
    Flowable,
    /// It has to be rodded.
    Plastic,
}

impl Consistency {
    /// Every consistency as job files have it.
    pub const WRITTEN: [(&'static str, Self); 3] =
        [("fluid", Self::Fluid), ("flowable", Self::Flowable), ("plastic", Self::Plastic)];

    /// Gives the consistency as job files have it.
    #[must_use]
    pub fn words(self) -> &'static str {
        Self::WRITTEN.iter().find(|(_, it)| *it == self).map_or("", |(words, _)| words)
    }
}

/// A bag of grout.
#[derive(Clone, Debug)]
pub struct GroutBag {
    /// What a job file calls it.
    pub name: String,
    /// What it is.
    pub title: String,
    /// The consistency its yield is given at, where known.
    pub consistency: Option<Consistency>,
    /// What one bag yields.
    pub yields: Volume,
    /// On whose word.
    pub authority: Authority,
}

/// A list of bags.
#[derive(Clone, Debug)]
pub struct Grouts {
    /// What it is called.
    pub name: String,
    /// What it is.
    pub title: String,
    /// The unit its figures are written in.
    pub unit: Unit,
    /// What is mixed beside what is needed where the job does not say, in percent.
    pub waste: Limit<u32>,
    /// Its bags.
    pub bags: Vec<GroutBag>,
}

pub(super) fn read(walk: Walk<'_>, root: &Node) -> Option<Grouts> {
    let table = walk.table(root, "the catalog file")?;
    let walk = row::units(walk, &table)?;
    let head = row::head(walk, &table)?;
    let waste = table.need(walk, "waste", "{ percent = 10, source = { … } }");
    let waste = waste.and_then(|node| waste_of(walk, node));
    let bags = row::rows(walk, table.need(walk, "row", "[[row]]"), head.source.as_ref(), |row, authority| {
        bag(walk, row, authority)
    });
    table.close(walk);
    Some(Grouts { name: head.name, title: head.title, unit: head.unit, waste: waste?, bags })
}

fn waste_of(walk: Walk<'_>, node: &Node) -> Option<Limit<u32>> {
    let table = walk.table(node, "waste")?;
    let percent = table.need(walk, "percent", "10").and_then(|node| walk.whole(node, 0, 100));
    let source = table.need(walk, "source", "{ kind, text }").and_then(|node| read_authority(walk, node));
    table.close(walk);
    Some(Limit { value: u32::try_from(percent?).ok()?, authority: source? })
}

fn bag(walk: Walk<'_>, row: &Table<'_>, authority: Authority) -> Option<GroutBag> {
    let name = row.need(walk, "name", "\"bag-50-lb\"").and_then(|node| walk.name(node));
    let title = row.need(walk, "title", "\"what it is\"").and_then(|node| walk.name(node));
    let yields = row.need(walk, "yield", "\"0.45 ft3\"").and_then(|node| walk.volume(node));
    let consistency = row.need(walk, "consistency", "\"flowable\"").and_then(|node| {
        let words = walk.text(node)?;
        let found = Consistency::WRITTEN.iter().find(|(known, _)| *known == words);
        if found.is_none() {
            walk.problems.note(Problem::at(node.place, "this is not a consistency of grout"));
        }
        found.map(|(_, it)| *it)
    });
    Some(GroutBag { name: name?, title: title?, consistency: Some(consistency?), yields: yields?, authority })
}

#[cfg(test)]
mod tests {
    use super::super::{Standing, load};
    use super::*;
    use crate::length::read_volume;

    /// Three data sheets of non-shrink grout: a 50 lb bag yields 0.45 ft3, 12.7 l, at flowable consistency.
    #[test]
    fn a_bag_of_50_lb_yields_0_45_cubic_feet_and_that_is_12_7_litres() {
        let grouts = load().unwrap().grouts;
        let bag = grouts[0].bags.iter().find(|bag| bag.name == "bag-50-lb").unwrap();
        assert_eq!(Some(bag.yields), read_volume("0.45 ft3"));
        let [least, most] = ["12.65 l", "12.75 l"].map(|text| read_volume(text).unwrap());
        assert!(least < bag.yields && bag.yields < most);
        assert_eq!((bag.consistency, bag.authority.kind), (Some(Consistency::Flowable), Standing::Published));
    }

    #[test]
    fn what_no_sheet_was_seen_for_says_that_it_is_from_memory() {
        let grouts = load().unwrap().grouts;
        let published: Vec<&str> = grouts[0]
            .bags
            .iter()
            .filter(|bag| bag.authority.kind == Standing::Published)
            .map(|bag| bag.name.as_str())
            .collect();
        assert_eq!(published, ["bag-50-lb"]);
        assert_eq!((grouts[0].waste.value, grouts[0].waste.authority.kind), (10, Standing::HouseRule));
    }
}
