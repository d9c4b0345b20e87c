//! What to order: shim plates, washers and nuts, grout, what is ground, and a packet for each column.

mod cut;
mod grout;
mod json;
mod packets;
mod plates;
mod rows;
mod sheet;

use super::caution::{about_grinding, caution};
use super::check::held::reasons;
use super::document::{Align, Answer, Document, Tone};
use super::hardware::totals::fastener_words;
use super::planned::aim::aim;
use crate::check::{Judged, style};
use crate::length::Rounding;
use crate::order::{FastenerKind, HardwareRow, OrderList, hardware, order_list};
use crate::plan::Action;
use crate::quantity::Area;
use crate::text::Style;

pub use cut::{CutOrder, cut_order};
pub(super) use rows::OrderRow;

/// What is told: the plan as it was judged, what stands at each column, and the order.
struct Told<'a> {
    judged: &'a Judged<'a>,
    rows: &'a [HardwareRow],
    list: &'a OrderList,
    style: Style,
}

/// Makes the answer of `order`.
#[must_use]
pub fn order_answer(judged: &Judged<'_>) -> Answer {
    let rows = hardware(&judged.case);
    let list = order_list(judged.case.job, &rows);
    let told = Told { judged, rows: &rows, list: &list, style: style(judged.case.job) };
    Answer {
        document: document(&told),
        sheet: sheet::sheet(&told),
        value: json::value(&told),
        clear: judged.is_clear(),
    }
}

/// Gives the rows of an order, typed.
pub(super) fn order_rows(judged: &Judged<'_>) -> Vec<OrderRow> {
    let rows = hardware(&judged.case);
    let list = order_list(judged.case.job, &rows);
    rows::rows(&Told { judged, rows: &rows, list: &list, style: style(judged.case.job) })
}

impl Told<'_> {
    /// Writes whether a column may be set.
    fn set(&self, row: usize) -> String {
        if self.rows[row].may_set { "yes" } else { "NO" }.to_owned()
    }

    /// Tells whether anything that is counted is for a column on hold.
    fn holds(&self) -> bool {
        !self.list.held.is_empty()
    }
}

fn document(told: &Told<'_>) -> Document {
    let mut document = Document::default();
    let case = &told.judged.case;
    document.heading(Tone::Plain, format!("{}: what to order", case.job.name));
    document.text(Tone::Quiet, aim(case.plan, told.style));
    not_to_set(&mut document, told);
    plates::add(&mut document, told);
    plates::packs(&mut document, told);
    fasteners(&mut document, told);
    grout::add(&mut document, told);
    grinding(&mut document, told);
    packets::add(&mut document, told);
    let grinds = !told.list.grind.is_empty();
    caution(&mut document, grinds || about_grinding(told.judged, None));
    document
}

/// Says at the head which columns may not be set, and whether what they take is counted.
fn not_to_set(document: &mut Document, told: &Told<'_>) {
    let case = &told.judged.case;
    let mark = |row: usize| told.rows[row].mark.clone();
    if told.holds() {
        document.heading(Tone::Stop, "ON HOLD: counted below as planned, which the answer may change");
        for &row in &told.list.held {
            let why = reasons(case, &case.columns[row], told.style);
            document.item(Tone::Plain, mark(row), why.join("; "));
        }
    }
    if !told.list.not_counted.is_empty() {
        document.heading(Tone::Stop, "NOT COUNTED: nothing is planned here yet");
        for &row in &told.list.not_counted {
            document.item(Tone::Plain, mark(row), why_not_counted(told.rows[row].action));
        }
    }
}

/// Says why a column is not counted.
const fn why_not_counted(action: Action) -> &'static str {
    match action {
        Action::Refer => "left to the engineer",
        _ => "its pad is not measured",
    }
}

fn fasteners(document: &mut Document, told: &Told<'_>) {
    document.heading(Tone::Plain, "MORE WASHERS AND NUTS, beside those of the drawings");
    let all = [FastenerKind::Washer, FastenerKind::Nut].into_iter().flat_map(|kind| told.list.of_kind(kind));
    let holds = all.clone().any(|it| it.held > 0);
    let under = all.clone().any(|it| it.under > 0);
    let mut heads = vec![("part", Align::Wrap), ("rod", Align::Left), ("as drawn", Align::Right)];
    heads.extend(under.then_some(("levelling", Align::Right)));
    heads.push(("more", Align::Right));
    heads.extend(holds.then_some(("held", Align::Right)));
    heads.extend([("spares", Align::Right), ("to order", Align::Right)]);
    let rows = all.map(|it| {
        let what = match it.fastener.kind {
            FastenerKind::Nut => "nut",
            FastenerKind::Washer => "washer",
        };
        let mut cells = vec![
            format!("{what} {}", fastener_words(&it.fastener, told.style)),
            it.fastener.size.clone(),
            it.drawn.to_string(),
        ];
        cells.extend(under.then(|| it.under.to_string()));
        cells.push(it.more.to_string());
        cells.extend(holds.then(|| it.held.to_string()));
        cells.extend([it.spares.to_string(), it.to_order.to_string()]);
        cells
    });
    document.grid(&heads, rows.collect());
    let mut words = match under {
        true => "as drawn, above the plates, and levelling, under them: not in this order.".to_owned(),
        false => "as drawn: not in this order.".to_owned(),
    };
    words.push_str(" more: under nuts, where a rod's thread would run out.");
    if told.rows.iter().any(|row| !row.unmeasured.is_empty()) {
        words.push_str(" Rods that are not measured may want more.");
    }
    document.text(Tone::Quiet, words);
}

fn grinding(document: &mut Document, told: &Told<'_>) {
    if told.list.grind.is_empty() {
        return;
    }
    document.heading(Tone::Ask, "TO GRIND, once the engineer agrees");
    let rows = told.list.grind.iter().map(|ground| {
        let (plate, area) = match ground.size {
            Some([a, b]) => (
                format!("{} x {}", told.style.exact(a), told.style.exact(b)),
                told.style.area_of(Area::of([a, b]), Rounding::Up),
            ),
            None => ("?".to_owned(), "?".to_owned()),
        };
        vec![
            told.rows[ground.row].mark.clone(),
            told.style.exact(ground.depth),
            plate,
            area,
            told.set(ground.row),
        ]
    });
    let heads = [
        ("column", Align::Left),
        ("depth", Align::Right),
        ("under a plate of", Align::Right),
        ("area", Align::Right),
        ("set", Align::Left),
    ];
    document.grid(&heads, rows.collect());
    document.text(
        Tone::Quiet,
        "area: that of the plate; the ground place is larger by what the tool and the drawings ask for around it.",
    );
}
