//! One sheet of a profile: the heights, and under them a row each for marks, pads, what goes under, seats and steps.

use super::bounds::Bounds;
use super::frame::{Entry, legend};
use super::plan_view::Apart;
use super::profile::{ProfileData, SIZE, WIDTH, Words};
use super::scale::Scale;
use super::shape::{Anchor, Fill, Hatch, MM, Pen, Picture, Point};
use crate::length::{Length, Rounding, Unit};
use crate::text::{Style, System};

/// What a part of a profile is drawn from.
pub(super) struct Part<'p> {
    /// The whole line.
    pub(super) data: &'p ProfileData,
    /// What is written under its columns.
    pub(super) words: &'p [Words],
    /// Its first and last column.
    pub(super) columns: [usize; 2],
    /// The scale along it.
    pub(super) along: Option<Scale>,
    /// The scale of heights.
    pub(super) up: Scale,
    /// Where its first column stands, and where its last may.
    pub(super) plot: [i64; 2],
    /// The lowest and highest of all that is drawn of the line.
    pub(super) reach: [Length; 2],
    /// How lengths are written.
    pub(super) style: Style,
}

const TOP: i64 = 5 * MM;
const LEAST_HIGH: i64 = 12 * MM;
const LEADING: i64 = 33 * MM / 10;
/// Least distance of grid lines.
const GRID: i64 = 4 * MM;

impl Part<'_> {
    fn x(&self, column: usize) -> i64 {
        let [first, last] = self.columns;
        if let Some(scale) = self.along {
            let far = self.data.spacing.get(first..column).unwrap_or_default();
            return self.plot[0] + scale.paper(far.iter().copied().sum());
        }
        let gaps = i64::try_from(last - first).unwrap_or(1).max(1);
        self.plot[0] + (self.plot[1] - self.plot[0]) / gaps * i64::try_from(column - first).unwrap_or(0)
    }

    fn high(&self) -> i64 {
        self.up.paper(self.reach[1] - self.reach[0]).max(LEAST_HIGH)
    }

    fn y(&self, height: Length) -> i64 {
        TOP + self.up.paper(self.reach[1] - height)
    }

    fn each(&self) -> std::ops::RangeInclusive<usize> {
        self.columns[0]..=self.columns[1]
    }
}

/// Draws a part.
pub(super) fn part(it: &Part<'_>) -> Picture {
    let mut picture = Picture { width: WIDTH, height: 0, shapes: Vec::new() };
    grid(&mut picture, it);
    band(&mut picture, it);
    stacks(&mut picture, it);
    heights(&mut picture, it);
    let bottom = rows(&mut picture, it);
    let end = legend(&mut picture, bottom + MM, WIDTH - MM, &entries(it));
    picture.height = end + MM;
    picture
}

/// Level lines at round heights, named at the left.
fn grid(picture: &mut Picture, it: &Part<'_>) {
    let [low, high] = it.reach;
    let step = round_step(it.up, it.style);
    let mut at = low.to_step(step, Rounding::Up);
    while at <= high {
        let y = it.y(at);
        picture.line(Point::new(it.plot[0] - 8 * MM, y), Point::new(WIDTH - 4 * MM, y), Pen::Hair);
        let words = it.style.signed(at, Rounding::Nearest);
        picture.text(Point::new(it.plot[0] - 9 * MM, y + SIZE / 3), Anchor::End, SIZE, words);
        at = at + step;
    }
}

/// Gives the least round step whose lines stand far enough apart.
fn round_step(up: Scale, style: Style) -> Length {
    let inch = Unit::Inch.nm();
    let base: Vec<i64> = match style.system() {
        System::Inch => vec![inch / 16, inch / 8, inch / 4, inch / 2, inch, inch * 2, inch * 6, inch * 12],
        System::Metric => [1, 2, 5, 10, 20, 50, 100, 200].map(|it| it * Unit::Millimetre.nm()).to_vec(),
    };
    let all = base.into_iter().chain((1..=12).map(|tens| 10_i64.pow(tens / 2) * inch * 12 * 10));
    let fits = |step: &Length| up.paper(*step) >= GRID;
    all.map(Length::from_nm).find(fits).unwrap_or(Length::from_nm(i64::MAX / 4))
}

fn band(picture: &mut Picture, it: &Part<'_>) {
    let Some(([low, high], _)) = &it.data.band else { return };
    let area =
        Bounds { left: it.plot[0] - 6 * MM, right: WIDTH - 4 * MM, top: it.y(*high), bottom: it.y(*low) };
    picture.rect(area, None, Fill::Grey);
    for y in [area.top, area.bottom] {
        picture.line(Point::new(area.left, y), Point::new(area.right, y), Pen::Thick);
    }
}

/// What goes between each pad and its seat.
fn stacks(picture: &mut Picture, it: &Part<'_>) {
    for column in it.each() {
        let of = &it.data.columns[column];
        let (Some(pad), Some(seat)) = (of.pad.0, of.seat.0) else { continue };
        if pad == seat {
            continue;
        }
        let (x, half) = (it.x(column), 14 * MM / 10);
        let area = Bounds::between(Point::new(x - half, it.y(pad)), Point::new(x + half, it.y(seat)));
        picture.rect(area, Pen::Hair, Fill::Paper);
        let hatch = match (seat > pad, of.grout) {
            (false, _) => Hatch::Crossed,
            (true, true) => Hatch::Dots,
            (true, false) => Hatch::Rising,
        };
        picture.hatched(area, hatch);
    }
}

