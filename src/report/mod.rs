//! One finished answer: what a screen shows, what a sheet lists, and the values behind JSON.

mod ask;
mod catalog;
mod caution;
mod check;
mod detail;
mod document;
mod explain;
mod figures;
mod grouped;
mod hardware;
mod level_notes;
mod loads;
mod order;
mod planned;
mod rules;
mod setting;
mod sheet;
mod short_rod;
mod since;
mod under;
mod whole;
mod workbook;

pub use ask::{Asked, ask_answer};
pub use catalog::list::{Listed, catalog_answer};
pub use check::screen::check_answer;
pub use detail::detail_answer;
pub use document::{
    Align, Answer, Block, Boxes, Column, Document, Field, Figure, Form, Grid, Listing, Sheet, Tone,
};
pub use explain::screen::explain_answer;
pub use hardware::screen::hardware_answer;
pub use level_notes::{level_answer, level_book_answer, watch};
pub use order::{CutOrder, cut_order, order_answer};
pub use planned::clash::clash_words;
pub use planned::too_coarse::too_coarse_words;
pub use planned::tried::Tried;
pub use rules::rules_answer;
pub use sheet::{SheetFor, sheet_answer};
pub use since::Against;
pub use whole::{Told, report_answer};
pub use workbook::{OpensAt, WorkCell, WorkColumn, WorkSheet, Workbook, workbook};
