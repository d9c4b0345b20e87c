//! differences.csv: differences of height measured from point to point, with or without an instrument.

use super::context::{Context, Lengths};
use super::data_table::DataTable;
use super::elevations::Known;
use super::header::Spec;
use super::load::Opened;
use super::points::Points;
use crate::length::Length;
use crate::model::DifferenceReading;
use crate::source::{Place, Problem};
use crate::text::quoted;
use std::collections::BTreeMap;

/// One row, as far as it could be read.
struct Step {
    from: (String, Place),
    to: (String, Place),
    difference: Option<Length>,
    plus_minus: Option<Length>,
    place: Place,
}

/// Reads the file of differences; `plus_minus` is what one without its own is good to.
///
/// A point that is nothing else may carry the steps on, as the fixed end of a hose does: it stands in two at least.
pub(super) fn read(
    context: Context<'_>,
    opened: Opened,
    known: &Known<'_>,
    points: &mut Points,
    plus_minus: Length,
) -> Vec<DifferenceReading> {
    let Opened::At(file) = opened else { return Vec::new() };
    let spec = Spec { required: &["from", "to", "difference"], optional: &["plus_minus"] };
    let Some(mut table) = DataTable::open(file, context.files, context.walk.problems, spec) else {
        return Vec::new();
    };
    let lengths = Lengths::new(context);
    let steps: Vec<Step> = table
        .by_ref()
        .filter_map(|row| {
            let (from, to, cell) = (row.cell("from"), row.cell("to"), row.cell("difference"));
            let own = row.cell("plus_minus");
            let from_name = context.name(&from.text, from.place);
            let to_name = context.name(&to.text, to.place);
            let difference = lengths.read(&cell, context.readings);
            let plus_minus =
                if own.is_blank() { Some(plus_minus) } else { lengths.size(&own, context.readings) };
            let (from, to) = ((from_name?, from.place), (to_name?, to.place));
            Some(Step { from, to, difference, plus_minus, place: cell.place })
        })
        .collect();
    lengths.finish();
    let mut named: BTreeMap<&str, usize> = BTreeMap::new();
    for name in steps.iter().flat_map(|step| [&step.from.0, &step.to.0]) {
        *named.entry(name).or_default() += 1;
    }
    // where rows are missing, a point may stand in one of them
    let carries = |name: &str| named.get(name).is_some_and(|times| *times > 1) || !table.is_whole();
    let mut found = Vec::new();
    for step in &steps {
        let (from, to) = (&step.from, &step.to);
        if from.0 == to.0 {
            context.note(
                Problem::at(to.1, format!("{} is compared with itself", quoted(&to.0)))
                    .fix("name two different points"),
            );
            continue;
        }
        let [from_known, to_known] = [from, to]
            .map(|(name, place)| carries(name) || known.point_or_told(context, name, *place, points));
        if let (true, true, Some(difference), Some(plus_minus)) =
            (from_known, to_known, step.difference, step.plus_minus)
        {
            let (from, to) = (points.number(&from.0), points.number(&to.0));
            found.push(DifferenceReading { from, to, difference, plus_minus, place: step.place });
        }
    }
    found
}
