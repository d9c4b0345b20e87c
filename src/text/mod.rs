//! How values become words: the only place where a length is written out.

mod area;
mod as_read;
mod digits;
mod force;
mod length;
mod list;
mod mass;
mod pair;
mod quote;
mod stress;
mod unreadable;
mod volume;

pub use as_read::AsRead;
pub use digits::{half_in_millimetres, inches, millimetres};
pub use length::{Style, System};
pub use list::{and, count, or};
pub use pair::{Relation, Shown};
pub use quote::quoted;
pub use unreadable::{FORMS, why_not_read, why_unreadable};
