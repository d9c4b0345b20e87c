//! What hardware, which instruments and which limits are known, each figure with its source.

use super::grades::grades;
use super::instruments::instruments;
use super::loads::{inch_threads, loads};
use super::setting::setting;
use crate::catalog::{Authority, Catalog, Extent, Limit, Limits, Standing, ThreadLimits};
use crate::check::rules::in_pitches;
use crate::length::{Length, Rounding, Unit};
use crate::report::document::{Align, Answer, Document, Sheet, Tone};
use crate::report::rules::source;
use crate::text::{Style, System, count};
use serde::Serialize;
use serde_json::Value;

#[derive(Serialize)]
struct CatalogJson {
    format: u32,
    rows: Vec<Row>,
}

/// One figure of the catalog, flat, so that every format shows the same.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Row {
    pub(super) kind: &'static str,
    pub(super) series: String,
    #[serde(skip)]
    title: String,
    pub(super) of: String,
    figure: &'static str,
    least_nm: Option<i64>,
    nominal_nm: Option<i64>,
    most_nm: Option<i64>,
    #[serde(skip)]
    pub(super) words: String,
    pub(super) source: Authority,
}

/// What of the catalog is listed.
#[derive(Clone, Copy, Debug, Default)]
pub struct Listed<'a> {
    /// Only series or kinds whose name holds this.
    pub only: Option<&'a str>,
    /// Only figures that are from memory.
    pub unverified: bool,
}

/// Makes the answer of `catalog`.
#[must_use]
pub fn catalog_answer(catalog: &Catalog, listed: Listed<'_>) -> Answer {
    let mut rows = rows(catalog);
    if let Some(only) = listed.only {
        rows.retain(|row| row.series.contains(only) || row.kind.contains(only));
    }
    let found = !rows.is_empty();
    if listed.unverified {
        rows.retain(|row| row.source.kind == Standing::FromMemory);
    }
    let document = document(&rows, listed.unverified && found);
    let cells = rows.iter().map(|row| {
        let nm = |length: Option<i64>| length.map(|it| it.to_string()).unwrap_or_default();
        vec![
            row.kind.to_owned(),
            row.series.clone(),
            row.of.clone(),
            row.figure.to_owned(),
            row.words.clone(),
            nm(row.least_nm),
            nm(row.nominal_nm),
            nm(row.most_nm),
            row.source.kind.words().to_owned(),
            row.source.text.clone(),
        ]
    });
    let heads = vec![
        "kind",
        "series",
        "of",
        "figure",
        "words",
        "least_nm",
        "nominal_nm",
        "most_nm",
        "standing",
        "source",
    ];
    let sheet = Sheet { heads, rows: cells.collect() };
    let value = serde_json::to_value(CatalogJson { format: 1, rows }).unwrap_or(Value::Null);
    Answer { document, sheet, value, clear: found }
}

/// Lays the rows out, series by series; `unverified` where only those from memory are listed.
fn document(rows: &[Row], unverified: bool) -> Document {
    let mut document = Document::default();
    if unverified {
        let figures = count(rows.len(), "figure");
        let said = format!("From memory: {figures}. Check each in the standard before you rely on it.");
        document.text(Tone::Plain, said);
    } else if rows.is_empty() {
        document
            .text(Tone::Plain, "Nothing of that name is in the catalog; rodreach catalog lists all of it.");
    }
    let mut left = rows;
    while let Some(first) = left.first() {
        let same = left.iter().take_while(|row| row.kind == first.kind && row.series == first.series).count();
        let (series, rest) = left.split_at(same);
        left = rest;
        document.heading(Tone::Plain, format!("{}: {} ({})", first.kind, first.series, first.title));
        let mut sources: Vec<&Authority> = Vec::new();
        for row in series {
            if !sources.contains(&&row.source) {
                sources.push(&row.source);
            }
        }
        let cells = series.iter().map(|row| {
            let number = sources.iter().position(|it| **it == row.source).map_or(0, |at| at + 1);
            vec![
                row.of.clone(),
                row.figure.to_owned(),
                row.words.clone(),
                match row.source.kind {
                    Standing::FromMemory => format!("[{number}] from memory"),
                    _ => format!("[{number}]"),
                },
            ]
        });
        document.grid(
            &[("of", Align::Left), ("figure", Align::Left), ("value", Align::Wrap), ("source", Align::Left)],
            cells.collect(),
        );
        for (at, authority) in sources.iter().enumerate() {
            document.item(Tone::Quiet, format!("[{}]", at + 1), source(authority));
        }
    }
    document
}

/// One series while its rows are listed: what every row of it shares.
pub(super) struct Lister<'a> {
    pub(super) kind: &'static str,
    pub(super) series: &'a str,
    pub(super) title: &'a str,
    pub(super) style: Style,
    pub(super) rows: &'a mut Vec<Row>,
}

