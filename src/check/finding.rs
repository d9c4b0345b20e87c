//! What a rule says of one subject.

use crate::catalog::Authority;
use crate::length::Length;
use crate::model::RodLabel;
use serde::Serialize;

/// How grave a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Level {
    /// Do not set.
    Stop,
    /// The engineer decides.
    Ask,
    /// Good to know.
    Note,
}

/// What a rule looked at.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Subject {
    /// The columns, in job order.
    pub columns: Vec<usize>,
    /// The rod, where it is about one.
    pub rod: Option<RodLabel>,
    /// The line, where it is about one.
    pub line: Option<String>,
}

impl Subject {
    /// Makes a subject of one column.
    #[must_use]
    pub fn column(index: usize) -> Self {
        Self { columns: vec![index], ..Self::default() }
    }

    /// Makes a subject of one rod of a column.
    #[must_use]
    pub fn rod(index: usize, rod: RodLabel) -> Self {
        Self { columns: vec![index], rod: Some(rod), line: None }
    }
}

/// What came out of a rule; unknown is never a pass.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Kept, with so much to spare where it can be measured.
    Pass {
        /// What is to spare.
        margin: Option<Length>,
    },
    /// Not kept, or to be known: it becomes a finding.
    Fail(Level),
    /// The rule does not apply, and why.
    NotApplicable(String),
    /// Something is missing, and what: it becomes a finding.
    Unknown(Level, String),
}

/// One judgement of a rule on one subject.
#[derive(Clone, Debug)]
pub struct Finding {
    /// What was looked at.
    pub subject: Subject,
    /// What came out.
    pub outcome: Outcome,
    /// The value compared, where there is one.
    pub actual: Option<Length>,
    /// The limit it was compared with.
    pub limit: Option<Length>,
    /// The sentence, in the words of the trade: what is so and what to do.
    pub text: String,
    /// Formula, numbers put in, result, a line each.
    pub arithmetic: Vec<String>,
    /// On whose word the limit stands.
    pub authority: Authority,
}

impl Finding {
    /// Makes a judgement in words, without a value, a limit or any arithmetic.
    #[must_use]
    pub const fn said(subject: Subject, text: String, outcome: Outcome, authority: Authority) -> Self {
        Self { subject, outcome, actual: None, limit: None, text, arithmetic: Vec::new(), authority }
    }

    /// Gives the level, if it is a finding at all.
    #[must_use]
    pub const fn level(&self) -> Option<Level> {
        match &self.outcome {
            Outcome::Fail(level) | Outcome::Unknown(level, _) => Some(*level),
            Outcome::Pass { .. } | Outcome::NotApplicable(_) => None,
        }
    }
}
