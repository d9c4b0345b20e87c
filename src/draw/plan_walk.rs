//! The way a crew walks over a plan: from column to column, an arrow in the middle of each step.

use super::bounds::Bounds;
use super::column_mark::RING;
use super::labels::Taken;
use super::plan_layout::Layout;
use super::plan_view::PlanData;
use super::shape::{Fill, MM, Pen, Picture, Point};

/// How long an arrow is, and half its width.
const LONG: i64 = 2 * MM;
const HALF_WIDE: i64 = 8 * MM / 10;
/// The shortest way between two symbols that has room for an arrow.
const LEAST: i64 = 2 * RING + LONG + MM;

/// Draws the walk, and keeps its arrows free of labels.
///
/// Along a line of columns only the arrow is drawn; a step over to another line is dashed. Where lines stand one under
/// the other, only steps along a line are drawn, since how lines stand to each other is not known.
pub(super) fn draw(picture: &mut Picture, taken: &mut Taken, data: &PlanData, layout: &Layout) {
    for pair in data.walk.windows(2) {
        let Some((ends, on_line)) = step(data, layout, [pair[0], pair[1]]) else { continue };
        let [from, to] = ends.map(|stand| layout.stands[stand].at);
        if !on_line {
            picture.line(from, to, Pen::Dashed);
            taken.line(from, to);
        }
        // not under the symbol of a column that is passed by
        let symbol =
            |room: &Bounds| layout.stands.iter().any(|it| Bounds::around(it.at, RING).overlaps(room));
        let free = [50, 40, 60, 30, 70].into_iter().filter_map(|percent| arrow(from, to, percent));
        if let Some((head, room)) = free.map(|head| (head, around(head))).find(|(_, room)| !symbol(room)) {
            taken.room(room);
            picture.closed(head.to_vec(), Pen::Thin, Fill::Ink);
        }
    }
}

/// Draws an arrow for a legend.
pub(super) fn sample(picture: &mut Picture, at: Point) {
    let ends = [at.by(-7 * MM / 2, 0), at.by(7 * MM / 2, 0)];
    picture.line(ends[0], ends[1], Pen::Dashed);
    picture.closed(head(at, [LONG / 2, 0], [0, HALF_WIDE]).to_vec(), Pen::Thin, Fill::Ink);
}

fn around(head: [Point; 3]) -> Bounds {
    let [tip, left, right] = head;
    let (one, other) = (Bounds::between(tip, left), Bounds::between(tip, right));
    let both = Bounds {
        left: one.left.min(other.left),
        top: one.top.min(other.top),
        right: one.right.max(other.right),
        bottom: one.bottom.max(other.bottom),
    };
    both.grown(MM / 5)
}

/// Gives the stands a step goes between, and whether it goes along a line; none where it is not drawn here.
fn step(data: &PlanData, layout: &Layout, columns: [usize; 2]) -> Option<([usize; 2], bool)> {
    let of = |stand: usize| layout.stands[stand].column;
    let joined = layout.joins.iter().find_map(|(_, [one, other])| match [of(*one), of(*other)] {
        ends if ends == columns => Some([*one, *other]),
        [first, second] if [second, first] == columns => Some([*other, *one]),
        _ => None,
    });
    if let Some(ends) = joined {
        return Some((ends, true));
    }
    let stand = |column: usize| layout.stands.iter().position(|it| it.column == column);
    let between = stand(columns[0]).zip(stand(columns[1])).filter(|_| layout.both && !data.walk.is_empty());
    between.map(|(from, to)| ([from, to], false))
}

/// Gives the corners of an arrow after so many percent of a way; none where there is no room for it.
fn arrow(from: Point, to: Point, percent: i64) -> Option<[Point; 3]> {
    let (x, y) = (i128::from(to.x - from.x), i128::from(to.y - from.y));
    let long = (x * x + y * y).unsigned_abs().isqrt();
    let long = i128::try_from(long).ok().filter(|long| *long >= i128::from(LEAST))?;
    let part = |way: i128, of: i64| i64::try_from(way * i128::from(of) / long).unwrap_or(0);
    let at = from.by((to.x - from.x) / 100 * percent, (to.y - from.y) / 100 * percent);
    Some(head(at, [part(x, LONG / 2), part(y, LONG / 2)], [part(-y, HALF_WIDE), part(x, HALF_WIDE)]))
}

/// Gives the tip and the two other corners of an arrow around a point, by half its way on and aside.
const fn head(at: Point, [on_x, on_y]: [i64; 2], [aside_x, aside_y]: [i64; 2]) -> [Point; 3] {
    let back = at.by(-on_x, -on_y);
    [at.by(on_x, on_y), back.by(aside_x, aside_y), back.by(-aside_x, -aside_y)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_arrow_points_from_the_first_to_the_second_and_needs_room() {
        let at = Point::new;
        let [tip, left, right] = arrow(at(0, 0), at(20 * MM, 0), 50).unwrap();
        assert_eq!(tip, at(11 * MM, 0));
        assert_eq!((left.x, right.x), (9 * MM, 9 * MM));
        assert_eq!((left.y, right.y), (HALF_WIDE, -HALF_WIDE));
        let [tip, ..] = arrow(at(0, 20 * MM), at(0, 0), 50).unwrap();
        assert_eq!(tip, at(0, 9 * MM), "up the paper");
        assert_eq!(arrow(at(0, 0), at(LEAST - 1, 0), 50), None);
        assert_eq!(arrow(at(0, 0), at(0, 0), 50), None);
    }
}
