//! Where the seat of a column must come, and what its rods must stand for that.

use super::super::check::screen::interval;
use super::super::document::{Align, Document, Tone};
use super::super::explain::screen::raises_allowed;
use super::drawing::interval_nm;
use crate::check::{Case, ColumnCase, Difference, DifferenceKind, style};
use crate::length::{Length, Rounding};
use crate::model::{Interval, Raise, needed_projection, stack_up};
use crate::text::Style;
use serde::Serialize;

/// Where a seat must come; what is not known is null.
#[derive(Serialize)]
pub(super) struct Range {
    seat_range_nm: Option<[Option<i64>; 2]>,
    raise_range_nm: Option<[Option<i64>; 2]>,
    planned_raise_nm: Option<i64>,
    planned_seat_nm: Option<i64>,
    allowed_raise_nm: Option<Vec<[Option<i64>; 2]>>,
    needs: Vec<Needs>,
}

/// What every rod must stand above the pad at a raise.
#[derive(Clone, Serialize)]
struct Needs {
    raise_nm: i64,
    projection_nm: i64,
    /// Rods that stand less, and how much.
    short: Vec<Short>,
    /// Rods of which that is not known.
    unmeasured: Vec<String>,
}

#[derive(Clone, Serialize)]
struct Short {
    rod: String,
    by_nm: i64,
}

/// Gives where the seat of a column must come.
pub(super) fn value(case: &Case<'_>, column: &ColumnCase) -> Range {
    let raises = case.raise_range(column);
    let seats = case.choice(column.index).seat_range.map(|(low, high)| Interval { low, high });
    Range {
        seat_range_nm: seats.map(interval_nm),
        raise_range_nm: raises.map(interval_nm),
        planned_raise_nm: column.raise.map(|raise| raise.nominal.nm()),
        planned_seat_nm: column.seat.map(Length::nm),
        allowed_raise_nm: column.allowed.as_ref().map(|all| all.iter().copied().map(interval_nm).collect()),
        needs: needs(case, column),
    }
}

/// Tells what every rod must stand at the planned raise, or at both ends of the range of a referred column.
fn needs(case: &Case<'_>, column: &ColumnCase) -> Vec<Needs> {
    let at = |raise: Raise, projection: Length| Needs {
        raise_nm: raise.nominal.nm(),
        projection_nm: projection.nm(),
        short: (column.rods.iter())
            .filter_map(|rod| Some((rod, projection - rod.projection?)))
            .filter(|(_, by)| *by > Length::ZERO)
            .map(|(rod, by)| Short { rod: rod.label.to_string(), by_nm: by.nm() })
            .collect(),
        unmeasured: (column.rods.iter())
            .filter(|rod| rod.projection.is_none())
            .map(|rod| rod.label.to_string())
            .collect(),
    };
    if let Some((raise, needs)) = column.raise.zip(column.needs_projection) {
        return vec![at(raise, needs)];
    }
    let Some(range) = case.raise_range(column) else { return Vec::new() };
    let ends = [range.low, range.high].into_iter().flatten();
    let mut found: Vec<Needs> = ends
        .map(|end| {
            let raise = Raise::exact(end);
            at(raise, needed_at(case, column, raise))
        })
        .collect();
    found.dedup_by_key(|it| it.raise_nm);
    found
}

/// Gives what every rod must stand for a full nut at a raise, with the most extra washers any rod takes there.
fn needed_at(case: &Case<'_>, column: &ColumnCase, raise: Raise) -> Length {
    let (job, base) = (case.job, case.base(column.index));
    let rods = case.column(column.index).rods.iter();
    let extra = rods.map(|rod| stack_up(base, raise, rod, rod.good_to(job.rods_plus_minus)).extra_washers);
    needed_projection(base, raise, extra.max().unwrap_or(0), job.rods_plus_minus)
}

