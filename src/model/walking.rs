//! The order in which a crew walks the columns.

use super::job::Job;
use crate::length::Length;

/// How a walk goes, and along which lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Walk {
    /// The columns, each once, indices into [`Job::columns`].
    pub columns: Vec<usize>,
    /// The lines it follows, by name, in their order; empty where no column stands on a line.
    pub lines: Vec<String>,
    /// Columns at its end that stand on no line.
    pub apart: Vec<usize>,
}

/// Gives the walk along the lines, there and back.
///
/// The lines are taken in the order of the job, each from the end that is nearer to where the walk stands, or, where
/// positions are not known, in turn forward and back. A column is visited once, at the first line that has it; those on
/// no line come last, in job order.
#[must_use]
pub fn walk(job: &Job) -> Walk {
    let mut visited = vec![false; job.columns.len()];
    let mut columns: Vec<usize> = Vec::new();
    let mut lines = Vec::new();
    let mut forward = true;
    for line in &job.lines {
        let is_new = |column: &usize| visited.get(*column) == Some(&false);
        let mut left: Vec<usize> = line.columns.iter().copied().filter(is_new).collect();
        let (Some(&first), Some(&last)) = (left.first(), left.last()) else { continue };
        let here = columns.last().and_then(|&column| at(job, column));
        let turn = match (here, at(job, first), at(job, last)) {
            (Some(here), Some(first), Some(last)) => squared(here, last) < squared(here, first),
            _ => !forward,
        };
        if turn {
            left.reverse();
        }
        forward = turn;
        for &column in &left {
            if let Some(place) = visited.get_mut(column) {
                *place = true;
            }
        }
        columns.extend(left);
        lines.push(line.name.clone());
    }
    let apart: Vec<usize> = (0..job.columns.len()).filter(|&column| !visited[column]).collect();
    columns.extend(&apart);
    Walk { columns, lines, apart }
}

fn at(job: &Job, column: usize) -> Option<[Length; 2]> {
    job.columns.get(column)?.at
}

/// Gives the square of a distance, for comparing.
fn squared([x, y]: [Length; 2], [other_x, other_y]: [Length; 2]) -> u128 {
    let square = |one: Length, other: Length| u128::from(one.nm().abs_diff(other.nm())).pow(2);
    square(x, other_x).saturating_add(square(y, other_y))
}
