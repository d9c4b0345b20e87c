//! A picture as SVG: whole micrometres of paper, so that the same picture gives the same bytes.

use super::escape::escaped;
use crate::draw::{Anchor, Bounds, Fill, Hatch, Pen, Picture, Point, Shape, strokes, text_width};

/// The faces texts are set in; widths are reckoned for a wider one.
const FACES: &str = "Liberation Sans, Arial, Helvetica, sans-serif";

/// Writes a picture as an `svg` element, its title and words for who cannot see it in front; `number` tells it from
/// the other pictures of a page.
#[must_use]
pub fn svg(picture: &Picture, number: usize, title: &str, alt: &str) -> String {
    let (width, height) = (mm(picture.width), mm(picture.height));
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" width=\"{width}mm\" \
         height=\"{height}mm\" font-family=\"{FACES}\" role=\"img\" aria-labelledby=\"t{number} d{number}\">\n\
         <title id=\"t{number}\">{}</title>\n<desc id=\"d{number}\">{}</desc>\n",
        escaped(title),
        escaped(alt)
    );
    for shape in &picture.shapes {
        out.push_str(&element(shape));
        out.push('\n');
    }
    out.push_str("</svg>\n");
    out
}

fn element(shape: &Shape) -> String {
    match shape {
        Shape::Path { points, closed, pen, fill } => {
            let each = points.iter().enumerate().map(|(at, point)| {
                let letter = if at == 0 { 'M' } else { 'L' };
                format!("{letter}{}", place(*point))
            });
            let end = if *closed { "Z" } else { "" };
            format!("<path d=\"{}{end}\" {} {}/>", each.collect::<String>(), filled(*fill), stroked(*pen))
        }
        Shape::Rect { area, pen, fill } => {
            let Bounds { left, top, .. } = *area;
            let pen = pen.map(|pen| format!(" {}", stroked(pen))).unwrap_or_default();
            format!(
                "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" {}{pen}/>",
                mm(left),
                mm(top),
                mm(area.width().max(0)),
                mm(area.height().max(0)),
                filled(*fill)
            )
        }
        Shape::Circle { centre, radius, pen, fill } => format!(
            "<circle cx=\"{}\" cy=\"{}\" r=\"{}\" {} {}/>",
            mm(centre.x),
            mm(centre.y),
            mm(*radius),
            filled(*fill),
            stroked(*pen)
        ),
        Shape::Hatched { area, hatch } => {
            let each = strokes(area, *hatch);
            let each = each.into_iter().map(|[from, to]| format!("M{}L{}", place(from), place(to)));
            let width = match hatch {
                Hatch::Dots | Hatch::Concrete => "0.22",
                Hatch::Rising | Hatch::Falling | Hatch::Crossed | Hatch::Thread => "0.13",
            };
            let path = each.collect::<String>();
            format!("<path d=\"{path}\" fill=\"none\" stroke=\"#16191d\" stroke-width=\"{width}\"/>")
        }
        Shape::Text { at, anchor, size, bold, text } => {
            let anchor = match anchor {
                Anchor::Start => "",
                Anchor::Middle => " text-anchor=\"middle\"",
                Anchor::End => " text-anchor=\"end\"",
            };
            let weight = if *bold { " font-weight=\"700\"" } else { "" };
            // a character of any face is fitted to the width that is kept free for it
            let fitted = if text.is_ascii() {
                String::new()
            } else {
                let width = mm(text_width(text, *size, *bold));
                format!(" textLength=\"{width}\" lengthAdjust=\"spacingAndGlyphs\"")
            };
            format!(
                "<text x=\"{}\" y=\"{}\" font-size=\"{}\"{anchor}{weight}{fitted}>{}</text>",
                mm(at.x),
                mm(at.y),
                mm(*size),
                escaped(text)
            )
        }
    }
}

fn place(point: Point) -> String {
    format!("{} {}", mm(point.x), mm(point.y))
}

const fn filled(fill: Fill) -> &'static str {
    match fill {
        Fill::None => "fill=\"none\"",
        Fill::Paper => "fill=\"#fff\"",
        Fill::Grey => "fill=\"#e3e6e9\"",
        Fill::Ink => "fill=\"#16191d\"",
    }
}

const fn stroked(pen: Pen) -> &'static str {
    match pen {
        Pen::Hair => "stroke=\"#5c666e\" stroke-width=\"0.13\"",
        Pen::Thin => "stroke=\"#16191d\" stroke-width=\"0.2\"",
        Pen::Medium => "stroke=\"#16191d\" stroke-width=\"0.35\"",
        Pen::Thick => "stroke=\"#16191d\" stroke-width=\"0.6\"",
        Pen::Dashed => "stroke=\"#16191d\" stroke-width=\"0.3\" stroke-dasharray=\"1.8 1\"",
        Pen::Dotted => "stroke=\"#16191d\" stroke-width=\"0.45\" stroke-dasharray=\"0.5 1.1\"",
        Pen::Alarm => "stroke=\"#a3320b\" stroke-width=\"0.9\"",
    }
}

/// Writes millimetres to the micrometre, noughts at the end left off.
fn mm(nm: i64) -> String {
    let micrometres = (nm + 500).div_euclid(1000);
    let (whole, rest) = (micrometres.abs() / 1000, micrometres.abs() % 1000);
    let sign = if micrometres < 0 { "-" } else { "" };
    let text = format!("{sign}{whole}.{rest:03}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_whole_micrometres_without_noughts() {
        assert_eq!(mm(0), "0");
        assert_eq!(mm(-1_500_000), "-1.5");
        assert_eq!(mm(178_000_000), "178");
        assert_eq!(mm(1_234_567), "1.235");
        assert_eq!(mm(-400), "0");
    }

    #[test]
    fn texts_and_words_are_escaped_and_other_letters_are_fitted() {
        let mut picture = Picture { width: 1_000_000, height: 1_000_000, shapes: Vec::new() };
        picture.text(Point::new(0, 0), Anchor::Start, 2_000_000, "<b>&\"");
        picture.text(Point::new(0, 0), Anchor::Start, 2_000_000, "\u{5d0}");
        let text = svg(&picture, 1, "</title><script>", "a' onload=\"b");
        assert!(text.contains(">&lt;b&gt;&amp;&quot;</text>"), "{text}");
        assert!(text.contains("&lt;/title&gt;&lt;script&gt;"), "{text}");
        assert!(!text.contains("<script") && !text.contains("onload=\""), "{text}");
        assert_eq!(text.matches("textLength").count(), 1, "{text}");
    }
}
