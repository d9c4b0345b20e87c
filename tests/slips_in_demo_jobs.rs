//! A slip of a foot, an inch or ten millimetres in any one redundant reading of the demo jobs is found and named.

use rodreach::input::{Override, load};
use rodreach::length::Length;
use rodreach::levels::{Levelled, reduce};
use rodreach::model::Job;
use std::collections::BTreeMap;
use std::path::Path;

const SLIPS: [i64; 3] = [304_800_000, 25_400_000, 10_000_000];

fn demo(name: &str) -> Job {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data").join(name);
    load(&folder, &Override::default()).unwrap().job
}

/// The sights that others check, by their number.
fn redundant(levelled: &Levelled) -> Vec<usize> {
    levelled.reliabilities().iter().filter(|it| it.checked > 0).filter_map(|it| it.sight).collect()
}

/// How often each point was sighted.
fn sighted(job: &Job) -> BTreeMap<usize, usize> {
    let mut counts = BTreeMap::new();
    for sight in &job.readings.sights {
        *counts.entry(sight.point).or_default() += 1;
    }
    counts
}

/// Makes every slip in every redundant reading; gives how many there were and how many were named alone.
fn all_slips(name: &str) -> (usize, usize) {
    let job = demo(name);
    let clean = reduce(&job);
    assert!(clean.test().unwrap().passed && clean.suspects().is_empty(), "{name} is not clean");
    let counts = sighted(&job);
    let (mut made, mut alone) = (0, 0);
    for sight in redundant(&clean) {
        for slip in SLIPS.iter().flat_map(|slip| [*slip, -*slip]) {
            let mut job = job.clone();
            let changed = &mut job.readings.sights[sight];
            changed.reading = changed.reading + Length::from_nm(slip);
            let (place, point) = (changed.place, changed.point);
            let levelled = reduce(&job);
            let what = format!("{name}: {slip} nm in reading {sight} on {}", job.readings.points[point]);
            let first = levelled.suspects().first().unwrap_or_else(|| panic!("{what} is not found"));
            let named = first.place == place || first.tied_with.contains(&place);
            assert!(named, "{what}: {first:?} is named instead");
            let off = (first.size.nm() - slip.abs()).abs();
            assert!(off < 5_000_000, "{what}: its size comes out as {:?}", first.size);
            made += 1;
            alone += usize::from(first.tied_with.is_empty());
            // a point that was read three times or more tells which of its readings is bad
            if counts[&point] > 2 {
                assert!(first.tied_with.is_empty(), "{what} is tied with {:?}", first.tied_with);
            }
        }
    }
    (made, alone)
}

#[test]
fn a_slip_in_any_redundant_reading_of_the_packing_hall_is_one_of_four() {
    // two setups share two pads: four readings check each other, and no other does
    assert_eq!(all_slips("packing-hall"), (4 * 6, 0));
}

#[test]
fn a_slip_in_any_redundant_reading_of_the_grain_dryer_is_found_and_named() {
    let (made, alone) = all_slips("grain-dryer");
    // two backsights on benchmarks, one of which is itself good to 1/8 in, 35 readings on eleven pads, 8 on corners
    assert_eq!(made, (2 + 35 + 8) * 6);
    assert_eq!(alone, 35 * 6);
}
