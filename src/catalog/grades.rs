//! Grades of rods and nuts: strengths, sizes, and which nut a standard recommends on which rod.

use super::authority::{Authority, read_authority};
use super::row;
use crate::length::{Length, Unit};
use crate::quantity::{Stress, StressUnit};
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

/// How a nut is made, the lower style first within inch and metric nuts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NutStyle {
    /// Hex.
    Hex,
    /// Heavy hex: higher, and wider across flats.
    HeavyHex,
    /// Metric regular nuts, as of ISO 4032.
    Style1,
    /// Metric high nuts, as of ISO 4033.
    Style2,
}

impl NutStyle {
    /// Every style, as it is written.
    pub const WRITTEN: [(&'static str, Self); 4] = [
        ("hex", Self::Hex),
        ("heavy-hex", Self::HeavyHex),
        ("style-1", Self::Style1),
        ("style-2", Self::Style2),
    ];

    /// The series of nuts that are of one style.
    const SERIES: [(&'static str, Self); 4] = [
        ("hex", Self::Hex),
        ("heavy-hex", Self::HeavyHex),
        ("iso-4032", Self::Style1),
        ("iso-4033", Self::Style2),
    ];

    /// Gives the style of a series of nuts; none where the series is of neither.
    ///
    /// # Example
    /// ```
    /// use rodreach::catalog::NutStyle;
    /// assert_eq!(NutStyle::of_series("heavy-hex"), Some(NutStyle::HeavyHex));
    /// assert_eq!(NutStyle::of_series("iso-4032"), Some(NutStyle::Style1));
    /// assert_eq!(NutStyle::of_series("as measured"), None);
    /// ```
    #[must_use]
    pub fn of_series(name: &str) -> Option<Self> {
        Self::SERIES.iter().find(|(written, _)| *written == name).map(|(_, style)| *style)
    }

    /// Tells whether a nut of this style is no lower than one of another; none between inch and metric nuts.
    #[must_use]
    pub const fn is_no_lower_than(self, other: Self) -> Option<bool> {
        match (self, other) {
            (Self::Hex, Self::HeavyHex) | (Self::Style1, Self::Style2) => Some(false),
            (Self::Hex | Self::HeavyHex, Self::Hex | Self::HeavyHex)
            | (Self::Style1 | Self::Style2, Self::Style1 | Self::Style2) => Some(true),
            _ => None,
        }
    }

    /// Gives the style in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Hex => "hex",
            Self::HeavyHex => "heavy hex",
            Self::Style1 => "style 1",
            Self::Style2 => "style 2",
        }
    }
}

/// A grade of rods.
#[derive(Clone, Debug)]
pub struct RodGrade {
    /// What a job file calls it.
    pub name: String,
    /// The least yield stress.
    pub least_yield: Stress,
    /// The least tensile stress.
    pub tensile: Stress,
    /// The most tensile stress, where there is a most.
    pub most_tensile: Option<Stress>,
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
    /// The proof stress of a plain nut.
    pub plain: Stress,
    /// The proof stress of a zinc-coated nut, where known.
    pub zinc: Option<Stress>,
    /// On whose word.
    pub authority: Authority,
}

