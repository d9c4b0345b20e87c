//! What stands around a drawing: its scale bar, the directions of the plan, its legend.

use super::bounds::Bounds;
use super::scale::Scale;
use super::shape::{Anchor, Fill, MM, Pen, Picture, Point};
use super::widths::text_width;
use crate::length::{Length, Unit};
use crate::text::{Style, System};

/// The font size of what stands around a drawing.
pub(super) const SMALL: i64 = 24 * MM / 10;

/// Writes a round length as a person says it: `10'`, `5 m`, `50 mm`.
pub(super) fn round_words(length: Length, style: Style) -> String {
    match style.system() {
        System::Inch if length.nm() % Unit::Foot.nm() == 0 => format!("{}'", length.nm() / Unit::Foot.nm()),
        System::Metric if length.nm() % Unit::Metre.nm() == 0 => {
            format!("{} m", length.nm() / Unit::Metre.nm())
        }
        _ => style.exact(length),
    }
}

/// Draws a scale bar from a point to the right, its words behind it; gives where the words end.
pub(super) fn scale_bar(picture: &mut Picture, at: Point, scale: Scale, most: i64, style: Style) -> i64 {
    let length = scale.bar(most, style);
    let width = scale.paper(length);
    let high = MM;
    let half = Bounds { left: at.x, top: at.y - high, right: at.x + width / 2, bottom: at.y };
    picture.rect(half, Pen::Thin, Fill::Ink);
    picture.rect(Bounds { left: half.right, right: at.x + width, ..half }, Pen::Thin, Fill::Paper);
    let inch = scale.inch_words(style).map(|words| format!(", {words}")).unwrap_or_default();
    let words = format!("{}   ({}{inch} at 100 %)", round_words(length, style), scale.words());
    let x = at.x + width + 15 * MM / 10;
    picture.text(Point::new(x, at.y), Anchor::Start, SMALL, words.clone());
    x + text_width(&words, SMALL, false)
}

/// Draws the directions of the plan: x to the right, y up, which is its north.
pub(super) fn directions(picture: &mut Picture, at: Point) {
    let reach = 7 * MM;
    let head = MM;
    picture.line(at, at.by(reach, 0), Pen::Thin);
    picture.line(at, at.by(0, -reach), Pen::Medium);
    let tip = at.by(0, -reach);
    picture.closed(vec![tip.by(0, -head), tip.by(-head, head), tip.by(head, head)], Pen::Thin, Fill::Ink);
    let tip = at.by(reach, 0);
    picture.closed(vec![tip.by(head, 0), tip.by(-head, -head), tip.by(-head, head)], Pen::Thin, Fill::Paper);
    picture.text(at.by(reach + 2 * MM, SMALL / 3), Anchor::Start, SMALL, "x");
    picture.text(at.by(2 * MM, -reach), Anchor::Start, SMALL, "y, north of the plan");
}

/// An entry of a legend: how to draw its sample, and its words.
pub(super) type Entry<'e> = (Box<dyn Fn(&mut Picture, Point) + 'e>, String);

/// Draws a legend in rows from a top; gives where it ends.
pub(super) fn legend(picture: &mut Picture, top: i64, width: i64, entries: &[Entry<'_>]) -> i64 {
    let (row, sample, gap) = (62 * MM / 10, 8 * MM, 4 * MM);
    let (mut x, mut y) = (MM, top + row / 2);
    for (draw, words) in entries {
        let wide = sample + text_width(words, SMALL, false) + gap;
        if x > MM && x + wide > width {
            (x, y) = (MM, y + row);
        }
        draw(picture, Point::new(x + sample / 2 - MM / 2, y));
        picture.text(Point::new(x + sample, y + SMALL / 3), Anchor::Start, SMALL, words.clone());
        x += wide;
    }
    y + row / 2
}
