//! Places labels so that no two overlap: the first place that is free, always the same one.

use super::bounds::Bounds;
use super::shape::{Anchor, MM, Pen, Picture, Point};
use super::widths::{ASCENT, DESCENT, LEADING, text_width};

/// A label of a few lines.
#[derive(Clone, Debug)]
pub(super) struct Label {
    /// Its lines, and whether each is bold.
    pub(super) lines: Vec<(String, bool)>,
    /// Its font size.
    pub(super) size: i64,
}

impl Label {
    fn width(&self) -> i64 {
        self.lines.iter().map(|(line, bold)| text_width(line, self.size, *bold)).max().unwrap_or(0)
    }

    fn height(&self) -> i64 {
        let lines = i64::try_from(self.lines.len()).unwrap_or(1).max(1);
        self.size * (ASCENT + DESCENT) / 100 + (lines - 1) * self.size * LEADING / 100
    }
}

/// A label in its place.
#[derive(Clone, Copy, Debug)]
pub(super) struct Placed {
    /// The room it takes.
    pub(super) room: Bounds,
    /// Where its leader begins and ends, where it has one.
    pub(super) leader: Option<[Point; 2]>,
}

/// What labels must keep clear of.
#[derive(Clone, Debug, Default)]
pub(super) struct Taken {
    /// Symbols and labels: never overlapped.
    rooms: Vec<Bounds>,
    /// Lines: crossed only where there is no other place.
    lines: Vec<[Point; 2]>,
    /// What a label stays on.
    sheet: Option<Bounds>,
}

impl Taken {
    /// Begins with an empty sheet.
    pub(super) fn on(sheet: Bounds) -> Self {
        Self { sheet: Some(sheet), ..Self::default() }
    }

    /// Takes a room.
    pub(super) fn room(&mut self, room: Bounds) {
        self.rooms.push(room);
    }

    /// Takes a line.
    pub(super) fn line(&mut self, from: Point, to: Point) {
        self.lines.push([from, to]);
    }

    /// Tells whether a room is free and on the sheet.
    pub(super) fn is_free(&self, room: &Bounds) -> bool {
        self.sheet.is_none_or(|sheet| sheet.holds(room))
            && !self.rooms.iter().any(|taken| taken.overlaps(room))
    }

    fn crossings(&self, room: &Bounds) -> usize {
        self.lines.iter().filter(|[from, to]| room.is_crossed_by(*from, *to)).count()
    }

    /// Finds a place beside a symbol of so much half width: near it, then further off with a leader.
    pub(super) fn beside(&mut self, at: Point, half: i64, label: &Label) -> Option<Placed> {
        let (width, height) = (label.width(), label.height());
        let mut best: Option<(usize, Placed)> = None;
        for (ring, gap) in [(0, 7 * MM / 10), (1, 3 * MM), (2, 6 * MM), (3, 9 * MM)] {
            let off = half + gap;
            for (right, down) in [
                (1_i64, 1_i64),
                (1, -1),
                (-1, 1),
                (-1, -1),
                (1, 0),
                (-1, 0),
                (0, 1),
                (0, -1),
                (1, 2),
                (-1, 2),
                (1, -2),
                (-1, -2),
            ] {
                // beside a symbol a label keeps clear of level lines through it
                let reach = if ring == 0 && right != 0 { half / 4 } else { off };
                let left = match right {
                    1 => at.x + off,
                    -1 => at.x - off - width,
                    _ => at.x - width / 2,
                };
                let top = match down {
                    1 => at.y + reach,
                    -1 => at.y - reach - height,
                    2 => at.y + off + height,
                    -2 => at.y - off - 2 * height,
                    _ => at.y - height / 2,
                };
                let room = Bounds { left, top, right: left + width, bottom: top + height };
                if !self.is_free(&room) {
                    continue;
                }
                let far = ring > 0 || down.abs() == 2;
                let leader = far.then(|| [towards(at, room.nearest(at), half), room.nearest(at)]);
                let crossed = self.crossings(&room) + leader.map_or(0, |it| self.across(it));
                let cost = crossed * 10 + ring;
                if best.is_none_or(|(least, _)| cost < least) {
                    best = Some((cost, Placed { room, leader }));
                }
            }
            if best.is_some_and(|(cost, _)| cost < 10) {
                break;
            }
        }
        let (_, placed) = best?;
        self.take(&placed);
        Some(placed)
    }

