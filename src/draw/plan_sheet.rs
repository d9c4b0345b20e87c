//! One sheet of a plan, drawn with so much detail.

use super::bounds::Bounds;
use super::column_mark::{self, HALF, Look, RING};
use super::frame::{Entry, directions, legend, scale_bar};
use super::labels::{Label, Taken, draw};
use super::plan_layout::{Layout, WIDTH};
use super::plan_view::{Apart, Join, PlanData, PlanSheet};
use super::plan_walk;
use super::shape::{Anchor, Fill, MM, Pen, Picture, Point};
use super::widths::{shortened, text_width, wrapped};
use crate::text::Style;
use std::collections::BTreeMap;

/// How much is written at a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Detail {
    /// Its mark and what goes under it.
    Words,
    /// The same, smaller.
    SmallWords,
    /// Its mark and a number of a list.
    Numbers,
}

/// Most characters of a mark, and of a line of words, on a drawing.
const MARK: usize = 12;
const LINE: usize = 15;
/// Most lines of words.
const LINES: usize = 3;
/// Most characters of the name of a line.
const NAME: usize = 7;

impl Detail {
    const fn size(self) -> i64 {
        match self {
            Self::Words => 27 * MM / 10,
            Self::SmallWords | Self::Numbers => 22 * MM / 10,
        }
    }
}

/// Draws a layout.
pub(super) fn drawn(data: &PlanData, layout: &Layout, detail: Detail, style: Style) -> PlanSheet {
    let mut picture = Picture { width: WIDTH, height: layout.bottom, shapes: Vec::new() };
    let sheet = Bounds { left: MM, top: MM, right: WIDTH - MM, bottom: layout.bottom - MM };
    let mut taken = Taken::on(sheet);
    let at = |stand: usize| layout.stands[stand].at;
    for (number, [from, to]) in &layout.joins {
        join(&mut picture, at(*from), at(*to), data.joins[*number].apart);
        taken.line(at(*from), at(*to));
    }
    plan_walk::draw(&mut picture, &mut taken, data, layout);
    for stand in &layout.stands {
        let column = &data.columns[stand.column];
        column_mark::draw(&mut picture, stand.at, column.look, column.held);
        taken.room(Bounds::around(stand.at, RING + MM / 5));
    }
    let unnamed = line_names(&mut picture, &mut taken, data, layout);
    let key = key(data, layout, detail);
    let mut unlabelled = Vec::new();
    for stand in &layout.stands {
        let column = &data.columns[stand.column];
        let mut lines = vec![(shortened(&column.mark, MARK), true)];
        let words = shortened(&column.under, LINE * LINES);
        match key.iter().find(|(_, words)| *words == column.under) {
            Some((number, _)) => lines.push((format!("({number})"), false)),
            None => {
                lines.extend(wrapped(&words, LINE).into_iter().map(|it| (shortened(&it, LINE + 4), false)))
            }
        }
        let label = Label { lines, size: detail.size() };
        match taken.beside(stand.at, RING, &label) {
            Some(placed) => draw(&mut picture, &label, &placed, stand.at),
            None => unlabelled.push(stand.column),
        }
    }
    let mut unwritten = Vec::new();
    let mut order: Vec<&(usize, [usize; 2])> = layout.joins.iter().collect();
    order.sort_by_key(|(number, _)| data.joins[*number].apart != Apart::Over);
    for (number, [from, to]) in order {
        let Join { words: Some(words), apart, .. } = &data.joins[*number] else { continue };
        let label = Label { lines: vec![(words.clone(), *apart == Apart::Over)], size: detail.size() };
        match taken.along(at(*from), at(*to), &label) {
            Some(placed) => {
                picture.rect(placed.room, None, Fill::Paper);
                draw(&mut picture, &label, &placed, placed.room.middle());
            }
            None => unwritten.push(*number),
        }
    }
    let mut columns: Vec<usize> = layout.stands.iter().map(|stand| stand.column).collect();
    columns.sort_unstable();
    columns.dedup();
    foot(&mut picture, data, layout, style);
    unlabelled.sort_unstable();
    unlabelled.dedup();
    PlanSheet {
        picture,
        columns,
        to_scale: layout.both,
        along_to_scale: layout.scale.is_some(),
        key,
        crowded: crowded(layout),
        unlabelled,
        unwritten,
        unnamed,
        cut: layout.cut.clone(),
    }
}

/// Lists the columns whose symbols would lie on each other.
fn crowded(layout: &Layout) -> Vec<usize> {
    let mut found = Vec::new();
    for (place, one) in layout.stands.iter().enumerate() {
        for other in layout.stands.iter().skip(place + 1) {
            if Bounds::around(one.at, HALF).overlaps(&Bounds::around(other.at, HALF)) {
                found.extend([one.column, other.column]);
            }
        }
    }
    found.sort_unstable();
    found.dedup();
    found
}

