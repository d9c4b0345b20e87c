//! The plain practice: everything is raised to the highest pad.

use super::action::{Action, Aim, Choice, Plan};
use super::limits_kept::{To, limits_kept};
use super::options::{Open, PlannedOption, all_options, judge, options_at};
use crate::levels::Levelled;
use crate::model::{Column, Job};

/// Plans every column as near the highest pad as shims bring it, whether its rods allow it or not.
///
/// A column is left as it is or takes a stack: the one whose seat departs from its design most nearly as the highest
/// pad does, of two as near the lower; on a designed bed it is the bed that does so, and the pad counts as raised by the
/// designed one. Where even that is further off than the closest limit of the column it is
/// referred. It is what a crew does that shims to one level, to compare with; holds and differences are
/// for [`crate::check`].
#[must_use]
pub fn plan_highest(job: &Job, levels: &Levelled, to: To) -> Plan {
    let limits = limits_kept(job, levels, to);
    let shims = |option: &PlannedOption| matches!(option.action, Action::NoShim | Action::Shim);
    let mut options: Vec<PlannedOption> = all_options(job).into_iter().filter(shims).collect();
    // of one height the stack of fewest pieces stands first
    options.dedup_by_key(|option| option.raise.nominal);
    let departure = |column: &Column| {
        let height = levels.height(column.point?)?;
        Some(height.elevation - job.design_seat(column))
    };
    let seats = job.columns.iter().filter_map(|column| Some(departure(column)? + job.base_of(column).bed));
    let highest = seats.max().unwrap_or_default();
    let choices = job.columns.iter().enumerate().map(|(index, column)| {
        let Some(below) = departure(column).map(|departure| highest - departure) else {
            return Choice::without(Action::Unmeasured);
        };
        let missed = |option: &PlannedOption| (option.raise.nominal - below).abs();
        let options = options_at(job, column, &options);
        let nearest = options.iter().min_by_key(|option| (missed(option), option.raise.nominal));
        match nearest.filter(|option| limits.closest(index).is_none_or(|most| missed(option) <= most)) {
            Some(option) => option.choice(judge(job, column, option) != Open::Yes),
            None => Choice::without(Action::Refer),
        }
    });
    Plan {
        choices: choices.collect(),
        aim: Aim::Level,
        to,
        guarded: false,
        optimum: None,
        firm: None,
        shortage: None,
    }
}
