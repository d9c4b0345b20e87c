//! The tables built into the program.

use super::grades::{self, Grades, NutGrade, NutStyle, Recommended, RodGrade, within};
use super::grouts::{self, Grouts};
use super::holes::{self, Holes};
use super::instruments::{self, InstrumentKind};
use super::limits::LimitSet;
use super::limits_read::read_limit_set;
use super::nuts::{self, Nut};
use super::part::Series;
use super::plates::{self, PlateTable};
use super::shims::{self, ShimSeries};
use super::thread_limits::{self, ThreadLimits};
use super::threads::{self, ThreadTable};
use super::washers::{self, Washer};
use crate::length::{Bare, Length};
use crate::source::{Files, Node, Problem, Problems, Walk, parse};

macro_rules! embedded {
    ($($path:literal),+ $(,)?) => {
        /// Every catalog file, by its path in `catalogs/`.
        pub const EMBEDDED: &[(&str, &str)] =
            &[$(($path, include_str!(concat!("../../catalogs/", $path)))),+];
    };
}

embedded![
    "grades/a563.toml",
    "grades/f1554.toml",
    "grades/iso-898.toml",
    "grouts/bags.toml",
    "holes/aisc.toml",
    "instruments/levelling.toml",
    "limits/en-1090.toml",
    "limits/framed.toml",
    "limits/low-rise.toml",
    "nuts/heavy-hex.toml",
    "nuts/hex.toml",
    "nuts/iso-4032.toml",
    "nuts/iso-4033.toml",
    "plates/astm-a6-inside.toml",
    "plates/astm-a6-mm.toml",
    "plates/astm-a6.toml",
    "plates/en-10029-1991.toml",
    "plates/en-10029.toml",
    "shims/plate-mm.toml",
    "shims/plate.toml",
    "thread-limits/metric-6g-6h.toml",
    "threads/metric-coarse.toml",
    "threads/unc.toml",
    "washers/f436.toml",
    "washers/iso-7089.toml",
    "washers/iso-7091.toml",
    "washers/narrow.toml",
    "washers/plate.toml",
    "washers/wide.toml",
];

/// All that is known of hardware and limits.
#[derive(Debug, Default)]
pub struct Catalog {
    /// Thread pitches.
    pub threads: Vec<ThreadTable>,
    /// Limits of size of threads.
    pub thread_limits: Vec<Series<ThreadLimits>>,
    /// Nuts.
    pub nuts: Vec<Series<Nut>>,
    /// Washers.
    pub washers: Vec<Series<Washer>>,
    /// Grades of rods and nuts.
    pub grades: Vec<Grades>,
    /// Holes and the washers over them.
    pub holes: Vec<Holes>,
    /// Plate tolerances.
    pub plates: Vec<PlateTable>,
    /// Shims.
    pub shims: Vec<ShimSeries>,
    /// Bags of grout.
    pub grouts: Vec<Grouts>,
    /// Instruments that level readings are taken with.
    pub instruments: Vec<InstrumentKind>,
    /// Limit sets.
    pub limits: Vec<LimitSet>,
}

impl Catalog {
    /// Gives every grade of rods.
    pub fn rod_grades(&self) -> impl Iterator<Item = &RodGrade> + Clone {
        self.grades.iter().flat_map(|file| &file.rods)
    }

    /// Gives the name of every grade of nuts, some of them more than once.
    pub fn nut_grades(&self) -> impl Iterator<Item = &str> + Clone {
        let nuts = self.grades.iter().flat_map(|file| file.nuts.iter().map(|nut| nut.name.as_str()));
        nuts.chain(self.grades.iter().flat_map(|file| file.instead.iter().map(|it| it.nut.as_str())))
    }

    /// Finds a grade of rods at a diameter.
    #[must_use]
    pub fn rod_grade(&self, name: &str, diameter: Length) -> Option<&RodGrade> {
        let mut rods = self.grades.iter().flat_map(|file| &file.rods);
        rods.find(|rod| rod.name == name && within(rod.sizes, diameter))
    }

