//! How values become words: the only place where a length is written out.

mod area;
mod as_read;
mod length;
mod list;
mod pair;
mod quote;
mod unreadable;

pub use as_read::AsRead;
pub use length::{Style, System};
pub use list::{and, count, or};
pub use pair::{Relation, Shown};
pub use quote::quoted;
pub use unreadable::{FORMS, why_unreadable};
