//! A table to fill in as a plain table: a rule or a blank where a box stands.

use crate::report::{Boxes, Field, Grid};

/// Writes every box as a text.
pub(super) fn as_grid(boxes: &Boxes, a_box: &str) -> Grid {
    let cell = |field: &Field| match field {
        Field::Said(text) => text.clone(),
        Field::Box => a_box.to_owned(),
        Field::Nothing => String::new(),
    };
    let rows = boxes.groups.iter().flatten();
    Grid { columns: boxes.columns.clone(), rows: rows.map(|row| row.iter().map(cell).collect()).collect() }
}
