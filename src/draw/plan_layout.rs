//! Where the columns of a plan come on paper.

use super::plan_view::PlanData;
use super::scale::Scale;
use super::shape::{MM, Point};
use crate::length::Length;
use crate::text::Style;

/// The width of a sheet.
pub(super) const WIDTH: i64 = 178 * MM;
/// What is kept free to the left and to the right of the columns.
const SIDE: i64 = 26 * MM;
/// What is kept free above and below them.
const OVER: i64 = 15 * MM;
/// Most height of the columns.
const MOST_HIGH: i64 = 150 * MM;
/// From one line to the next where they stand one under the other.
const ROW: i64 = 24 * MM;
/// Most lines one under the other on a sheet.
const ROWS: usize = 7;
/// Most columns of a line in one row; a longer line goes on in the next with its last column again.
const IN_ROW: usize = 11;

/// Least distance of two columns in a row.
const LEAST_APART: i64 = 6 * MM;

/// A row: its line, its columns, the distances between them where known.
type Row = (Option<usize>, Vec<usize>, Vec<Length>);

/// A column on paper; where lines stand one under the other it may be there several times.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stand {
    /// The column, an index into the plan's.
    pub(super) column: usize,
    /// Where.
    pub(super) at: Point,
}

/// Columns on paper.
#[derive(Clone, Debug)]
pub(super) struct Layout {
    /// Where the columns stand.
    pub(super) stands: Vec<Stand>,
    /// The lines, as indices into the plan's, and their stands in order.
    pub(super) lines: Vec<(usize, Vec<usize>)>,
    /// The joins, as indices into the plan's, and the stands at their ends.
    pub(super) joins: Vec<(usize, [usize; 2])>,
    /// Joins of which one end is on another sheet.
    pub(super) cut: Vec<usize>,
    /// The scale along x; none where it is none.
    pub(super) scale: Option<Scale>,
    /// Whether it is to scale along y too.
    pub(super) both: bool,
    /// Where what is drawn ends.
    pub(super) bottom: i64,
}

/// Lays columns out to scale, north of the plan up.
pub(super) fn to_scale(data: &PlanData, columns: &[usize], style: Style) -> Layout {
    let at = |column: usize| data.columns.get(column).and_then(|it| it.at);
    let along = |way: usize| columns.iter().filter_map(move |&it| Some(at(it)?[way]));
    let ends = |way: usize| along(way).min().zip(along(way).max()).unwrap_or_default();
    let ((left, right), (low, high)) = (ends(0), ends(1));
    let wide = Scale::of_buildings(right - left, WIDTH - 2 * SIDE, style);
    let tall = Scale::of_buildings(high - low, MOST_HIGH, style);
    let kilometre = Length::from_nm(1_000_000 * MM);
    let scale = if wide.paper(kilometre) < tall.paper(kilometre) { wide } else { tall };
    // in the middle of the sheet
    let first = (WIDTH - scale.paper(right - left)) / 2;
    let stands: Vec<Stand> = columns
        .iter()
        .filter_map(|&column| {
            let [x, y] = at(column)?;
            let at = Point::new(first + scale.paper(x - left), OVER + scale.paper(high - y));
            Some(Stand { column, at })
        })
        .collect();
    let stand = |column: usize| stands.iter().position(|it| it.column == column);
    let lines = data.lines.iter().enumerate().map(|(line, it)| {
        let found: Vec<usize> = it.columns.iter().filter_map(|&column| stand(column)).collect();
        (line, found)
    });
    let lines = lines.filter(|(_, found)| found.len() > 1).collect();
    let (mut joins, mut cut) = (Vec::new(), Vec::new());
    for (number, join) in data.joins.iter().enumerate() {
        match (stand(join.from), stand(join.to)) {
            (Some(from), Some(to)) => joins.push((number, [from, to])),
            (None, None) => {}
            _ => cut.push(number),
        }
    }
    let bottom = OVER + scale.paper(high - low) + OVER;
    Layout { stands, lines, joins, cut, scale: Some(scale), both: true, bottom }
}

/// Lays lines out one under the other, so many on a sheet; a column stands on each of its lines.
pub(super) fn in_rows(data: &PlanData, style: Style) -> Vec<Layout> {
    let mut rows: Vec<Row> = Vec::new();
    for (line, it) in data.lines.iter().enumerate() {
        let mut first = 0;
        while first == 0 || first + 1 < it.columns.len() {
            let end = (first + IN_ROW).min(it.columns.len());
            let columns = it.columns.get(first..end).unwrap_or_default().to_vec();
            let spacing = it.spacing.get(first..end.saturating_sub(1)).unwrap_or_default().to_vec();
            rows.push((Some(line), columns, spacing));
            first += IN_ROW - 1;
        }
    }
    let on_none =
        (0..data.columns.len()).filter(|it| !data.lines.iter().any(|line| line.columns.contains(it)));
    let on_none: Vec<usize> = on_none.collect();
    rows.extend(on_none.chunks(8).map(|chunk| (None, chunk.to_vec(), Vec::new())));
    let long = |spacing: &[Length]| spacing.iter().copied().sum::<Length>();
    let known = |row: &Row| row.2.len() + 1 == row.1.len();
    let all_known = rows.iter().filter(|row| row.0.is_some() && row.1.len() > 1).any(known);
    let longest = rows.iter().map(|row| long(&row.2)).max().unwrap_or(Length::ZERO);
    let scale =
        (all_known && longest > Length::ZERO).then(|| Scale::of_buildings(longest, WIDTH - 2 * SIDE, style));
    // where two would stand on each other, all stand at equal distances
    let scale =
        scale.filter(|scale| rows.iter().flat_map(|row| &row.2).all(|gap| scale.paper(*gap) >= LEAST_APART));
    rows.chunks(ROWS).map(|rows| one_sheet(data, rows, scale)).collect()
}

fn one_sheet(data: &PlanData, rows: &[Row], scale: Option<Scale>) -> Layout {
    let (mut stands, mut lines, mut joins) = (Vec::new(), Vec::new(), Vec::new());
    let mut y = OVER;
    for (line, columns, spacing) in rows {
        let mut on_line = Vec::new();
        let known = spacing.len() + 1 == columns.len();
        let equal = (WIDTH - 2 * SIDE) / i64::try_from(columns.len()).unwrap_or(1).saturating_sub(1).max(1);
        let mut far = Length::ZERO;
        for (place, &column) in columns.iter().enumerate() {
            let x = match scale.filter(|_| known) {
                Some(scale) => scale.paper(far),
                None => equal * i64::try_from(place).unwrap_or(0),
            };
            far = far + spacing.get(place).copied().unwrap_or(Length::ZERO);
            on_line.push(stands.len());
            stands.push(Stand { column, at: Point::new(SIDE + x, y) });
        }
        if let Some(line) = *line {
            for pair in on_line.windows(2) {
                let ends = [stands[pair[0]].column, stands[pair[1]].column];
                let [from, to] = ends;
                let found = data
                    .joins
                    .iter()
                    .position(|it| [it.from, it.to] == ends || [it.from, it.to] == [to, from]);
                joins.extend(found.map(|number| (number, [pair[0], pair[1]])));
            }
            lines.push((line, on_line));
        }
        y += ROW;
    }
    Layout { stands, lines, joins, cut: Vec::new(), scale, both: false, bottom: y - ROW + OVER }
}
