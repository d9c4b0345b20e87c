//! An earlier answer of `check`, as far as a new measurement is held against it.

use super::action::Action;
use super::column::RodLabel;
use super::stack_up::State;
use crate::length::Length;

/// An earlier answer of `check`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Earlier {
    /// The file it was read from, as it was named.
    pub file: String,
    /// The name of its job.
    pub job: String,
    /// What its elevations are counted from: `relative`, the benchmarks, or `elevations`.
    pub datum: String,
    /// The limit set it was planned to.
    pub limits: String,
    /// What the plan aimed at.
    pub aim: String,
    /// Which limits it kept.
    pub to: String,
    /// Whether it kept them by value and +-.
    pub guarded: bool,
    /// Its columns, in its order.
    pub columns: Vec<EarlierColumn>,
    /// Its findings, in its order.
    pub findings: Vec<EarlierFinding>,
}

impl Earlier {
    /// Tells whether its elevations are counted from its own highest pad.
    #[must_use]
    pub fn is_relative(&self) -> bool {
        self.datum == "relative"
    }

    /// Gives a column by its mark.
    #[must_use]
    pub fn column(&self, mark: &str) -> Option<&EarlierColumn> {
        self.columns.iter().find(|column| column.mark == mark)
    }
}

/// One column of an earlier answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EarlierColumn {
    /// Its mark.
    pub mark: String,
    /// The mark of its base.
    pub base: String,
    /// The elevation of its pad, where it was measured.
    pub pad: Option<Length>,
    /// What that was good to, at 95 %; in a relative answer against its highest pad.
    pub plus_minus: Option<Length>,
    /// What was done.
    pub action: Action,
    /// The raise; none where nothing was planned.
    pub raise: Option<Length>,
    /// The stack: thickness and count.
    pub stack: Vec<(Length, u32)>,
    /// Why it might not be set, as JSON has it.
    pub hold: Vec<String>,
    /// Whether it might be set.
    pub may_set: bool,
    /// Its rods.
    pub rods: Vec<EarlierRod>,
    /// What its plate was set on, by the job's word then, where the answer says it.
    pub seat_on: Option<String>,
    /// Its packs, where the answer says them.
    pub packs: Option<EarlierPacks>,
    /// Its levelling nuts, where the answer says them.
    pub levelling: Option<EarlierLevelling>,
}

/// The packs of a column of an earlier answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EarlierPacks {
    /// How many; none where that was not known.
    pub count: Option<u32>,
    /// The two sides of one; none where they were not known.
    pub size: Option<[Length; 2]>,
    /// The pieces of all of them, thickness and count; none where they were not known.
    pub pieces: Option<Vec<(Length, u32)>>,
}

/// The levelling nuts of a column of an earlier answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EarlierLevelling {
    /// The nut by series.
    pub nut: String,
    /// The washer on it by series, where there was one.
    pub washer: Option<String>,
    /// How many of each.
    pub count: u32,
}

/// One rod of an earlier answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EarlierRod {
    /// Which rod.
    pub label: RodLabel,
    /// Its projection, where it was measured.
    pub projection: Option<Length>,
    /// What that was good to, where the answer says so.
    pub plus_minus: Option<Length>,
    /// What was certain about its nuts.
    pub state: State,
    /// Washers added under the nut.
    pub extra_washers: u32,
}

/// One finding of an earlier answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EarlierFinding {
    /// Its rule.
    pub rule: String,
    /// Its level, as JSON has it.
    pub level: String,
    /// The marks of its columns.
    pub columns: Vec<String>,
    /// Its rod, where it is about one.
    pub rod: Option<String>,
    /// Its line, where it is about one.
    pub line: Option<String>,
    /// What it said.
    pub text: String,
}
