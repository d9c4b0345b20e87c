//! The plan of a job: every column with what goes under it, every line, every difference that matters.

use super::column_mark::Look;
use super::plan_layout::{Layout, in_rows, to_scale};
use super::plan_sheet::{Detail, drawn};
use super::shape::Picture;
use crate::length::Length;
use crate::text::Style;

/// A column of a plan.
#[derive(Clone, Debug)]
pub struct PlanColumn {
    /// Its mark.
    pub mark: String,
    /// Where it stands, where known.
    pub at: Option<[Length; 2]>,
    /// What goes under it, in a few words.
    pub under: String,
    /// The same as a symbol.
    pub look: Look,
    /// Whether it may not be set.
    pub held: bool,
}

/// How two next columns stand to each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Apart {
    /// Within the limit.
    Within,
    /// Too close to the limit to call.
    Close,
    /// Over the limit.
    Over,
    /// Not known.
    Unknown,
    /// No limit compares them.
    NotCompared,
    /// Nothing is said of it, as on a sheet to fill in.
    Blank,
}

/// Two next columns of a line.
#[derive(Clone, Debug)]
pub struct Join {
    /// The first, an index into the plan's columns.
    pub from: usize,
    /// The second.
    pub to: usize,
    /// How they stand to each other.
    pub apart: Apart,
    /// What is written on the line between them.
    pub words: Option<String>,
}

/// A line of columns.
#[derive(Clone, Debug)]
pub struct PlanLine {
    /// Its name.
    pub name: String,
    /// Its columns in order.
    pub columns: Vec<usize>,
    /// The distances between them; empty where not known.
    pub spacing: Vec<Length>,
}

/// What a plan is drawn from.
#[derive(Clone, Debug, Default)]
pub struct PlanData {
    /// The columns.
    pub columns: Vec<PlanColumn>,
    /// The joins.
    pub joins: Vec<Join>,
    /// The lines.
    pub lines: Vec<PlanLine>,
    /// The columns in the order they are walked; empty where no walk is drawn. What goes under a column is then its number.
    pub walk: Vec<usize>,
}

/// One sheet of a plan.
#[derive(Clone, Debug)]
pub struct PlanSheet {
    /// The picture.
    pub picture: Picture,
    /// The columns on it, in job order.
    pub columns: Vec<usize>,
    /// Whether it is to scale; otherwise its lines stand one under the other.
    pub to_scale: bool,
    /// Whether the distances along its lines are to scale.
    pub along_to_scale: bool,
    /// What is written by number because words do not fit: number and words.
    pub key: Vec<(usize, String)>,
    /// Columns on it that stand on each other at this scale.
    pub crowded: Vec<usize>,
    /// Columns on it whose label does not fit at all.
    pub unlabelled: Vec<usize>,
    /// Joins on it whose words do not fit.
    pub unwritten: Vec<usize>,
    /// Lines on it whose name does not fit.
    pub unnamed: Vec<usize>,
    /// Joins of which one end is on another sheet.
    pub cut: Vec<usize>,
}

/// Most columns of a sheet that is not parted further, however little fits.
const FEW: usize = 12;
/// Most columns that are tried on one sheet.
const MANY: usize = 160;
/// Most times a plan of no more than that is parted in two.
const MOST_PARTINGS: u32 = 4;

/// Draws a plan: to scale where positions are known, otherwise line under line; on several sheets where labels would
/// not fit on one.
#[must_use]
pub fn plan_views(data: &PlanData, style: Style) -> Vec<PlanSheet> {
    let placed: Vec<usize> = (0..data.columns.len()).filter(|&it| data.columns[it].at.is_some()).collect();
    let mut sheets = Vec::new();
    if placed.len() * 2 >= data.columns.len() && placed.len() > 1 {
        parted(data, &placed, style, 0, &mut sheets);
        return sheets;
    }
    for rows in in_rows(data, style) {
        sheets.push(best(data, &rows, style));
    }
    sheets
}

/// Draws columns on one sheet, or on two where not all labels fit on one.
fn parted(data: &PlanData, columns: &[usize], style: Style, depth: u32, sheets: &mut Vec<PlanSheet>) {
    let drawn = || best(data, &to_scale(data, columns, style), style);
    if columns.len() <= MANY {
        let sheet = drawn();
        let fits = sheet.unlabelled.is_empty() && sheet.unwritten.is_empty() && sheet.crowded.is_empty();
        let few = columns.len() <= FEW && sheet.crowded.is_empty();
        if fits || few || depth >= MOST_PARTINGS {
            sheets.push(sheet);
            return;
        }
    }
    let side = |way: usize| columns.iter().filter_map(move |&it| Some(data.columns[it].at?[way]));
    let reach =
        |way: usize| side(way).max().zip(side(way).min()).map_or(Length::ZERO, |(most, least)| most - least);
    let way = usize::from(reach(1) > reach(0));
    let (low, high) = side(way).min().zip(side(way).max()).unwrap_or_default();
    let middle = Length::from_nm(low.nm() + (high - low).nm() / 2);
    let (first, second): (Vec<usize>, Vec<usize>) =
        columns.iter().partition(|&&it| data.columns[it].at.is_some_and(|at| at[way] <= middle));
    // columns on one spot cannot be parted
    if first.is_empty() || second.is_empty() {
        sheets.push(drawn());
        return;
    }
    // from the top of the plan down, as it is read
    let halves = if way == 1 { [second, first] } else { [first, second] };
    for half in halves {
        parted(data, &half, style, depth + 1, sheets);
    }
}

/// Draws a layout with as much detail as fits: words, smaller words, numbers of a list.
fn best(data: &PlanData, layout: &Layout, style: Style) -> PlanSheet {
    let missing = |sheet: &PlanSheet| sheet.unlabelled.len() + sheet.unwritten.len();
    let mut found: Option<PlanSheet> = None;
    for detail in [Detail::Words, Detail::SmallWords, Detail::Numbers] {
        let sheet = drawn(data, layout, detail, style);
        if missing(&sheet) == 0 {
            return sheet;
        }
        if found.as_ref().is_none_or(|best| missing(&sheet) < missing(best)) {
            found = Some(sheet);
        }
    }
    found.unwrap_or_else(|| drawn(data, layout, Detail::Numbers, style))
}
