//! Walking a table key by key: what is not taken is reported, what is missing is said.

use super::{Kind, Node, Place, Problem, Problems, nearest};
use crate::length::{Bare, Length, Volume, read, read_volume};
use crate::quantity::{Force, NotRead, Stress, read_force, read_stress};
use crate::text::{quoted, why_not_read, why_unreadable};
use std::cell::RefCell;

/// The means to read nodes: where faults are noted and what a bare number means.
#[derive(Clone, Copy)]
pub struct Walk<'p> {
    /// Where faults are noted.
    pub problems: &'p Problems,
    /// What a number without a unit means.
    pub bare: Bare,
}

/// One table being read; keys that nobody took are faults.
pub struct Table<'n> {
    entries: &'n [(super::Key, Node)],
    place: Place,
    called: String,
    taken: RefCell<Vec<&'static str>>,
}

impl<'p> Walk<'p> {
    /// Takes a node as a table, called so in messages.
    #[must_use]
    pub fn table<'n>(self, node: &'n Node, called: &str) -> Option<Table<'n>> {
        match &node.kind {
            Kind::Table(entries) => Some(Table {
                entries,
                place: node.place,
                called: called.to_owned(),
                taken: RefCell::default(),
            }),
            other => self.expected(node, &format!("a table `{called}`"), other),
        }
    }

    /// Takes a node as a list; a table that is not a list is one entry of it, when written `[x]` for `[[x]]`.
    #[must_use]
    pub fn list(self, node: &Node) -> Option<&[Node]> {
        match &node.kind {
            Kind::List(items) => Some(items),
            other => self.expected(node, "a list", other),
        }
    }

    /// Takes a node as a text.
    #[must_use]
    pub fn text(self, node: &Node) -> Option<String> {
        match &node.kind {
            Kind::Text(text) => Some(text.clone()),
            other => self.expected(node, "a text in quotes", other),
        }
    }

    /// Takes a node as a name: a text that is not blank.
    #[must_use]
    pub fn name(self, node: &Node) -> Option<String> {
        let text = self.text(node)?;
        let name = text.trim();
        if name.is_empty() {
            self.problems.note(Problem::at(node.place, "a name is needed here, this is blank"));
            return None;
        }
        Some(name.to_owned())
    }

    /// Takes a node as true or false.
    #[must_use]
    pub fn yes(self, node: &Node) -> Option<bool> {
        match &node.kind {
            Kind::Bool(yes) => Some(*yes),
            other => self.expected(node, "true or false", other),
        }
    }

    /// Takes a node as a whole number in a range.
    #[must_use]
    pub fn whole(self, node: &Node, least: i64, most: i64) -> Option<i64> {
        let Kind::Number(digits) = &node.kind else {
            return self.expected(node, "a whole number", &node.kind);
        };
        match digits.parse::<i64>() {
            Ok(number) if (least..=most).contains(&number) => Some(number),
            _ => {
                self.problems.note(Problem::at(
                    node.place,
                    format!("expected a whole number from {least} to {most}, found {}", quoted(digits)),
                ));
                None
            }
        }
    }

    /// Takes a node as a length: a text or a plain number.
    #[must_use]
    pub fn length(self, node: &Node) -> Option<Length> {
        match &node.kind {
            Kind::Text(text) | Kind::Number(text) => self.length_text(text, node.place),
            Kind::Date(date) => self.length_text(date, node.place),
            other => self.expected(node, "a length", other),
        }
    }

    /// Reads a text at a place as a length.
    #[must_use]
    pub fn length_text(self, text: &str, place: Place) -> Option<Length> {
        match read(text, self.bare) {
            Ok(length) => Some(length),
            Err(why) => {
                let (message, fix) = why_unreadable(why);
                self.problems.note(Problem::at(place, format!("{}: {message}", quoted(text))).fix(fix));
                None
            }
        }
    }

    /// Takes a node as a length that is not less than nothing.
    #[must_use]
    pub fn size(self, node: &Node) -> Option<Length> {
        let length = self.length(node)?;
        if length.is_negative() {
            self.problems.note(Problem::at(node.place, "this length cannot be less than 0"));
            return None;
        }
        Some(length)
    }

    /// Takes a node as a length that is more than nothing.
    #[must_use]
    pub fn thickness(self, node: &Node) -> Option<Length> {
        let length = self.length(node)?;
        if length <= Length::ZERO {
            self.problems.note(Problem::at(node.place, "this length must be more than 0"));
            return None;
        }
        Some(length)
    }

    /// Takes a node as a volume that is more than nothing.
    #[must_use]
    pub fn volume(self, node: &Node) -> Option<Volume> {
        let text = self.text(node)?;
        let found = read_volume(&text).filter(|volume| *volume > Volume::ZERO);
        if found.is_none() {
            let message = format!("{} is not a volume that is more than 0", quoted(&text));
            let fix = "write it with its unit, as in \"0.45 ft3\", \"12.7 l\", \"778 in3\" or \"0.0127 m3\"";
            self.problems.note(Problem::at(node.place, message).fix(fix));
        }
        found
    }

    /// Takes a node as a force that is not less than nothing; only 0 needs no unit.
    #[must_use]
    pub fn force(self, node: &Node) -> Option<Force> {
        let forms = "a force such as \"12 kip\", \"500 lb\", \"53.4 kN\" or \"300 N\", or \"0\" for none";
        self.with_unit(node, "force", forms, read_force)
    }

    /// Takes a node as a stress that is more than nothing.
    #[must_use]
    pub fn strength(self, node: &Node) -> Option<Stress> {
        let forms = "a strength such as \"3000 psi\", \"3 ksi\", \"20 MPa\" or \"20 N/mm2\"";
        let strength = self.with_unit(node, "strength", forms, read_stress)?;
        if strength == Stress::default() {
            self.problems.note(
                Problem::at(node.place, "this strength must be more than 0")
                    .fix("leave the key out where it is not known"),
            );
            return None;
        }
        Some(strength)
    }

    fn with_unit<T>(
        self,
        node: &Node,
        what: &str,
        forms: &str,
        read: impl Fn(&str) -> Result<T, NotRead>,
    ) -> Option<T> {
        let (Kind::Text(text) | Kind::Number(text)) = &node.kind else {
            return self.expected(node, &format!("a {what}"), &node.kind);
        };
        match read(text) {
            Ok(value) => Some(value),
            Err(why) => {
                let (message, fix) = why_not_read(why, what, forms);
                self.problems.note(Problem::at(node.place, format!("{}: {message}", quoted(text))).fix(fix));
                None
            }
        }
    }

    /// Takes a node as a list of so many lengths.
    #[must_use]
    pub fn lengths<const N: usize>(self, node: &Node) -> Option<[Length; N]> {
        let items = self.list(node)?;
        if items.len() != N {
            self.problems
                .note(Problem::at(node.place, format!("expected {N} lengths, found {}", items.len())));
            return None;
        }
        let read: Vec<Option<Length>> = items.iter().map(|item| self.length(item)).collect();
        let read: Option<Vec<Length>> = read.into_iter().collect();
        read?.try_into().ok()
    }

    fn expected<T>(self, node: &Node, wanted: &str, found: &Kind) -> Option<T> {
        self.problems.note(Problem::at(node.place, format!("expected {wanted}, found {}", found.name())));
        None
    }
}