impl Lister<'_> {
    /// Lists a figure in words only.
    pub(super) fn words(&mut self, of: &str, figure: &'static str, words: String, authority: &Authority) {
        self.rows.push(Row {
            kind: self.kind,
            series: self.series.to_owned(),
            title: self.title.to_owned(),
            of: of.to_owned(),
            figure,
            least_nm: None,
            nominal_nm: None,
            most_nm: None,
            words,
            source: authority.clone(),
        });
    }

    /// Lists one length.
    fn one(&mut self, of: &str, figure: &'static str, length: Length, authority: &Authority) {
        self.words(of, figure, self.style.exact(length), authority);
        self.nominal(length);
    }

    /// Gives the figure that was listed last its length.
    pub(super) fn nominal(&mut self, length: Length) {
        if let Some(row) = self.rows.last_mut() {
            row.nominal_nm = Some(length.nm());
        }
    }

    /// Lists the limits of one thread.
    pub(super) fn thread_limits(&mut self, diameter: Length, limits: &ThreadLimits) {
        let of = self.style.exact(diameter);
        for (figure, limit) in [
            ("rod major, least", limits.rod_major),
            ("rod pitch, least", limits.rod_pitch),
            ("nut minor, most", limits.nut_minor),
            ("nut pitch, most", limits.nut_pitch),
        ] {
            self.one(&of, figure, limit, &limits.authority);
        }
    }

    /// Lists a least, a nominal and a most.
    fn extent(&mut self, of: &str, figure: &'static str, extent: Extent, authority: &Authority) {
        let [least, nominal, most] = [extent.least, extent.nominal, extent.most];
        let words = [least, nominal, most].map(|length| self.style.exact(length)).join(" / ");
        self.words(of, figure, words, authority);
        if let Some(row) = self.rows.last_mut() {
            (row.least_nm, row.nominal_nm, row.most_nm) =
                (Some(least.nm()), Some(nominal.nm()), Some(most.nm()));
        }
    }

    /// Lists a limit, where there is one.
    fn limit(&mut self, of: &str, figure: &'static str, limit: Option<&Limit<Length>>) {
        if let Some(limit) = limit {
            self.one(of, figure, limit.value, &limit.authority);
        }
    }

    /// Lists a count, where there is one.
    fn count(&mut self, of: &str, figure: &'static str, limit: Option<&Limit<u32>>) {
        if let Some(limit) = limit {
            self.words(of, figure, limit.value.to_string(), &limit.authority);
        }
    }
}

pub(super) fn style_in(unit: Unit) -> Style {
    Style::new(if unit == Unit::Inch { System::Inch } else { System::Metric }, 64)
}

pub(super) fn rows(catalog: &Catalog) -> Vec<Row> {
    let mut rows = Vec::new();
    parts(catalog, &mut rows);
    plates_and_shims(catalog, &mut rows);
    grouts(catalog, &mut rows);
    grades(&catalog.grades, &mut rows);
    instruments(&catalog.instruments, &mut rows);
    setting(&mut rows);
    loads(&mut rows);
    for set in &catalog.limits {
        let (series, title, style) = (&set.name, &set.title, style_in(set.unit));
        limits(&set.limits, Lister { kind: "limits", series, title, style, rows: &mut rows });
    }
    rows
}

fn parts(catalog: &Catalog, rows: &mut Vec<Row>) {
    for table in &catalog.threads {
        let (series, title, style) = (&table.name, &table.title, style_in(table.unit));
        let mut lister = Lister { kind: "threads", series, title, style, rows };
        for (diameter, row) in &table.rows {
            let (threads, over) = row.pitch.threads_over();
            let words = format!("{threads} over {}", style.exact(over));
            lister.words(&style.exact(*diameter), "pitch", words, &row.authority);
            lister.nominal(row.pitch.times(1));
        }
    }
    for table in &catalog.thread_limits {
        let (series, title, style) = (&table.name, &table.title, style_in(table.unit));
        let mut lister = Lister { kind: "threads", series, title, style, rows };
        for (diameter, row) in &table.rows {
            lister.thread_limits(*diameter, row);
        }
    }
    inch_threads(catalog, rows);
    for table in &catalog.nuts {
        let (series, title, style) = (&table.name, &table.title, style_in(table.unit));
        let mut lister = Lister { kind: "nuts", series, title, style, rows };
        for (diameter, nut) in &table.rows {
            let of = style.exact(*diameter);
            lister.extent(&of, "height", nut.height, &nut.authority);
            if let Some(flats) = nut.flats {
                lister.one(&of, "width across flats", flats, &nut.authority);
            }
        }
    }
    for table in &catalog.washers {
        let (series, title, style) = (&table.name, &table.title, style_in(table.unit));
        let mut lister = Lister { kind: "washers", series, title, style, rows };
        for (diameter, washer) in &table.rows {
            let of = style.exact(*diameter);
            lister.extent(&of, "thickness", washer.thickness, &washer.authority);
            if let Some(outer) = washer.outer {
                lister.one(&of, "outer size", outer, &washer.authority);
            }
            if let Some(inner) = washer.inner {
                lister.one(&of, "hole", inner, &washer.inner_authority);
            }
        }
    }
    for holes in &catalog.holes {
        let table = &holes.series;
        let (series, title, style) = (&table.name, &table.title, style_in(table.unit));
        let mut lister = Lister { kind: "holes", series, title, style, rows };
        for (diameter, row) in &table.rows {
            let of = style.exact(*diameter);
            lister.one(&of, "hole", row.hole, &row.authority);
            lister.one(&of, "least washer", row.washer, &row.authority);
            lister.one(&of, "least thickness", row.thickness, &row.authority);
        }
        for row in &holes.plain {
            let of = format!("up to {}", style.exact(row.up_to));
            lister.one(&of, "plain washer to", row.clearance, &row.authority);
        }
    }
}

