//! The differences that the limits compare, each with its uncertainty.

use super::case::ColumnCase;
use crate::catalog::Authority;
use crate::length::Length;
use crate::levels::{Datum, Levelled};
use crate::model::{Job, Line, LineKind};
use serde::Serialize;
use std::collections::BTreeMap;

/// What is compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum DifferenceKind {
    /// Two next columns of a line, the second less the first.
    Neighbours,
    /// High to low over a stretch of a wall line.
    Wall,
    /// High to low over all columns.
    Building,
    /// A column from its design seat.
    Design,
}

/// What is certain about a difference.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Within its limit, its uncertainty included.
    Within,
    /// Beyond its limit, its uncertainty taken off.
    Out,
    /// Too close to its limit to call.
    Unsure,
    /// A pad is missing or referred.
    Unknown,
}

/// One difference under the plan.
#[derive(Clone, Debug)]
pub struct Difference {
    /// What is compared.
    pub kind: DifferenceKind,
    /// The line, where there is one.
    pub line: Option<String>,
    /// The columns compared.
    pub columns: Vec<usize>,
    /// The difference of the departures; unknown where nothing can be compared.
    pub value: Option<Length>,
    /// What good work comes to.
    pub desired: Option<Length>,
    /// What is accepted.
    pub limit: Length,
    /// The difference is good to plus or minus this, at 95 %.
    pub plus_minus: Option<Length>,
    /// What is certain.
    pub verdict: Verdict,
    /// On whose word the limit stands.
    pub authority: Authority,
}

/// Works out every difference a limit in force compares.
#[must_use]
pub fn differences(job: &Job, levels: &Levelled, columns: &[ColumnCase]) -> Vec<Difference> {
    let seats = Seats { job, levels, columns };
    let mut found = Vec::new();
    for line in &job.lines {
        found.extend(seats.neighbours(line));
    }
    for line in job.lines.iter().filter(|line| line.kind == LineKind::Wall) {
        found.extend(seats.wall(line));
    }
    found.extend(seats.building());
    found.extend(seats.design());
    found
}

/// Gives the pairs of neighbours, each pair once, whichever lines it stands on.
#[must_use]
pub fn distinct_neighbours(job: &Job) -> Vec<(usize, usize)> {
    let mut pairs: BTreeMap<(usize, usize), ()> = BTreeMap::new();
    for line in &job.lines {
        for pair in line.columns.windows(2) {
            let (a, b) = (pair[0].min(pair[1]), pair[0].max(pair[1]));
            pairs.insert((a, b), ());
        }
    }
    pairs.into_keys().collect()
}

struct Seats<'a> {
    job: &'a Job,
    levels: &'a Levelled,
    columns: &'a [ColumnCase],
}

impl Seats<'_> {
    /// Gives how far a seat stands above its design.
    fn departure(&self, index: usize) -> Option<Length> {
        self.columns.get(index)?.seat_departure
    }

    fn plus_minus(&self, a: usize, b: usize) -> Option<Length> {
        let point = |index: usize| self.job.columns.get(index)?.point;
        self.levels.difference_plus_minus(point(a)?, point(b)?)
    }

    fn neighbours(&self, line: &Line) -> Vec<Difference> {
        let table = self.job.limits.tables.neighbours.as_ref();
        let limit = match (line.accept, table) {
            (Some(accept), _) => Some((accept, Authority::this_job())),
            (None, Some(table)) => Some((table.accept.value, table.accept.authority.clone())),
            (None, None) => None,
        };
        let Some((limit, authority)) = limit else { return Vec::new() };
        let desired = table.and_then(|table| table.desired.as_ref()).map(|desired| desired.value);
        line.columns
            .windows(2)
            .map(|pair| {
                let value = self.departure(pair[1]).zip(self.departure(pair[0])).map(|(b, a)| b - a);
                let plus_minus = self.plus_minus(pair[0], pair[1]);
                Difference {
                    kind: DifferenceKind::Neighbours,
                    line: Some(line.name.clone()),
                    columns: pair.to_vec(),
                    value,
                    desired,
                    limit,
                    plus_minus,
                    verdict: verdict(value, plus_minus, limit, true),
                    authority: authority.clone(),
                }
            })
            .collect()
    }

    fn wall(&self, line: &Line) -> Vec<Difference> {
        let Some(table) = &self.job.limits.tables.wall else { return Vec::new() };
        let longest = table.length.as_ref().map(|length| length.value);
        stretches(line, longest)
            .into_iter()
            .map(|stretch| {
                self.high_to_low(
                    DifferenceKind::Wall,
                    Some(line.name.clone()),
                    stretch,
                    table.desired.as_ref().map(|desired| desired.value),
                    table.accept.value,
                    table.accept.authority.clone(),
                )
            })
            .collect()
    }

    fn building(&self) -> Option<Difference> {
        let table = self.job.limits.tables.building.as_ref()?;
        let all: Vec<usize> = (0..self.job.columns.len()).collect();
        if all.len() < 2 {
            return None;
        }
        Some(self.high_to_low(
            DifferenceKind::Building,
            None,
            all,
            table.desired.as_ref().map(|desired| desired.value),
            table.accept.value,
            table.accept.authority.clone(),
        ))
    }

    fn design(&self) -> Vec<Difference> {
        let Some(table) = &self.job.limits.tables.design else { return Vec::new() };
        if !matches!(self.levels.datum(), Datum::Absolute(_)) {
            return Vec::new();
        }
        let with_seat = self.job.columns.iter().enumerate();
        with_seat
            .filter(|(_, column)| column.seat.or(self.job.seat).is_some())
            .map(|(index, _)| {
                let value = self.departure(index);
                let plus_minus = self.columns[index].pad.map(|pad| pad.plus_minus);
                Difference {
                    kind: DifferenceKind::Design,
                    line: None,
                    columns: vec![index],
                    value,
                    desired: table.desired.as_ref().map(|desired| desired.value),
                    limit: table.accept.value,
                    plus_minus,
                    verdict: verdict(value, plus_minus, table.accept.value, true),
                    authority: table.accept.authority.clone(),
                }
            })
            .collect()
    }

    /// Compares the highest and the lowest of those whose seats are known.
    fn high_to_low(
        &self,
        kind: DifferenceKind,
        line: Option<String>,
        columns: Vec<usize>,
        desired: Option<Length>,
        limit: Length,
        authority: Authority,
    ) -> Difference {
        let known: Vec<(Length, usize)> =
            columns.iter().filter_map(|&index| Some((self.departure(index)?, index))).collect();
        let low = known.iter().min_by_key(|(departure, _)| *departure);
        let high = known.iter().max_by_key(|(departure, _)| *departure);
        let (value, plus_minus) = match (low, high) {
            (Some(low), Some(high)) if known.len() > 1 => {
                (Some(high.0 - low.0), self.plus_minus(low.1, high.1))
            }
            _ => (None, None),
        };
        let complete = known.len() == columns.len();
        let verdict = verdict(value, plus_minus, limit, complete);
        Difference { kind, line, columns, value, desired, limit, plus_minus, verdict, authority }
    }
}

