//! An answer into bytes, one file a format.

mod csv;
mod escape;
mod html;
mod json;
mod md;
mod svg;
mod table;

pub use csv::csv;
pub use html::html;
pub use json::json;
pub use md::md;
pub use svg::svg;
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
    /// Markdown, tables with pipes.
    Md,
    /// One HTML file that prints, and needs nothing else.
    Html,
}
