//! Grades of rods and nuts: strengths, sizes, and which nut a standard recommends on which rod.

use super::authority::{Authority, read_authority};
use super::row;
use crate::length::{Length, Unit};
use crate::source::{Node, Problem, Table, Walk, nearest};

/// How a rod is finished.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Finish {
    /// Not coated.
    Plain,
    /// Coated with zinc, hot-dip or mechanically.
    Zinc,
}

impl Finish {
    /// Both finishes, as they are written.
    pub const WRITTEN: [(&'static str, Self); 2] = [("plain", Self::Plain), ("zinc", Self::Zinc)];

    /// Gives the finish as it is written.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Zinc => "zinc",
        }
    }
}

/// How a nut is made, the lower style first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum NutStyle {
    /// Hex.
    Hex,
    /// Heavy hex: higher, and wider across flats.
    HeavyHex,
}

impl NutStyle {
    /// Both styles, as the series of nuts are called.
    pub const WRITTEN: [(&'static str, Self); 2] = [("hex", Self::Hex), ("heavy-hex", Self::HeavyHex)];

    /// Gives the style of a series of nuts; none where the series is of neither.
    ///
    /// # Example
    /// ```
    /// use rodreach::catalog::NutStyle;
    /// assert_eq!(NutStyle::of_series("heavy-hex"), Some(NutStyle::HeavyHex));
    /// assert_eq!(NutStyle::of_series("iso-4032"), None);
    /// ```
    #[must_use]
    pub fn of_series(name: &str) -> Option<Self> {
        Self::WRITTEN.iter().find(|(written, _)| *written == name).map(|(_, style)| *style)
    }

    /// Gives the style in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Hex => "hex",
            Self::HeavyHex => "heavy hex",
        }
    }
}

/// A grade of rods. Strengths are in kips a square inch.
#[derive(Clone, Debug)]
pub struct RodGrade {
    /// What a job file calls it.
    pub name: String,
    /// The least yield stress, in ksi.
    pub yield_ksi: i64,
    /// The least and the most tensile stress, in ksi.
    pub tensile_ksi: [i64; 2],
    /// The smallest and the largest diameter.
    pub sizes: [Length; 2],
    /// On whose word.
    pub authority: Authority,
}

/// A grade of nuts in one style over a range of sizes.
#[derive(Clone, Debug)]
pub struct NutGrade {
    /// What a job file calls the grade.
    pub name: String,
    /// The style.
    pub style: NutStyle,
    /// The smallest and the largest rod diameter.
    pub sizes: [Length; 2],
    /// The proof stress of a plain nut, in ksi.
    pub plain_ksi: i64,
    /// The proof stress of a zinc-coated nut, in ksi.
    pub zinc_ksi: i64,
    /// On whose word.
    pub authority: Authority,
}

impl NutGrade {
    /// Gives the proof stress, in ksi.
    #[must_use]
    pub const fn proof_ksi(&self, finish: Finish) -> i64 {
        match finish {
            Finish::Plain => self.plain_ksi,
            Finish::Zinc => self.zinc_ksi,
        }
    }
}

/// The nut that a standard recommends on a rod.
#[derive(Clone, Debug)]
pub struct Recommended {
    /// The grade of the rod.
    pub rod: String,
    /// The finish of the rod.
    pub finish: Finish,
    /// The smallest and the largest rod diameter.
    pub sizes: [Length; 2],
    /// The grade of the nut.
    pub nut: String,
    /// The style of the nut.
    pub style: NutStyle,
    /// On whose word.
    pub authority: Authority,
}

/// A grade of nuts that may stand wherever another is recommended.
#[derive(Clone, Debug)]
pub struct Instead {
    /// The grade of the nut.
    pub nut: String,
    /// On whose word.
    pub authority: Authority,
}

