//! `[[instrument]]`: what readings were taken with, what they are good to, peg tests.

use super::context::{Context, known_names};
use super::job_toml::entries;
use crate::catalog::{Catalog, InstrumentKind};
use crate::length::Length;
use crate::model::{Instrument, LineOfSight, PegReading, PegTest, Slope, Tilt, Units};
use crate::source::{Kind, Node, Place, Problem, Table, Walk, nearest};
use crate::text::quoted;

/// The instruments of a job.
#[derive(Default)]
pub(super) struct Instruments {
    /// One entry an `[[instrument]]`, with where it stands.
    pub(super) found: Vec<(Instrument, Place)>,
    /// The kinds whose figures stand for what the job does not say.
    pub(super) kinds_assumed: Vec<String>,
    /// Whether one may be missing because something could not be read.
    pub(super) broken: bool,
}

/// What an instrument is read with.
#[derive(Clone, Copy)]
pub(super) struct With<'a> {
    /// What is known of instruments.
    pub(super) catalog: &'a Catalog,
    /// The units of the job.
    pub(super) units: Units,
    /// What one reading is good to where nothing else is said, and whether that is assumed.
    pub(super) plus_minus: (Length, bool),
}

/// Reads every `[[instrument]]`.
///
/// Without any, the kind that `[measure]` names stands for all readings. What the job says of its readings goes before
/// the figures of a kind, and what an instrument says of itself before both.
pub(super) fn read(
    context: Context<'_>,
    root: &Table<'_>,
    with: With<'_>,
    measured_with: Option<&InstrumentKind>,
) -> Instruments {
    let mut all = Instruments::default();
    let nodes = entries(context.walk, root, "instrument");
    for node in nodes {
        let table = context.walk.table(node, "[[instrument]]");
        match table.and_then(|table| Some((one(context, &table, with, nodes.len() > 1)?, table.place()))) {
            Some(((instrument, assumed), place)) => {
                if let Some((_, first)) = all.found.iter().find(|(it, _)| it.name == instrument.name) {
                    context.twice(&format!("the instrument {}", quoted(&instrument.name)), place, *first);
                }
                all.kinds_assumed.extend(instrument.kind.clone().filter(|_| assumed));
                all.found.push((instrument, place));
            }
            None => all.broken = true,
        }
    }
    if let (true, Some(kind)) = (nodes.is_empty(), measured_with) {
        let place = Place { file: root.place().file, start: 0, end: 0 };
        all.kinds_assumed.extend(with.plus_minus.1.then(|| kind.name.clone()));
        all.found.push((of_kind(kind, with), place));
    }
    all.kinds_assumed.sort();
    all.kinds_assumed.dedup();
    all
}

/// Gives an instrument of which nothing but its kind is known: good to what the job says, else the catalog.
fn of_kind(kind: &InstrumentKind, with: With<'_>) -> Instrument {
    let (stated, assumed) = with.plus_minus;
    let (reading, per_sight, without_sight) = if assumed {
        let per_sight = kind.per_sight.map(|[rise, run]| Slope { rise, run });
        (kind.reading, per_sight, without_sight(kind, with.units))
    } else {
        (stated, None, stated)
    };
    Instrument {
        name: kind.name.clone(),
        kind: Some(kind.name.clone()),
        reading,
        per_sight,
        without_sight,
        line: LineOfSight::Level,
        tilt: Tilt::Level,
    }
}

/// Gives what a reading of a kind is good to where its sight length is not known.
pub(super) fn without_sight(kind: &InstrumentKind, units: Units) -> Length {
    let [inch, metric] = kind.without_sight;
    match units {
        Units::Inch => inch,
        Units::Millimetre => metric,
    }
}

/// Reads one, and tells whether a figure of its kind in the catalog stands for what the job does not say.
fn one(context: Context<'_>, table: &Table<'_>, with: With<'_>, several: bool) -> Option<(Instrument, bool)> {
    let walk = context.walk;
    // every key is read, so that all its faults are told, before any of them is used
    let name = if several { table.need(walk, "name", "\"level 1\"") } else { table.get("name") };
    let name = match name {
        Some(node) => walk.text(node).and_then(|text| context.name(&text, node.place)),
        None => (!several).then(String::new),
    };
    let kind = table.get("kind").map(|node| kind(context, &walk.name(node)?, node.place, with.catalog));
    let own = table.get("plus_minus").map(|node| walk.size(node));
    let per_sight = table.get("per_sight").map(|node| growth(walk, node));
    let stated = table.get("slope").map(|node| line(walk, node));
    let good_to = table.get("slope_plus_minus").map(|node| slope_good_to(walk, node));
    let tilt = table.get("tilt").map_or(Some(Tilt::Level), |node| tilt(walk, node));
    let pegs = pegs(context, table);
    table.close(walk);
    let stated = stated_slope(walk, table, stated, good_to);

    let assumed = own.is_none() && with.plus_minus.1;
    let kind = all_or_none(kind)?;
    let base = kind.map(|kind| of_kind(kind, with));
    let (reading, per_sight, without_sight) =
        figures(all_or_none(own)?, all_or_none(per_sight)?, base.as_ref(), with.plus_minus.0);
    let line = match (stated?, pegs?) {
        (None, pegs) if pegs.is_empty() => LineOfSight::Level,
        (stated, pegs) => LineOfSight::Found { stated: stated.flatten(), pegs },
    };
    let (name, tilt, kind) = (name?, tilt?, kind.map(|kind| kind.name.clone()));
    Some((Instrument { name, kind, reading, per_sight, without_sight, line, tilt }, assumed))
}