fn verdict(value: Option<Length>, plus_minus: Option<Length>, limit: Length, complete: bool) -> Verdict {
    let (Some(value), Some(plus_minus)) = (value, plus_minus) else {
        return Verdict::Unknown;
    };
    if value.abs() - plus_minus > limit {
        Verdict::Out
    } else if !complete {
        Verdict::Unknown
    } else if value.abs() + plus_minus <= limit {
        Verdict::Within
    } else {
        Verdict::Unsure
    }
}

/// Gives the longest stretches of a line that are no longer than a length.
fn stretches(line: &Line, longest: Option<Length>) -> Vec<Vec<usize>> {
    let Some(longest) = longest else {
        return vec![line.columns.clone()];
    };
    let mut found: Vec<Vec<usize>> = Vec::new();
    let mut last_end = 0;
    for start in 0..line.columns.len() {
        let mut length = Length::ZERO;
        let mut end = start;
        while let Some(&step) = line.spacing.get(end) {
            if length + step > longest {
                break;
            }
            length = length + step;
            end += 1;
        }
        if end > start && end > last_end {
            found.extend(line.columns.get(start..=end).map(<[usize]>::to_vec));
            last_end = end;
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(spacing: &[i64]) -> Line {
        Line {
            name: "A".into(),
            kind: LineKind::Wall,
            columns: (0..=spacing.len()).collect(),
            spacing: spacing.iter().map(|&nm| Length::from_nm(nm)).collect(),
            accept: None,
            found: false,
        }
    }

    #[test]
    fn only_the_longest_stretches_are_compared() {
        let sixty = Some(Length::from_nm(60));
        assert_eq!(stretches(&line(&[20, 20, 20, 20]), sixty), [vec![0, 1, 2, 3], vec![1, 2, 3, 4]]);
        assert_eq!(stretches(&line(&[20, 20]), sixty), [vec![0, 1, 2]]);
        assert_eq!(stretches(&line(&[61, 20, 70]), sixty), [vec![1, 2]]);
        assert_eq!(stretches(&line(&[61]), sixty), Vec::<Vec<usize>>::new());
        assert_eq!(stretches(&line(&[61]), None), [vec![0, 1]]);
    }

    #[test]
    fn a_verdict_counts_its_uncertainty_on_both_sides_of_the_limit() {
        let nm = Length::from_nm;
        let verdict = |value: i64, plus_minus: i64, complete: bool| {
            verdict(Some(nm(value)), Some(nm(plus_minus)), nm(10), complete)
        };
        assert_eq!(verdict(8, 2, true), Verdict::Within);
        assert_eq!(verdict(-8, 2, true), Verdict::Within);
        assert_eq!(verdict(9, 2, true), Verdict::Unsure);
        assert_eq!(verdict(-12, 2, true), Verdict::Unsure);
        assert_eq!(verdict(13, 2, true), Verdict::Out);
        assert_eq!(verdict(13, 2, false), Verdict::Out);
        assert_eq!(verdict(1, 2, false), Verdict::Unknown);
    }
}
