//! Where a value came from, what is wrong there, and the walk over TOML with its places.

mod file;
mod nearest;
mod problem;
mod render;
mod sheet;
mod tree;
mod walk;

pub use file::{FileId, FileRead, Files, Fingerprint, Place};
pub use nearest::nearest;
pub use problem::{Problem, Problems};
pub use render::render;
pub use sheet::{Sheet, SheetCell};
pub use tree::{Key, Kind, Node, parse};
pub use walk::{Table, Walk};
