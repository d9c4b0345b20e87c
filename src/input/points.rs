//! The points of the level notes, each named once, and the benchmarks.

use super::context::Context;
use super::job_toml::entries;
use crate::length::Length;
use crate::model::Benchmark;
use crate::source::{Place, Table};
use std::collections::BTreeMap;

/// Points in the order of their first appearance.
#[derive(Default)]
pub(super) struct Points {
    /// Their names.
    pub(super) names: Vec<String>,
    by_name: BTreeMap<String, usize>,
}

impl Points {
    /// Gives the number of a point, a new one where it was not named before.
    pub(super) fn number(&mut self, name: &str) -> usize {
        if let Some(number) = self.get(name) {
            return number;
        }
        self.by_name.insert(name.to_owned(), self.names.len());
        self.names.push(name.to_owned());
        self.names.len() - 1
    }

    /// Numbers a new point that is not found by its name.
    pub(super) fn fresh(&mut self, name: &str) -> usize {
        self.names.push(name.to_owned());
        self.names.len() - 1
    }

    /// Gives the number of a point that was named before.
    pub(super) fn get(&self, name: &str) -> Option<usize> {
        self.by_name.get(name).copied()
    }
}

/// One benchmark as it is read.
struct Told {
    name: String,
    elevation: Length,
    plus_minus: Length,
    at: Option<[Length; 2]>,
    place: Place,
}

/// The benchmarks as they are read.
#[derive(Default)]
pub(super) struct Marks {
    found: BTreeMap<String, Place>,
    in_order: Vec<Told>,
    /// Whether a name may be missing because something could not be read.
    pub(super) broken: bool,
}

impl Marks {
    /// Tells whether a point is a benchmark.
    pub(super) fn has(&self, point: &str) -> bool {
        self.found.contains_key(point)
    }

    /// Gives the names of all benchmarks.
    pub(super) fn names(&self) -> impl Iterator<Item = &str> + Clone {
        self.found.keys().map(String::as_str)
    }

    /// Numbers the benchmarks as points.
    pub(super) fn finish(self, points: &mut Points) -> Vec<Benchmark> {
        let numbered = self.in_order.into_iter();
        numbered
            .map(|told| Benchmark {
                point: points.number(&told.name),
                elevation: told.elevation,
                plus_minus: told.plus_minus,
                at: told.at,
                place: told.place,
            })
            .collect()
    }
}

/// Reads every `[[benchmark]]`.
pub(super) fn benchmarks(context: Context<'_>, root: &Table<'_>) -> Marks {
    let walk = context.walk;
    let mut marks = Marks::default();
    for node in entries(walk, root, "benchmark") {
        let Some(table) = walk.table(node, "[[benchmark]]") else {
            marks.broken = true;
            continue;
        };
        let point = table.need(walk, "point", "\"BM1\"");
        let point = point.and_then(|node| Some((context.name(&walk.text(node)?, node.place)?, node.place)));
        let elevation = table.need(walk, "elevation", "\"100'\"");
        let elevation = elevation.and_then(|node| Some((walk.length(node)?, node.place)));
        let plus_minus = match table.get("plus_minus") {
            Some(node) => walk.size(node),
            None => Some(Length::ZERO),
        };
        let at = table.get("at").map(|node| walk.lengths(node));
        table.close(walk);
        let Some((name, place)) = point else {
            marks.broken = true;
            continue;
        };
        if let Some(first) = marks.found.get(&name) {
            context.twice(&format!("the benchmark `{name}`"), place, *first);
            continue;
        }
        marks.found.insert(name.clone(), place);
        if let (Some((elevation, place)), Some(plus_minus)) = (elevation, plus_minus) {
            marks.in_order.push(Told { name, elevation, plus_minus, at: at.flatten(), place });
        }
    }
    marks
}
