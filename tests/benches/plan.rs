//! Times of the exact plan: `cargo bench --bench plan`.
//!
//! Reducing the level notes is not timed. With `PLAN_JOB` naming a job folder, that job is planned instead for a second,
//! and the time of one plan is printed, in microseconds of processor time.

#![allow(clippy::print_stdout, clippy::unwrap_used, reason = "a bench may print and stop at once")]

mod halls;
#[path = "../small_job/mod.rs"]
mod small_job;

use divan::Bencher;
use halls::{Family, hall};
use rodreach::input::{Override, load};
use rodreach::levels::{Levelled, reduce};
use rodreach::model::Job;
use rodreach::plan::{Action, Plan, Wish, plan_fewest};
use std::hint::black_box;
use std::path::Path;
use std::time::{Duration, Instant};

const SIZES: [usize; 5] = [16, 60, 200, 1000, 4000];
const SEEDS: [u64; 3] = [1, 2, 4];

fn main() {
    if let Some(folder) = std::env::var_os("PLAN_JOB") {
        return one(Path::new(&folder));
    }
    for family in [Family::A, Family::B] {
        for columns in SIZES {
            let referred: Vec<String> = SEEDS
                .iter()
                .map(|seed| {
                    let (job, levels) = prepared(family, columns, *seed);
                    referred(&plan(&job, &levels)).to_string()
                })
                .collect();
            println!("family {family:?}, {columns} columns: {} referred", referred.join(", "));
        }
    }
    divan::main();
}

/// Three halls of each size in turn: the median is that of the hall in the middle.
#[divan::bench(args = SIZES, sample_count = 15, sample_size = 1)]
fn family_a(bencher: Bencher<'_, '_>, columns: usize) {
    timed(bencher, Family::A, columns);
}

/// Three halls of each size in turn: the median is that of the hall in the middle.
#[divan::bench(args = SIZES, sample_count = 15, sample_size = 1)]
fn family_b(bencher: Bencher<'_, '_>, columns: usize) {
    timed(bencher, Family::B, columns);
}

fn timed(bencher: Bencher<'_, '_>, family: Family, columns: usize) {
    let halls: Vec<(Job, Levelled)> = SEEDS.map(|seed| prepared(family, columns, seed)).into();
    let mut turn = halls.iter().cycle();
    bencher.with_inputs(|| turn.next().unwrap()).bench_local_values(|(job, levels)| plan(job, levels));
}

fn prepared(family: Family, columns: usize, seed: u64) -> (Job, Levelled) {
    let job = hall(family, columns, seed);
    let levels = reduce(&job);
    (job, levels)
}

fn plan(job: &Job, levels: &Levelled) -> Plan {
    plan_fewest(job, levels, &Wish::default()).unwrap()
}

fn referred(plan: &Plan) -> usize {
    plan.choices.iter().filter(|choice| choice.action == Action::Refer).count()
}

fn one(folder: &Path) {
    let loaded = load(folder, &Override::default()).unwrap();
    let levels = reduce(&loaded.job);
    let referred = referred(&plan(&loaded.job, &levels));
    let clock = Clock(Instant::now());
    // the system counts in ticks of some milliseconds
    let (start, mut runs) = (clock.now(), 0_u32);
    while clock.now() - start < Duration::from_secs(1) {
        black_box(plan(&loaded.job, &levels));
        runs += 1;
    }
    let each = (clock.now() - start) / runs;
    println!("plan {} us, {referred} referred", each.as_micros());
}

/// Tells the time this thread ran, where the system says it, so that other work on the machine counts less.
struct Clock(Instant);

impl Clock {
    fn now(&self) -> Duration {
        let ran = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
        let ran = ran.and_then(|text| text.split_whitespace().next()?.parse().ok());
        ran.map_or_else(|| self.0.elapsed(), Duration::from_nanos)
    }
}
