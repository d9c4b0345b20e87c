//! elevations.csv: elevations that were measured elsewhere.

use super::columns::Roster;
use super::context::{Context, Lengths};
use super::data_table::DataTable;
use super::header::Spec;
use super::levels::Levels;
use super::load::Opened;
use super::points::{Marks, Points};
use super::spots::Spots;
use super::survey_points;
use crate::length::Length;
use crate::model::{ElevationReading, Unmatched};
use crate::source::Place;
use crate::text::quoted;

/// What is known of points before the elevations are read.
pub(super) struct Known<'j> {
    /// The columns.
    pub(super) roster: &'j Roster,
    /// The benchmarks.
    pub(super) marks: &'j Marks,
    /// The level notes.
    pub(super) levels: &'j Levels,
}

/// What a file of elevations adds to.
pub(super) struct Into<'j> {
    /// The points.
    pub(super) points: &'j mut Points,
    /// The tops of rods among them.
    pub(super) spots: &'j mut Spots,
    /// What could not be matched.
    pub(super) unmatched: &'j mut Vec<Unmatched>,
}

/// Reads the file of elevations, plain or a surveyor's; `plus_minus` is what one without its own is good to.
pub(super) fn read(
    context: Context<'_>,
    opened: Opened,
    known: &Known<'_>,
    into: &mut Into<'_>,
    plus_minus: Length,
) -> Vec<ElevationReading> {
    let mut found = Vec::new();
    let Opened::At(file) = opened else { return found };
    if let Some(begins) = survey_points::begins(&survey_points::first_row(context.files, file)) {
        return survey_points::read(context, (file, begins), known, into, plus_minus);
    }
    let points = &mut *into.points;
    let spec = Spec { required: &["point", "elevation"], optional: &["plus_minus"] };
    let Some(mut table) = DataTable::open(file, context.files, context.walk.problems, spec) else {
        return found;
    };
    let lengths = Lengths::new(context);
    for row in &mut table {
        let (point, cell, own) = (row.cell("point"), row.cell("elevation"), row.cell("plus_minus"));
        let name = context.name(&point.text, point.place);
        let elevation = lengths.read(&cell, context.readings);
        let own = if own.is_blank() { Some(plus_minus) } else { lengths.size(&own, context.readings) };
        let Some(name) = name else { continue };
        if !known.point_or_told(context, &name, point.place, points) {
            continue;
        }
        if let (Some(elevation), Some(plus_minus)) = (elevation, own) {
            let point = points.number(&name);
            found.push(ElevationReading { point, elevation, plus_minus, place: cell.place });
        }
    }
    lengths.finish();
    found
}

impl Known<'_> {
    /// Tells whether a point is known, and notes one that is not.
    pub(super) fn point_or_told(
        &self,
        context: Context<'_>,
        name: &str,
        place: Place,
        points: &Points,
    ) -> bool {
        let known = self.point(name, points);
        if !known {
            let message =
                format!("{} is no column, no benchmark and no point of the level notes", quoted(name));
            let names = self.roster.entries.iter().map(|entry| entry.mark.as_str());
            context.unknown(place, message, name, names.chain(self.marks.names()));
        }
        known
    }

    /// Tells whether a point is known, or may be because something could not be read.
    fn point(&self, name: &str, points: &Points) -> bool {
        let broken = self.roster.broken || self.marks.broken || self.levels.broken;
        broken || self.roster.get(name).is_some() || self.marks.has(name) || points.get(name).is_some()
    }
}
