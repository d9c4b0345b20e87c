//! How the rods of each kind of base are numbered: small plans of its plate, rod numbers beside its rods.

use super::bounds::Bounds;
use super::frame::{SMALL, directions};
use super::plan_layout::WIDTH;
use super::scale::Scale;
use super::shape::{Anchor, Fill, MM, Pen, Picture, Point};
use super::widths::{shortened, text_width};
use crate::length::Length;
use crate::model::{Hole, PlateOutline};

/// A kind of base.
#[derive(Clone, Debug)]
pub struct RodPlan {
    /// What it is called.
    pub title: String,
    /// What stands on it, in a few words.
    pub words: String,
    /// Where its rods stand.
    pub places: RodPlaces,
}

/// Where the rods of a base stand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RodPlaces {
    /// As its outline has them.
    Known(PlateOutline),
    /// Four, and their spacing is not known: one at each corner, not to scale.
    Corners,
    /// Not known: room for a sketch.
    Unknown,
}

/// Bases in a row, and most rows of a picture.
const IN_ROW: usize = 4;
const ROWS: usize = 4;
/// How wide the room of one base is.
const CELL: i64 = WIDTH / 4;
/// What stands over a plate in its room.
const OVER: i64 = 15 * MM / 2;
/// What stands over the bases.
const HEAD: i64 = 15 * MM;
/// The longest side of a plate on paper.
const PLATE: i64 = 23 * MM;
/// The font size of a name, and of a rod's number.
const NAME: i64 = 27 * MM / 10;
const NUMBER: i64 = 32 * MM / 10;
/// The least from one number to the next.
const APART: i64 = 44 * MM / 10;

/// Draws every kind of base, so many to a picture.
#[must_use]
pub fn rod_plans(bases: &[RodPlan]) -> Vec<Picture> {
    bases.chunks(IN_ROW * ROWS).map(one).collect()
}

fn one(bases: &[RodPlan]) -> Picture {
    let mut picture = Picture { width: WIDTH, height: HEAD, shapes: Vec::new() };
    directions(&mut picture, Point::new(4 * MM, HEAD - 4 * MM));
    for bases in bases.chunks(IN_ROW) {
        let top = picture.height;
        for (place, base) in (0_i64..).zip(bases) {
            let bottom = cell(&mut picture, Point::new(place * CELL, top), base);
            picture.height = picture.height.max(bottom + 2 * MM);
        }
    }
    picture
}

/// Draws a base in its room; gives where it ends.
fn cell(picture: &mut Picture, at: Point, base: &RodPlan) -> i64 {
    let middle = at.x + CELL / 2;
    let line = |down: i64| Point::new(middle, at.y + down);
    picture.bold(line(4 * MM), Anchor::Middle, NAME, fitted(&base.title, NAME, true));
    let high = plate(picture, at.x + CELL / 2, at.y + OVER, &base.places);
    let below = OVER + high + 5 * MM;
    picture.text(line(below), Anchor::Middle, SMALL, fitted(&base.words, SMALL, false));
    let more = match base.places {
        RodPlaces::Known(_) => return at.y + below + MM,
        RodPlaces::Corners => "not to scale",
        RodPlaces::Unknown => "sketch its rods here",
    };
    picture.text(line(below + 4 * MM), Anchor::Middle, SMALL, more);
    at.y + below + 5 * MM
}

/// Draws a plate under a place, with its rods and their numbers; gives how high it is, two numbers at the least.
fn plate(picture: &mut Picture, middle: i64, top: i64, places: &RodPlaces) -> i64 {
    let (size, holes) = match places {
        RodPlaces::Known(outline) => {
            let scale = Scale::of_parts(outline.size[0].max(outline.size[1]), PLATE);
            (outline.size.map(|side| scale.paper(side)), holes(outline, scale))
        }
        RodPlaces::Corners => {
            let (near, radius) = (PLATE / 4, MM);
            let at = |right: i64, down: i64| (Point::new(right * near, down * near), radius);
            ([PLATE; 2], vec![at(-1, -1), at(1, -1), at(1, 1), at(-1, 1)])
        }
        RodPlaces::Unknown => ([PLATE; 2], Vec::new()),
    };
    let [wide, high] = size;
    let room = high.max(2 * APART);
    let centre = Point::new(middle, top + room / 2);
    let (left, top) = (centre.x - wide / 2, centre.y - high / 2);
    let area = Bounds { left, top, right: left + wide, bottom: top + high };
    let known = matches!(places, RodPlaces::Known(_));
    picture.rect(area, if known { Pen::Medium } else { Pen::Dashed }, Fill::Paper);
    for (number, (off, radius)) in (1..).zip(holes) {
        let hole = centre.by(off.x, off.y);
        picture.circle(hole, radius, Pen::Thin, Fill::Paper);
        // beside the plate, so far up or down that two numbers never meet
        let off_y = if off.y < 0 { off.y.min(-APART / 2) } else { off.y.max(APART / 2) };
        let (x, anchor) = match off.x < 0 {
            true => (area.left - MM, Anchor::End),
            false => (area.right + MM, Anchor::Start),
        };
        let place = Point::new(x, centre.y + off_y + NUMBER * 35 / 100);
        picture.bold(place, anchor, NUMBER, number.to_string());
    }
    room
}

/// Gives the rods of an outline as places off its middle, down the paper, and their radius on paper.
fn holes(outline: &PlateOutline, scale: Scale) -> Vec<(Point, i64)> {
    let [wide, high] = outline.size.map(|side| Length::from_nm(side.nm() / 2));
    let place = |hole: &Hole| {
        let [x, y] = hole.centre;
        let radius = (scale.paper(hole.diameter) / 2).max(MM / 2);
        (Point::new(scale.paper(x - wide), -scale.paper(y - high)), radius)
    };
    outline.holes.iter().map(place).collect()
}

/// Shortens a text until it fits in the room of a base.
fn fitted(text: &str, size: i64, bold: bool) -> String {
    let fits = |text: &str| text_width(text, size, bold) <= CELL - 2 * MM;
    let most = text.chars().count();
    let short = (1..=most).rev().map(|most| shortened(text, most)).find(|it| fits(it));
    short.unwrap_or_default()
}
