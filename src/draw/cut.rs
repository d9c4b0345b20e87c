//! What is cut of a plate, as exact shapes: one list for every format.

use super::engraving::{Engraving, engraving};
use crate::length::Length;
use crate::model::PlateOutline;

/// What a cutting table does with a shape.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// The mark, not cut through.
    Engrave,
    /// The rod holes.
    Holes,
    /// The outline.
    Cut,
}

impl Layer {
    /// Every layer, in the order in which they are worked: the plate comes loose last.
    pub const ALL: [Self; 3] = [Self::Engrave, Self::Holes, Self::Cut];

    /// Gives its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Engrave => "ENGRAVE",
            Self::Holes => "HOLES",
            Self::Cut => "CUT",
        }
    }
}

/// One shape.
///
/// # Units
/// Exact nanometres from the corner at the lower left, x to the right, y up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CutShape {
    /// Straight lines from corner to corner, the last joined to the first.
    Closed(Vec<[Length; 2]>),
    /// A circle.
    Circle {
        /// Its centre.
        centre: [Length; 2],
        /// Its diameter.
        diameter: Length,
    },
    /// A text on one line.
    Text(Engraving),
}

impl CutShape {
    /// Gives the layer it belongs to.
    #[must_use]
    pub const fn layer(&self) -> Layer {
        match self {
            Self::Closed(_) => Layer::Cut,
            Self::Circle { .. } => Layer::Holes,
            Self::Text(_) => Layer::Engrave,
        }
    }
}

/// The drawing of one kind of plate, at full size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CutDrawing {
    /// What it is, in words.
    pub title: String,
    /// Its sides along x and y.
    pub size: [Length; 2],
    /// Its shapes, in the order of their layers.
    pub shapes: Vec<CutShape>,
}

impl CutDrawing {
    /// Gives the mark that is engraved; none where there is no room for it.
    #[must_use]
    pub fn engraving(&self) -> Option<&Engraving> {
        self.shapes.iter().find_map(|shape| match shape {
            CutShape::Text(engraving) => Some(engraving),
            _ => None,
        })
    }
}

/// Draws a plate: its mark where there is room for it, its holes, its outline.
#[must_use]
pub fn cut_drawing(outline: &PlateOutline, mark: &str, title: impl Into<String>) -> CutDrawing {
    let [width, depth] = outline.size;
    let zero = Length::ZERO;
    let corners = vec![[zero, zero], [width, zero], [width, depth], [zero, depth]];
    let mark = engraving(outline, mark).map(CutShape::Text);
    let circle =
        |hole: &crate::model::Hole| CutShape::Circle { centre: hole.centre, diameter: hole.diameter };
    let holes = outline.holes.iter().map(circle);
    let shapes = mark.into_iter().chain(holes).chain([CutShape::Closed(corners)]).collect();
    CutDrawing { title: title.into(), size: outline.size, shapes }
}
