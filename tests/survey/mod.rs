//! Invented surveys: pads on a grid, setups among them, readings with normal noise of the +- that is stated.

#![allow(dead_code, reason = "each test file uses its own part of this")]
#![allow(clippy::unwrap_used, reason = "a test may stop at once")]
#![allow(clippy::disallowed_types, reason = "noise is no exact length")]

use crate::small_job::{base, catalog, job, limit_set, three_quarter};
use rodreach::catalog::Catalog;
use rodreach::length::Length;
use rodreach::model::{
    Column, Instrument, Job, LineOfSight, PegReading, PegTest, Readings, Setup, Sight, SightKind, Slope, Tilt,
};
use rodreach::source::Place;

/// Standard deviations in a half width.
pub(crate) const SIGMAS: f64 = 1.96;

/// Pseudo-random numbers, the same on every machine: SplitMix64 and the method of Box and Muller, from memory.
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    /// Gives a number above 0 and up to 1.
    pub(crate) fn part(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^= mixed >> 31;
        ((mixed >> 11) as f64 + 1.0) / (1_u64 << 53) as f64
    }

    /// Gives a normal number of this standard deviation.
    pub(crate) fn normal(&mut self, deviation: f64) -> f64 {
        let (size, turn) = (self.part(), self.part());
        deviation * (-2.0 * size.ln()).sqrt() * (std::f64::consts::TAU * turn).cos()
    }
}

/// Takes metres to the nanometre.
pub(crate) fn m(metres: f64) -> Length {
    nm(metres * 1e9)
}

/// Takes nanometres to whole ones.
pub(crate) fn nm(nanometres: f64) -> Length {
    Length::from_nm(nanometres.round() as i64)
}

fn over_a_metre(nm_a_metre: f64) -> Slope {
    Slope { rise: nm(nm_a_metre * 1e3), run: m(1e3) }
}

/// What one reading varies by: in nanometres at no distance, and in nanometres a metre of sight.
#[derive(Clone, Copy)]
pub(crate) struct Noise {
    pub(crate) reading: f64,
    pub(crate) per_metre: f64,
}

impl Noise {
    /// Gives the standard deviation of a reading over so many metres.
    pub(crate) fn over(self, metres: f64) -> f64 {
        self.reading.hypot(self.per_metre * metres)
    }

    /// Makes an instrument that is as good as this.
    pub(crate) fn instrument(self, line: LineOfSight) -> Instrument {
        let reading = nm(SIGMAS * self.reading);
        let per_sight = Some(over_a_metre(SIGMAS * self.per_metre));
        let name = "level".to_owned();
        Instrument { name, kind: None, reading, per_sight, without_sight: reading, line, tilt: Tilt::Level }
    }
}

/// A point that is no pad: it is read over a taped length.
pub(crate) struct Turning {
    pub(crate) name: String,
    /// The setups that read it, each with the length of its sight in metres.
    pub(crate) from: Vec<(usize, f64)>,
}

/// A survey as it was set out, and what is true of it.
pub(crate) struct Survey {
    pub(crate) pads: Vec<[f64; 2]>,
    /// Where each setup stands, and which pads it reads.
    pub(crate) setups: Vec<([f64; 2], Vec<usize>)>,
    pub(crate) turning: Vec<Turning>,
    pub(crate) noise: Noise,
    /// The tilted setups, each as it is found.
    pub(crate) tilts: Vec<(usize, Tilt)>,
    /// What is done about the slope of the line of sight.
    pub(crate) line: LineOfSight,
}

/// What is true of a survey, in nanometres and nanometres a metre.
pub(crate) struct Truth {
    /// The heights of the pads, then of the turning points.
    pub(crate) heights: Vec<f64>,
    pub(crate) slope: f64,
    pub(crate) tilt: [f64; 2],
}

impl Survey {
    /// Makes the job without its readings.
    pub(crate) fn job(&self) -> Job {
        let mut job = bare();
        let place = job.readings.elevations.first().map(|it| it.place).unwrap();
        let names = (0..self.pads.len()).map(|pad| format!("P{pad}"));
        let names: Vec<String> = names.chain(self.turning.iter().map(|it| it.name.clone())).collect();
        job.columns = self
            .pads
            .iter()
            .zip(&names)
            .enumerate()
            .map(|(point, (at, mark))| Column {
                mark: mark.clone(),
                base: 0,
                at: Some(at.map(m)),
                seat: None,
                point: Some(point),
                rods: Vec::new(),
                note: None,
            })
            .collect();
        let setup = |(index, (at, _)): (usize, &([f64; 2], Vec<usize>))| {
            let tilt = self.tilts.iter().find(|it| it.0 == index).map_or(Tilt::Level, |it| it.1);
            Setup { instrument: Some(0), at: Some(at.map(m)), tilt, ..Setup::named(&(index + 1).to_string()) }
        };
        job.readings = Readings {
            points: names,
            setups: self.setups.iter().enumerate().map(setup).collect(),
            instruments: vec![self.noise.instrument(self.line.clone())],
            sights: self.sights().into_iter().map(|(setup, point, _)| sight(setup, point, place)).collect(),
            plus_minus: job.readings.plus_minus,
            ..Readings::default()
        };
        for (sight, (.., taped)) in job.readings.sights.iter_mut().zip(self.sights()) {
            sight.distance = taped.map(m);
        }
        job
    }