impl NutGrade {
    /// Gives the proof stress, where known.
    #[must_use]
    pub const fn proof(&self, finish: Finish) -> Option<Stress> {
        match finish {
            Finish::Plain => Some(self.plain),
            Finish::Zinc => self.zinc,
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
    let least_yield = stress(walk, row, ["yield_ksi", "yield_mpa"]);
    let (key, unit) = key(walk, ["tensile_ksi", "tensile_mpa"]);
    let tensile = row.need(walk, key, "[58, 80]").and_then(|node| walk.list(node));
    let tensile: Option<Vec<Stress>> = tensile.and_then(|both| {
        both.iter().map(|one| Some(Stress::of(walk.whole(one, 1, MOST_STRENGTH)?, unit))).collect()
    });
    let sizes = sizes(walk, row);
    let (tensile, most_tensile) = match tensile?.as_slice() {
        [least] => (*least, None),
        [least, most] => (*least, Some(*most)),
        _ => return None,
    };
    Some(RodGrade { name: name?, least_yield: least_yield?, tensile, most_tensile, sizes: sizes?, authority })
}

fn nut(walk: Walk<'_>, row: &Table<'_>, authority: Authority) -> Option<NutGrade> {
    let name = name(walk, row, "grade");
    let style = word(walk, row, "style", &NutStyle::WRITTEN);
    let sizes = sizes(walk, row);
    let plain = stress(walk, row, ["plain_ksi", "plain_mpa"]);
    let (zinc, unit) = key(walk, ["zinc_ksi", "zinc_mpa"]);
    let zinc = match row.get(zinc) {
        Some(node) => Some(Stress::of(walk.whole(node, 1, MOST_STRENGTH)?, unit)),
        None => None,
    };
    Some(NutGrade { name: name?, style: style?, sizes: sizes?, plain: plain?, zinc, authority })
}

fn recommended(walk: Walk<'_>, row: &Table<'_>, authority: Authority) -> Option<Recommended> {
    let (rod, nut) = (name(walk, row, "rod"), name(walk, row, "nut"));
    let finish = word(walk, row, "finish", &Finish::WRITTEN);
    let style = word(walk, row, "style", &NutStyle::WRITTEN);
    let sizes = sizes(walk, row);
    Some(Recommended { rod: rod?, finish: finish?, sizes: sizes?, nut: nut?, style: style?, authority })
}

/// Most kips a square inch, or megapascals, that a strength is read as.
const MOST_STRENGTH: i64 = 2_000;

/// Gives the key and the unit of a strength: of the inch files in ksi, of the metric ones in MPa.
fn key(walk: Walk<'_>, [inch, metric]: [&'static str; 2]) -> (&'static str, StressUnit) {
    match walk.bare.number {
        Some(Unit::Inch) => (inch, StressUnit::Ksi),
        _ => (metric, StressUnit::Megapascal),
    }
}

fn stress(walk: Walk<'_>, row: &Table<'_>, keys: [&'static str; 2]) -> Option<Stress> {
    let (key, unit) = key(walk, keys);
    let strength = row.need(walk, key, "36").and_then(|node| walk.whole(node, 1, MOST_STRENGTH));
    Some(Stress::of(strength?, unit))
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
    fn every_rod_has_a_recommended_nut_at_every_size_of_its_thread_table_and_in_both_finishes() {
        let catalog = load().unwrap();
        for file in &catalog.grades {
            let threads = if file.unit == Unit::Inch { "unc" } else { "metric-coarse" };
            let threads = catalog.threads.iter().find(|table| table.name == threads).unwrap();
            for rod in &file.rods {
                let rows = threads.rows.iter().filter(|(diameter, _)| within(rod.sizes, *diameter));
                assert!(rows.clone().count() > 5, "{}", rod.name);
                for (diameter, _) in rows {
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
    }

    #[test]
    fn strengths_lie_in_order_and_a_coat_of_zinc_never_makes_a_nut_stronger() {
        let catalog = load().unwrap();
        for rod in catalog.rod_grades() {
            assert!(rod.least_yield < rod.tensile, "{}", rod.name);
            assert!(rod.most_tensile.is_none_or(|most| rod.tensile < most), "{}", rod.name);
            assert!(rod.sizes[0] < rod.sizes[1], "{}", rod.name);
        }
        for nut in catalog.grades.iter().flat_map(|file| &file.nuts) {
            assert!(nut.zinc.is_none_or(|zinc| zinc <= nut.plain), "{}", nut.name);
            assert!(nut.sizes[0] < nut.sizes[1], "{}", nut.name);
        }
    }

    /// ISO 898-1: the first number is the tensile strength / 100, both numbers times 10 the yield stress, in MPa; the proof
    /// stress of a nut of ISO 898-2 is no less than the tensile strength of the rod it is for.
    #[test]
    fn metric_grades_mean_what_their_numbers_say() {
        let catalog = load().unwrap();
        let file = catalog.grades.iter().find(|file| file.name == "iso-898").unwrap();
        let mpa = |mpa: i64| Stress::of(mpa, StressUnit::Megapascal);
        let names: Vec<&str> = file.rods.iter().map(|rod| rod.name.as_str()).collect();
        assert_eq!(names, ["4.6", "5.6", "8.8", "10.9"]);
        for rod in &file.rods {
            let (first, second) = rod.name.split_once('.').unwrap();
            let (first, second): (i64, i64) = (first.parse().unwrap(), second.parse().unwrap());
            assert_eq!((rod.tensile, rod.least_yield), (mpa(first * 100), mpa(first * second * 10)));
            for wanted in file.recommended.iter().filter(|it| it.rod == rod.name) {
                assert!(wanted.nut.parse::<i64>().unwrap() >= first, "{}", rod.name);
                let proof =
                    file.nuts.iter().find(|nut| nut.name == wanted.nut && within(nut.sizes, wanted.sizes[0]));
                assert!(proof.unwrap().plain >= rod.tensile, "{}", rod.name);
            }
        }
    }

    #[test]
    fn styles_are_compared_among_inch_nuts_or_among_metric_ones() {
        assert_eq!(NutStyle::HeavyHex.is_no_lower_than(NutStyle::Hex), Some(true));
        assert_eq!(NutStyle::Hex.is_no_lower_than(NutStyle::HeavyHex), Some(false));
        assert_eq!(NutStyle::Style2.is_no_lower_than(NutStyle::Style1), Some(true));
        assert_eq!(NutStyle::Style1.is_no_lower_than(NutStyle::Style2), Some(false));
        assert_eq!(NutStyle::HeavyHex.is_no_lower_than(NutStyle::Style1), None);
        assert_eq!(NutStyle::Style2.is_no_lower_than(NutStyle::Hex), None);
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
