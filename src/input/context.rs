//! What the readers of a job share, and the small things that all of them read.

use super::data_table::Cell;
use crate::length::{Bare, Length, Unreadable, read};
use crate::source::{Files, Place, Problem, Walk, nearest};
use crate::text::{count, quoted, why_unreadable};
use std::cell::RefCell;

/// Most characters of a mark or another name.
const MOST_NAME: usize = 60;

/// Faults after which the place of a first entry is not looked up.
const MOST_LOCATED: usize = 1_000;

/// Faults of one kind in one file that are told one by one.
const TOLD: usize = 5;

/// What the readers of a job share.
#[derive(Clone, Copy)]
pub(super) struct Context<'a> {
    /// The files that were read.
    pub(super) files: &'a Files,
    /// Reads values, with the job's units for bare numbers, and notes faults.
    pub(super) walk: Walk<'a>,
    /// What a bare number of a level reading means.
    pub(super) readings: Bare,
}

impl Context<'_> {
    /// Notes a fault.
    pub(super) fn note(self, problem: Problem) {
        self.walk.problems.note(problem);
    }

    /// Notes that a name stands a second time.
    pub(super) fn twice(self, what: &str, place: Place, first: Place) {
        // finding a line takes long in a large file, and nobody reads so many faults
        let told = self.walk.problems.count() < MOST_LOCATED;
        let first = if told { self.written(first) } else { self.files.name(first.file).to_owned() };
        let fix = format!("it stands first at {first}");
        self.note(Problem::at(place, format!("{what} stands here a second time")).fix(fix));
    }

    /// Writes a place as file, line and column, or as workbook and cell.
    pub(super) fn written(self, place: Place) -> String {
        self.files.whereabouts(place)
    }

    /// Takes a text as a name that can be used as a mark.
    pub(super) fn name(self, text: &str, place: Place) -> Option<String> {
        let name = text.trim();
        let problem = if name.is_empty() {
            Problem::at(place, "a name is needed here, this is blank").fix("write the mark as on the drawing")
        } else if name.chars().nth(MOST_NAME).is_some() {
            Problem::at(place, format!("{} is longer than {MOST_NAME} characters", quoted(name)))
                .fix("use a shorter name")
        } else if name.chars().any(char::is_control) {
            Problem::at(place, format!("{} holds a character that cannot be printed", quoted(name)))
                .fix("write the name again by hand")
        } else if name.chars().any(is_unseen) {
            Problem::at(
                place,
                "this name holds a character that nobody sees, so that it is another name than it looks",
            )
            .fix("write the name again by hand; copied text brings such characters along")
        } else {
            return Some(name.to_owned());
        };
        self.note(problem);
        None
    }

    /// Notes an unknown name, with the nearest known one.
    pub(super) fn unknown<'n>(
        self,
        place: Place,
        message: String,
        typed: &str,
        known: impl Iterator<Item = &'n str> + Clone,
    ) {
        let problem = Problem::at(place, message);
        self.note(match nearest(typed, known.clone()) {
            Some(name) => problem.fix(format!("did you mean `{name}`?")),
            None => match known_names(known) {
                Some(names) => problem.fix(names),
                None => problem,
            },
        });
    }
}

/// Tells whether a character takes no place or turns the writing round: two marks that look alike would differ.
fn is_unseen(it: char) -> bool {
    let unseen = ['\u{ad}', '\u{feff}'];
    unseen.contains(&it)
        || matches!(it, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}')
}

/// Lists the first known names for a fix.
pub(super) fn known_names<'n>(known: impl Iterator<Item = &'n str>) -> Option<String> {
    let mut names: Vec<&str> = known.take(13).collect();
    if names.is_empty() {
        return None;
    }
    if names.len() == 13 {
        names.pop();
        names.push("…");
    }
    Some(format!("known are {}", names.join(", ")))
}

/// Takes a text of the crew as it can be printed; none if it is blank.
pub(super) fn remark(text: &str) -> Option<String> {
    let clean: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    let clean = clean.trim();
    (!clean.is_empty()).then(|| clean.to_owned())
}

/// Faults of one kind in one file: the first are told, the others counted.
#[derive(Default)]
pub(super) struct Few {
    first: RefCell<Vec<Problem>>,
    more: RefCell<(usize, Option<Place>)>,
}

impl Few {
    /// Keeps a fault at a place.
    pub(super) fn keep(&self, place: Place, problem: impl FnOnce() -> Problem) {
        let mut first = self.first.borrow_mut();
        if first.len() < TOLD {
            first.push(problem());
        } else {
            let mut more = self.more.borrow_mut();
            more.0 += 1;
            more.1.get_or_insert(place);
        }
    }

    /// Notes what was kept; `likewise` says what is wrong with the others.
    pub(super) fn tell(self, context: Context<'_>, likewise: &str) {
        for problem in self.first.into_inner() {
            context.note(problem);
        }
        if let (more, Some(place)) = self.more.into_inner() {
            let cells = count(more, "more cell");
            context.note(Problem::at(place, format!("from here on {cells} of this file {likewise}")));
        }
    }
}

/// Reads the lengths of one CSV file.
pub(super) struct Lengths<'a> {
    context: Context<'a>,
    without_unit: Few,
}

impl<'a> Lengths<'a> {
    /// Starts on a file.
    pub(super) fn new(context: Context<'a>) -> Self {
        Self { context, without_unit: Few::default() }
    }

    /// Reads a cell; blank is not measured.
    pub(super) fn read(&self, cell: &Cell, bare: Bare) -> Option<Length> {
        if cell.is_blank() {
            return None;
        }
        match read(&cell.text, bare) {
            Ok(length) => Some(length),
            Err(why @ (Unreadable::NeedsUnit | Unreadable::FractionNeedsUnit)) => {
                self.without_unit.keep(cell.place, || {
                    let (message, fix) = why_unreadable(why);
                    Problem::at(cell.place, format!("{}: {message}", quoted(&cell.text))).fix(fix)
                });
                None
            }
            Err(_) => Walk { bare, ..self.context.walk }.length_text(&cell.text, cell.place),
        }
    }

    /// Reads a cell that cannot be less than nothing.
    pub(super) fn size(&self, cell: &Cell, bare: Bare) -> Option<Length> {
        let length = self.read(cell, bare)?;
        if length.is_negative() {
            self.context.note(
                Problem::at(cell.place, format!("{}: this cannot be less than 0", quoted(&cell.text)))
                    .fix("check the sign and the measurement"),
            );
            return None;
        }
        Some(length)
    }

    /// Notes the cells without a unit.
    pub(super) fn finish(self) {
        self.without_unit.tell(self.context, "without a unit");
    }
}