    /// Lists the sights: setup, point, and the taped length where there is one.
    fn sights(&self) -> Vec<(usize, usize, Option<f64>)> {
        let mut sights = Vec::new();
        for (setup, (_, pads)) in self.setups.iter().enumerate() {
            sights.extend(pads.iter().map(|pad| (setup, *pad, None)));
            for (index, turning) in self.turning.iter().enumerate() {
                let own = turning.from.iter().filter(|(from, _)| *from == setup);
                sights.extend(own.map(|(_, taped)| (setup, self.pads.len() + index, Some(*taped))));
            }
        }
        sights
    }

    /// Gives the length of every sight in metres, in the order of the job's sights.
    pub(crate) fn lengths(&self) -> Vec<f64> {
        let length = |(setup, point, taped): (usize, usize, Option<f64>)| {
            taped.unwrap_or_else(|| {
                let (stands, at) = (self.setups[setup].0, self.pads[point]);
                (stands[0] - at[0]).hypot(stands[1] - at[1])
            })
        };
        self.sights().into_iter().map(length).collect()
    }

    /// Throws what is true: heights of 5 mm standard deviation, slopes of 0.05 and tilts of 0.1 mm a metre where they are found.
    pub(crate) fn truth(&self, dice: &mut Dice) -> Truth {
        let heights = (0..self.pads.len() + self.turning.len()).map(|_| dice.normal(5e6)).collect();
        let slope = if self.line == LineOfSight::Level { 0.0 } else { dice.normal(5e4) };
        Truth { heights, slope, tilt: [dice.normal(1e5), dice.normal(1e5)] }
    }

    /// Reads everything anew; peg tests, where the job has one, too.
    pub(crate) fn read(&self, job: &mut Job, truth: &Truth, dice: &mut Dice) {
        let lines: Vec<f64> = self.setups.iter().map(|_| 1.5e9 + dice.normal(5e7)).collect();
        let lengths = self.lengths();
        for ((setup, point, _), (length, sight)) in
            self.sights().into_iter().zip(lengths.into_iter().zip(&mut job.readings.sights))
        {
            let mut line = lines[setup] + above(truth.slope, length);
            if self.tilts.iter().any(|it| it.0 == setup) {
                let at = self.pads[point];
                line += truth.tilt[0] * at[0] + truth.tilt[1] * at[1];
            }
            sight.reading = nm(line - truth.heights[point] + dice.normal(self.noise.over(length)));
        }
        let LineOfSight::Found { pegs, .. } = &mut job.readings.instruments[0].line else { return };
        for test in pegs {
            let pegs = [0.0, dice.normal(1e8)];
            for place in [&mut test.first, &mut test.second] {
                let line = 1.5e9 + dice.normal(5e7);
                for (peg, height) in place.iter_mut().zip(pegs) {
                    let length = peg.sight.nm() as f64 / 1e9;
                    let noise = dice.normal(self.noise.over(length));
                    peg.reading = nm(line + above(truth.slope, length) - height + noise);
                }
            }
        }
    }
}

/// Gives how far a line of sight stands above the level surface, refraction taken off.
fn above(slope: f64, length: f64) -> f64 {
    slope * length + 6.0 / 7.0 * length * length / (2.0 * 6_371_000.0) * 1e9
}

/// A peg test over 60 m, its readings still to be taken.
pub(crate) fn peg_test() -> PegTest {
    let peg = |metres: f64| PegReading { reading: Length::ZERO, sight: m(metres) };
    PegTest { first: [peg(30.0), peg(30.0)], second: [peg(5.0), peg(65.0)] }
}

fn sight(setup: usize, point: usize, place: Place) -> Sight {
    Sight { setup, point, kind: SightKind::Intermediate, reading: Length::ZERO, distance: None, place }
}

/// A job of which only the readings matter.
fn bare() -> Job {
    let catalog: Catalog = catalog();
    let parts = three_quarter(&catalog, "3/4");
    job(&limit_set(&catalog, "low-rise"), base(&parts), &[])
}
