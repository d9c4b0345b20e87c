//! A wall or frame line.

use crate::length::Length;

/// A line of columns in order.
#[derive(Clone, Debug)]
pub struct Line {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: LineKind,
    /// Its columns in order, indices into [`super::Job::columns`].
    pub columns: Vec<usize>,
    /// The distances between them, one fewer than columns; empty where unknown.
    pub spacing: Vec<Length>,
    /// The limit of neighbours on this line, where the job sets one.
    pub accept: Option<Length>,
    /// Whether it was found from positions and not given.
    pub found: bool,
}

/// What a line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineKind {
    /// A wall: its stretches are compared high to low.
    Wall,
    /// A frame: only neighbours are compared.
    Frame,
}
