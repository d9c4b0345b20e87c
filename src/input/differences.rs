//! differences.csv: differences of height measured from point to point, with or without an instrument.

use super::context::{Context, Lengths};
use super::csv_header::Spec;
use super::csv_table::CsvTable;
use super::elevations::Known;
use super::load::Opened;
use super::points::Points;
use crate::length::Length;
use crate::model::DifferenceReading;
use crate::source::Problem;
use crate::text::quoted;

/// Reads the file of differences; `plus_minus` is what one without its own is good to.
pub(super) fn read(
    context: Context<'_>,
    opened: Opened,
    known: &Known<'_>,
    points: &mut Points,
    plus_minus: Length,
) -> Vec<DifferenceReading> {
    let mut found = Vec::new();
    let Opened::At(file) = opened else { return found };
    let spec = Spec { required: &["from", "to", "difference"], optional: &["plus_minus"] };
    let Some(mut table) = CsvTable::open(file, context.files, context.walk.problems, spec) else {
        return found;
    };
    let lengths = Lengths::new(context);
    for row in &mut table {
        let (from, to, cell) = (row.cell("from"), row.cell("to"), row.cell("difference"));
        let own = row.cell("plus_minus");
        let from_name = context.name(&from.text, from.place);
        let to_name = context.name(&to.text, to.place);
        let difference = lengths.read(&cell, context.readings);
        let own = if own.is_blank() { Some(plus_minus) } else { lengths.size(&own, context.readings) };
        let (Some(from_name), Some(to_name)) = (from_name, to_name) else { continue };
        if from_name == to_name {
            context.note(
                Problem::at(to.place, format!("{} is compared with itself", quoted(&to_name)))
                    .fix("name two different points"),
            );
            continue;
        }
        let [from_known, to_known] = [(&from, &from_name), (&to, &to_name)]
            .map(|(cell, name)| known.point_or_told(context, name, cell.place, points));
        if let (true, true, Some(difference), Some(plus_minus)) = (from_known, to_known, difference, own) {
            let (from, to) = (points.number(&from_name), points.number(&to_name));
            found.push(DifferenceReading { from, to, difference, plus_minus, place: cell.place });
        }
    }
    lengths.finish();
    found
}
