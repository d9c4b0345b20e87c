//! Rectangles on paper, and what crosses them.

use super::shape::Point;

/// A rectangle: left is less than right, top less than bottom, since y runs down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bounds {
    /// Its left edge.
    pub left: i64,
    /// Its top edge.
    pub top: i64,
    /// Its right edge.
    pub right: i64,
    /// Its bottom edge.
    pub bottom: i64,
}

impl Bounds {
    /// Makes the rectangle between two corners.
    #[must_use]
    pub fn between(a: Point, b: Point) -> Self {
        Self { left: a.x.min(b.x), top: a.y.min(b.y), right: a.x.max(b.x), bottom: a.y.max(b.y) }
    }

    /// Makes the square around a point.
    #[must_use]
    pub const fn around(centre: Point, half: i64) -> Self {
        Self { left: centre.x - half, top: centre.y - half, right: centre.x + half, bottom: centre.y + half }
    }

    /// Gives its width.
    #[must_use]
    pub const fn width(&self) -> i64 {
        self.right - self.left
    }

    /// Gives its height.
    #[must_use]
    pub const fn height(&self) -> i64 {
        self.bottom - self.top
    }

    /// Gives its middle.
    #[must_use]
    pub const fn middle(&self) -> Point {
        Point::new(self.left + self.width() / 2, self.top + self.height() / 2)
    }

    /// Gives the same, larger by so much on every side.
    #[must_use]
    pub const fn grown(&self, by: i64) -> Self {
        Self { left: self.left - by, top: self.top - by, right: self.right + by, bottom: self.bottom + by }
    }

    /// Tells whether the two have an area in common; a shared edge is none.
    #[must_use]
    pub const fn overlaps(&self, other: &Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    /// Tells whether the other lies inside, edges included.
    #[must_use]
    pub const fn holds(&self, other: &Self) -> bool {
        self.left <= other.left
            && other.right <= self.right
            && self.top <= other.top
            && other.bottom <= self.bottom
    }

    /// Tells whether a straight line from one point to another comes inside.
    #[must_use]
    pub fn is_crossed_by(&self, from: Point, to: Point) -> bool {
        if !self.grown(1).overlaps(&Self::between(from, to).grown(1)) {
            return false;
        }
        // the corners lie on one side of a line that stays outside
        let side = |x: i64, y: i64| {
            let along = i128::from(to.x - from.x) * i128::from(y - from.y);
            let across = i128::from(to.y - from.y) * i128::from(x - from.x);
            (along - across).signum()
        };
        let corners = [
            side(self.left, self.top),
            side(self.right, self.top),
            side(self.left, self.bottom),
            side(self.right, self.bottom),
        ];
        corners.iter().any(|it| *it != corners[0]) || corners[0] == 0
    }

    /// Gives the point of the rectangle that is nearest to another.
    #[must_use]
    pub fn nearest(&self, to: Point) -> Point {
        Point::new(to.x.clamp(self.left, self.right), to.y.clamp(self.top, self.bottom))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: Bounds = Bounds { left: 10, top: 10, right: 20, bottom: 20 };

    #[test]
    fn a_shared_edge_is_no_overlap() {
        assert!(!SQUARE.overlaps(&Bounds { left: 20, right: 30, ..SQUARE }));
        assert!(SQUARE.overlaps(&Bounds { left: 19, right: 30, ..SQUARE }));
    }

    #[test]
    fn a_line_past_a_corner_stays_outside_and_one_through_it_does_not() {
        let at = Point::new;
        assert!(SQUARE.is_crossed_by(at(0, 15), at(30, 15)));
        assert!(SQUARE.is_crossed_by(at(12, 12), at(13, 13)), "wholly inside");
        assert!(!SQUARE.is_crossed_by(at(0, 12), at(12, 0)), "past the corner");
        assert!(!SQUARE.is_crossed_by(at(0, 0), at(5, 5)), "ends before it");
    }
}
