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
    /// The setups and measured differences on the way from there, its own included.
    pub(super) setups: usize,
    /// What it was carried through last: a point's station, a station's point; none for a root.
    pub(super) via: Option<usize>,
}

/// Heights as they were carried.
#[derive(Clone, Debug, Default)]
pub(super) struct Carried {
    /// A step for each point; none where it has no reading.
    pub(super) points: Vec<Option<Step>>,
    /// A step for each setup's line of sight; none where it has no reading.
    ///
    /// Behind the setups stand the measured differences, each a station of its own.
    pub(super) lines: Vec<Option<Step>>,
    /// How many of the lines are setups.
    pub(super) setups: usize,
    /// The closures in the order of their readings.
    pub(super) closures: Vec<Closure>,
}

/// Carries heights through all readings.
///
/// A measured difference is carried like a setup of two readings. Of the setups that read a point with a height, the first in order is taken; its
/// line comes from its first reading on such a point. Where none does, the first
/// setup that waits starts a block of its own, its first point at 0.
pub(super) fn carry(readings: &Readings, known: &[Option<Known>]) -> Carried {
    let mut carrier = Carrier::new(readings, known);
    let mut waiting = 0..carrier.sights.len();
    loop {
        while let Some(setup) = carrier.ready.pop_first() {
            carrier.read(setup);
        }
        let Some(setup) = waiting.next() else { break };
        carrier.start_block(setup);
    }
    carrier.finish(known)
}

/// One point as a station reads it.
#[derive(Clone, Copy)]
struct Read {
    /// Its place in the order of reading, differences behind the sights.
    order: usize,
    point: usize,
    /// The point above the station's line; for a difference, above its first point.
    rise: Length,
}

struct Carrier<'r> {
    readings: &'r Readings,
    carried: Carried,
    /// What was read at each station, in order: at a setup its sights, for a difference its two points.
    sights: Vec<Vec<Read>>,
    /// The stations that read each point.
    setups_at: Vec<Vec<usize>>,
    /// Setups that have not been read and read a point with a height.
    ready: BTreeSet<usize>,
    /// Closures, by the sight that met them.
    met: BTreeMap<usize, Closure>,
}

impl<'r> Carrier<'r> {
    fn new(readings: &'r Readings, known: &[Option<Known>]) -> Self {
        let (setups, all) = (readings.setups.len(), readings.sights.len());
        let mut sights = vec![Vec::new(); setups + readings.differences.len()];
        let mut setups_at = vec![Vec::new(); readings.points.len()];
        for (order, sight) in readings.sights.iter().enumerate() {
            let rise = rise(readings.sense, sight.reading);
            sights[sight.setup].push(Read { order, point: sight.point, rise });
            setups_at[sight.point].push(sight.setup);
        }
        for (index, it) in readings.differences.iter().enumerate() {
            for (point, rise) in [(it.from, Length::ZERO), (it.to, it.difference)] {
                sights[setups + index].push(Read { order: all + index, point, rise });
                setups_at[point].push(setups + index);
            }
        }
        let carried = Carried {
            points: vec![None; readings.points.len()],
            lines: vec![None; sights.len()],
            setups,
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
        if let Some(&Read { point, .. }) = self.sights[setup].first() {
            self.give(point, Step { height: Length::ZERO, root: point, setups: 0, via: None });
        }
    }

    /// Reads all sights of a setup that reads a point with a height.
    fn read(&mut self, setup: usize) {
        let sights = std::mem::take(&mut self.sights[setup]);
        let based = sights.iter().enumerate().find_map(|(at, read)| Some((at, self.line_from(read)?)));
        let Some((base, line)) = based else { return };
        self.carried.lines[setup] = Some(line);
        let mut read_before: BTreeMap<usize, Length> = BTreeMap::new();
        for (at, &Read { order, point, rise }) in sights.iter().enumerate() {
            let height = line.height + rise;
            let before = read_before.get(&point).copied();
            read_before.entry(point).or_insert(height);
            let closure = match (before, self.carried.points[point]) {
                (Some(before), _) => {
                    Some(Closure { from: point, to: point, setups: 1, misclosure: height - before })
                }
                (None, _) if at == base => None,
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
            self.met.extend(closure.map(|closure| (order, closure)));
        }
    }

    /// Gives a station's line from what it read of a point, if the point has a height.
    fn line_from(&self, read: &Read) -> Option<Step> {
        let point = self.carried.points[read.point]?;
        Some(Step {
            height: point.height - read.rise,
            root: point.root,
            setups: point.setups + 1,
            via: Some(read.point),
        })
    }

    /// Adds what elevations say of points that were known without them.
    fn finish(self, known: &[Option<Known>]) -> Carried {
        let elevations = self.readings.elevations.iter().enumerate().filter_map(|(index, reading)| {
            let known = known.get(reading.point).copied().flatten()?;
            let misclosure = reading.elevation - known.height;
            let run = Closure { from: reading.point, to: reading.point, setups: 0, misclosure };
            (known.given_by != Some(index)).then_some(run)
        });
        let again = self.readings.benchmarks.iter().filter_map(|benchmark| {
            let known = known.get(benchmark.point).copied().flatten()?;
            let misclosure = benchmark.elevation - known.height;
            let run = Closure { from: benchmark.point, to: benchmark.point, setups: 0, misclosure };
            known.given_by.is_some().then_some(run)
        });
        let closures = self.met.into_values().chain(elevations).chain(again).collect();
        Carried { closures, ..self.carried }
    }
}
