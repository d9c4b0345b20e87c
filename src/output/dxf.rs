//! DXF, the text form of release 2000 (AC1015): the first that declares its unit (`$INSUNITS`), and read everywhere.
//!
//! Millimetres in every job: a nanometre is six decimals of them and no finite decimal of an inch. No clock, no names but the
//! mark, every number with all the digits it has.

use crate::draw::{CutDrawing, CutShape, Engraving, Layer};
use crate::length::Length;
use crate::text::{half_in_millimetres, millimetres};

/// The tables between view and layers, those behind the layers with the blocks, and the objects.
const BEFORE: &str = include_str!("dxf_frame/before_layers.txt");
const BEHIND: &str = include_str!("dxf_frame/behind_layers.txt");
const OBJECTS: &str = include_str!("dxf_frame/objects.txt");

/// The handle of the first shape; all of the frame lie below.
const FIRST_HANDLE: usize = 0x100;
/// The handle of the table of layers, and of the first of ours.
const LAYERS: (&str, usize) = ("2", 0x20);
/// The handle of the block that holds the model.
const MODEL: &str = "1F";

/// Pairs of a code and its value, a line each.
struct Pairs(String);

impl Pairs {
    fn put(&mut self, code: u16, value: impl AsRef<str>) {
        // codes stand in a field of three
        self.0.push_str(&format!("{code:>3}\r\n{}\r\n", value.as_ref()));
    }

    /// Adds pairs that are written one a line, the code first.
    fn frame(&mut self, text: &str) {
        for line in text.lines() {
            let (code, value) = line.split_once(' ').unwrap_or((line, ""));
            self.0.push_str(&format!("{code:>3}\r\n{value}\r\n"));
        }
    }

    fn number(&mut self, code: u16, value: String) {
        // a number without its point is no real number to every reader
        self.put(code, if value.contains('.') { value } else { value + ".0" });
    }

    /// Adds a place, its x under the code.
    fn at(&mut self, code: u16, at: [Length; 2]) {
        self.number(code, millimetres(at[0]));
        self.number(code + 10, millimetres(at[1]));
    }
}

/// Writes a drawing as DXF, in millimetres.
#[must_use]
pub fn dxf(drawing: &CutDrawing) -> String {
    let mut out = Pairs(String::new());
    header(&mut out, drawing);
    view(&mut out, drawing.size);
    out.frame(BEFORE);
    layers(&mut out);
    out.frame(BEHIND);
    for (at, shape) in drawing.shapes.iter().enumerate() {
        entity(&mut out, FIRST_HANDLE + at, shape);
    }
    out.frame(OBJECTS);
    out.0
}

fn header(out: &mut Pairs, drawing: &CutDrawing) {
    out.put(999, "shim plate of full bearing, full size, millimetres; kerf is not in it");
    out.frame("0 SECTION\n2 HEADER\n9 $ACADVER\n1 AC1015\n9 $DWGCODEPAGE\n3 ANSI_1252");
    // 4: millimetres; 1: metric
    out.frame("9 $INSUNITS\n70 4\n9 $MEASUREMENT\n70 1\n9 $LUNITS\n70 2\n9 $LUPREC\n70 6\n9 $HANDSEED");
    out.put(5, format!("{:X}", FIRST_HANDLE + drawing.shapes.len()));
    for (name, at) in [("$EXTMIN", [Length::ZERO; 2]), ("$EXTMAX", drawing.size)] {
        out.put(9, name);
        out.at(10, at);
        out.number(30, "0".to_owned());
    }
    out.frame("0 ENDSEC");
}

/// Writes the view a reader opens with: the whole plate.
fn view(out: &mut Pairs, [width, depth]: [Length; 2]) {
    out.frame("0 SECTION\n2 TABLES\n0 TABLE\n2 VPORT\n5 8\n330 0\n100 AcDbSymbolTable\n70 1");
    out.frame(
        "0 VPORT\n5 10\n330 8\n100 AcDbSymbolTableRecord\n100 AcDbViewportTableRecord\n2 *Active\n70 0",
    );
    out.frame("10 0.0\n20 0.0\n11 1.0\n21 1.0");
    out.number(12, half_in_millimetres(width));
    out.number(22, half_in_millimetres(depth));
    out.number(40, millimetres(width + depth));
    out.frame("41 1.0\n42 50.0\n0 ENDTAB");
}

