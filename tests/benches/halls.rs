//! Invented halls of any size: the two families the times of the plan are measured on.
//!
//! Columns stand on a grid, four rods each, walls around and frames on the lines between. Pads slope by 1/2 in over the
//! hall and scatter by 3/16 in (standard deviation), read in 1/32 in. Parts are exact, so that nothing is on hold.

use super::small_job::{base, catalog, job, len, limit_set, three_quarter};
use rodreach::catalog::{
    Accept, Authority, Catalog, Extent, Grind, Limit, ShimLimits, ShimPiece, WallAccept,
};
use rodreach::length::Length;
use rodreach::model::{Column, ElevationReading, Job, Line, LineKind, Rod, RodLabel, ShimSupply};

/// What limits the raises of a hall.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Family {
    /// Raises up to 1/2 to 1-1/4 in, stacks of 3 pieces, grinding to 1/4 in: large halls need referring.
    A,
    /// Raises up to 2 to 2-1/2 in, stacks of 4 pieces, grinding to 1/2 in: no column is referred.
    B,
}

/// Pseudo-random whole numbers, the same on every machine: SplitMix64, from memory.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// Gives a number from the least to the most.
    fn whole(&mut self, least: i64, most: i64) -> i64 {
        let span = (most - least + 1).unsigned_abs();
        least + i64::try_from(self.next() % span).unwrap()
    }

    /// Gives a number that is about normal: the sum of twelve uniform ones has a variance of 1.
    fn scatter(&mut self, deviation: i64) -> i64 {
        let sum: i64 = (0..12).map(|_| self.whole(-500, 500)).sum();
        (sum * deviation).div_euclid(1000)
    }
}

/// A reading is in steps of 1/32 in.
fn steps(count: i64) -> Length {
    Length::from_nm(793_750) * count
}

/// Makes a hall of so many columns.
pub(crate) fn hall(family: Family, columns: usize, seed: u64) -> Job {
    let (raises, grind, most_pieces) = match family {
        Family::A => ((16, 40), 8, 3),
        Family::B => ((64, 80), 16, 4),
    };
    let catalog = catalog();
    let parts = three_quarter(&catalog, "3/4");
    let mut job = job(&limit_set(&catalog, "low-rise"), base(&parts), &[]);
    job.name = format!("family {family:?}, {columns} columns, seed {seed} (invented)");
    limits(&mut job, &catalog, steps(grind));
    job.shims = ShimSupply { pieces: shims(), most_pieces, ..job.shims };
    let mut dice = Dice(seed);
    let along = (1_usize..).find(|along| along * along * 3 >= columns * 5).unwrap();
    let seat = job.seat.unwrap();
    let place = job.readings.elevations.remove(0).place;
    job.columns.clear();
    job.readings.points.clear();
    for index in 0..columns {
        let mark = format!("C{}", index + 1);
        let last = i64::try_from(along - 1).unwrap().max(1);
        let slope = 16 * i64::try_from(index % along).unwrap() / last;
        let elevation = seat + steps(slope + dice.scatter(6));
        let plus_minus = job.readings.plus_minus;
        job.readings.points.push(mark.clone());
        job.readings.elevations.push(ElevationReading { point: index, elevation, plus_minus, place });
        let (governs, reach) = (dice.whole(1, 4), dice.whole(raises.0, raises.1));
        let rod = |number: u32, more: i64| {
            // plate, washer and nut, then the most it can be raised
            let projection = len("1-1/2") + steps(reach + more);
            // thread down to where the deepest grinding brings the washer, and a little more
            let thread = projection - len("1/2") + steps(grind);
            Rod {
                projection: Some(projection),
                thread: Some(thread),
                ..Rod::unmeasured(RodLabel::Number(number))
            }
        };
        let rods = (1..=4).map(|number| {
            let more = if i64::from(number) == governs { 0 } else { dice.whole(0, 16) };
            rod(number, more)
        });
        let rods = rods.collect();
        job.columns.push(Column {
            mark,
            base: 0,
            at: None,
            seat: None,
            point: Some(index),
            rods,
            note: None,
        });
    }
    job.lines = lines(columns, along);
    job
}

fn limits(job: &mut Job, catalog: &Catalog, grind: Length) {
    let limit = |text: &str| Limit { value: len(text), authority: Authority::this_job() };
    let accept = |text: &str| Accept { desired: None, accept: limit(text) };
    let tables = &mut job.limits.tables;
    tables.neighbours = Some(accept("1/8"));
    tables.wall = Some(WallAccept { desired: None, accept: limit("1/4"), length: None });
    tables.building = Some(accept("1/2"));
    tables.shim = Some(ShimLimits { most: None, tall: None, pieces: None });
    tables.grind =
        Some(Grind { most: Limit { value: grind, authority: Authority::this_job() }, step: limit("1/16") });
    // beds of 1 to 2 in, as the set has them
    tables.grout = limit_set(catalog, "low-rise").limits.grout;
}

fn shims() -> Vec<ShimPiece> {
    let thicknesses = ["3/4", "1/2", "3/8", "1/4", "3/16", "1/8"];
    let piece =
        |text: &str| ShimPiece { thickness: Extent::exact(len(text)), authority: Authority::this_job() };
    thicknesses.map(piece).to_vec()
}

/// Gives lines both ways over a grid that is filled row by row; the outer ones are walls.
fn lines(columns: usize, along: usize) -> Vec<Line> {
    let across = columns.div_ceil(along);
    let at = |x: usize, y: usize| Some(y * along + x).filter(|index| *index < columns);
    let line = |name: String, outer: bool, columns: Vec<usize>| Line {
        name,
        kind: if outer { LineKind::Wall } else { LineKind::Frame },
        spacing: vec![len("20'"); columns.len().saturating_sub(1)],
        columns,
        accept: None,
        found: false,
    };
    let rows = (0..across).map(|y| {
        line(format!("y{y}"), y == 0 || y + 1 == across, (0..along).filter_map(|x| at(x, y)).collect())
    });
    let files = (0..along).map(|x| {
        line(format!("x{x}"), x == 0 || x + 1 == along, (0..across).filter_map(|y| at(x, y)).collect())
    });
    rows.chain(files).filter(|line| line.columns.len() > 1).collect()
}
