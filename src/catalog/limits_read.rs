//! Reading a limit set, and single values of it that a job replaces.

use super::authority::{Authority, read_authority};
use super::engagement::{Engagement, InPitches};
use super::limits::{
    Accept, Grind, Grout, Limit, LimitSet, Limits, PadLimits, RodLimits, ShimLimits, WallAccept,
};
use super::row;
use crate::length::Length;
use crate::source::{Kind, Node, Problem, Table, Walk};

/// Reads a limit set file.
#[must_use]
pub fn read_limit_set(walk: Walk<'_>, root: &Node) -> Option<LimitSet> {
    let table = walk.table(root, "the limit set")?;
    let walk = row::units(walk, &table)?;
    let head = row::head(walk, &table)?;
    let mut limits = Limits::default();
    replace_tables(walk, &table, &mut limits, Replacing::File);
    if let Some(node) = table.get("plates") {
        let authority = head.source.unwrap_or_else(|| {
            Authority::new(super::Standing::HouseRule, "the plate table this limit set names")
        });
        limits.plates = walk.name(node).map(|value| Limit { value, authority });
    }
    table.close(walk);
    Some(LimitSet { name: head.name, title: head.title, unit: head.unit, limits })
}

/// Replaces single values of a limit set by those of a job's `[limits]`.
pub fn replace_limits(walk: Walk<'_>, node: &Node, limits: &mut Limits) {
    let Some(table) = walk.table(node, "[limits]") else { return };
    replace_tables(walk, &table, limits, Replacing::Job);
    if let Some(node) = table.get("plates") {
        limits.plates = walk.name(node).map(|value| Limit { value, authority: Authority::this_job() });
    }
    table.close(walk);
}

/// Whose values are read.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Replacing {
    /// A limit set file: every table has its source.
    File,
    /// A job file: its values stand on its own word.
    Job,
}

fn replace_tables(walk: Walk<'_>, table: &Table<'_>, limits: &mut Limits, by: Replacing) {
    if let Some(one) = One::open(walk, table, "engagement", by) {
        limits.engagement = one.close(|one| engagement(one, limits.engagement.as_ref()));
    }
    if let Some(one) = One::open(walk, table, "neighbours", by) {
        limits.neighbours = one.close(|one| accept(one, limits.neighbours.as_ref()));
    }
    if let Some(one) = One::open(walk, table, "wall", by) {
        limits.wall = one.close(|one| wall(one, limits.wall.as_ref()));
    }
    if let Some(one) = One::open(walk, table, "building", by) {
        limits.building = one.close(|one| accept(one, limits.building.as_ref()));
    }
    if let Some(one) = One::open(walk, table, "design", by) {
        limits.design = one.close(|one| accept(one, limits.design.as_ref()));
    }
    if let Some(one) = One::open(walk, table, "pad", by) {
        limits.pad = one.close(|one| Some(pad(one, limits.pad.as_ref())));
    }
    if let Some(one) = One::open(walk, table, "shim", by) {
        limits.shim = one.close(|one| Some(shim(one, limits.shim.as_ref())));
    }
    if let Some(one) = One::open(walk, table, "grout", by) {
        limits.grout = one.close(|one| grout(one, limits.grout.as_ref()));
    }
    if let Some(one) = One::open(walk, table, "grind", by) {
        limits.grind = one.close(|one| grind(one, limits.grind.as_ref()));
    }
    if let Some(one) = One::open(walk, table, "rods", by) {
        limits.rods = one.close(|one| Some(rods(one, limits.rods.as_ref())));
    }
}

/// One table of a limit set, with the authorities of its values.
struct One<'p, 'n> {
    walk: Walk<'p>,
    table: Table<'n>,
    authority: Authority,
    keyed: Vec<(String, Authority)>,
    off: bool,
}

impl<'p, 'n> One<'p, 'n> {
    fn open(walk: Walk<'p>, parent: &Table<'n>, key: &'static str, by: Replacing) -> Option<Self> {
        let table = walk.table(parent.get(key)?, &format!("[{key}] of the limits"))?;
        let mut keyed = Vec::new();
        let authority = match by {
            Replacing::Job => Authority::this_job(),
            Replacing::File => {
                if let Some(node) = table.get("sources") {
                    keyed = keyed_sources(walk, node);
                }
                let own = table.need(walk, "source", "{ kind = \"published\", text = \"…\" }");
                read_authority(walk, own?)?
            }
        };
        let off = table.get("off").and_then(|node| walk.yes(node)).unwrap_or(false);
        Some(Self { walk, table, authority, keyed, off })
    }

    /// Reads the table unless it is switched off, and reports keys nobody took.
    fn close<T>(self, read: impl FnOnce(&Self) -> Option<T>) -> Option<T> {
        let read = read(&self);
        self.table.close(self.walk);
        if self.off { None } else { read }
    }

    fn limit<T>(&self, key: &str, value: T) -> Limit<T> {
        let keyed = self.keyed.iter().find(|(name, _)| name == key);
        let authority = keyed.map_or_else(|| self.authority.clone(), |(_, authority)| authority.clone());
        Limit { value, authority }
    }

    fn size(&self, key: &'static str) -> Option<Limit<Length>> {
        let value = self.walk.size(self.table.get(key)?)?;
        Some(self.limit(key, value))
    }

    fn whole(&self, key: &'static str, least: i64, most: i64) -> Option<Limit<u32>> {
        let value = self.walk.whole(self.table.get(key)?, least, most)?;
        Some(self.limit(key, u32::try_from(value).ok()?))
    }

