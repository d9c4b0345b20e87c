//! Every rod in one table.

use super::super::caution::ROD_NUMBERS;
use super::super::document::{Align, Document, Tone};
use super::super::explain::screen::{state, written};
use crate::check::Case;
use crate::length::Rounding;
use crate::model::Condition;
use crate::text::Style;

/// Adds the table.
pub(super) fn table(document: &mut Document, case: &Case<'_>, style: Style) {
    let mut rows = Vec::new();
    for column in &case.columns {
        let of_job = case.column(column.index);
        if column.rods.is_empty() {
            let mut row = vec![of_job.mark.clone(), "none is listed".to_owned()];
            row.resize(8, "?".to_owned());
            rows.push(row);
        }
        for (rod, noted) in column.rods.iter().zip(&of_job.rods) {
            rows.push(vec![
                of_job.mark.clone(),
                rod.label.to_string(),
                written(rod, rod.projection, style),
                rod.projection.map_or("?".to_owned(), |_| style.write(rod.plus_minus, Rounding::Up)),
                rod.result.beyond_worst.map_or("?".to_owned(), |it| style.write(it, Rounding::Down)),
                rod.result.thread_left.map_or("?".to_owned(), |it| style.write(it, Rounding::Down)),
                rod.result.extra_washers.to_string(),
                match &noted.condition {
                    Condition::Sound => state(rod.result.state).to_owned(),
                    Condition::Noted(note) => format!("{note}; {}", state(rod.result.state)),
                },
            ]);
        }
    }
    document.grid(
        &[
            ("column", Align::Left),
            ("rod", Align::Left),
            ("stands", Align::Right),
            ("+-", Align::Right),
            ("beyond, at worst", Align::Right),
            ("thread left", Align::Right),
            ("more washers", Align::Right),
            ("state", Align::Wrap),
        ],
        rows,
    );
    document.text(
        Tone::Quiet,
        format!(
            "stands: above its own pad. beyond, at worst: above the outer nut, every part at its most, before the +- comes \
             off. Of a column without a raise the figures are those of its plate left on its pad. ? is not known. \
             {ROD_NUMBERS}"
        ),
    );
}
