//! One finished answer: what a screen shows, what a sheet lists, and the values behind JSON.

mod aim;
mod ask;
mod beds;
mod catalog;
mod catalog_grades;
mod catalog_instruments;
mod caution;
mod check_json;
mod check_screen;
mod check_sheet;
mod clash;
mod compare;
mod considered;
mod cost_json;
mod document;
mod explain;
mod explain_json;
mod grouped;
mod hardware;
mod held;
mod hurdle_json;
mod level_notes;
mod on_hand;
mod pad_shapes;
mod rod_tops;
mod rules;
mod shear;
mod short_rod;
mod too_coarse;
mod totals;
mod tried;
mod under;
#[cfg(test)]
mod unverified;

pub use ask::{Asked, ask_answer};
pub use catalog::{Listed, catalog_answer};
pub use check_screen::check_answer;
pub use clash::clash_words;
pub use document::{Align, Answer, Block, Column, Document, Form, Grid, Sheet, Tone};
pub use explain::explain_answer;
pub use hardware::hardware_answer;
pub use level_notes::{level_answer, level_book_answer, watch};
pub use rules::rules_answer;
pub use too_coarse::too_coarse_words;
pub use tried::Tried;