    fn in_pitches(&self, key: &'static str) -> Option<Limit<InPitches>> {
        let node = self.table.get(key)?;
        if !matches!(node.kind, Kind::Table(_)) {
            return Some(self.limit(key, InPitches::Length(self.walk.size(node)?)));
        }
        let table = self.walk.table(node, key)?;
        let pitches = table.need(self.walk, "pitches", "1").and_then(|node| self.walk.whole(node, 0, 100));
        table.close(self.walk);
        Some(self.limit(key, InPitches::Pitches(pitches?)))
    }

    /// Gives the new value, or the one that stands already, or says that one is missing.
    fn or<T: Clone>(&self, key: &str, new: Option<Limit<T>>, old: Option<&Limit<T>>) -> Option<Limit<T>> {
        let found = new.or_else(|| old.cloned());
        if found.is_none() && !self.off {
            self.walk.problems.note(
                Problem::at(
                    self.table.place(),
                    format!("`{key}` is missing here, and no limit set gives it"),
                )
                .fix(format!("add {key}, or drop the table with off = true")),
            );
        }
        found
    }

    fn lowest_and_highest(&self, key: &'static str) -> Option<Limit<[Length; 2]>> {
        let node = self.table.get(key)?;
        let [low, high] = self.walk.lengths(node)?;
        if low > high {
            self.walk.problems.note(Problem::at(node.place, "the lowest stands behind the highest here"));
            return None;
        }
        Some(self.limit(key, [low, high]))
    }

    fn positive(&self, key: &'static str) -> Option<Limit<Length>> {
        let value = self.walk.thickness(self.table.get(key)?)?;
        Some(self.limit(key, value))
    }
}

fn keyed_sources(walk: Walk<'_>, node: &Node) -> Vec<(String, Authority)> {
    let Some(table) = walk.table(node, "sources") else { return Vec::new() };
    let read = table.all().iter().map(|(key, node)| Some((key.name.clone(), read_authority(walk, node)?)));
    read.collect::<Vec<_>>().into_iter().flatten().collect()
}

fn engagement(one: &One<'_, '_>, old: Option<&Engagement>) -> Option<Engagement> {
    let beyond = one.or("beyond", one.in_pitches("beyond"), old.map(|old| &old.beyond));
    let clear = one.or("clear", one.in_pitches("clear"), old.map(|old| &old.clear));
    let extra = one.or("extra", one.whole("extra", 0, 8), old.map(|old| &old.extra));
    Some(Engagement { beyond: beyond?, clear: clear?, extra: extra? })
}

fn accept(one: &One<'_, '_>, old: Option<&Accept>) -> Option<Accept> {
    let desired = one.size("desired").or_else(|| old.and_then(|old| old.desired.clone()));
    let accept = one.or("accept", one.size("accept"), old.map(|old| &old.accept));
    Some(Accept { desired, accept: accept? })
}

fn wall(one: &One<'_, '_>, old: Option<&WallAccept>) -> Option<WallAccept> {
    let desired = one.size("desired").or_else(|| old.and_then(|old| old.desired.clone()));
    let accept = one.or("accept", one.size("accept"), old.map(|old| &old.accept));
    let length = one.positive("length").or_else(|| old.and_then(|old| old.length.clone()));
    Some(WallAccept { desired, accept: accept?, length })
}

fn pad(one: &One<'_, '_>, old: Option<&PadLimits>) -> PadLimits {
    PadLimits {
        tilt: one.size("tilt").or_else(|| old.and_then(|old| old.tilt.clone())),
        top: one.lowest_and_highest("top").or_else(|| old.and_then(|old| old.top.clone())),
    }
}

fn shim(one: &One<'_, '_>, old: Option<&ShimLimits>) -> ShimLimits {
    ShimLimits {
        most: one.size("most").or_else(|| old.and_then(|old| old.most.clone())),
        tall: one.size("tall").or_else(|| old.and_then(|old| old.tall.clone())),
        pieces: one.whole("pieces", 1, 8).or_else(|| old.and_then(|old| old.pieces.clone())),
    }
}

fn grout(one: &One<'_, '_>, old: Option<&Grout>) -> Option<Grout> {
    let least = one.or("least", one.size("least"), old.map(|old| &old.least));
    let most = one.or("most", one.size("most"), old.map(|old| &old.most));
    let step = one.or("step", one.positive("step"), old.map(|old| &old.step));
    let grout = Grout { least: least?, most: most?, step: step? };
    steps_fit(one, (grout.most.value - grout.least.value, grout.step.value)).then_some(grout)
}

fn grind(one: &One<'_, '_>, old: Option<&Grind>) -> Option<Grind> {
    let most = one.or("most", one.size("most"), old.map(|old| &old.most));
    let step = one.or("step", one.positive("step"), old.map(|old| &old.step));
    let grind = Grind { most: most?, step: step? };
    steps_fit(one, (grind.most.value, grind.step.value)).then_some(grind)
}

/// Most steps between the least and the most that are planned with.
const MOST_STEPS: i64 = 2_000;

fn steps_fit(one: &One<'_, '_>, (span, step): (Length, Length)) -> bool {
    let fits = span.nm() / step.nm() <= MOST_STEPS;
    if !fits {
        one.walk.problems.note(
            Problem::at(
                one.table.place(),
                format!("more than {MOST_STEPS} steps from the least to the most"),
            )
            .fix("make the step larger"),
        );
    }
    fits
}

fn rods(one: &One<'_, '_>, old: Option<&RodLimits>) -> RodLimits {
    RodLimits {
        least: one.whole("least", 1, 100).or_else(|| old.and_then(|old| old.least.clone())),
        top: one.lowest_and_highest("top").or_else(|| old.and_then(|old| old.top.clone())),
    }
}