fn layers(out: &mut Pairs) {
    let (table, first) = LAYERS;
    out.frame("0 TABLE\n2 LAYER\n5 2\n330 0\n100 AcDbSymbolTable\n70 4");
    // 7 is black or white, whichever shows
    let ours = Layer::ALL.map(|layer| match layer {
        Layer::Engrave => (layer.name(), 3),
        Layer::Holes => (layer.name(), 5),
        Layer::Cut => (layer.name(), 1),
    });
    for (at, (name, colour)) in [("0", 7)].into_iter().chain(ours).enumerate() {
        out.put(0, "LAYER");
        out.put(5, format!("{:X}", first + at));
        out.put(330, table);
        out.frame("100 AcDbSymbolTableRecord\n100 AcDbLayerTableRecord");
        out.put(2, name);
        out.put(70, "0");
        out.put(62, colour.to_string());
        out.put(6, "Continuous");
    }
    out.frame("0 ENDTAB");
}

fn entity(out: &mut Pairs, handle: usize, shape: &CutShape) {
    let (kind, class) = match shape {
        CutShape::Closed(_) => ("LWPOLYLINE", "AcDbPolyline"),
        CutShape::Circle { .. } => ("CIRCLE", "AcDbCircle"),
        CutShape::Text(_) => ("TEXT", "AcDbText"),
    };
    out.put(0, kind);
    out.put(5, format!("{handle:X}"));
    out.put(330, MODEL);
    out.put(100, "AcDbEntity");
    out.put(8, shape.layer().name());
    out.put(100, class);
    match shape {
        CutShape::Closed(corners) => {
            out.put(90, corners.len().to_string());
            // 1: closed
            out.put(70, "1");
            for corner in corners {
                out.at(10, *corner);
            }
        }
        CutShape::Circle { centre, diameter } => {
            out.at(10, *centre);
            out.number(30, "0".to_owned());
            out.number(40, half_in_millimetres(*diameter));
        }
        CutShape::Text(mark) => text(out, mark),
    }
}

fn text(out: &mut Pairs, mark: &Engraving) {
    out.at(10, mark.at);
    out.number(30, "0".to_owned());
    out.number(40, millimetres(mark.height));
    out.put(1, escaped(&mark.text));
    if mark.turned {
        out.number(50, "90".to_owned());
    }
    out.put(100, "AcDbText");
}

/// Writes a text so that every reader gets its letters back and none of them is taken for a code: carets, `%%`, and what
/// is not ASCII. A character that cannot be shown, or that no such text can hold, becomes a question mark.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut before = ' ';
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        match c {
            c if super::escape::hides(c) => out.push('?'),
            '^' => out.push_str("^ "),
            // one alone is a percent sign, two begin a code
            '%' if before == '%' || rest.peek() == Some(&'%') => out.push_str("%%%"),
            ' '..='~' if c != '\\' => out.push(c),
            c => match u16::try_from(u32::from(c)) {
                Ok(unit) => out.push_str(&format!("\\U+{unit:04X}")),
                Err(_) => out.push('?'),
            },
        }
        before = c;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::escaped;

    #[test]
    fn codes_in_a_mark_stay_letters() {
        assert_eq!(escaped("B1 1/8\""), "B1 1/8\"");
        assert_eq!(escaped("50% %%d ^J"), "50% %%%%%%d ^ J");
        assert_eq!(escaped("\\U+0041"), "\\U+005CU+0041");
        assert_eq!(escaped("\u{c5}1 \u{2300}"), "\\U+00C51 \\U+2300");
    }

    #[test]
    fn a_line_break_or_a_sign_beyond_the_code_is_a_question_mark() {
        assert_eq!(escaped("A\r\n0\nEOF"), "A??0?EOF");
        assert_eq!(escaped("\u{1f600}\u{202e}"), "??");
    }
}