/// Takes a key that need not be there; none where it is there and cannot be read, which was told.
fn all_or_none<T>(key: Option<Option<T>>) -> Option<Option<T>> {
    match key {
        Some(read) => read.map(Some),
        None => Some(None),
    }
}

/// Gives what a reading is good to at no distance, what that grows by, and without a sight length.
fn figures(
    own: Option<Length>,
    per_sight: Option<Slope>,
    base: Option<&Instrument>,
    of_job: Length,
) -> (Length, Option<Slope>, Length) {
    match (own, per_sight, base) {
        (None, None, Some(base)) => (base.reading, base.per_sight, base.without_sight),
        (own, per_sight, base) => {
            let reading = own.unwrap_or_else(|| base.map_or(of_job, |base| base.reading));
            (reading, per_sight, reading)
        }
    }
}

/// A slope as it is stated, with what it is good to; none inside where it is to be found.
type Stated = Option<(Slope, Slope)>;

/// Puts the slope of a line of sight and its +- together; the outer none is a fault, which is told here or was before.
fn stated_slope(
    walk: Walk<'_>,
    table: &Table<'_>,
    stated: Option<Option<Option<Slope>>>,
    good_to: Option<Option<Slope>>,
) -> Option<Option<Stated>> {
    let told = |message: &str, fix: &str| {
        walk.problems.note(Problem::at(table.place(), message).fix(fix));
        None
    };
    let (stated, good_to) = (all_or_none(stated)?, all_or_none(good_to)?);
    match (stated, good_to) {
        (None, None) => Some(None),
        (Some(None), None) => Some(Some(None)),
        (Some(Some(slope)), Some(good_to)) => Some(Some(Some((slope, good_to)))),
        (Some(Some(_)), None) => told(
            "the slope of this instrument's line of sight has no +-",
            "add slope_plus_minus = [\"0.5 mm\", \"10 m\"]: so much over so much",
        ),
        (Some(None), Some(_)) => told(
            "a slope that is to be found from the readings has no +-",
            "take slope_plus_minus out, or state the slope: slope = [\"0\", \"10 m\"]",
        ),
        (None, Some(_)) => told(
            "`slope_plus_minus` stands here without a slope",
            "add slope = [\"0\", \"10 m\"]: the slope of the line of sight, so much over so much",
        ),
    }
}

/// Finds a kind in the catalog, and notes one that is not known.
pub(super) fn kind<'c>(
    context: Context<'_>,
    word: &str,
    place: Place,
    catalog: &'c Catalog,
) -> Option<&'c InstrumentKind> {
    let found = catalog.instruments.iter().find(|kind| kind.is_called(word));
    if found.is_none() {
        let names = catalog.instruments.iter().map(|kind| kind.name.as_str());
        let problem = Problem::at(place, format!("{} is not a kind of instrument", quoted(word)));
        context.note(match nearest(word, names.clone()) {
            Some(name) => problem.fix(format!("did you mean `{name}`?")),
            None => problem.fix(known_names(names).unwrap_or_default()),
        });
    }
    found
}

/// Reads a slope: `[rise, run]`.
pub(super) fn slope(walk: Walk<'_>, node: &Node) -> Option<Slope> {
    let [rise, run] = walk.lengths(node)?;
    if run <= Length::ZERO {
        walk.problems.note(
            Problem::at(node.place, "the second length of a slope is the run, and it must be more than 0")
                .fix("write so much over so much: [\"0.5 mm\", \"10 m\"]"),
        );
        return None;
    }
    let slope = Slope { rise, run };
    if rise.abs().nm() > run.nm() / STEEPEST {
        walk.problems.note(
            Problem::at(
                node.place,
                format!("this is steeper than 1 in {STEEPEST}, which no instrument in use is"),
            )
            .fix("write the rise first and the run behind it: [\"0.5 mm\", \"10 m\"]"),
        );
        return None;
    }
    Some(slope)
}

