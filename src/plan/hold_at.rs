//! What makes a raise that somebody wants at one column.

use super::options::{Open, PlannedOption, judge};
use crate::length::Length;
use crate::model::{Column, Job};

/// Nothing makes a raise; the nearest that can be made on either side of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoSuchRaise {
    /// The next lower raise.
    pub below: Option<Length>,
    /// The next higher raise.
    pub above: Option<Length>,
}

/// Finds the option that makes a raise at a column, whether its rods allow it or not.
///
/// `all` is what can be done at a column. A stack comes before a bed of grout; of several stacks of the height one that
/// is open and not held, then one that is open, then the first.
///
/// # Errors
/// Tells the nearest raises that can be made.
pub fn option_at(
    job: &Job,
    column: &Column,
    all: &[PlannedOption],
    raise: Length,
) -> Result<PlannedOption, NoSuchRaise> {
    let of_raise = || all.iter().filter(|option| option.raise.nominal == raise);
    // of one raise all options but a bed of grout share their action, and the bed stands last
    let action = of_raise().map(|option| option.action).next();
    let rank = |option: &&PlannedOption| match judge(job, column, option) {
        Open::Yes => 0,
        Open::Held => 1,
        Open::No => 2,
    };
    let found = of_raise().filter(|option| Some(option.action) == action).min_by_key(rank);
    let raises = || all.iter().map(|option| option.raise.nominal);
    found.cloned().ok_or_else(|| NoSuchRaise {
        below: raises().filter(|it| *it < raise).max(),
        above: raises().filter(|it| *it > raise).min(),
    })
}
