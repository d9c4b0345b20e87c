//! The heights along a line: pads as read, seats as planned, the band they must stay in.

use super::plan_view::Apart;
use super::profile_part::{Part, part};
use super::scale::Scale;
use super::shape::{MM, Picture};
use super::widths::{shortened, text_width, wrapped};
use crate::length::Length;
use crate::text::Style;

/// A column of a profile; heights are departures from its design seat.
#[derive(Clone, Debug)]
pub struct ProfileColumn {
    /// Its mark.
    pub mark: String,
    /// Its pad, where known, and in words.
    pub pad: (Option<Length>, String),
    /// Its seat, where planned, and in words.
    pub seat: (Option<Length>, String),
    /// What goes under it, in a few words.
    pub under: String,
    /// Whether that is grout.
    pub grout: bool,
}

/// What a profile is drawn from.
#[derive(Clone, Debug, Default)]
pub struct ProfileData {
    /// The columns in order.
    pub columns: Vec<ProfileColumn>,
    /// The distances between them; empty where not known.
    pub spacing: Vec<Length>,
    /// From each column to the next: what the step is in words, and how it stands to its limit.
    pub steps: Vec<(String, Apart)>,
    /// The band seats must stay in, and what it is.
    pub band: Option<([Length; 2], String)>,
}

/// A profile, or a part of one.
#[derive(Clone, Debug)]
pub struct Profile {
    /// The picture.
    pub picture: Picture,
    /// Its first and last column, as places on the line.
    pub columns: [usize; 2],
    /// The scale along the line; none where columns stand at equal distances instead.
    pub along: Option<Scale>,
    /// The scale of heights.
    pub up: Scale,
}

/// What is kept free for the names of the rows.
const NAMES: i64 = 20 * MM;
/// The width of a sheet.
pub(super) const WIDTH: i64 = 178 * MM;
/// The font size of a profile.
pub(super) const SIZE: i64 = 24 * MM / 10;
/// Most characters of a mark and of a line of words.
const MARK: usize = 12;
const LINE: usize = 14;
/// Most lines of words.
const LINES: usize = 3;
/// Most height of the heights.
const MOST_HIGH: i64 = 36 * MM;

/// Draws a line, in parts where its labels do not fit on one sheet; each part begins with the last column of the one
/// before.
#[must_use]
pub fn profiles(data: &ProfileData, style: Style) -> Vec<Profile> {
    let words: Vec<Words> = data.columns.iter().map(Words::of).collect();
    let steps = data.steps.iter().map(|(step, _)| text_width(step, SIZE, true)).max().unwrap_or(0);
    let pitch = words.iter().map(Words::width).max().unwrap_or(0).max(steps) + 3 * MM / 2;
    // the first and the last column keep half of that to the sides
    let plot = [(NAMES + pitch / 2).max(32 * MM), (WIDTH - MM - pitch / 2).min(164 * MM)];
    let wide = plot[1] - plot[0];
    let most = usize::try_from(wide / pitch.max(1)).unwrap_or(0).max(1) + 1;
    let heights: Vec<Length> =
        data.columns.iter().flat_map(|column| [column.pad.0, column.seat.0]).flatten().collect();
    let band = data.band.iter().flat_map(|(band, _)| *band);
    let all: Vec<Length> = heights.into_iter().chain(band).collect();
    let (low, high) = all.iter().min().zip(all.iter().max()).map_or_else(Default::default, |(a, b)| (*a, *b));
    let up = Scale::of_parts(high - low, MOST_HIGH);
    let count = data.columns.len();
    let mut found = Vec::new();
    let mut first = 0;
    while first + 1 < count || (first == 0 && count == 1) {
        let last = (first + most - 1).min(count - 1);
        let spacing = data.spacing.get(first..last).unwrap_or_default();
        let long = spacing.iter().copied().sum::<Length>();
        let known = spacing.len() == last - first && long > Length::ZERO;
        let along = known.then(|| Scale::of_buildings(long, wide, style));
        let along = along.filter(|scale| spacing.iter().all(|gap| scale.paper(*gap) >= pitch));
        let it =
            Part { data, words: &words, columns: [first, last], along, up, plot, reach: [low, high], style };
        found.push(Profile { picture: part(&it), columns: [first, last], along, up });
        if last + 1 >= count {
            break;
        }
        first = last;
    }
    found
}

/// What is written under a column.
#[derive(Clone, Debug)]
pub(super) struct Words {
    /// Its mark.
    pub(super) mark: String,
    /// Its pad.
    pub(super) pad: String,
    /// What goes under it, in lines.
    pub(super) under: Vec<String>,
    /// Its seat.
    pub(super) seat: String,
}

impl Words {
    fn of(column: &ProfileColumn) -> Self {
        let under = wrapped(&shortened(&column.under, LINE * LINES), LINE);
        Self {
            mark: shortened(&column.mark, MARK),
            pad: column.pad.1.clone(),
            under: under.into_iter().map(|line| shortened(&line, LINE + 4)).collect(),
            seat: column.seat.1.clone(),
        }
    }

    fn width(&self) -> i64 {
        let plain = [&self.pad, &self.seat].into_iter().chain(&self.under);
        let plain = plain.map(|text| text_width(text, SIZE, false)).max().unwrap_or(0);
        plain.max(text_width(&self.mark, SIZE, true))
    }
}
