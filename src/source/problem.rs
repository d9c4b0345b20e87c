//! What is wrong, where, and how to mend it.

use super::{FileId, Place};
use std::cell::RefCell;
use std::collections::BTreeSet;

/// One fault in the input.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// What is wrong, in one line.
    pub message: String,
    /// Where, if it stands at a place.
    pub place: Option<Place>,
    /// In which file, if it has no narrower place.
    pub file: Option<FileId>,
    /// How to mend it.
    pub fix: Option<String>,
}

impl Problem {
    /// Makes a fault at a place.
    #[must_use]
    pub fn at(place: Place, message: impl Into<String>) -> Self {
        Self { message: message.into(), place: Some(place), file: None, fix: None }
    }

    /// Makes a fault of a whole file.
    #[must_use]
    pub fn in_file(file: FileId, message: impl Into<String>) -> Self {
        Self { message: message.into(), place: None, file: Some(file), fix: None }
    }

    /// Makes a fault that stands in no file.
    #[must_use]
    pub fn general(message: impl Into<String>) -> Self {
        Self { message: message.into(), place: None, file: None, fix: None }
    }

    /// Adds how to mend it.
    #[must_use]
    pub fn fix(mut self, fix: impl Into<String>) -> Self {
        self.fix = Some(fix.into());
        self
    }
}

/// All faults found so far; a reader notes one and reads on.
#[derive(Debug, Default)]
pub struct Problems {
    found: RefCell<Vec<Problem>>,
    /// Places of which all is said.
    closed: RefCell<BTreeSet<Place>>,
}

impl Problems {
    /// Notes a fault.
    pub fn note(&self, problem: Problem) {
        if problem.place.is_none_or(|place| !self.closed.borrow().contains(&place)) {
            self.found.borrow_mut().push(problem);
        }
    }

    /// Takes a place as one of which all is said: no fault is noted there any more.
    pub fn close(&self, place: Place) {
        self.closed.borrow_mut().insert(place);
    }

    /// Tells whether nothing is wrong so far.
    #[must_use]
    pub fn none(&self) -> bool {
        self.found.borrow().is_empty()
    }

    /// Counts the faults so far.
    #[must_use]
    pub fn count(&self) -> usize {
        self.found.borrow().len()
    }

    /// Gives all faults in the order of files and places, each once.
    #[must_use]
    pub fn into_vec(self) -> Vec<Problem> {
        let mut found = self.found.into_inner();
        found.sort_by_key(|problem| problem.place);
        found.dedup();
        found
    }
}
