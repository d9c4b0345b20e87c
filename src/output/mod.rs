//! An answer into bytes, one file a format.

mod boxes;
mod csv;
mod dxf;
mod escape;
mod html;
mod json;
mod md;
mod svg;
mod svg_cut;
mod table;
#[cfg(feature = "xlsx")]
mod xlsx;

pub use csv::{csv, csv_to_fill_in};
pub use dxf::dxf;
pub use html::html;
pub use json::json;
pub use md::md;
pub use svg::svg;
pub use svg_cut::svg_cut;
pub use table::table;
#[cfg(feature = "xlsx")]
pub use xlsx::xlsx;

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
