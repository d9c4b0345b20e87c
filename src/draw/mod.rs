//! Drawings as lists of shapes, in whole nanometres.

mod cut;
mod engraving;

pub use cut::{CutDrawing, CutShape, Layer, cut_drawing};
pub use engraving::{Engraving, engraving, room_of_text};
