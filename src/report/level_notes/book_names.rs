//! Names of the points, setups, sights and sections of a level book.

use crate::levels::{BookRow, BookSection};
use crate::model::Job;
use crate::text::and;

/// Gives the name of a point.
pub(in crate::report) fn point(job: &Job, point: usize) -> &str {
    job.readings.points.get(point).map_or("", String::as_str)
}

/// Gives the name of a setup.
pub(in crate::report) fn setup(job: &Job, setup: usize) -> &str {
    job.readings.setups.get(setup).map_or("", |it| it.name.as_str())
}

/// Names a sight.
pub(in crate::report) fn at(job: &Job, row: &BookRow) -> String {
    format!("{} from setup {}", point(job, row.point), setup(job, row.setup))
}

/// Names a section.
pub(in crate::report) fn run(job: &Job, section: &BookSection) -> String {
    let from = point(job, section.from);
    match section.to {
        Some(to) if to == section.from => format!("{from}, back to it"),
        Some(to) => format!("{from} to {}", point(job, to)),
        None => format!("{from} alone"),
    }
}

/// Lists the first names and counts the others.
pub(in crate::report) fn few(names: &[String]) -> String {
    if names.len() <= NAMED {
        return and(names);
    }
    format!("{} and {} more", names[..NAMED].join(", "), names.len() - NAMED)
}

/// Most sights that a remark names.
const NAMED: usize = 6;
