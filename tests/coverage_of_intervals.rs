//! Whether 95 of 100 intervals hold what is true: thousands of surveys read with normal noise of the +- that is stated.
//!
//! `cargo test --release --test coverage_of_intervals -- --ignored --nocapture` prints the figures. It takes some
//! seconds, and is no part of `cargo test` for that.

#![allow(clippy::print_stdout, clippy::unwrap_used, reason = "a test may print and stop at once")]
#![allow(clippy::disallowed_types, reason = "noise and shares are no exact lengths")]

mod small_job;
mod survey;

use rodreach::levels::{Axis, Parameter, reduce};
use rodreach::model::{LineOfSight, Slope, Tilt};
use survey::{Dice, Noise, Survey, peg_test};

const RUNS: usize = 20_000;

/// Deviations that a figure may be off by.
const STANDARD_ERRORS: f64 = 4.0;

/// The share of normal numbers beyond 3.29 deviations.
const BEYOND: f64 = 0.001_002;

/// Deviations of the least slip that is seen, as the program takes them.
const SEEN: f64 = 4.132_1;

/// Twelve pads, 4 by 3, read from places outside of them.
fn survey(setups: usize) -> Survey {
    let pads = (0..12).map(|pad| [f64::from(pad % 4) * 7.5, f64::from(pad / 4) * 9.0]).collect();
    let places = [[5.0, -6.0], [19.0, 25.0], [-7.0, 10.0]];
    Survey {
        pads,
        setups: places[..setups].iter().map(|at| (*at, (0..12).collect())).collect(),
        turning: Vec::new(),
        noise: Noise { reading: 5e5, per_metre: 2e4 },
        tilts: Vec::new(),
        line: LineOfSight::Level,
    }
}

/// A share that was seen over many runs, each with a share of its own.
#[derive(Default)]
struct Share {
    sum: f64,
    squares: f64,
    runs: usize,
}

impl Share {
    fn add(&mut self, share: f64) {
        self.sum += share;
        self.squares += share * share;
        self.runs += 1;
    }

    fn mean(&self) -> f64 {
        self.sum / self.runs as f64
    }

    /// The standard error of the mean; what goes together within a run is in it.
    fn error(&self) -> f64 {
        let runs = self.runs as f64;
        ((self.squares / runs - self.mean().powi(2)) / runs).sqrt()
    }

    fn is(&self, name: &str, expected: f64) {
        let (mean, error) = (self.mean(), self.error());
        println!(
            "  {name}: {:.3} % (expected {:.3}, standard error {:.3})",
            mean * 1e2,
            expected * 1e2,
            error * 1e2
        );
        assert!(
            (mean - expected).abs() <= STANDARD_ERRORS * error,
            "{name}: {mean} is not {expected} +- {error}"
        );
    }
}

fn covered(name: &str, survey: &Survey, seed: u64) {
    println!("{name}");
    let mut dice = Dice(seed);
    let mut job = survey.job();
    let lengths = survey.lengths();
    let [mut inside, mut failed, mut beyond, mut suspected, mut slopes] = [(); 5].map(|()| Share::default());
    for _ in 0..RUNS {
        let truth = survey.truth(&mut dice);
        survey.read(&mut job, &truth, &mut dice);
        let levels = reduce(&job);
        let (mut pairs, mut held) = (0.0, 0.0);
        for one in 0..survey.pads.len() {
            for other in 0..one {
                let height = |point: usize| levels.height(point).unwrap().elevation;
                let found = (height(one) - height(other)).nm() as f64;
                let within = levels.difference_plus_minus(one, other).unwrap().nm() as f64;
                pairs += 1.0;
                held += f64::from(u8::from(
                    (found - (truth.heights[one] - truth.heights[other])).abs() <= within,
                ));
            }
        }
        inside.add(held / pairs);
        if let Some(test) = levels.test() {
            failed.add(f64::from(u8::from(!test.passed)));
            suspected.add(f64::from(u8::from(!levels.suspects().is_empty())));
            // what is seen of a slip is 4.13 deviations over the root of the control
            let far = levels.reliabilities().iter().zip(&lengths).filter(|(it, length)| {
                let deviation = survey.noise.over(**length);
                let seen_from = it.seen_from.unwrap().nm() as f64;
                (it.residual.nm() as f64 * seen_from).abs() > 3.29 * SEEN * deviation * deviation
            });
            beyond.add(far.count() as f64 / lengths.len() as f64);
        }
        for it in levels.slopes() {
            let wanted = match it.slope {
                Parameter::Slope(_) => truth.slope,
                Parameter::Tilt(_, Axis::X) => truth.tilt[0],
                _ => truth.tilt[1],
            };
            let a_metre = |it: Slope| it.rise.nm() as f64 / (it.run.nm() as f64 / 1e9);
            let off = (a_metre(it.value) - wanted).abs();
            slopes.add(f64::from(u8::from(off <= a_metre(it.plus_minus.unwrap()))));
        }
    }
    // 1.96 deviations
    inside.is("pad to pad inside +-", 0.950_004);
    if failed.runs > 0 {
        failed.is("jobs above the upper bound", 0.025);
        beyond.is("readings beyond 3.29 deviations", BEYOND);
        println!("  jobs with a suspect: {:.2} %", suspected.mean() * 1e2);
    }
    if slopes.runs > 0 {
        slopes.is("slopes inside +-", 0.950_004);
    }
}

#[test]
#[ignore = "takes some seconds, in release"]
fn one_setup_covers() {
    covered("one level setup", &survey(1), 1);
}

#[test]
#[ignore = "takes some seconds, in release"]
fn two_and_three_setups_cover() {
    covered("two level setups", &survey(2), 2);
    covered("three level setups", &survey(3), 3);
}

#[test]
#[ignore = "takes some seconds, in release"]
fn two_setups_with_the_tilt_of_one_found_cover() {
    covered("two setups, the tilt of one found", &Survey { tilts: vec![(1, Tilt::Free)], ..survey(2) }, 4);
}

#[test]
#[ignore = "takes some seconds, in release"]
fn a_slope_found_with_a_peg_test_covers() {
    let line = LineOfSight::Found { stated: None, pegs: vec![peg_test()] };
    covered("two setups, the slope found with a peg test", &Survey { line, ..survey(2) }, 5);
    let line = LineOfSight::Found { stated: None, pegs: Vec::new() };
    covered("three setups, the slope found by them alone", &Survey { line, ..survey(3) }, 6);
}
