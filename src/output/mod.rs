//! An answer into bytes, one file a format.

mod csv;
mod json;
mod table;

pub use csv::csv;
pub use json::json;
pub use table::table;

/// The formats an answer can be written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// A screen of 80 columns.
    Table,
    /// JSON, lengths in whole nanometres.
    Json,
    /// CSV, a row a column.
    Csv,
}
