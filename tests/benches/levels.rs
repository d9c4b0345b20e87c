//! Times of reducing level notes: `cargo bench --bench levels`.
//!
//! 2,000 pads, 50 by 40, each read from the three nearest of 40 setups, and a turning point between each setup and
//! the next: 6,078 readings. All level; with the slope of the line of sight and the tilt of one setup found; with the tilt of
//! every setup found that is level to 0.1 mm in a metre, which makes 80 slopes and leaves no turning point.

#![allow(clippy::print_stdout, clippy::unwrap_used, reason = "a bench may print and stop at once")]
#![allow(clippy::disallowed_types, reason = "an invented hall is laid out in metres")]

#[path = "../small_job/mod.rs"]
mod small_job;
#[path = "../survey/mod.rs"]
mod survey;

use divan::Bencher;
use rodreach::levels::{Levelled, reduce};
use rodreach::model::{Job, LineOfSight, Slope, Tilt};
use survey::{Dice, Noise, Survey, Turning};

const ALONG: usize = 50;
const ACROSS: usize = 40;
const SETUPS: [usize; 2] = [8, 5];

/// Which slopes are found; a setup whose tilt is found reads no turning point.
#[derive(Clone, Copy, Debug)]
enum Found {
    Nothing,
    SlopeAndOneTilt,
    EveryTilt,
}

impl Found {
    fn tilts(self) -> Vec<(usize, Tilt)> {
        match self {
            Self::Nothing => Vec::new(),
            Self::SlopeAndOneTilt => vec![(20, Tilt::Free)],
            Self::EveryTilt => {
                let within = Tilt::Within(Slope { rise: survey::m(1e-4), run: survey::m(1.0) });
                (0..SETUPS[0] * SETUPS[1]).map(|setup| (setup, within)).collect()
            }
        }
    }
}

const ALL: [Found; 3] = [Found::Nothing, Found::SlopeAndOneTilt, Found::EveryTilt];

fn main() {
    for found in ALL {
        let levels = reduce(&hall(found));
        let within = levels.difference_plus_minus(0, ALONG * ACROSS - 1).unwrap();
        println!(
            "slopes found: {}, redundancy {}, corner to corner +-{} nm",
            levels.slopes().len(),
            levels.redundancy(),
            within.nm()
        );
    }
    divan::main();
}

#[divan::bench(args = ALL, sample_count = 15, sample_size = 1)]
fn slopes_found(bencher: Bencher<'_, '_>, found: Found) {
    timed(bencher, &hall(found));
}

/// So many readings are 50 mm off, which are looked for, 20 at most.
#[divan::bench(args = [1, 30], sample_count = 5, sample_size = 1)]
fn readings_bad(bencher: Bencher<'_, '_>, bad: usize) {
    let mut job = hall(Found::SlopeAndOneTilt);
    for sight in job.readings.sights.iter_mut().step_by(6000 / bad).skip(1) {
        sight.reading = sight.reading + survey::m(0.05);
    }
    timed(bencher, &job);
}

fn timed(bencher: Bencher<'_, '_>, job: &Job) {
    bencher.bench_local(|| -> Levelled { reduce(job) });
}

fn hall(found: Found) -> Job {
    let pads: Vec<[f64; 2]> =
        (0..ALONG * ACROSS).map(|pad| [(pad % ALONG) as f64 * 7.5, (pad / ALONG) as f64 * 9.0]).collect();
    let [along, across] = [ALONG as f64 * 7.5 / SETUPS[0] as f64, ACROSS as f64 * 9.0 / SETUPS[1] as f64];
    let count = SETUPS[0] * SETUPS[1];
    let mut dice = Dice(7);
    let mut about = |middle: f64, width: f64| middle + (dice.part() - 0.5) * width / 2.0;
    let mut setups: Vec<([f64; 2], Vec<usize>)> = (0..count)
        .map(|setup| {
            let at = [(setup % SETUPS[0]) as f64 + 0.5, (setup / SETUPS[0]) as f64 + 0.5];
            ([about(at[0] * along, along), about(at[1] * across, across)], Vec::new())
        })
        .collect();
    for (pad, at) in pads.iter().enumerate() {
        let mut near: Vec<(usize, f64)> = setups
            .iter()
            .enumerate()
            .map(|(setup, (stands, _))| (setup, (stands[0] - at[0]).hypot(stands[1] - at[1])))
            .collect();
        near.sort_by(|one, other| one.1.total_cmp(&other.1));
        for (setup, _) in &near[..3] {
            setups[*setup].1.push(pad);
        }
    }
    let tilts = found.tilts();
    let turning = (1..count).map(|setup| {
        let from = [(setup - 1, 24.0), (setup, 27.0)];
        let from = from.into_iter().filter(|(setup, _)| tilts.iter().all(|it| it.0 != *setup)).collect();
        Turning { name: format!("TP{setup}"), from }
    });
    let turning = turning.filter(|it| !it.from.is_empty());
    let survey = Survey {
        pads,
        setups,
        turning: turning.collect(),
        noise: Noise { reading: 5e5, per_metre: 2e4 },
        tilts: tilts.clone(),
        line: match found {
            Found::SlopeAndOneTilt => LineOfSight::Found { stated: None, pegs: Vec::new() },
            _ => LineOfSight::Level,
        },
    };
    let mut job = survey.job();
    let truth = survey.truth(&mut dice);
    survey.read(&mut job, &truth, &mut dice);
    job
}
