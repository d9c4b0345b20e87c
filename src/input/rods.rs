//! rods.csv: how far each rod stands out, its thread and its condition.

use super::base::Bases;
use super::columns::Roster;
use super::context::{Context, Lengths, remark};
use super::data_table::{Cell, DataTable};
use super::header::Spec;
use super::load::Opened;
use super::rod_list::{RodLists, Which};
use crate::length::Length;
use crate::model::Condition;
use crate::source::{Place, Problem};
use crate::text::quoted;

/// What one row says of a rod.
pub(super) struct Figures {
    /// Its projection above its own pad.
    pub(super) projection: Option<Length>,
    /// Full thread down from its top.
    pub(super) thread: Option<Length>,
    /// Its condition, where the row says anything of it.
    pub(super) condition: Option<Condition>,
    /// Where the rod is named.
    pub(super) named: Place,
    /// Where its projection stands.
    pub(super) place: Place,
}

/// Reads the file of rods.
pub(super) fn read(
    context: Context<'_>,
    opened: Opened,
    bases: &Bases,
    rods_origin: Length,
    roster: &mut Roster,
    rods: &mut RodLists,
) {
    let Opened::At(file) = opened else { return };
    let spec = Spec { required: &["column", "rod", "projection"], optional: &["thread", "condition"] };
    let Some(mut table) = DataTable::open(file, context.files, context.walk.problems, spec) else { return };
    let lengths = Lengths::new(context);
    for row in &mut table {
        let (mark, rod, place) = (row.cell("column"), row.cell("rod"), row.cell("projection").place);
        let column = context.name(&mark.text, mark.place);
        let column = column.and_then(|mark_text| roster.find(context, &mark_text, mark.place));
        let base = column.and_then(|column| roster.entries.get(column)?.base);
        let which = which(context, &rod, base.and_then(|base| bases.slots.get(base)?.count));
        let projection = projection(context, &row.cell("projection"), &lengths, rods_origin);
        let thread = lengths.size(&row.cell("thread"), context.walk.bare);
        let condition = condition(&row.cell("condition"));
        // a blank cell is shown where the row names its column
        let named = if rod.is_blank() { mark.place } else { rod.place };
        if let (Some(column), Some(which)) = (column, which) {
            rods.give(context, column, which, Figures { projection, thread, condition, named, place });
        }
    }
    lengths.finish();
}

/// Reads which rod a cell names; blank is all of them.
fn which(context: Context<'_>, cell: &Cell, count: Option<u32>) -> Option<Which> {
    if cell.is_blank() {
        return Some(Which::All);
    }
    match cell.text.to_lowercase().as_str() {
        "low" => return Some(Which::Low),
        "high" => return Some(Which::High),
        _ => {}
    }
    let digits = cell.text.chars().all(|c| c.is_ascii_digit());
    let most = count.unwrap_or(u32::MAX);
    match cell.text.parse::<u32>() {
        Ok(number) if digits && (1..=most).contains(&number) => Some(Which::Number(number)),
        _ => {
            let numbers =
                count.map_or_else(|| "its number".to_owned(), |count| format!("a number from 1 to {count}"));
            context.note(
                Problem::at(cell.place, format!("{} is not a rod of this column", quoted(&cell.text)))
                    .fix(format!("write {numbers}, low, high, or leave it blank for all rods")),
            );
            None
        }
    }
}

/// Reads a projection as the height above the rod's own pad; blank is not measured.
pub(super) fn projection(
    context: Context<'_>,
    cell: &Cell,
    lengths: &Lengths<'_>,
    rods_origin: Length,
) -> Option<Length> {
    let measured = lengths.read(cell, context.walk.bare)?;
    let projection = measured + rods_origin;
    let problem = if measured.is_negative() {
        Problem::at(cell.place, format!("{}: a rod cannot stand out less than 0", quoted(&cell.text)))
            .fix("measure it again; leave the cell blank where the rod was not measured")
    } else if projection.is_negative() {
        Problem::at(
            cell.place,
            format!("{}: with rods_origin this rod ends below its pad", quoted(&cell.text)),
        )
        .fix("check this projection, and rods_origin under [measure]")
    } else {
        return Some(projection);
    };
    context.note(problem);
    None
}

/// Reads a condition; blank says nothing.
pub(super) fn condition(cell: &Cell) -> Option<Condition> {
    let text = remark(&cell.text)?;
    Some(if text.eq_ignore_ascii_case("ok") { Condition::Sound } else { Condition::Noted(text) })
}