/// One file of grades.
#[derive(Clone, Debug)]
pub struct Grades {
    /// What the file is called.
    pub name: String,
    /// What it is.
    pub title: String,
    /// The unit its sizes are written in.
    pub unit: Unit,
    /// Grades of rods.
    pub rods: Vec<RodGrade>,
    /// Grades of nuts.
    pub nuts: Vec<NutGrade>,
    /// Which nut is recommended on which rod.
    pub recommended: Vec<Recommended>,
    /// Nuts that may replace any.
    pub instead: Vec<Instead>,
    /// On whose word any nut of no lower style and proof stress will do on these rods, where it will.
    pub no_weaker: Option<Authority>,
}

/// Tells whether a diameter lies in a range of sizes.
pub(super) fn within([from, to]: [Length; 2], diameter: Length) -> bool {
    from <= diameter && diameter <= to
}

pub(super) fn read(walk: Walk<'_>, root: &Node) -> Option<Grades> {
    let table = walk.table(root, "the catalog file")?;
    let walk = row::units(walk, &table)?;
    let head = row::head(walk, &table)?;
    let source = head.source.as_ref();
    let rods = row::rows(walk, table.get("rod"), source, |row, authority| rod(walk, row, authority));
    let nuts = row::rows(walk, table.get("nut"), source, |row, authority| nut(walk, row, authority));
    let recommended =
        row::rows(walk, table.get("recommended"), source, |row, authority| recommended(walk, row, authority));
    let instead = row::rows(walk, table.get("instead"), source, |row, authority| {
        Some(Instead { nut: name(walk, row, "nut")?, authority })
    });
    let no_weaker = table.get("no_weaker").and_then(|node| sourced(walk, node));
    table.close(walk);
    let (name, title, unit) = (head.name, head.title, head.unit);
    Some(Grades { name, title, unit, rods, nuts, recommended, instead, no_weaker })
}

/// Reads a table that holds its source only.
fn sourced(walk: Walk<'_>, node: &Node) -> Option<Authority> {
    let table = walk.table(node, "[no_weaker]")?;
    let source = table.need(walk, "source", "{ kind, text }").and_then(|node| read_authority(walk, node));
    table.close(walk);
    source
}

fn rod(walk: Walk<'_>, row: &Table<'_>, authority: Authority) -> Option<RodGrade> {
    let name = name(walk, row, "grade");
    let yield_ksi = ksi(walk, row, "yield_ksi");
    let tensile = row.need(walk, "tensile_ksi", "[58, 80]").and_then(|node| walk.list(node));
    let tensile: Option<Vec<i64>> =
        tensile.and_then(|both| both.iter().map(|one| walk.whole(one, 1, MOST_KSI)).collect());
    let sizes = sizes(walk, row);
    let tensile_ksi: [i64; 2] = tensile?.try_into().ok()?;
    Some(RodGrade { name: name?, yield_ksi: yield_ksi?, tensile_ksi, sizes: sizes?, authority })
}

fn nut(walk: Walk<'_>, row: &Table<'_>, authority: Authority) -> Option<NutGrade> {
    let name = name(walk, row, "grade");
    let style = word(walk, row, "style", &NutStyle::WRITTEN);
    let sizes = sizes(walk, row);
    let (plain_ksi, zinc_ksi) = (ksi(walk, row, "plain_ksi"), ksi(walk, row, "zinc_ksi"));
    let (plain_ksi, zinc_ksi) = (plain_ksi?, zinc_ksi?);
    Some(NutGrade { name: name?, style: style?, sizes: sizes?, plain_ksi, zinc_ksi, authority })
}

fn recommended(walk: Walk<'_>, row: &Table<'_>, authority: Authority) -> Option<Recommended> {
    let (rod, nut) = (name(walk, row, "rod"), name(walk, row, "nut"));
    let finish = word(walk, row, "finish", &Finish::WRITTEN);
    let style = word(walk, row, "style", &NutStyle::WRITTEN);
    let sizes = sizes(walk, row);
    Some(Recommended { rod: rod?, finish: finish?, sizes: sizes?, nut: nut?, style: style?, authority })
}

