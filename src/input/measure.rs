//! `[measure]`: which files hold the measurements, and what they are good to.

use super::Override;
use super::instruments::without_sight;
use super::job_toml::{Head, one_of, wanted};
use super::load::{AskedBy, Wanted};
use crate::catalog::{Catalog, InstrumentKind};
use crate::length::{Bare, Length, Unit};
use crate::model::{Sense, Units};
use crate::source::{Kind, Node, Problem, Table, Walk};
use crate::text::quoted;
use std::path::Path;

/// What `[measure]` says, with the files of the command line in it.
pub(super) struct Measure<'c> {
    /// The short form.
    pub(super) walk: Option<Wanted>,
    /// The level notes.
    pub(super) levels: Option<Wanted>,
    /// The elevations measured elsewhere.
    pub(super) elevations: Option<Wanted>,
    /// The differences measured from point to point.
    pub(super) differences: Option<Wanted>,
    /// The rods.
    pub(super) rods: Option<Wanted>,
    /// What a bare number of a reading means.
    pub(super) readings: Bare,
    /// Which way readings count.
    pub(super) sense: Sense,
    /// What one reading is good to, and whether that is assumed.
    pub(super) levels_plus_minus: (Length, bool),
    /// What one projection is good to, and whether that is assumed.
    pub(super) rods_plus_minus: (Length, bool),
    /// Height above the pad of the surface the tape stood on.
    pub(super) rods_origin: Length,
    /// The kind of instrument that was named.
    pub(super) kind: Option<&'c InstrumentKind>,
    /// Who measured, when and with what.
    pub(super) measured: Vec<(&'static str, String)>,
}

impl Measure<'_> {
    /// Leaves the files of measurements out, but a walk that alone holds the marks.
    pub(super) fn leave_out(&mut self, walk_holds_the_marks: bool) {
        if !walk_holds_the_marks {
            self.walk = None;
        }
        self.levels = None;
        self.elevations = None;
        self.differences = None;
        self.rods = None;
    }
}

/// Reads `[measure]`, which may be absent where nothing is measured yet.
///
/// An instrument that is called as in the catalog brings what its readings are good to, where the job does not say.
pub(super) fn read<'c>(
    walk: Walk<'_>,
    root: &Table<'_>,
    head: &Head,
    with: &Override,
    catalog: &'c Catalog,
) -> Measure<'c> {
    let table = root.get("measure").and_then(|node| walk.table(node, "[measure]"));
    let get = |key: &'static str| table.as_ref().and_then(|table| table.get(key));
    let file = |key: &'static str, flag: &'static str, given: Option<&Path>| {
        let named = get(key).and_then(|node| wanted(walk, node));
        let given = given.map(|path| Wanted::named(path, AskedBy::Flag(flag)));
        given.or(named)
    };
    let assumed = match head.units {
        Units::Inch => Length::from_nm(Unit::Inch.nm() / 16),
        Units::Millimetre => Length::from_nm(1_500_000),
    };
    let plus_minus = |key: &'static str, assumed: Length| {
        let own = get(key).and_then(|node| walk.size(node));
        (own.unwrap_or(assumed), own.is_none())
    };
    let instrument = get("instrument").and_then(|node| said(walk, node));
    let kind = instrument.and_then(|word| catalog.instruments.iter().find(|kind| kind.is_called(&word)));
    let of_levels = kind.map_or(assumed, |kind| without_sight(kind, head.units));
    let number = get("levels_units").and_then(|node| unit(walk, node));
    let fraction = (head.units == Units::Inch).then_some(Unit::Inch);
    let sense =
        get("sense").and_then(|node| one_of(walk, node, [("rod", Sense::Rod), ("height", Sense::Height)]));
    let measured = ["by", "date", "instrument"]
        .into_iter()
        .filter_map(|key| Some((key, said(walk, get(key)?)?)))
        .collect();
    let measure = Measure {
        walk: file("walk", "--walk", with.walk.as_deref()),
        levels: file("levels", "--levels", with.levels.as_deref()),
        elevations: file("elevations", "", None),
        differences: file("differences", "", None),
        rods: file("rods", "--rods", with.rods.as_deref()),
        readings: Bare { number, fraction },
        sense: sense.unwrap_or(Sense::Rod),
        levels_plus_minus: plus_minus("levels_plus_minus", of_levels),
        rods_plus_minus: plus_minus("rods_plus_minus", assumed),
        rods_origin: get("rods_origin").and_then(|node| walk.length(node)).unwrap_or(Length::ZERO),
        kind,
        measured,
    };
    if let Some(table) = &table {
        table.close(walk);
    }
    if let (Some(short), Some(levels)) = (&measure.walk, &measure.levels) {
        // the fault stands where the job file can be mended, if it can be there
        let at = if matches!(levels.by, AskedBy::Key(_)) { levels } else { short };
        walk.problems.note(
            at.problem("`walk` and `levels` cannot stand together: both hold the readings of the pads")
                .fix("use one of the two"),
        );
    }
    measure
}

fn unit(walk: Walk<'_>, node: &Node) -> Option<Unit> {
    let text = walk.text(node)?;
    let unit = match text.trim() {
        "in" => Unit::Inch,
        "ft" => Unit::Foot,
        "mm" => Unit::Millimetre,
        "m" => Unit::Metre,
        _ => {
            walk.problems.note(
                Problem::at(node.place, format!("{} is not a unit of level readings", quoted(&text)))
                    .fix("use \"in\", \"ft\", \"mm\" or \"m\""),
            );
            return None;
        }
    };
    Some(unit)
}

/// Takes a node as words: a text or a date.
fn said(walk: Walk<'_>, node: &Node) -> Option<String> {
    let text = match &node.kind {
        Kind::Date(date) => date.clone(),
        _ => walk.text(node)?,
    };
    super::context::remark(&text)
}