/// A slope steeper than one in so many is a slip: most likely rise and run stand the wrong way round (house rule).
const STEEPEST: i64 = 100;

/// Reads by how much the +- of a reading grows with its sight.
fn growth(walk: Walk<'_>, node: &Node) -> Option<Slope> {
    let slope = slope(walk, node)?;
    if slope.rise.is_negative() {
        walk.problems.note(
            Problem::at(node.place, "what a reading is good to cannot shrink with the sight")
                .fix("write so much more over so much: [\"1 mm\", \"30 m\"]"),
        );
        return None;
    }
    Some(slope)
}

/// Reads what the slope of a line of sight is good to.
fn slope_good_to(walk: Walk<'_>, node: &Node) -> Option<Slope> {
    let slope = slope(walk, node)?;
    if slope.rise <= Length::ZERO {
        walk.problems.note(
            Problem::at(
                node.place,
                "what the slope is good to must be more than 0: no slope is known exactly",
            )
            .fix("write so much over so much: [\"0.5 mm\", \"10 m\"]"),
        );
        return None;
    }
    Some(slope)
}

/// Reads the slope of a line of sight: stated, or `\"free\"`.
fn line(walk: Walk<'_>, node: &Node) -> Option<Option<Slope>> {
    if matches!(&node.kind, Kind::Text(_)) {
        free(walk, node, "a slope [rise, run]")?;
        return Some(None);
    }
    slope(walk, node).map(Some)
}

/// Reads a tilt: `\"free\"`, or what it is level to.
pub(super) fn tilt(walk: Walk<'_>, node: &Node) -> Option<Tilt> {
    if matches!(&node.kind, Kind::Text(_)) {
        free(walk, node, "what it is level to, [rise, run]")?;
        return Some(Tilt::Free);
    }
    let within = slope(walk, node)?;
    if within.rise <= Length::ZERO {
        walk.problems.note(
            Problem::at(node.place, "what a setup is level to must be more than 0")
                .fix("leave tilt out where the instrument is taken as level"),
        );
        return None;
    }
    Some(Tilt::Within(within))
}

fn free(walk: Walk<'_>, node: &Node, other: &str) -> Option<()> {
    let text = walk.text(node)?;
    if text.trim() == "free" {
        return Some(());
    }
    walk.problems.note(
        Problem::at(node.place, format!("{} is not known here", quoted(&text)))
            .fix(format!("use \"free\" to find it from the readings, or give {other}")),
    );
    None
}

/// Reads `[[instrument.peg]]`.
fn pegs(context: Context<'_>, table: &Table<'_>) -> Option<Vec<PegTest>> {
    let walk = context.walk;
    let Some(node) = table.get("peg") else { return Some(Vec::new()) };
    if matches!(&node.kind, Kind::Table(_)) {
        walk.problems.note(
            Problem::at(node.place, "`peg` is one table, a list of peg tests is expected")
                .fix("write [[instrument.peg]] with two brackets"),
        );
        return None;
    }
    let mut found = Vec::new();
    for item in walk.list(node)? {
        let test = walk.table(item, "[[instrument.peg]]")?;
        let first = test.need(walk, "first", EXAMPLE).and_then(|node| place(context, node));
        let second = test.need(walk, "second", EXAMPLE).and_then(|node| place(context, node));
        test.close(walk);
        let test = PegTest { first: first?, second: second? };
        if test.lever() == Length::ZERO {
            walk.problems.note(
                Problem::at(item.place, "this peg test tells nothing: its sights are alike from both places")
                    .fix("read the pegs once from between them and once from beyond one of them"),
            );
            return None;
        }
        found.push(test);
    }
    Some(found)
}

const EXAMPLE: &str = r#"{ a = "1.32", to_a = "40 m", b = "1.56", to_b = "40 m" }"#;

/// Reads what was read from one place of a peg test; bare numbers take the unit of the readings.
fn place(context: Context<'_>, node: &Node) -> Option<[PegReading; 2]> {
    let walk = Walk { bare: context.readings, ..context.walk };
    let table = walk.table(node, "a place of a peg test")?;
    let peg = |reading: &'static str, sight: &'static str| {
        let read = table.need(walk, reading, "\"1.32\"").and_then(|node| walk.length(node));
        let sight = table.need(walk, sight, "\"40 m\"").and_then(|node| walk.size(node));
        Some(PegReading { reading: read?, sight: sight? })
    };
    let (a, b) = (peg("a", "to_a"), peg("b", "to_b"));
    table.close(walk);
    Some([a?, b?])
}