/// Adds where the seat must come.
pub(super) fn section(document: &mut Document, case: &Case<'_>, column: &ColumnCase) {
    let style = style(case.job);
    document.heading(Tone::Plain, "WHERE THE SEAT MUST COME");
    if let Some(raise) = column.raise {
        let seat =
            column.seat.map_or(String::new(), |seat| format!(", its seat then at {}", style.elevation(seat)));
        document.text(Tone::Plain, format!("Planned is a raise of {}{seat}.", style.exact(raise.nominal)));
    } else if let Some((seats, raises)) = case.choice(column.index).seat_range.zip(case.raise_range(column)) {
        document.text(
            Tone::Plain,
            format!(
                "The seat must come {}, a raise of {} from its pad; then every limit to the other columns is kept as \
                 they are planned.",
                seats_words(seats, style),
                interval(raises, style)
            ),
        );
    } else if column.pad.is_none() {
        document.text(Tone::Plain, "The pad has no elevation, so where its seat must come cannot be told.");
    } else {
        document.text(
            Tone::Plain,
            "Where its seat must come is not known: nothing brings it into the band of the others.",
        );
    }
    document.text(Tone::Plain, raises_allowed(column, style));
    for it in needs(case, column) {
        let short = it.short.iter().map(|rod| {
            let by = style.write(Length::from_nm(rod.by_nm), Rounding::Up);
            format!("rod {} stands {by} less", rod.rod)
        });
        let missing = it.unmeasured.iter().map(|rod| format!("rod {rod} is not measured"));
        let short: Vec<String> = short.chain(missing).collect();
        let short = if short.is_empty() { String::new() } else { format!("; {}", short.join(", ")) };
        document.text(
            Tone::Plain,
            format!(
                "At a raise of {} every rod must stand {} or more above the pad{short}.",
                style.exact(Length::from_nm(it.raise_nm)),
                style.write(Length::from_nm(it.projection_nm), Rounding::Up),
            ),
        );
    }
    if column.raise.is_none() && column.pad.is_some() {
        let words = "What would fill such a raise is taken as exact here: its tolerance comes on top.";
        document.text(Tone::Quiet, words);
    }
    neighbours(document, case, column, style);
}

/// Writes a range of seats, rounded into it where it holds a step.
fn seats_words((low, high): (Option<Length>, Option<Length>), style: Style) -> String {
    let narrow = low.zip(high).is_some_and(|(low, high)| !style.has_a_step_in(low, high));
    let end =
        |seat: Length, rounding| if narrow { style.exact(seat) } else { style.elevation_to(seat, rounding) };
    match (low.map(|it| end(it, Rounding::Up)), high.map(|it| end(it, Rounding::Down))) {
        (Some(low), Some(high)) => format!("to between {low} and {high}"),
        (Some(low), None) => format!("to {low} or higher"),
        (None, Some(high)) => format!("to {high} or lower"),
        (None, None) => "to any height".to_owned(),
    }
}

/// Adds where the next columns on its lines will stand.
fn neighbours(document: &mut Document, case: &Case<'_>, column: &ColumnCase, style: Style) {
    let next = |it: &Difference| {
        let other = it.columns.iter().copied().find(|other| *other != column.index)?;
        (it.kind == DifferenceKind::Neighbours && it.columns.contains(&column.index)).then_some(other)
    };
    let rows: Vec<Vec<String>> = case
        .differences
        .iter()
        .filter_map(|it| Some((it, next(it)?)))
        .map(|(it, other)| {
            let seat = case.columns[other].seat_departure;
            let from_pad = seat.zip(column.pad).map(|(seat, pad)| seat - pad.departure);
            vec![
                case.column(other).mark.clone(),
                it.line.clone().unwrap_or_default(),
                from_pad.map_or("?".to_owned(), |it| style.signed(it, Rounding::Nearest)),
                it.plus_minus.map_or("?".to_owned(), |it| style.write(it, Rounding::Up)),
                style.exact(it.limit),
            ]
        })
        .collect();
    if rows.is_empty() {
        return;
    }
    document.grid(
        &[
            ("next column", Align::Wrap),
            ("line", Align::Wrap),
            ("its seat, from this pad", Align::Right),
            ("+-", Align::Right),
            ("accepted apart", Align::Right),
        ],
        rows,
    );
    document.text(Tone::Quiet, "its seat as planned, design differences taken off; ? where it is not known.");
}
