//! What stands beside the readings: where each column is.

use super::drawn;
use crate::check::style;
use crate::model::{Job, Walk};
use crate::report::document::{Align, Document, Tone};

/// Adds where the columns stand, in walking order.
pub(super) fn beside(document: &mut Document, job: &Job, walk: &Walk) {
    let style = style(job);
    document.heading(Tone::Plain, "WHERE THE COLUMNS STAND");
    drawn::plan(document, job, walk);
    let placed = job.columns.iter().any(|column| column.at.is_some());
    let rows = walk.columns.iter().enumerate().map(|(number, &index)| {
        let column = &job.columns[index];
        let base = job.base_of(column);
        let on: Vec<&str> = (job.lines.iter())
            .filter(|line| line.columns.contains(&index))
            .map(|line| line.name.as_str())
            .collect();
        let mut row = vec![(number + 1).to_string(), column.mark.clone(), on.join(", ")];
        if placed {
            let at = column.at.map(|at| at.map(|it| style.elevation(it)));
            row.extend(at.unwrap_or_else(|| ["?".to_owned(), "?".to_owned()]));
        }
        row.push(format!("{}: {} x {}", base.mark, base.rods.count, base.rods.size));
        row
    });
    let mut heads = vec![("no.", Align::Right), ("column", Align::Wrap), ("on lines", Align::Wrap)];
    if placed {
        heads.extend([("x", Align::Right), ("y", Align::Right)]);
    }
    heads.push(("base: rods", Align::Wrap));
    document.grid(&heads, rows.collect());
}