    /// Finds a grade of nuts in a style at a rod diameter.
    #[must_use]
    pub fn nut_grade(&self, name: &str, style: NutStyle, diameter: Length) -> Option<&NutGrade> {
        let mut nuts = self.grades.iter().flat_map(|file| &file.nuts);
        nuts.find(|nut| nut.name == name && nut.style == style && within(nut.sizes, diameter))
    }

    /// Finds what is recommended on rods of a grade and diameter, a row for each finish.
    #[must_use]
    pub fn recommended_nuts(&self, rod: &str, diameter: Length) -> Vec<&Recommended> {
        let rows = self.grades.iter().flat_map(|file| &file.recommended);
        rows.filter(|row| row.rod == rod && within(row.sizes, diameter)).collect()
    }

    /// Takes one file, told by its folder.
    fn take(&mut self, walk: Walk<'_>, path: &str, root: &Node) -> bool {
        match path.split_once('/').map(|(folder, _)| folder) {
            Some("threads") => put(&mut self.threads, threads::read(walk, root)),
            Some("thread-limits") => put(&mut self.thread_limits, thread_limits::read(walk, root)),
            Some("nuts") => put(&mut self.nuts, nuts::read(walk, root)),
            Some("washers") => put(&mut self.washers, washers::read(walk, root)),
            Some("grades") => put(&mut self.grades, grades::read(walk, root)),
            Some("grouts") => put(&mut self.grouts, grouts::read(walk, root)),
            Some("holes") => put(&mut self.holes, holes::read(walk, root)),
            Some("plates") => put(&mut self.plates, plates::read(walk, root)),
            Some("shims") => put(&mut self.shims, shims::read(walk, root)),
            Some("instruments") => put_all(&mut self.instruments, instruments::read(walk, root)),
            Some("limits") => put(&mut self.limits, read_limit_set(walk, root)),
            _ => false,
        }
    }
}

fn put<T>(list: &mut Vec<T>, read: Option<T>) -> bool {
    let there = read.is_some();
    list.extend(read);
    there
}

fn put_all<T>(list: &mut Vec<T>, read: Option<Vec<T>>) -> bool {
    let there = read.is_some();
    list.extend(read.into_iter().flatten());
    there
}

/// Reads the built-in tables.
///
/// # Errors
/// Gives what is wrong with them, which a test of this crate rules out.
pub fn load() -> Result<Catalog, (Vec<Problem>, Files)> {
    let mut files = Files::default();
    let mut catalog = Catalog::default();
    let problems = Problems::default();
    let walk = Walk { problems: &problems, bare: Bare { number: None, fraction: None } };
    for (path, text) in EMBEDDED {
        let file = files.add(path, (*text).to_owned());
        let root = parse(file, &files, &problems);
        if !catalog.take(walk, path, &root) {
            problems.note(Problem::in_file(file, "this catalog file cannot be used"));
        }
    }
    if problems.none() { Ok(catalog) } else { Err((problems.into_vec(), files)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_built_in_table_reads_without_a_fault() {
        if let Err((problems, files)) = load() {
            panic!("{}", crate::source::render(&problems, &files));
        }
    }

    #[test]
    fn every_file_in_the_catalog_folder_is_built_in() {
        let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("catalogs");
        let mut found = Vec::new();
        for folder in std::fs::read_dir(&root).unwrap() {
            let folder = folder.unwrap().path();
            for file in std::fs::read_dir(&folder).unwrap() {
                let path = file.unwrap().path();
                let path = path.strip_prefix(&root).unwrap().to_string_lossy().replace('\\', "/");
                found.push(path);
            }
        }
        found.sort();
        let known: Vec<&str> = EMBEDDED.iter().map(|(path, _)| *path).collect();
        assert_eq!(found, known);
    }
}
