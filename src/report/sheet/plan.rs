//! Which pads are read from which setup, in walking order, and the shot that each setup is closed with.

use crate::model::{Job, SightKind, Walk, walk};

/// The walk, shared among setups.
pub(super) struct Plan {
    /// The walk.
    pub(super) walk: Walk,
    /// The setups, in their order.
    pub(super) setups: Vec<Planned>,
}

/// One setup of the level.
pub(super) struct Planned {
    /// Its name.
    pub(super) name: String,
    /// Its sights, the check shot last.
    pub(super) sights: Vec<Shot>,
}

/// One sight to be taken.
pub(super) struct Shot {
    /// The column; none for a benchmark.
    pub(super) column: Option<usize>,
    /// The name of the point.
    pub(super) point: String,
    /// Its kind.
    pub(super) kind: SightKind,
    /// Why it is taken.
    pub(super) what: What,
}

/// Why a sight is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum What {
    /// For its pad.
    Pad,
    /// On a benchmark.
    Benchmark,
    /// To carry the heights over from the setup before.
    CarriedOver,
    /// Once more on the first point of the setup: it must read the same.
    Check,
}

impl Plan {
    /// Shares the walk among so many setups, as equally as can be, the first ones getting one pad more.
    ///
    /// The first setup begins on the first benchmark, where there is one; every other begins on the last pad of the one
    /// before. Further benchmarks are read from the last setup. Each ends with a check shot on its first point.
    pub(super) fn of(job: &Job, setups: usize) -> Self {
        let walk = walk(job);
        let parts = shared(&walk.columns, setups.max(1));
        let benchmarks: Vec<&str> = (job.readings.benchmarks.iter())
            .filter_map(|it| job.readings.points.get(it.point).map(String::as_str))
            .collect();
        let last = parts.len().saturating_sub(1);
        let mut carried: Option<usize> = None;
        let mut planned = Vec::new();
        for (at, part) in parts.iter().enumerate() {
            let mut sights = Vec::new();
            let column = |column: usize, kind: SightKind, what: What| Shot {
                column: Some(column),
                point: job.columns[column].mark.clone(),
                kind,
                what,
            };
            let benchmark = |name: &&str, kind: SightKind, what: What| Shot {
                column: None,
                point: (*name).to_owned(),
                kind,
                what,
            };
            if let Some(from) = carried {
                sights.push(column(from, SightKind::Back, What::CarriedOver));
            } else if let Some(first) = benchmarks.first() {
                sights.push(benchmark(first, SightKind::Back, What::Benchmark));
            }
            for (number, &index) in part.iter().enumerate() {
                let carries_on = at < last && number + 1 == part.len();
                let kind = if carries_on { SightKind::Fore } else { SightKind::Intermediate };
                sights.push(column(index, kind, What::Pad));
            }
            if at == last {
                let more = benchmarks.iter().skip(1);
                sights.extend(more.map(|name| benchmark(name, SightKind::Intermediate, What::Benchmark)));
            }
            if let Some(first) = sights.first() {
                let (point, column) = (first.point.clone(), first.column);
                sights.push(Shot { column, point, kind: SightKind::Intermediate, what: What::Check });
            }
            carried = part.last().copied().or(carried);
            planned.push(Planned { name: name(job, at), sights });
        }
        Self { walk, setups: planned }
    }
}

/// Gives the name of a setup: as the job describes it, else its number.
fn name(job: &Job, at: usize) -> String {
    match job.readings.setups.get(at) {
        Some(setup) => setup.name.clone(),
        None => (at + 1).to_string(),
    }
}

/// Shares columns among so many parts.
fn shared(columns: &[usize], parts: usize) -> Vec<&[usize]> {
    let (each, more) = (columns.len() / parts, columns.len() % parts);
    let mut rest = columns;
    let mut found = Vec::new();
    for part in 0..parts {
        let (here, after) = rest.split_at(each + usize::from(part < more));
        found.push(here);
        rest = after;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::shared;

    #[test]
    fn a_walk_is_shared_as_equally_as_can_be() {
        assert_eq!(shared(&[0, 1, 2, 3, 4], 2), [&[0, 1, 2][..], &[3, 4]]);
        assert_eq!(shared(&[0, 1], 1), [&[0, 1][..]]);
        assert_eq!(shared(&[0, 1, 2], 3), [&[0][..], &[1], &[2]]);
    }
}
