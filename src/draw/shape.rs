//! The display list: what a picture is made of, in whole nanometres of paper.

use super::bounds::Bounds;
use super::widths::{ASCENT, DESCENT, text_width};

/// A millimetre of paper.
pub const MM: i64 = 1_000_000;

/// A place on paper: x to the right, y down, in nanometres.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Point {
    /// To the right.
    pub x: i64,
    /// Down.
    pub y: i64,
}

impl Point {
    /// Makes a point.
    #[must_use]
    pub const fn new(x: i64, y: i64) -> Self {
        Self { x, y }
    }

    /// Moves it.
    #[must_use]
    pub const fn by(self, x: i64, y: i64) -> Self {
        Self { x: self.x + x, y: self.y + y }
    }
}

/// How a line is drawn; they differ in width and dash, not in colour alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pen {
    /// Dimension lines, leaders, grids.
    Hair,
    /// Outlines of lesser things.
    Thin,
    /// Outlines.
    Medium,
    /// What stands out.
    Thick,
    /// Hidden or former edges.
    Dashed,
    /// What is not known.
    Dotted,
    /// What is held or out of its limit: the widest of all.
    Alarm,
}

/// What an area is filled with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// Nothing.
    None,
    /// Paper white, to cover what lies under it.
    Paper,
    /// A light grey.
    Grey,
    /// Ink.
    Ink,
}

/// How a rectangle is hatched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hatch {
    /// Steel in section: lines rising to the right.
    Rising,
    /// Another piece of steel beside it: lines falling to the right.
    Falling,
    /// Grout: dots.
    Dots,
    /// Concrete: dots and small triangles, sparse.
    Concrete,
    /// Taken off: crossed lines.
    Crossed,
    /// Thread: level lines.
    Thread,
}

/// Which end of a text stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// One shape.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Shape {
    /// Lines from point to point.
    Path {
        /// The points.
        points: Vec<Point>,
        /// Whether the last is joined to the first.
        closed: bool,
        /// How it is drawn.
        pen: Pen,
        /// What it is filled with.
        fill: Fill,
    },
    /// A rectangle.
    Rect {
        /// Where.
        area: Bounds,
        /// How its edge is drawn; none without an edge.
        pen: Option<Pen>,
        /// What it is filled with.
        fill: Fill,
    },
    /// A circle.
    Circle {
        /// Its centre.
        centre: Point,
        /// Its radius.
        radius: i64,
        /// How it is drawn.
        pen: Pen,
        /// What it is filled with.
        fill: Fill,
    },
    /// Hatching within a rectangle.
    Hatched {
        /// Where.
        area: Bounds,
        /// How.
        hatch: Hatch,
    },
    /// A text on one line.
    Text {
        /// Where its baseline is.
        at: Point,
        /// Which end of it stands there.
        anchor: Anchor,
        /// The height of its letters, as a font size.
        size: i64,
        /// Whether it is bold.
        bold: bool,
        /// The text.
        text: String,
    },
}

/// A finished picture.
#[derive(Clone, Debug, Default)]
pub struct Picture {
    /// Its width on paper.
    pub width: i64,
    /// Its height on paper.
    pub height: i64,
    /// Its shapes, later ones over earlier ones.
    pub shapes: Vec<Shape>,
}

impl Picture {
    /// Adds a line.
    pub fn line(&mut self, from: Point, to: Point, pen: Pen) {
        self.shapes.push(Shape::Path { points: vec![from, to], closed: false, pen, fill: Fill::None });
    }

    /// Adds an open path.
    pub fn path(&mut self, points: Vec<Point>, pen: Pen) {
        self.shapes.push(Shape::Path { points, closed: false, pen, fill: Fill::None });
    }

    /// Adds a closed path.
    pub fn closed(&mut self, points: Vec<Point>, pen: Pen, fill: Fill) {
        self.shapes.push(Shape::Path { points, closed: true, pen, fill });
    }

    /// Adds a rectangle.
    pub fn rect(&mut self, area: Bounds, pen: impl Into<Option<Pen>>, fill: Fill) {
        self.shapes.push(Shape::Rect { area, pen: pen.into(), fill });
    }

    /// Adds hatching.
    pub fn hatched(&mut self, area: Bounds, hatch: Hatch) {
        self.shapes.push(Shape::Hatched { area, hatch });
    }

    /// Adds a circle.
    pub fn circle(&mut self, centre: Point, radius: i64, pen: Pen, fill: Fill) {
        self.shapes.push(Shape::Circle { centre, radius, pen, fill });
    }

    /// Adds a text.
    pub fn text(&mut self, at: Point, anchor: Anchor, size: i64, text: impl Into<String>) {
        self.shapes.push(Shape::Text { at, anchor, size, bold: false, text: text.into() });
    }

    /// Adds a bold text.
    pub fn bold(&mut self, at: Point, anchor: Anchor, size: i64, text: impl Into<String>) {
        self.shapes.push(Shape::Text { at, anchor, size, bold: true, text: text.into() });
    }

    /// Gives the room that each text takes, in their order.
    #[must_use]
    pub fn texts(&self) -> Vec<(String, Bounds)> {
        let texts = self.shapes.iter().filter_map(|shape| match shape {
            Shape::Text { at, anchor, size, bold, text } => {
                Some((text.clone(), text_bounds(*at, *anchor, *size, *bold, text)))
            }
            _ => None,
        });
        texts.collect()
    }
}

/// Gives the room a text takes.
pub(super) fn text_bounds(at: Point, anchor: Anchor, size: i64, bold: bool, text: &str) -> Bounds {
    let width = text_width(text, size, bold);
    let left = match anchor {
        Anchor::Start => at.x,
        Anchor::Middle => at.x - width / 2,
        Anchor::End => at.x - width,
    };
    let top = at.y - size * ASCENT / 100;
    Bounds { left, top, right: left + width, bottom: at.y + size * DESCENT / 100 }
}
