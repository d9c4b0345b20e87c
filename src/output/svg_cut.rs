//! SVG of what is cut, at full size: one user unit is one millimetre, exactly, and every layer is a group.

use super::escape::escaped;
use crate::draw::{CutDrawing, CutShape, Engraving, Layer};
use crate::length::Length;
use crate::text::{half_in_millimetres, millimetres};

/// Paper around the plate on every side.
const EDGE: Length = Length::from_nm(10_000_000);
/// The faces a mark is set in.
const FACES: &str = "Liberation Sans, Arial, Helvetica, sans-serif";

/// Writes a drawing as SVG, in millimetres.
#[must_use]
pub fn svg_cut(drawing: &CutDrawing) -> String {
    let [width, height] = drawing.size.map(|side| millimetres(side + EDGE * 2));
    let edge = millimetres(-EDGE);
    let mut out = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" \
         width=\"{width}mm\" height=\"{height}mm\" viewBox=\"{edge} {edge} {width} {height}\">\n\
         <title>{}</title>\n<desc>Full size, one unit is one millimetre; kerf is not in it.</desc>\n",
        escaped(&drawing.title)
    );
    for layer in Layer::ALL {
        let ours: Vec<&CutShape> = drawing.shapes.iter().filter(|shape| shape.layer() == layer).collect();
        if ours.is_empty() {
            continue;
        }
        out.push_str(&format!("<g id=\"{}\" {}>\n", layer.name(), look(layer)));
        for shape in ours {
            out.push_str(&element(drawing.size[1], shape));
            out.push('\n');
        }
        out.push_str("</g>\n");
    }
    out.push_str("</svg>\n");
    out
}

const fn look(layer: Layer) -> &'static str {
    match layer {
        Layer::Engrave => "fill=\"#008000\" stroke=\"none\"",
        Layer::Holes => "fill=\"none\" stroke=\"#0000ff\" stroke-width=\"0.25\"",
        Layer::Cut => "fill=\"none\" stroke=\"#ff0000\" stroke-width=\"0.25\"",
    }
}

/// Writes a shape; y runs down here, from the upper side of the plate.
fn element(depth: Length, shape: &CutShape) -> String {
    let place = |[x, y]: [Length; 2]| [millimetres(x), millimetres(depth - y)];
    match shape {
        CutShape::Closed(corners) => {
            let corners: Vec<String> = corners.iter().map(|corner| place(*corner).join(",")).collect();
            format!("<polygon points=\"{}\"/>", corners.join(" "))
        }
        CutShape::Circle { centre, diameter } => {
            let [x, y] = place(*centre);
            format!("<circle cx=\"{x}\" cy=\"{y}\" r=\"{}\"/>", half_in_millimetres(*diameter))
        }
        CutShape::Text(mark) => text(place(mark.at), mark),
    }
}

fn text([x, y]: [String; 2], mark: &Engraving) -> String {
    // a capital is some 72 hundredths of its font size in these faces
    let size = millimetres(Length::from_nm(mark.height.nm() * 100 / 72));
    let turned = if mark.turned { format!(" transform=\"rotate(-90 {x} {y})\"") } else { String::new() };
    format!(
        "<text x=\"{x}\" y=\"{y}\" font-family=\"{FACES}\" font-size=\"{size}\"{turned}>{}</text>",
        escaped(&mark.text)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_no_markup() {
        assert_eq!(escaped("<b>&\u{0}\n\u{202e}\u{ffff}"), "&lt;b&gt;&amp;\u{fffd} \u{fffd}\u{fffd}");
    }
}
