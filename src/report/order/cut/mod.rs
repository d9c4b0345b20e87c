//! What is cut: a drawing of every kind of shim plate of an order, and the list that goes with them.

mod json;
mod names;
mod screen;
mod sheet;

use super::Told;
use super::plates::label;
use crate::check::{Judged, style};
use crate::draw::{CutDrawing, cut_drawing};
use crate::model::{OutlineUnknown, PlateOutline};
use crate::order::{PlateOrder, PlateUse, hardware, order_list};
use crate::report::document::Answer;
use names::Names;

/// The drawings of an order and what is said of them.
#[derive(Clone, Debug)]
pub struct CutOrder {
    /// The answer; its sheet is the list of what is cut.
    pub answer: Answer,
    /// The drawings with their names, which are safe as names of files and differ in more than capitals.
    pub drawings: Vec<(String, CutDrawing)>,
}

/// One kind of plate, a shim or a piece of a pack.
struct Kind<'a> {
    /// What the order calls it.
    label: String,
    order: &'a PlateOrder,
    /// What it is marked with.
    mark: String,
    /// Its outline, drawing and name; or why it is not drawn.
    drawn: Result<Drawn, Vec<OutlineUnknown>>,
}

struct Drawn {
    name: String,
    outline: PlateOutline,
    drawing: CutDrawing,
}

impl Drawn {
    fn dxf(&self) -> String {
        format!("{}.dxf", self.name)
    }

    fn svg(&self) -> String {
        format!("{}.svg", self.name)
    }
}

/// Draws the shim plates of a plan; `folder` is what the folder of the drawings is called.
#[must_use]
pub fn cut_order(judged: &Judged<'_>, folder: &str) -> CutOrder {
    let rows = hardware(&judged.case);
    let list = order_list(judged.case.job, &rows);
    let told = Told { judged, rows: &rows, list: &list, style: style(judged.case.job) };
    let kinds = kinds(&told);
    let all_drawn = list.packs_open.is_empty() && kinds.iter().all(|kind| kind.drawn.is_ok());
    let answer = Answer {
        document: screen::document(&told, &kinds, folder),
        sheet: sheet::sheet(&told, &kinds),
        value: json::value(&told, &kinds),
        clear: judged.is_clear() && all_drawn,
    };
    let drawings = kinds.into_iter().filter_map(|kind| kind.drawn.ok());
    CutOrder { answer, drawings: drawings.map(|it| (it.name, it.drawing)).collect() }
}

fn kinds<'a>(told: &Told<'a>) -> Vec<Kind<'a>> {
    let mut names = Names::default();
    let job = told.judged.case.job;
    let kind = |(at, order): (usize, &'a PlateOrder)| {
        let thickness = order.kind.thickness;
        // a piece of a pack says so: it is no shim, whatever its sides
        let pack = if order.kind.purpose == PlateUse::Pack { " PACK" } else { "" };
        let mark = format!("{}{pack} {}", bases(&order.bases), told.style.exact(thickness));
        let drawn = order.kind.outline.exact().map(|outline| Drawn {
            name: names.of(&order.bases, order.kind.purpose, told.style, thickness),
            drawing: cut_drawing(&outline, &mark, format!("{mark}, {}", job.name)),
            outline,
        });
        Kind { label: label(told.list, at), order, mark, drawn }
    };
    told.list.plates.iter().enumerate().map(kind).collect()
}

impl Kind<'_> {
    /// Says what is missing to draw it, each with how to mend it.
    fn missing(&self) -> impl Iterator<Item = (String, &'static str)> {
        let pack = self.order.kind.purpose == PlateUse::Pack;
        let why = self.drawn.as_ref().err().map(Vec::as_slice).unwrap_or_default();
        why.iter().map(move |it| match it {
            OutlineUnknown::Size if pack => (
                "the size of the packs is not given (packs size)".to_owned(),
                "add size = [side, side] to its packs",
            ),
            _ => (it.words(), it.fix()),
        })
    }
}

/// Writes the bases of a mark: three of them, or two and how many more.
fn bases(bases: &[String]) -> String {
    match bases {
        [first, second, _, _, ..] => format!("{first} {second} +{}", bases.len() - 2),
        _ => bases.join(" "),
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_mark_names_three_bases_or_two_and_how_many_more() {
        let all = ["B1", "B2", "B3", "B4"].map(str::to_owned);
        assert_eq!(super::bases(&all[..3]), "B1 B2 B3");
        assert_eq!(super::bases(&all), "B1 B2 +2");
    }
}