fn heights(picture: &mut Picture, it: &Part<'_>) {
    let at = |column: usize, height: Length| Point::new(it.x(column), it.y(height));
    for column in it.columns[0]..it.columns[1] {
        let (this, next) = (&it.data.columns[column], &it.data.columns[column + 1]);
        if let (Some(a), Some(b)) = (this.pad.0, next.pad.0) {
            picture.line(at(column, a), at(column + 1, b), Pen::Dashed);
        }
        if let (Some(a), Some(b)) = (this.seat.0, next.seat.0) {
            let over = it.data.steps.get(column).is_some_and(|(_, apart)| *apart == Apart::Over);
            let pen = if over { Pen::Alarm } else { Pen::Medium };
            picture.line(at(column, a), at(column + 1, b), pen);
        }
    }
    for column in it.each() {
        let of = &it.data.columns[column];
        if let Some(pad) = of.pad.0 {
            pad_mark(picture, at(column, pad));
        }
        if let Some(seat) = of.seat.0 {
            seat_mark(picture, at(column, seat));
        }
    }
}

fn pad_mark(picture: &mut Picture, at: Point) {
    picture.rect(Bounds::around(at, 12 * MM / 10), Pen::Thin, Fill::Paper);
}

fn seat_mark(picture: &mut Picture, at: Point) {
    picture.circle(at, 7 * MM / 10, Pen::Thin, Fill::Ink);
}

/// Writes the rows; gives where they end.
fn rows(picture: &mut Picture, it: &Part<'_>) -> i64 {
    let mut y = TOP + it.high() + 6 * MM;
    let lines = it.each().map(|column| it.words[column].under.len()).max().unwrap_or(1).max(1);
    let name = |picture: &mut Picture, y: i64, name: &str| {
        picture.text(Point::new(MM, y), Anchor::Start, SIZE, name);
    };
    name(picture, y, "column");
    for column in it.each() {
        picture.bold(Point::new(it.x(column), y), Anchor::Middle, SIZE, it.words[column].mark.clone());
    }
    y += LEADING;
    name(picture, y, "pad");
    for column in it.each() {
        picture.text(Point::new(it.x(column), y), Anchor::Middle, SIZE, it.words[column].pad.clone());
    }
    y += LEADING;
    name(picture, y, "under plate");
    for column in it.each() {
        for (line, words) in (0..).zip(&it.words[column].under) {
            picture.text(Point::new(it.x(column), y + line * LEADING), Anchor::Middle, SIZE, words.clone());
        }
    }
    y += LEADING * i64::try_from(lines).unwrap_or(1);
    name(picture, y, "seat");
    for column in it.each() {
        picture.text(Point::new(it.x(column), y), Anchor::Middle, SIZE, it.words[column].seat.clone());
    }
    y += LEADING;
    name(picture, y, "step");
    for column in it.columns[0]..it.columns[1] {
        let Some((words, apart)) = it.data.steps.get(column) else { continue };
        let at = Point::new(i64::midpoint(it.x(column), it.x(column + 1)), y);
        if *apart == Apart::Over {
            picture.bold(at, Anchor::Middle, SIZE, words.clone());
        } else {
            picture.text(at, Anchor::Middle, SIZE, words.clone());
        }
    }
    y + MM
}

fn entries<'e>(it: &Part<'_>) -> Vec<Entry<'e>> {
    let mut found: Vec<Entry<'e>> = vec![
        (
            Box::new(|picture: &mut Picture, at: Point| {
                picture.line(at.by(-3 * MM, 0), at.by(3 * MM, 0), Pen::Dashed);
                pad_mark(picture, at);
            }),
            "pad as read".to_owned(),
        ),
        (
            Box::new(|picture: &mut Picture, at: Point| {
                picture.line(at.by(-3 * MM, 0), at.by(3 * MM, 0), Pen::Medium);
                seat_mark(picture, at);
            }),
            "seat as planned".to_owned(),
        ),
    ];
    if let Some((_, words)) = &it.data.band {
        let sample = |picture: &mut Picture, at: Point| {
            let area =
                Bounds { left: at.x - 3 * MM, top: at.y - MM, right: at.x + 3 * MM, bottom: at.y + MM };
            picture.rect(area, None, Fill::Grey);
            for y in [area.top, area.bottom] {
                picture.line(Point::new(area.left, y), Point::new(area.right, y), Pen::Thick);
            }
        };
        found.push((Box::new(sample), words.clone()));
    }
    let over = |apart: &Apart| *apart == Apart::Over;
    if it.data.steps.iter().any(|(_, apart)| over(apart)) {
        let sample = |picture: &mut Picture, at: Point| {
            picture.line(at.by(-3 * MM, 0), at.by(3 * MM, 0), Pen::Alarm);
        };
        found.push((Box::new(sample), "step over its limit".to_owned()));
    }
    found
}