    /// Finds a place on a line, or beside its middle.
    pub(super) fn along(&mut self, from: Point, to: Point, label: &Label) -> Option<Placed> {
        let (width, height) = (label.width() + MM / 2, label.height());
        for part in [50, 40, 60, 33, 67, 26, 74] {
            let on = Point::new(from.x + (to.x - from.x) * part / 100, from.y + (to.y - from.y) * part / 100);
            let centred = |x: i64, y: i64| Bounds {
                left: x - width / 2,
                top: y - height / 2,
                right: x - width / 2 + width,
                bottom: y - height / 2 + height,
            };
            let (aside, over) = (width / 2 + MM / 2, height / 2 + MM / 3);
            let upright = (to.y - from.y).abs() > (to.x - from.x).abs();
            let places = match upright {
                true => [centred(on.x, on.y), centred(on.x + aside, on.y), centred(on.x - aside, on.y)],
                false => [centred(on.x, on.y), centred(on.x, on.y - over), centred(on.x, on.y + over)],
            };
            if let Some(room) = places.into_iter().find(|room| self.is_free(room)) {
                let placed = Placed { room, leader: None };
                self.take(&placed);
                return Some(placed);
            }
        }
        let middle = Point::new(from.x + (to.x - from.x) / 2, from.y + (to.y - from.y) / 2);
        self.beside(middle, 0, label)
            .map(|placed| Placed { leader: Some([middle, placed.room.nearest(middle)]), ..placed })
    }

    /// Counts the rooms and leaders a leader would run through.
    fn across(&self, [from, to]: [Point; 2]) -> usize {
        self.rooms.iter().filter(|room| room.is_crossed_by(from, to)).count()
    }

    fn take(&mut self, placed: &Placed) {
        self.rooms.push(placed.room);
        if let Some([from, to]) = placed.leader {
            self.lines.push([from, to]);
        }
    }
}

/// Gives the point that lies so far from a centre towards another, by the larger of both ways.
fn towards(centre: Point, to: Point, by: i64) -> Point {
    let (x, y) = (to.x - centre.x, to.y - centre.y);
    let longest = x.abs().max(y.abs()).max(1);
    let part = |way: i64| i64::try_from(i128::from(way) * i128::from(by.min(longest)) / i128::from(longest));
    centre.by(part(x).unwrap_or(0), part(y).unwrap_or(0))
}

/// Draws a placed label, its lines one under the other; `on_line` covers what lies under it.
pub(super) fn draw(picture: &mut Picture, label: &Label, placed: &Placed, from: Point) {
    if let Some([start, end]) = placed.leader {
        picture.line(start, end, Pen::Hair);
    }
    let room = placed.room;
    // the text stands on the side that looks at its symbol
    let (x, anchor) = if room.left >= from.x {
        (room.left, Anchor::Start)
    } else if room.right <= from.x {
        (room.right, Anchor::End)
    } else {
        (room.middle().x, Anchor::Middle)
    };
    let mut y = room.top + label.size * ASCENT / 100;
    for (line, bold) in &label.lines {
        if *bold {
            picture.bold(Point::new(x, y), anchor, label.size, line.clone());
        } else {
            picture.text(Point::new(x, y), anchor, label.size, line.clone());
        }
        y += label.size * LEADING / 100;
    }
}

/// Moves rooms of one height apart along a line, as little as their order allows, within its ends.
///
/// Gives the middles; where there is not enough room for all, the last ones pass the end.
pub(super) fn spread(wanted: &[i64], apart: i64, first: i64, last: i64) -> Vec<i64> {
    let mut found: Vec<i64> = Vec::with_capacity(wanted.len());
    let mut least = first;
    for &want in wanted {
        let at = want.max(least);
        found.push(at);
        least = at + apart;
    }
    let mut most = last;
    for at in found.iter_mut().rev() {
        *at = (*at).min(most);
        most = *at - apart;
    }
    // what the way back pushed over the first end goes down again
    let mut least = first;
    for at in &mut found {
        *at = (*at).max(least);
        least = *at + apart;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn spread_texts_keep_their_order_and_their_distance(
            mut wanted in proptest::collection::vec(0_i64..1000, 0..12), apart in 1_i64..80
        ) {
            wanted.sort_unstable();
            let found = spread(&wanted, apart, 0, 1000);
            prop_assert_eq!(found.len(), wanted.len());
            prop_assert!(found.windows(2).all(|pair| pair[1] - pair[0] >= apart));
            prop_assert!(found.iter().all(|at| *at >= 0));
        }
    }
}