fn plates_and_shims(catalog: &Catalog, rows: &mut Vec<Row>) {
    for table in &catalog.plates {
        let (series, title, style) = (&table.name, &table.title, style_in(table.unit));
        let mut lister = Lister { kind: "plates", series, title, style, rows };
        for row in &table.rows {
            let of = format!("{} to below {}", style.exact(row.from), style.exact(row.below));
            let tolerance = Extent { least: -row.under, nominal: Length::ZERO, most: row.over };
            lister.extent(&of, "tolerance", tolerance, &row.authority);
        }
    }
    for table in &catalog.shims {
        let (series, title, style) = (&table.name, &table.title, style_in(table.unit));
        let mut lister = Lister { kind: "shims", series, title, style, rows };
        for piece in &table.pieces {
            lister.extent(
                &style.exact(piece.thickness.nominal),
                "thickness",
                piece.thickness,
                &piece.authority,
            );
        }
    }
}

fn grouts(catalog: &Catalog, rows: &mut Vec<Row>) {
    for table in &catalog.grouts {
        let (series, title, style) = (&table.name, &table.title, style_in(table.unit));
        let mut lister = Lister { kind: "grouts", series, title, style, rows };
        for bag in &table.bags {
            // in both systems: a bag is bought by either
            let metric = style_in(Unit::Millimetre).volume(bag.yields, Rounding::Down);
            let at = bag.consistency.map(|it| format!(", {}", it.words())).unwrap_or_default();
            let words = format!("{} ({metric}){at}", style.volume(bag.yields, Rounding::Down));
            lister.words(&bag.name, "yield of a bag", words, &bag.authority);
        }
        let waste = format!("{} %", table.waste.value);
        lister.words("any bag", "waste", waste, &table.waste.authority);
    }
}

fn limits(limits: &Limits, mut lister: Lister<'_>) {
    for (of, table) in
        [("neighbours", &limits.neighbours), ("building", &limits.building), ("design", &limits.design)]
    {
        if let Some(table) = table {
            lister.limit(of, "desired", table.desired.as_ref());
            lister.limit(of, "accept", Some(&table.accept));
        }
    }
    if let Some(wall) = &limits.wall {
        lister.limit("wall", "desired", wall.desired.as_ref());
        lister.limit("wall", "accept", Some(&wall.accept));
        lister.limit("wall", "length", wall.length.as_ref());
    }
    if let Some(pad) = &limits.pad {
        lister.limit("pad", "tilt", pad.tilt.as_ref());
        if let Some(top) = &pad.top {
            lister.one("pad", "top, lowest", top.value[0], &top.authority);
            lister.one("pad", "top, highest", top.value[1], &top.authority);
        }
    }
    if let Some(shim) = &limits.shim {
        lister.limit("shim", "most", shim.most.as_ref());
        lister.limit("shim", "tall", shim.tall.as_ref());
        lister.count("shim", "pieces", shim.pieces.as_ref());
    }
    if let Some(grout) = &limits.grout {
        lister.limit("grout", "least", Some(&grout.least));
        lister.limit("grout", "most", Some(&grout.most));
        lister.limit("grout", "step", Some(&grout.step));
    }
    if let Some(grind) = &limits.grind {
        lister.limit("grind", "most", Some(&grind.most));
        lister.limit("grind", "step", Some(&grind.step));
    }
    if let Some(engagement) = &limits.engagement {
        for (figure, limit) in [("beyond", &engagement.beyond), ("clear", &engagement.clear)] {
            let words = in_pitches(limit.value, lister.style);
            lister.words("engagement", figure, words, &limit.authority);
        }
        lister.count("engagement", "extra washers", Some(&engagement.extra));
    }
    if let Some(rods) = &limits.rods {
        lister.count("rods", "least", rods.least.as_ref());
        if let Some(top) = &rods.top {
            lister.one("rods", "top, lowest", top.value[0], &top.authority);
            lister.one("rods", "top, highest", top.value[1], &top.authority);
        }
    }
    if let Some(plates) = &limits.plates {
        lister.words("plates", "tolerance table", plates.value.clone(), &plates.authority);
    }
}
