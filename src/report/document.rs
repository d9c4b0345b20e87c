//! The pieces an answer is made of, before any format.

use crate::draw::Picture;
use crate::length::Length;
use serde_json::Value;

/// One finished answer.
#[derive(Clone, Debug)]
pub struct Answer {
    /// What a screen shows.
    pub document: Document,
    /// The rows a spreadsheet wants.
    pub sheet: Sheet,
    /// The values behind JSON, keys in the order of the contract.
    pub value: Value,
    /// Whether all is well: the exit status is 0 then and 1 otherwise.
    pub clear: bool,
}

/// What a screen shows, top to bottom.
#[derive(Clone, Debug, Default)]
pub struct Document {
    /// The blocks.
    pub blocks: Vec<Block>,
}

/// One block of a screen.
#[derive(Clone, Debug)]
pub enum Block {
    /// A heading.
    Heading(Tone, String),
    /// A paragraph, wrapped to the screen.
    Text(Tone, String),
    /// A line with a hanging name before it.
    Item(Tone, String, String),
    /// A table.
    Grid(Grid),
    /// An empty line.
    Gap,
    /// What follows is a page of its own, with this title.
    Page(String),
    /// What follows is a section of a long answer, with this title.
    Section(String),
    /// A drawing.
    Figure(Box<Figure>),
    /// A file as it was read.
    Listing(Listing),
    /// A box for an answer written by hand.
    Form(Form),
    /// A table to fill in by hand.
    Boxes(Boxes),
}

/// A table to fill in by hand.
#[derive(Clone, Debug)]
pub struct Boxes {
    /// Its columns; where no head has a word there is no head row.
    pub columns: Vec<Column>,
    /// Its rows, as wide as the columns are many, in groups that are kept on one sheet of paper.
    pub groups: Vec<Vec<Vec<Field>>>,
}

/// A cell of a table to fill in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Field {
    /// What is printed there.
    Said(String),
    /// A box to write in.
    Box,
    /// Nothing is written there.
    Nothing,
}

/// A drawing with its words.
#[derive(Clone, Debug)]
pub struct Figure {
    /// What it shows.
    pub title: String,
    /// The same for who cannot see it.
    pub alt: String,
    /// The picture.
    pub picture: Picture,
    /// What stands under it, or beside it where that is said.
    pub notes: Vec<String>,
    /// Whether nothing is told of it where it is not drawn, since all of it stands in words elsewhere.
    pub only_drawn: bool,
    /// Whether the notes stand beside the picture where there is room.
    pub beside: bool,
}

/// A file as it was read.
#[derive(Clone, Debug)]
pub struct Listing {
    /// Its name.
    pub title: String,
    /// Its text.
    pub text: String,
}

/// A box for an answer written by hand.
#[derive(Clone, Debug)]
pub struct Form {
    /// What stands over it.
    pub title: String,
    /// The question that is answered, again: the box may be on a sheet of its own.
    pub question: String,
    /// What can be ticked.
    pub ticks: Vec<String>,
    /// What is written, and on how many lines.
    pub lines: Vec<(&'static str, usize)>,
    /// What stands under it.
    pub foot: String,
}

/// What a block means; a colour only where there is one, never instead of a word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// Nothing special.
    Plain,
    /// A good answer.
    Good,
    /// Do not set.
    Stop,
    /// The engineer decides.
    Ask,
    /// In passing.
    Quiet,
}

/// A table of a screen.
#[derive(Clone, Debug)]
pub struct Grid {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, as wide as the columns are many.
    pub rows: Vec<Vec<String>>,
}

/// A column of a table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its head.
    pub head: &'static str,
    /// How its cells stand.
    pub align: Align,
}

/// How the cells of a column stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// To the left, never broken.
    Left,
    /// To the right, never broken.
    Right,
    /// To the left, broken where it is too long.
    Wrap,
}

/// Rows for a spreadsheet.
#[derive(Clone, Debug, Default)]
pub struct Sheet {
    /// The heads.
    pub heads: Vec<&'static str>,
    /// The rows, as wide as the heads are many.
    pub rows: Vec<Vec<String>>,
}

/// Writes a length as a cell of a sheet: whole nanometres, blank where unknown.
pub(super) fn nm_cell(length: Option<Length>) -> String {
    length.map(|length| length.nm().to_string()).unwrap_or_default()
}

impl Document {
    /// Adds a heading after an empty line.
    pub fn heading(&mut self, tone: Tone, text: impl Into<String>) {
        if !self.blocks.is_empty() {
            self.blocks.push(Block::Gap);
        }
        self.blocks.push(Block::Heading(tone, text.into()));
    }

    /// Begins a page of its own.
    pub fn page(&mut self, title: impl Into<String>) {
        self.blocks.push(Block::Gap);
        self.blocks.push(Block::Page(title.into()));
    }

    /// Begins a section.
    pub fn section(&mut self, title: impl Into<String>) {
        self.blocks.push(Block::Gap);
        self.blocks.push(Block::Section(title.into()));
    }

    /// Adds a drawing, after an empty line where words tell of it too.
    pub fn figure(&mut self, figure: Figure) {
        if !figure.only_drawn {
            self.blocks.push(Block::Gap);
        }
        self.blocks.push(Block::Figure(Box::new(figure)));
    }

    /// Adds a box for an answer, after an empty line.
    pub fn form(&mut self, form: Form) {
        self.blocks.push(Block::Gap);
        self.blocks.push(Block::Form(form));
    }

    /// Adds a paragraph.
    pub fn text(&mut self, tone: Tone, text: impl Into<String>) {
        self.blocks.push(Block::Text(tone, text.into()));
    }

    /// Adds a line with a name before it.
    pub fn item(&mut self, tone: Tone, name: impl Into<String>, text: impl Into<String>) {
        self.blocks.push(Block::Item(tone, name.into(), text.into()));
    }

    /// Adds a table to fill in.
    pub fn boxes(&mut self, columns: &[(&'static str, Align)], groups: Vec<Vec<Vec<Field>>>) {
        let columns = columns.iter().map(|&(head, align)| Column { head, align }).collect();
        self.blocks.push(Block::Boxes(Boxes { columns, groups }));
    }

    /// Adds a table.
    pub fn grid(&mut self, columns: &[(&'static str, Align)], rows: Vec<Vec<String>>) {
        let columns = columns.iter().map(|&(head, align)| Column { head, align }).collect();
        self.blocks.push(Block::Grid(Grid { columns, rows }));
    }
}
