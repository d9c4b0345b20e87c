//! What `level` tells: elevations, how good they are, what does not fit, and the level book.

mod agreement;
mod book;
mod book_checks;
mod book_grid;
mod book_json;
mod book_names;
mod book_notes;
mod json;
mod more_json;
pub(super) mod pad_shapes;
pub(super) mod rod_tops;
mod screen;
mod told;
mod unmatched;
mod watch;

pub use book::level_book_answer;
pub use screen::level_answer;
pub use watch::watch;
