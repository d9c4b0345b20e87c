//! A TOML file as a tree that remembers where everything stands.

use super::{FileId, Files, Place, Problem, Problems};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// A key and where it stands.
#[derive(Clone, Debug)]
pub struct Key {
    /// The key.
    pub name: String,
    /// Where it stands.
    pub place: Place,
}

/// A value and where it stands.
#[derive(Clone, Debug)]
pub struct Node {
    /// The value.
    pub kind: Kind,
    /// Where it stands.
    pub place: Place,
}

/// What a value is; numbers keep their digits as written.
#[derive(Clone, Debug)]
pub enum Kind {
    /// A string.
    Text(String),
    /// A whole or decimal number, its digits as written.
    Number(String),
    /// True or false.
    Bool(bool),
    /// A date or a time, as written.
    Date(String),
    /// A list.
    List(Vec<Node>),
    /// A table, in the order of the file.
    Table(Vec<(Key, Node)>),
}

impl Kind {
    /// Names the kind for a message.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Text(_) => "a text",
            Self::Number(_) => "a number",
            Self::Bool(_) => "true or false",
            Self::Date(_) => "a date",
            Self::List(_) => "a list",
            Self::Table(_) => "a table",
        }
    }
}

/// Parses a TOML file; syntax faults are noted, and what could be read is given.
#[must_use]
pub fn parse(file: FileId, files: &Files, problems: &Problems) -> Node {
    let text = files.text(file);
    let (table, mut errors) = DeTable::parse_recoverable(text);
    errors.sort_by_key(|error| error.span().map(|span| span.start));
    for error in errors {
        let span = error.span().unwrap_or(0..0);
        problems.note(Problem::at(
            Place { file, start: span.start, end: span.end },
            format!("this is not TOML as it should be: {}", error.message().replace('\n', ", ")),
        ));
    }
    let place = Place { file, start: table.span().start, end: table.span().end };
    Node { kind: table_kind(file, table.get_ref()), place }
}

fn table_kind(file: FileId, table: &DeTable<'_>) -> Kind {
    let mut entries: Vec<(Key, Node)> = table
        .iter()
        .map(|(key, value)| {
            let place = Place { file, start: key.span().start, end: key.span().end };
            (Key { name: key.get_ref().to_string(), place }, node(file, value))
        })
        .collect();
    entries.sort_by_key(|(key, _)| key.place);
    Kind::Table(entries)
}

fn node(file: FileId, value: &Spanned<DeValue<'_>>) -> Node {
    let place = Place { file, start: value.span().start, end: value.span().end };
    let kind = match value.get_ref() {
        DeValue::String(text) => Kind::Text(text.to_string()),
        DeValue::Integer(digits) => Kind::Number(digits.to_string()),
        DeValue::Float(digits) => Kind::Number(digits.as_str().to_owned()),
        DeValue::Boolean(yes) => Kind::Bool(*yes),
        DeValue::Datetime(date) => Kind::Date(date.to_string()),
        DeValue::Array(items) => Kind::List(items.iter().map(|item| node(file, item)).collect()),
        DeValue::Table(table) => table_kind(file, table),
    };
    Node { kind, place }
}
