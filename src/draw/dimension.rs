//! Dimensions along an upright line: ticks where parts begin and end, and what each measures beside them.

use super::labels::spread;
use super::shape::{Anchor, MM, Pen, Picture, Point};

/// The font size of a dimension.
pub(super) const SIZE: i64 = 27 * MM / 10;
/// From one text to the next.
const APART: i64 = 36 * MM / 10;

/// One stretch with what it measures.
#[derive(Clone, Debug)]
pub(super) struct Stretch {
    /// Where it begins and ends, whichever is higher.
    pub(super) ends: [i64; 2],
    /// The upright line it is measured on.
    pub(super) line_x: i64,
    /// Where the thing that is measured ends on that side.
    pub(super) thing_x: i64,
    /// Whether it goes on below its lower end, where the picture ends.
    pub(super) goes_on: bool,
    /// What stands beside it.
    pub(super) words: String,
}

/// Draws stretches along upright lines, the words in a column at `words_x`, spread so that none overlap.
pub(super) fn chain(picture: &mut Picture, stretches: &[Stretch], words_x: i64, (top, bottom): (i64, i64)) {
    let mut order: Vec<&Stretch> = stretches.iter().collect();
    order.sort_by_key(|it| it.ends[0] + it.ends[1]);
    let middles: Vec<i64> = order.iter().map(|it| i64::midpoint(it.ends[0], it.ends[1])).collect();
    let placed = spread(&middles, APART, top + APART / 2, bottom - APART / 2);
    for ((stretch, middle), y) in order.iter().zip(middles).zip(placed) {
        let Stretch { ends: [from, to], line_x, thing_x, .. } = **stretch;
        let ends = [Some(from), (!stretch.goes_on).then_some(to)].into_iter().flatten();
        let to_left = words_x < line_x;
        let anchor = if to_left { Anchor::End } else { Anchor::Start };
        let towards = if to_left { MM } else { -MM };
        for end in ends.clone() {
            picture.line(Point::new(thing_x + towards * -4 / 5, end), Point::new(line_x, end), Pen::Hair);
        }
        picture.line(Point::new(line_x, from), Point::new(line_x, to), Pen::Thin);
        for end in ends {
            let at = Point::new(line_x, end);
            picture.line(at.by(-MM * 7 / 10, MM * 7 / 10), at.by(MM * 7 / 10, -MM * 7 / 10), Pen::Thin);
        }
        let joint = Point::new(words_x + towards / 2, y);
        picture
            .path(vec![Point::new(line_x, middle), Point::new(words_x + towards * 2, y), joint], Pen::Hair);
        picture.text(Point::new(words_x, y + SIZE * 35 / 100), anchor, SIZE, stretch.words.clone());
    }
}
