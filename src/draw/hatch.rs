//! Hatching as strokes, so that every format draws the same.

use super::bounds::Bounds;
use super::shape::{Hatch, MM, Point};

/// Gives the strokes of a hatched rectangle, each from a point to a point; dots are strokes of a fifth of a millimetre.
#[must_use]
pub fn strokes(area: &Bounds, hatch: Hatch) -> Vec<[Point; 2]> {
    match hatch {
        Hatch::Rising => slanted(area, 13 * MM / 10, true),
        Hatch::Falling => slanted(area, 13 * MM / 10, false),
        Hatch::Crossed => {
            let mut all = slanted(area, 12 * MM / 10, true);
            all.extend(slanted(area, 12 * MM / 10, false));
            all
        }
        Hatch::Thread => level(area, 7 * MM / 10),
        Hatch::Dots => dots(area, 11 * MM / 10),
        Hatch::Concrete => concrete(area),
    }
}

/// Lines at 45 degrees, clipped to the rectangle.
fn slanted(area: &Bounds, step: i64, rising: bool) -> Vec<[Point; 2]> {
    let (width, height) = (area.width(), area.height());
    let mut found = Vec::new();
    // the sum of both ways from a corner is the same all along a line
    let mut sum = step / 2;
    while sum < width + height {
        let (x1, y1) = (sum.min(width), sum - sum.min(width));
        let (x2, y2) = (sum - sum.min(height), sum.min(height));
        let place = |x: i64, y: i64| {
            let y = if rising { area.top + y } else { area.bottom - y };
            Point::new(area.left + x, y)
        };
        if (x1, y1) != (x2, y2) {
            found.push([place(x2, y2), place(x1, y1)]);
        }
        sum += step;
    }
    found
}

fn level(area: &Bounds, step: i64) -> Vec<[Point; 2]> {
    let mut found = Vec::new();
    let mut y = area.top + step / 2;
    while y < area.bottom {
        found.push([Point::new(area.left, y), Point::new(area.right, y)]);
        y += step;
    }
    found
}

const DOT: i64 = MM / 5;

fn dots(area: &Bounds, step: i64) -> Vec<[Point; 2]> {
    let mut found = Vec::new();
    let mut row = 0;
    let mut y = area.top + step / 2;
    while y < area.bottom {
        let mut x = area.left + step / 2 + (row % 2) * step / 2;
        while x + DOT < area.right {
            found.push([Point::new(x, y), Point::new(x + DOT, y)]);
            x += step;
        }
        row += 1;
        y += step;
    }
    found
}

/// Dots and small triangles at places that look strewn and are always the same.
fn concrete(area: &Bounds) -> Vec<[Point; 2]> {
    let mut found = Vec::new();
    let (step, size) = (27 * MM / 10, 9 * MM / 10);
    let (columns, rows) = (area.width() / step, area.height() / step);
    for row in 0..rows.max(0) {
        for column in 0..columns.max(0) {
            let strewn = (row * 7 + column * 5 + row * column * 3) % 11;
            let at = Point::new(
                area.left + column * step + strewn * step / 22,
                area.top + row * step + (strewn * 4 % 11) * step / 22,
            );
            if strewn % 3 == 0 {
                let corners = [at.by(0, size), at.by(size, size), at.by(size / 2, size / 5)];
                for (one, next) in corners.iter().zip(corners.iter().cycle().skip(1)) {
                    found.push([*one, *next]);
                }
            } else {
                found.push([at.by(size / 2, size / 2), at.by(size / 2 + DOT, size / 2)]);
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_stroke_leaves_its_rectangle() {
        let kinds =
            [Hatch::Rising, Hatch::Falling, Hatch::Crossed, Hatch::Thread, Hatch::Dots, Hatch::Concrete];
        for (width, height) in [(40, 12), (3, 30), (1, 1), (20, 20), (0, 5)] {
            let area =
                Bounds { left: 5 * MM, top: 7 * MM, right: (5 + width) * MM, bottom: (7 + height) * MM };
            for hatch in kinds {
                for point in strokes(&area, hatch).into_iter().flatten() {
                    assert!(area.holds(&Bounds::between(point, point)), "{hatch:?} {point:?} {area:?}");
                }
            }
        }
        let area = Bounds { left: 0, top: 0, right: 40 * MM, bottom: 12 * MM };
        assert!(kinds.into_iter().all(|hatch| !strokes(&area, hatch).is_empty()));
    }
}