/// Most kips a square inch that a strength is read as.
const MOST_KSI: i64 = 1_000;

fn ksi(walk: Walk<'_>, row: &Table<'_>, key: &'static str) -> Option<i64> {
    row.need(walk, key, "36").and_then(|node| walk.whole(node, 1, MOST_KSI))
}

fn name(walk: Walk<'_>, row: &Table<'_>, key: &'static str) -> Option<String> {
    row.need(walk, key, "\"A\"").and_then(|node| walk.name(node))
}

fn sizes(walk: Walk<'_>, row: &Table<'_>) -> Option<[Length; 2]> {
    let (from, to) = (row::need(walk, row, "from"), row::need(walk, row, "to"));
    Some([from?, to?])
}

fn word<T: Copy>(walk: Walk<'_>, row: &Table<'_>, key: &'static str, known: &[(&str, T)]) -> Option<T> {
    let node = row.need(walk, key, "\"hex\"")?;
    let text = walk.text(node)?;
    let found = known.iter().find(|(written, _)| *written == text).map(|(_, value)| *value);
    if found.is_none() {
        let problem = Problem::at(node.place, format!("`{text}` is not known here"));
        let near = nearest(&text, known.iter().map(|(written, _)| *written));
        walk.problems.note(match near {
            Some(near) => problem.fix(format!("did you mean `{near}`?")),
            None => problem,
        });
    }
    found
}

#[cfg(test)]
mod tests {
    use super::super::load;
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_rod_has_a_recommended_nut_at_every_size_of_the_thread_table_and_in_both_finishes() {
        let catalog = load().unwrap();
        let unc = catalog.threads.iter().find(|table| table.name == "unc").unwrap();
        for rod in catalog.rod_grades() {
            for (diameter, _) in unc.rows.iter().filter(|(diameter, _)| within(rod.sizes, *diameter)) {
                let found = catalog.recommended_nuts(&rod.name, *diameter);
                let finishes: Vec<Finish> = found.iter().map(|it| it.finish).collect();
                assert_eq!(finishes, [Finish::Plain, Finish::Zinc], "{} {diameter:?}", rod.name);
                for wanted in found {
                    let proof = catalog.nut_grade(&wanted.nut, wanted.style, *diameter);
                    assert!(proof.is_some(), "{} {diameter:?}: no proof stress", wanted.nut);
                }
            }
        }
    }

    #[test]
    fn strengths_lie_in_order_and_a_coat_of_zinc_never_makes_a_nut_stronger() {
        let catalog = load().unwrap();
        for rod in catalog.rod_grades() {
            assert!(rod.yield_ksi < rod.tensile_ksi[0] && rod.tensile_ksi[0] < rod.tensile_ksi[1]);
            assert!(rod.sizes[0] < rod.sizes[1], "{}", rod.name);
        }
        for nut in catalog.grades.iter().flat_map(|file| &file.nuts) {
            assert!(nut.zinc_ksi <= nut.plain_ksi && nut.sizes[0] < nut.sizes[1], "{}", nut.name);
        }
    }

    #[test]
    fn every_grade_has_one_row_at_a_size() {
        let catalog = load().unwrap();
        let rods: Vec<&str> = catalog.rod_grades().map(|rod| rod.name.as_str()).collect();
        assert_eq!(rods.len(), rods.iter().collect::<BTreeSet<_>>().len());
        for file in &catalog.grades {
            for (at, one) in file.recommended.iter().enumerate() {
                assert!(rods.contains(&one.rod.as_str()), "{}", one.rod);
                for other in &file.recommended[at + 1..] {
                    let apart = one.sizes[1] < other.sizes[0] || other.sizes[1] < one.sizes[0];
                    assert!(apart || one.rod != other.rod || one.finish != other.finish, "{}", one.rod);
                }
            }
        }
    }
}
