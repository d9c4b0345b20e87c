//! The rods of every column, from what was measured of all, of some, or of the lowest and highest.

use super::context::Context;
use super::rods::Figures;
use crate::length::Length;
use crate::model::{Condition, Rod, RodLabel};
use crate::source::{Place, Problem};
use std::collections::BTreeMap;

/// Which rod a row is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Which {
    /// All rods of the column.
    All,
    /// One rod by its number.
    Number(u32),
    /// The lowest rod.
    Low,
    /// The highest rod.
    High,
}

/// What was measured at one column.
#[derive(Default)]
struct Measured {
    given: BTreeMap<Which, Figures>,
    thread: Option<Length>,
    condition: Option<Condition>,
}

/// What was measured at all columns.
#[derive(Default)]
pub(super) struct RodLists {
    columns: BTreeMap<usize, Measured>,
}

impl RodLists {
    /// Takes the figures of a rod, and notes one that is given already.
    pub(super) fn give(&mut self, context: Context<'_>, column: usize, which: Which, figures: Figures) {
        let measured = self.columns.entry(column).or_default();
        let Some(first) = measured.given.get(&which) else {
            measured.given.insert(which, figures);
            return;
        };
        let what = match which {
            Which::All => "a row for all rods of this column".to_owned(),
            Which::Number(number) => format!("rod {number} of this column"),
            Which::Low => "the low rod of this column".to_owned(),
            Which::High => "the high rod of this column".to_owned(),
        };
        context.twice(&what, figures.named, first.named);
    }

    /// Takes thread and condition of a walk row, which hold for every rod that has none of its own.
    pub(super) fn besides(&mut self, column: usize, thread: Option<Length>, condition: Option<Condition>) {
        let measured = self.columns.entry(column).or_default();
        measured.thread = thread;
        measured.condition = condition;
    }

    /// Gives the rods of a column whose base has so many, where that is known.
    ///
    /// Where `low` or `high` was given, by tape or by level, these two are listed; numbered rods beside them are
    /// noted.
    pub(super) fn finish(
        &mut self,
        context: Context<'_>,
        column: usize,
        count: Option<u32>,
        by_level: &[(RodLabel, Place)],
    ) -> Vec<Rod> {
        let measured = self.columns.remove(&column).unwrap_or_default();
        let listed = measured.is_grouped();
        if listed == Some(true) {
            for (_, figures) in measured.given.iter().filter(|(which, _)| matches!(which, Which::Number(_))) {
                context.note(
                    Problem::at(figures.named, "this column has numbered rods beside low or high")
                        .fix("give numbered rods or low/high, not both"),
                );
            }
        }
        let is_group = |label: RodLabel| matches!(label, RodLabel::Low | RodLabel::High);
        let read = by_level.first().map(|(label, _)| is_group(*label));
        let grouped = listed.or(read).unwrap_or(false);
        for (label, place) in by_level {
            by_level_fits(context, (*label, *place), grouped, count);
        }
        let count = count.unwrap_or(0);
        let labels: Vec<(RodLabel, Which)> = if grouped {
            vec![(RodLabel::Low, Which::Low), (RodLabel::High, Which::High)]
        } else {
            (1..=count).map(|number| (RodLabel::Number(number), Which::Number(number))).collect()
        };
        labels.into_iter().map(|(label, which)| measured.rod(label, which)).collect()
    }
}

/// Notes a rod whose top was read and that the column does not list.
fn by_level_fits(context: Context<'_>, (label, place): (RodLabel, Place), grouped: bool, count: Option<u32>) {
    let problem = match (label, grouped, count) {
        (RodLabel::Number(_), true, _) => {
            Problem::at(place, format!("rod {label}: the rods of this column are listed as low and high"))
                .fix("write rod low or rod high, or list all rods of this column by their numbers")
        }
        (RodLabel::Low | RodLabel::High, false, _) => {
            Problem::at(place, format!("rod {label}: the rods of this column are listed by their numbers"))
                .fix("write rod and its number, or list the rods of this column as low and high only")
        }
        (RodLabel::Number(number), false, Some(count)) if number > count => {
            Problem::at(place, format!("rod {label}: this column has {count} rods"))
                .fix(format!("write rod and a number from 1 to {count}"))
        }
        _ => return,
    };
    context.note(problem);
}

impl Measured {
    /// Tells whether its rods are given as the lowest and the highest, or by numbers; none where neither is.
    fn is_grouped(&self) -> Option<bool> {
        let given = |wanted: fn(&Which) -> bool| self.given.keys().any(wanted);
        if given(|which| matches!(which, Which::Low | Which::High)) {
            return Some(true);
        }
        given(|which| matches!(which, Which::Number(_))).then_some(false)
    }

    /// Gives one rod: its own row replaces the row for all entirely.
    fn rod(&self, label: RodLabel, which: Which) -> Rod {
        let own = self.given.get(&which);
        let figures = own.or_else(|| self.given.get(&Which::All));
        let thread = figures.and_then(|figures| figures.thread).or(self.thread);
        let condition = figures.and_then(|figures| figures.condition.as_ref()).or(self.condition.as_ref());
        Rod {
            projection: figures.and_then(|figures| figures.projection),
            thread,
            condition: condition.cloned().unwrap_or(Condition::Sound),
            one_for_all: own.is_none() && figures.is_some(),
            place: figures.map(|figures| figures.place),
            ..Rod::unmeasured(label)
        }
    }
}
