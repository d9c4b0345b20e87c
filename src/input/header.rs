//! The header row of a CSV file or a sheet: which column is which.

use super::data_table::{Cell, MOST_FAULTS};
use crate::source::{Place, Problem, Problems, nearest};
use crate::text::quoted;

/// Which columns a file may have.
#[derive(Clone, Copy)]
pub(super) struct Spec {
    /// Columns that must be there.
    pub(super) required: &'static [&'static str],
    /// Columns that may be there.
    pub(super) optional: &'static [&'static str],
}

/// What a column of a file is.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Column {
    /// One that is known.
    Known(&'static str),
    /// One without a name, in which nothing may stand.
    Nameless,
    /// One that cannot be used, which was noted.
    Refused,
}

impl Spec {
    /// Gives the names of all columns.
    pub(super) fn names(self) -> impl Iterator<Item = &'static str> {
        self.required.iter().chain(self.optional).copied()
    }
}

/// Tells every column of a header row; none if the rows cannot be read by it.
pub(super) fn columns(problems: &Problems, spec: Spec, place: Place, header: &[Cell]) -> Option<Vec<Column>> {
    if let [only] = header {
        let mark =
            [(';', "semicolons"), ('\t', "tabs")].into_iter().find(|(mark, _)| only.text.contains(*mark));
        if let Some((_, called)) = mark {
            problems.note(
                Problem::at(place, format!("the columns of this file are separated by {called}"))
                    .fix("save it as CSV with commas between the cells, and points in the decimals"),
            );
            return None;
        }
    }
    let faults_before = problems.count();
    let mut left: Vec<&'static str> = spec.names().collect();
    left.retain(|name| !header.iter().any(|cell| is(cell, name)));
    let mut taken: Vec<&'static str> = Vec::new();
    let mut columns = Vec::with_capacity(header.len());
    for cell in header {
        if problems.count() - faults_before >= MOST_FAULTS {
            let message = format!("after {MOST_FAULTS} faults the rest of its header row was not read");
            problems.note(Problem::in_file(place.file, message));
            return None;
        }
        let known = spec.names().find(|name| is(cell, name));
        columns.push(match known {
            None if cell.is_blank() => Column::Nameless,
            None => misnamed(problems, spec, &mut left, cell),
            Some(name) if taken.contains(&name) => {
                problems.note(
                    Problem::at(cell.place, format!("`{name}` is a column of this file already"))
                        .fix("take one of the two columns out"),
                );
                Column::Refused
            }
            Some(name) => {
                taken.push(name);
                Column::Known(name)
            }
        });
    }
    let mut all = true;
    for missing in spec.required.iter().filter(|name| left.contains(name)) {
        all = false;
        problems.note(
            Problem::at(place, format!("the column `{missing}` is missing"))
                .fix(format!("add a column named {missing} to the header row and fill it in")),
        );
    }
    all.then_some(columns)
}

fn is(cell: &Cell, name: &str) -> bool {
    cell.text.eq_ignore_ascii_case(name)
}

/// Notes an unknown column; it is read on as the missing one it most likely stands for.
fn misnamed(problems: &Problems, spec: Spec, left: &mut Vec<&'static str>, cell: &Cell) -> Column {
    let problem = Problem::at(cell.place, format!("{} is not a column of this file", quoted(&cell.text)));
    let Some(name) = nearest(&cell.text, left.iter().copied()) else {
        let names: Vec<&str> = spec.names().collect();
        problems.note(problem.fix(format!("its columns are {}", names.join(", "))));
        return Column::Refused;
    };
    problems.note(problem.fix(format!("did you mean `{name}`?")));
    let known = spec.names().find(|known| *known == name);
    left.retain(|missing| *missing != name);
    known.map_or(Column::Refused, Column::Known)
}