impl<'n> Table<'n> {
    /// Gives where the table stands.
    #[must_use]
    pub const fn place(&self) -> Place {
        self.place
    }

    /// Takes a key, if it is there.
    #[must_use]
    pub fn get(&self, key: &'static str) -> Option<&'n Node> {
        self.taken.borrow_mut().push(key);
        self.entries.iter().find(|(name, _)| name.name == key).map(|(_, node)| node)
    }

    /// Takes a key that must be there.
    #[must_use]
    pub fn need(&self, walk: Walk<'_>, key: &'static str, example: &str) -> Option<&'n Node> {
        let found = self.get(key);
        if found.is_none() {
            walk.problems.note(
                Problem::at(self.place, format!("`{key}` is missing in {}", self.called))
                    .fix(format!("add {key} = {example}")),
            );
        }
        found
    }

    /// Refuses a key that is known but cannot be used yet.
    pub fn refuse(&self, walk: Walk<'_>, key: &'static str, why: &str) {
        self.taken.borrow_mut().push(key);
        if let Some((found, _)) = self.entries.iter().find(|(name, _)| name.name == key) {
            walk.problems.note(
                Problem::at(found.place, format!("`{key}` cannot be used yet: {why}"))
                    .fix("take the key out; it is refused rather than ignored"),
            );
        }
    }

    /// Gives every key with its value, and counts all of them as taken.
    #[must_use]
    pub fn all(&self) -> &'n [(super::Key, Node)] {
        self.entries
    }

    /// Reports the keys that nobody took.
    pub fn close(&self, walk: Walk<'_>) {
        let taken = self.taken.borrow();
        for (key, _) in self.entries.iter().filter(|(key, _)| !taken.contains(&key.name.as_str())) {
            let problem =
                Problem::at(key.place, format!("{} is not a key of {}", quoted(&key.name), self.called));
            let mut known: Vec<&str> = taken.clone();
            known.dedup();
            walk.problems.note(match nearest(&key.name, known.iter().copied()) {
                Some(name) => problem.fix(format!("did you mean `{name}`?")),
                None => problem.fix(format!("its keys are {}", known.join(", "))),
            });
        }
    }
}
