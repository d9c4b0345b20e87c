//! Whole jobs in temporary folders: good ones field by field, bad ones fault by fault.

mod bad_files;
mod bad_job;
mod bad_readings;
mod beds;
mod differences;
mod good_inch;
mod good_metric;
mod grades;
mod instruments;
mod loads;
mod never_panics;
mod refused;
mod rods_by_level;
mod setting;
mod stock;
mod supplies;
mod survey;
#[cfg(feature = "xlsx")]
mod workbook;
#[cfg(feature = "xlsx")]
mod workbook_mutated;

use super::{Loaded, Override, Refused, load};
use crate::source::render;
use std::fs;
use std::path::Path;
use tempfile::TempDir;

/// An inch job with a walk; `{walk.csv}` is `WALK`.
pub(super) const JOB: &str = r#"[job]
name = "Shed"
units = "in"
limits = "low-rise"

[measure]
walk = "walk.csv"

[[base]]
mark = "B1"
plate = { thickness = "1/2" }
rods = { diameter = "3/4", count = 4 }
washers = ["wide"]
nuts = ["heavy-hex"]
"#;

/// A walk that is in order.
pub(super) const WALK: &str = "mark,reading,low,high\nA1,4'-6 1/4\",2-1/2,2-5/8\nA2,54-3/8,2-1/2,\n";

/// A job folder.
pub(super) struct Job {
    pub(super) folder: TempDir,
}

impl Job {
    pub(super) fn new(files: &[(&str, &str)]) -> Self {
        let folder = TempDir::new().unwrap();
        for (name, text) in files {
            fs::write(folder.path().join(name), text).unwrap();
        }
        Self { folder }
    }

    pub(super) fn path(&self) -> &Path {
        self.folder.path()
    }

    pub(super) fn load(&self) -> Result<Loaded, Refused> {
        load(self.path(), &Override::default())
    }

    /// Loads it; where it is refused, every fault has a text, and a place that lies in its file.
    pub(super) fn answers(&self) {
        let Err(refused) = self.load() else { return };
        assert!(!refused.problems.is_empty());
        assert!(render(&refused.problems, &refused.files).contains("nothing was written"));
        for place in refused.problems.iter().filter_map(|problem| problem.place) {
            let text = refused.files.text(place.file);
            assert!(text.get(place.start..place.end).is_some(), "{place:?} in {text:?}");
        }
    }

    /// Gives every fault as `file:line:column: message | fix`, after rendering all of them.
    pub(super) fn faults(&self) -> Vec<String> {
        match self.load() {
            Ok(loaded) => panic!("this job is not refused: {:?}", loaded.job),
            Err(refused) => told(&refused),
        }
    }
}

pub(super) fn told(refused: &Refused) -> Vec<String> {
    let rendered = render(&refused.problems, &refused.files);
    assert!(rendered.contains("nothing was written"), "{rendered}");
    let problems = refused.problems.iter();
    let lines = problems.map(|problem| {
        let place = match (problem.place, problem.file) {
            (Some(place), _) => {
                let (line, column) = refused.files.line_and_column(place);
                format!("{}:{line}:{column}: ", refused.files.name(place.file))
            }
            (None, Some(file)) => format!("{}: ", refused.files.name(file)),
            (None, None) => String::new(),
        };
        let fix = problem.fix.as_deref().map(|fix| format!(" | {fix}")).unwrap_or_default();
        format!("{place}{}{fix}", problem.message)
    });
    lines.collect()
}

/// Gives the faults of `JOB` with `WALK`, both changed.
pub(super) fn changed(job: impl Fn(&str) -> String, walk: impl Fn(&str) -> String) -> Vec<String> {
    Job::new(&[("job.toml", &job(JOB)), ("walk.csv", &walk(WALK))]).faults()
}

pub(super) fn same(text: &str) -> String {
    text.to_owned()
}

/// Checks that exactly these faults are told, each by the start of its line.
pub(super) fn assert_told(found: &[String], wanted: &[&str]) {
    let alike = found.len() == wanted.len()
        && found.iter().zip(wanted).all(|(found, wanted)| found.starts_with(wanted));
    assert!(alike, "found:\n  {}\nwanted:\n  {}", found.join("\n  "), wanted.join("\n  "));
}

#[test]
fn the_job_that_the_bad_ones_are_made_of_is_good() {
    let loaded = Job::new(&[("job.toml", JOB), ("walk.csv", WALK)]).load();
    let loaded = loaded.map_err(|refused| told(&refused)).unwrap();
    assert_eq!(loaded.job.columns.len(), 2);
}
