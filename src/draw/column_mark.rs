//! How a column looks in plan: a symbol for what goes under it, a ring where it may not be set.

use super::bounds::Bounds;
use super::shape::{Fill, Hatch, MM, Pen, Picture, Point};

/// What goes under a column, as a symbol.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Look {
    /// Nothing: an open square.
    Nothing,
    /// Shims: a square of layers.
    Shim,
    /// Grout: a dotted square.
    Grout,
    /// The pad is ground: a crossed square.
    Grind,
    /// For the engineer: a diamond.
    Refer,
    /// Its pad is not measured: a dotted outline.
    Unmeasured,
    /// Nothing is said of it, as on a sheet to fill in: an open square.
    Blank,
}

impl Look {
    /// Every look, in the order of a legend.
    pub const ALL: [Self; 7] =
        [Self::Nothing, Self::Shim, Self::Grout, Self::Grind, Self::Refer, Self::Unmeasured, Self::Blank];

    /// Says what the symbol stands for.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Nothing => "nothing under the plate",
            Self::Shim => "shims",
            Self::Grout => "grout",
            Self::Grind => "pad ground",
            Self::Refer => "ask the engineer",
            Self::Unmeasured => "pad not measured",
            Self::Blank => "column, its number in the walk",
        }
    }
}

/// Half the side of a symbol.
pub(super) const HALF: i64 = 16 * MM / 10;
/// The radius of the ring around a column that may not be set.
pub(super) const RING: i64 = 27 * MM / 10;

/// Draws a column.
pub(super) fn draw(picture: &mut Picture, at: Point, look: Look, held: bool) {
    if held {
        picture.circle(at, RING, Pen::Alarm, Fill::Paper);
    }
    let area = Bounds::around(at, HALF);
    match look {
        Look::Nothing | Look::Blank => picture.rect(area, Pen::Medium, Fill::Paper),
        Look::Shim => {
            picture.rect(area, Pen::Medium, Fill::Paper);
            let third = HALF * 2 / 3;
            for layer in 0..2 {
                let top = area.top + third / 2 + layer * third;
                let layer = Bounds { top, bottom: top + third / 2, ..area };
                picture.rect(layer, None, Fill::Ink);
            }
        }
        Look::Grout => {
            picture.rect(area, Pen::Medium, Fill::Paper);
            picture.hatched(area, Hatch::Dots);
        }
        Look::Grind => {
            picture.rect(area, Pen::Medium, Fill::Paper);
            picture.hatched(area, Hatch::Crossed);
        }
        Look::Refer => {
            let reach = HALF * 5 / 4;
            let points = vec![at.by(0, -reach), at.by(reach, 0), at.by(0, reach), at.by(-reach, 0)];
            picture.closed(points, Pen::Medium, Fill::Ink);
        }
        Look::Unmeasured => picture.rect(area, Pen::Dotted, Fill::Paper),
    }
}
