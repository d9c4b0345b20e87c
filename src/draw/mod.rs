//! Drawings as lists of shapes: plan view, base section, elevation profile, shims to cut.
//!
//! Everything is whole nanometres: of the model where a thing is measured, of paper where it is drawn.
//! What is drawn comes from the judged plan; what is written beside it is written here or handed in, and no two
//! texts of a picture overlap by [`text_width`]'s widths.

mod base_section;
mod bounds;
mod column_mark;
mod cut;
mod dimension;
mod engraving;
mod frame;
mod hatch;
mod labels;
mod plan_layout;
mod plan_sheet;
mod plan_view;
mod plan_walk;
mod profile;
mod profile_part;
mod rod_numbers;
mod scale;
mod section_view;
mod shape;
mod widths;

pub use base_section::{Piece, PieceKind, Section, SectionRod, ThreadShown, section};
pub use bounds::Bounds;
pub use column_mark::Look;
pub use cut::{CutDrawing, CutShape, Layer, cut_drawing};
pub use engraving::{Engraving, engraving, room_of_text};
pub use hatch::strokes;
pub use plan_view::{Apart, Join, PlanColumn, PlanData, PlanLine, PlanSheet, plan_views};
pub use profile::{Profile, ProfileColumn, ProfileData, profiles};
pub use rod_numbers::{RodPlaces, RodPlan, rod_plans};
pub use scale::Scale;
pub use section_view::section_view;
pub use shape::{Anchor, Fill, Hatch, MM, Pen, Picture, Point, Shape};
pub use widths::{shortened, text_width, wrapped};
