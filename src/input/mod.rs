//! The files of a job into the model; all faults of a job are found in one run.
//!
//! Understands `job.toml`, and columns, walk, levels, elevations, differences and rods as CSV or as a sheet of a
//! workbook.
//! What a later version builds is refused by name here, never ignored.

mod base;
mod book;
mod build;
mod columns;
mod context;
mod csv_lines;
mod csv_records;
mod data_table;
mod differences;
mod earlier;
mod elevations;
mod find_lines;
mod header;
mod instruments;
mod job_toml;
mod levels;
mod limits;
mod lines;
mod load;
mod loads;
mod measure;
mod parts;
mod plate;
mod points;
mod rod_list;
mod rods;
mod setting;
mod setups;
mod sheet_records;
mod shims;
mod spots;
mod steel;
mod stock;
mod supplies;
mod survey_points;
mod walk;

#[cfg(test)]
mod tests;

pub use earlier::read_earlier;

use crate::catalog::{self, Catalog};
use crate::model::Job;
use crate::source::{FileId, Files, Problem, Problems};
use build::Measurements;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Faults of one file that are told.
///
/// A little above what [`data_table::MOST_FAULTS`] lets through, for what is noted after the rows.
const MOST_TOLD: usize = 250;

/// What the command line puts in place of what the job file says.
#[derive(Clone, Debug, Default)]
pub struct Override {
    /// The limit set: a name, or a path.
    pub limits: Option<String>,
    /// The level notes.
    pub levels: Option<PathBuf>,
    /// The rods.
    pub rods: Option<PathBuf>,
    /// The short form.
    pub walk: Option<PathBuf>,
}

/// A job that can be worked on.
#[derive(Debug)]
pub struct Loaded {
    /// The job.
    pub job: Job,
    /// The files it was read from.
    pub files: Files,
    /// The hardware and limits that are known.
    pub catalog: Catalog,
}

/// A job before anything is measured, to make its field sheet from.
#[derive(Debug)]
pub struct Blank {
    /// The job; what is read of its measurements, if anything, is of no use here.
    pub loaded: Loaded,
    /// Whether its `[measure]` names a walk, the short form.
    pub short: bool,
}

/// A job that cannot be worked on.
#[derive(Debug)]
pub struct Refused {
    /// All that is wrong with it.
    pub problems: Vec<Problem>,
    /// The files in which it stands.
    pub files: Files,
}

/// Reads a job: a job file, or the folder of a `job.toml`.
///
/// # Errors
/// Gives everything that is wrong with the job, each fault with its place and the way to mend it.
pub fn load(job: &Path, with: &Override) -> Result<Loaded, Refused> {
    read(job, with, Measurements::Read).map(|blank| blank.loaded)
}

/// Reads a job without its measurements, whose files need not be there yet.
///
/// Only a walk is read where the marks stand nowhere else. The setups that the job describes are those of
/// [`crate::model::Readings::setups`].
///
/// # Errors
/// As [`load`].
pub fn load_blank(job: &Path) -> Result<Blank, Refused> {
    read(job, &Override::default(), Measurements::LeftOut)
}

/// Reads a job of which its bases alone will do, without columns and readings.
///
/// # Errors
/// As [`load`].
pub fn load_bases(job: &Path, with: &Override) -> Result<Loaded, Refused> {
    read(job, with, Measurements::NotNeeded).map(|blank| blank.loaded)
}

fn read(job: &Path, with: &Override, measurements: Measurements) -> Result<Blank, Refused> {
    let catalog = catalog::load().map_err(|(problems, files)| Refused { problems, files })?;
    let mut files = Files::default();
    let problems = Problems::default();
    let built = build::build(job, (with, measurements), &catalog, &mut files, &problems);
    if let Some((job, short)) = built.filter(|_| problems.none()) {
        return Ok(Blank { loaded: Loaded { job, files, catalog }, short });
    }
    if problems.none() {
        problems.note(
            Problem::general("this job cannot be used, and it is not known why")
                .fix("report this as a fault"),
        );
    }
    Err(Refused { problems: told(problems.into_vec(), &files), files })
}

/// Cuts the faults of each file to those that are told, and counts the others.
fn told(problems: Vec<Problem>, files: &Files) -> Vec<Problem> {
    let mut counts: BTreeMap<Option<FileId>, usize> = BTreeMap::new();
    let file = |problem: &Problem| problem.place.map(|place| place.file).or(problem.file);
    let mut told: Vec<Problem> = Vec::new();
    for problem in problems {
        let count = counts.entry(file(&problem)).or_default();
        *count += 1;
        if *count <= MOST_TOLD {
            told.push(problem);
        }
    }
    for (file, count) in counts {
        if let Some(file) = file.filter(|_| count > MOST_TOLD) {
            let (more, verb) = match count - MOST_TOLD {
                1 => ("1 more fault".to_owned(), "is"),
                more => (format!("{more} more faults"), "are"),
            };
            told.push(Problem::general(format!("{more} of {} {verb} not shown", files.name(file))));
        }
    }
    told
}
