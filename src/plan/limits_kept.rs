//! Which differences a plan keeps, and how large each may be.

use crate::length::Length;
use crate::levels::{Datum, Levelled};
use crate::model::{Job, Line, LineKind};
use serde::Serialize;
use std::collections::BTreeMap;

/// Which of the limits a plan keeps.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum To {
    /// What is accepted.
    #[default]
    Accept,
    /// What good work comes to, where a table says so; elsewhere what is accepted.
    Desired,
}

/// A limit of the job that ties seats together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tie {
    /// Two next columns on a line, an index into [`Job::lines`].
    Neighbours {
        /// The line.
        line: usize,
    },
    /// High to low over a stretch of a wall line.
    Wall {
        /// The line, an index into [`Job::lines`].
        line: usize,
    },
    /// High to low over the building.
    Building,
}

/// Two columns that may be so far apart.
#[derive(Clone, Debug)]
pub(super) struct Step {
    pub(super) columns: [usize; 2],
    pub(super) most: Length,
    pub(super) tie: Tie,
}

/// Columns that may be so far apart from high to low.
#[derive(Clone, Debug)]
pub(super) struct Spread {
    pub(super) columns: Vec<usize>,
    pub(super) most: Length,
    pub(super) tie: Tie,
}

/// Every limit that ties seats together.
#[derive(Clone, Debug, Default)]
pub(super) struct LimitsKept {
    pub(super) steps: Vec<Step>,
    pub(super) spreads: Vec<Spread>,
    /// How far each column may be from its design seat, in job order.
    pub(super) design: Vec<Option<Length>>,
}

impl LimitsKept {
    /// Tells whether other limits of the same job allow just the same seats.
    pub(super) fn allows_the_same_as(&self, other: &Self) -> bool {
        let steps = |limits: &Self| limits.steps.iter().map(|it| it.most).collect::<Vec<_>>();
        let spreads = |limits: &Self| limits.spreads.iter().map(|it| it.most).collect::<Vec<_>>();
        steps(self) == steps(other) && spreads(self) == spreads(other) && self.design == other.design
    }

    /// Gives the least difference that applies to a column.
    pub(super) fn closest(&self, column: usize) -> Option<Length> {
        let steps = self.steps.iter().filter(|it| it.columns.contains(&column)).map(|it| it.most);
        let spreads = self.spreads.iter().filter(|it| it.columns.contains(&column)).map(|it| it.most);
        steps.chain(spreads).chain(self.design.get(column).copied().flatten()).min()
    }
}

/// Reads the limits of a job.
///
/// Where two lines compare the same two columns, only the closer limit is listed.
pub(super) fn limits_kept(job: &Job, levels: &Levelled, to: To) -> LimitsKept {
    let tables = &job.limits.tables;
    let pick = |accept: Length, desired: Option<Length>| match (to, desired) {
        (To::Desired, Some(desired)) => accept.min(desired),
        _ => accept,
    };
    let mut steps: BTreeMap<[usize; 2], Step> = BTreeMap::new();
    let mut spreads = Vec::new();
    for (index, line) in job.lines.iter().enumerate() {
        let table = tables.neighbours.as_ref();
        let accept = line.accept.or(table.map(|table| table.accept.value));
        let desired = table.and_then(|table| table.desired.as_ref()).map(|desired| desired.value);
        if let Some(accept) = accept {
            let most = pick(accept, desired);
            for (&a, &b) in line.columns.iter().zip(line.columns.iter().skip(1)) {
                let step = Step { columns: [a, b], most, tie: Tie::Neighbours { line: index } };
                let kept = steps.entry([a.min(b), a.max(b)]).or_insert_with(|| step.clone());
                if most < kept.most {
                    *kept = step;
                }
            }
        }
        if let (LineKind::Wall, Some(table)) = (line.kind, &tables.wall) {
            let most = pick(table.accept.value, table.desired.as_ref().map(|desired| desired.value));
            let longest = table.length.as_ref().map(|length| length.value);
            spreads.extend(stretches(line, longest).into_iter().map(|columns| Spread {
                columns,
                most,
                tie: Tie::Wall { line: index },
            }));
        }
    }
    if let Some(table) = &tables.building {
        let most = pick(table.accept.value, table.desired.as_ref().map(|desired| desired.value));
        let columns = (0..job.columns.len()).collect();
        spreads.push(Spread { columns, most, tie: Tie::Building });
    }
    let design = tables.design.as_ref().filter(|_| matches!(levels.datum(), Datum::Absolute(_)));
    let from_design =
        design.map(|table| pick(table.accept.value, table.desired.as_ref().map(|desired| desired.value)));
    let design = job.columns.iter().map(|column| from_design.filter(|_| column.seat.or(job.seat).is_some()));
    LimitsKept { steps: steps.into_values().collect(), spreads, design: design.collect() }
}

/// Cuts a line into its longest stretches of no more than a length, none of them part of another.
fn stretches(line: &Line, longest: Option<Length>) -> Vec<Vec<usize>> {
    let Some(longest) = longest else { return vec![line.columns.clone()] };
    // how far along the line each column stands
    let mut along = vec![Length::ZERO];
    for step in &line.spacing {
        along.push(along.last().copied().unwrap_or_default() + *step);
    }
    let placed: Vec<(usize, Length)> = line.columns.iter().copied().zip(along).collect();
    let mut found = Vec::new();
    let mut reached = 0;
    for (start, (_, from)) in placed.iter().enumerate() {
        let end = placed.partition_point(|(_, at)| *at - *from <= longest);
        if end > reached.max(start + 1) {
            found.push(placed[start..end].iter().map(|(column, _)| *column).collect());
            reached = end;
        }
    }
    found
}
