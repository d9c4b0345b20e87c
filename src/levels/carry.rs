//! Carrying heights from reading to reading, exactly, and the closures met on the way.

use super::closure::{Closure, run_closed};
use super::known::Known;
use super::observation::rise;
use crate::length::Length;
use crate::model::Readings;
use std::collections::{BTreeMap, BTreeSet};

/// How a point or a line of sight came to its height.
#[derive(Clone, Copy, Debug)]
pub(super) struct Step {
    /// The height.
    pub(super) height: Length,
    /// The point it was carried from in the end.
    pub(super) root: usize,
    /// The setups on the way from there, its own included.
    pub(super) setups: usize,
    /// What it was carried through last: a point's setup, a line's point; none for a root.
    pub(super) via: Option<usize>,
}

/// Heights as they were carried.
#[derive(Clone, Debug, Default)]
pub(super) struct Carried {
    /// A step for each point; none where it has no reading.
    pub(super) points: Vec<Option<Step>>,
    /// A step for each setup's line of sight; none where it has no reading.
    pub(super) lines: Vec<Option<Step>>,
    /// The closures in the order of their readings.
    pub(super) closures: Vec<Closure>,
}

/// Carries heights through all readings.
///
/// Of the setups that read a point with a height, the first in order is taken; its
/// line comes from its first reading on such a point. Where none does, the first
/// setup that waits starts a block of its own, its first point at 0.
pub(super) fn carry(readings: &Readings, known: &[Option<Known>]) -> Carried {
    let mut carrier = Carrier::new(readings, known);
    let mut waiting = 0..readings.setups.len();
    loop {
        while let Some(setup) = carrier.ready.pop_first() {
            carrier.read(setup);
        }
        let Some(setup) = waiting.next() else { break };
        carrier.start_block(setup);
    }
    carrier.finish(known)
}

struct Carrier<'r> {
    readings: &'r Readings,
    carried: Carried,
    /// The sights of each setup, in order.
    sights: Vec<Vec<usize>>,
    /// The setups that read each point.
    setups_at: Vec<Vec<usize>>,
    /// Setups that have not been read and read a point with a height.
    ready: BTreeSet<usize>,
    /// Closures, by the sight that met them.
    met: BTreeMap<usize, Closure>,
}

impl<'r> Carrier<'r> {
    fn new(readings: &'r Readings, known: &[Option<Known>]) -> Self {
        let mut sights = vec![Vec::new(); readings.setups.len()];
        let mut setups_at = vec![Vec::new(); readings.points.len()];
        for (index, sight) in readings.sights.iter().enumerate() {
            sights[sight.setup].push(index);
            setups_at[sight.point].push(sight.setup);
        }
        let carried = Carried {
            points: vec![None; readings.points.len()],
            lines: vec![None; readings.setups.len()],
            closures: Vec::new(),
        };
        let mut carrier =
            Self { readings, carried, sights, setups_at, ready: BTreeSet::new(), met: BTreeMap::new() };
        for (point, known) in known.iter().enumerate() {
            if let Some(known) = known {
                carrier.give(point, Step { height: known.height, root: point, setups: 0, via: None });
            }
        }
        carrier
    }

    /// Gives a point its height; the setups that read it can then be read.
    fn give(&mut self, point: usize, step: Step) {
        self.carried.points[point] = Some(step);
        for &setup in &self.setups_at[point] {
            if self.carried.lines[setup].is_none() {
                self.ready.insert(setup);
            }
        }
    }

    fn start_block(&mut self, setup: usize) {
        if self.carried.lines[setup].is_some() {
            return;
        }
        if let Some(&first) = self.sights[setup].first() {
            let point = self.readings.sights[first].point;
            self.give(point, Step { height: Length::ZERO, root: point, setups: 0, via: None });
        }
    }

    /// Reads all sights of a setup that reads a point with a height.
    fn read(&mut self, setup: usize) {
        let sights = std::mem::take(&mut self.sights[setup]);
        let Some((base, line)) = sights.iter().find_map(|&sight| self.line_from(sight)) else { return };
        self.carried.lines[setup] = Some(line);
        let mut read_before: BTreeMap<usize, Length> = BTreeMap::new();
        for &index in &sights {
            let sight = &self.readings.sights[index];
            let height = line.height + rise(self.readings.sense, sight.reading);
            let point = sight.point;
            let before = read_before.get(&point).copied();
            read_before.entry(point).or_insert(height);
            let closure = match (before, self.carried.points[point]) {
                (Some(before), _) => {
                    Some(Closure { from: point, to: point, setups: 1, misclosure: height - before })
                }
                (None, _) if index == base => None,
                (None, Some(end)) => {
                    let run = run_closed(&self.carried, setup, &line, point, &end);
                    Some(Closure { misclosure: height - end.height, ..run })
                }
                (None, None) => {
                    let step = Step { height, root: line.root, setups: line.setups, via: Some(setup) };
                    self.give(point, step);
                    None
                }
            };
            self.met.extend(closure.map(|closure| (index, closure)));
        }
    }

    /// Gives a setup's line from a sight, if the sight's point has a height.
    fn line_from(&self, index: usize) -> Option<(usize, Step)> {
        let sight = &self.readings.sights[index];
        let point = self.carried.points[sight.point]?;
        let line = Step {
            height: point.height - rise(self.readings.sense, sight.reading),
            root: point.root,
            setups: point.setups + 1,
            via: Some(sight.point),
        };
        Some((index, line))
    }

    /// Adds what elevations say of points that were known without them.
    fn finish(self, known: &[Option<Known>]) -> Carried {
        let elevations = self.readings.elevations.iter().enumerate().filter_map(|(index, reading)| {
            let known = known.get(reading.point).copied().flatten()?;
            let misclosure = reading.elevation - known.height;
            let run = Closure { from: reading.point, to: reading.point, setups: 0, misclosure };
            (known.given_by != Some(index)).then_some(run)
        });
        let closures = self.met.into_values().chain(elevations).collect();
        Carried { closures, ..self.carried }
    }
}