/// Numbers what goes under the columns of a sheet, the most common first; nothing where words are written or a walk
/// has numbers of its own.
fn key(data: &PlanData, layout: &Layout, detail: Detail) -> Vec<(usize, String)> {
    if detail != Detail::Numbers || !data.walk.is_empty() {
        return Vec::new();
    }
    let mut counted: BTreeMap<&str, usize> = BTreeMap::new();
    for stand in &layout.stands {
        *counted.entry(&data.columns[stand.column].under).or_default() += 1;
    }
    let mut counted: Vec<(&str, usize)> = counted.into_iter().collect();
    counted.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(b.0)));
    (1..).zip(counted).map(|(number, (words, _))| (number, words.to_owned())).collect()
}

fn join(picture: &mut Picture, from: Point, to: Point, apart: Apart) {
    let pen = match apart {
        Apart::Within => Pen::Thin,
        Apart::Close => Pen::Dashed,
        Apart::Over => Pen::Alarm,
        Apart::Unknown => Pen::Dotted,
        Apart::NotCompared | Apart::Blank => Pen::Hair,
    };
    picture.line(from, to, pen);
}

/// Puts the name of every line behind one of its ends; gives the lines whose name does not fit.
fn line_names(picture: &mut Picture, taken: &mut Taken, data: &PlanData, layout: &Layout) -> Vec<usize> {
    let mut unnamed = Vec::new();
    let size = 27 * MM / 10;
    for (line, stands) in &layout.lines {
        let Some(name) = data.lines.get(*line).map(|it| shortened(&it.name, NAME)) else { continue };
        let (Some(&first), Some(&last)) = (stands.first(), stands.last()) else { continue };
        let half = (text_width(&name, size, true) / 2 + MM, size * 8 / 10);
        let at = |stand: usize| layout.stands[stand].at;
        let places = [(first, last), (last, first)]
            .into_iter()
            .flat_map(|(end, other)| [11, 13, 17].map(|far| behind(at(end), at(other), far * MM, half.0)));
        let room = |at: Point| Bounds {
            left: at.x - half.0,
            top: at.y - half.1,
            right: at.x + half.0,
            bottom: at.y + half.1,
        };
        let Some(place) = places.into_iter().find(|place| taken.is_free(&room(*place).grown(MM / 2))) else {
            unnamed.push(*line);
            continue;
        };
        let room = room(place);
        picture.rect(room, Pen::Thin, Fill::Paper);
        picture.bold(place.by(0, size * 35 / 100), Anchor::Middle, size, name);
        taken.room(room.grown(MM / 2));
    }
    unnamed
}

/// Gives a point behind the end of a line, so far off; along x half the width of what stands there comes on top.
fn behind(end: Point, other: Point, far: i64, half: i64) -> Point {
    let (x, y) = (end.x - other.x, end.y - other.y);
    let longest = x.abs().max(y.abs()).max(1);
    let part = |way: i64, far: i64| i64::try_from(i128::from(way) * i128::from(far) / i128::from(longest));
    let near = far - 6 * MM;
    let far_x = if x.abs() >= y.abs() { near + half } else { far };
    end.by(part(x, far_x).unwrap_or(0), part(y, far - 4 * MM).unwrap_or(0))
}

/// Directions, scale bar and legend under the plan.
fn foot(picture: &mut Picture, data: &PlanData, layout: &Layout, style: Style) {
    let mut top = layout.bottom;
    if layout.both || layout.scale.is_some() {
        let at = Point::new(2 * MM, top + 11 * MM);
        if layout.both {
            directions(picture, at);
        }
        if let Some(scale) = layout.scale {
            let x = if layout.both { 62 * MM } else { 2 * MM };
            scale_bar(picture, Point::new(x, at.y), scale, 40 * MM, style);
        }
        top += 14 * MM;
    }
    let stands = || layout.stands.iter().map(|stand| &data.columns[stand.column]);
    let mut entries: Vec<Entry<'_>> = Vec::new();
    for look in Look::ALL {
        if stands().any(|column| column.look == look) {
            let sample = move |picture: &mut Picture, at: Point| column_mark::draw(picture, at, look, false);
            entries.push((Box::new(sample), look.words().to_owned()));
        }
    }
    if stands().any(|column| column.held) {
        let sample = |picture: &mut Picture, at: Point| {
            picture.circle(at, RING, Pen::Alarm, Fill::Paper);
        };
        entries.push((Box::new(sample), "ringed: do not set".to_owned()));
    }
    for (apart, words) in [
        (Apart::Within, "next columns within the limit"),
        (Apart::Close, "too close to the limit to call"),
        (Apart::Over, "over the limit"),
        (Apart::Unknown, "not known"),
        (Apart::NotCompared, "not compared"),
        (Apart::Blank, "line of columns"),
    ] {
        if layout.joins.iter().any(|(number, _)| data.joins[*number].apart == apart) {
            let sample = move |picture: &mut Picture, at: Point| {
                join(picture, at.by(-7 * MM / 2, 0), at.by(7 * MM / 2, 0), apart);
            };
            entries.push((Box::new(sample), words.to_owned()));
        }
    }
    if !data.walk.is_empty() {
        entries.push((Box::new(plan_walk::sample), "the walk".to_owned()));
    }
    picture.height = legend(picture, top, WIDTH - MM, &entries) + MM;
}
