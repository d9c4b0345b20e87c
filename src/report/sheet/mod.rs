//! The field sheet: what is read at the slab, in walking order, blank.

mod beside;
mod drawn;
mod json;
mod notes;
mod page;
mod plan;
mod rows;

use super::document::{Answer, Document};
use crate::catalog::InstrumentKind;
use crate::model::Job;

/// What a sheet is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetFor {
    /// Pads and every rod, to print.
    All,
    /// The short form: a pad, its lowest and its highest rod.
    Walk,
    /// The pads.
    Levels,
    /// Every rod.
    Rods,
}

impl SheetFor {
    /// Gives the name it is asked for by.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::All => "all",
            Self::Walk => "walk",
            Self::Levels => "levels",
            Self::Rods => "rods",
        }
    }
}

/// Makes a blank sheet, its walk shared among so many setups, one at least.
///
/// The rows of its sheet are those that `input` reads back as walk, levels or rods; there are none for
/// [`SheetFor::All`], which is no one file.
#[must_use]
pub fn sheet_answer(job: &Job, what: SheetFor, setups: usize, kinds: &[InstrumentKind]) -> Answer {
    let plan = plan::Plan::of(job, setups);
    let mut document = Document::default();
    page::tell(&mut document, job, what, &plan, kinds);
    Answer {
        document,
        sheet: rows::sheet(job, what, &plan),
        value: json::value(job, what, &plan),
        clear: true,
    }
}
