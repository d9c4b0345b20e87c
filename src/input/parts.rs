//! Washers and nuts of a base: a series of the catalog, or dimensions as measured.

use super::base::sound;
use super::context::{Context, known_names};
use super::job_toml::one_of;
use super::steel;
use crate::catalog::{Authority, Catalog, Extent, Nut, NutStyle, Pitch, Series, Washer};
use crate::length::{Bare, Length, Unit, read};
use crate::model::{NutPart, NutSteel, Units, WasherPart};
use crate::source::{Kind, Node, Problem, Walk, nearest};
use crate::text::{Style, System, and, quoted};

/// What a part is called whose dimensions the job gives.
const AS_MEASURED: &str = "as measured";

/// The size of a rod.
#[derive(Clone, Debug)]
pub(super) struct Size {
    /// As it is called: `3/4`, `M24`.
    pub(super) called: String,
    /// The diameter.
    pub(super) diameter: Length,
}

/// Reads a diameter: a length, or a metric size.
pub(super) fn size(walk: Walk<'_>, node: &Node, units: Units) -> Option<Size> {
    let metric = match &node.kind {
        Kind::Text(text) => text.trim().strip_prefix(['M', 'm']),
        _ => None,
    };
    if let Some(number) = metric {
        let millimetres = Bare { number: Some(Unit::Millimetre), fraction: None };
        return match read(number, millimetres) {
            Ok(diameter) if diameter > Length::ZERO && number.chars().all(|c| c.is_ascii_digit()) => {
                Some(Size { called: format!("M{number}"), diameter })
            }
            _ => {
                walk.problems.note(
                    Problem::at(
                        node.place,
                        format!("{} is not a metric size", quoted(&format!("M{number}"))),
                    )
                    .fix("write a size such as M24, or a diameter such as 3/4 in"),
                );
                None
            }
        };
    }
    let diameter = walk.thickness(node)?;
    let called = match &node.kind {
        Kind::Text(text) => text.trim().to_owned(),
        _ => {
            let system = if units == Units::Inch { System::Inch } else { System::Metric };
            Style::new(system, 16).exact(diameter).trim_end_matches('"').to_owned()
        }
    };
    Some(Size { called, diameter })
}

/// Finds the pitch of a rod in the thread tables.
pub(super) fn pitch(
    walk: Walk<'_>,
    node: &Node,
    size: &Size,
    catalog: &Catalog,
) -> Option<(Pitch, Authority)> {
    let found = catalog.threads.iter().find_map(|table| table.row(size.diameter));
    if found.is_none() {
        let tables = catalog.threads.iter().map(|table| {
            let sizes = table.rows.iter().map(|(diameter, _)| rod_size(*diameter, table.unit));
            let sizes: Vec<String> = sizes.collect();
            format!("{} ({})", table.name, sizes.join(", "))
        });
        walk.problems.note(
            Problem::at(node.place, format!("no thread table has a rod of {}", quoted(&size.called)))
                .fix(format!("the sizes that are known: {}", tables.collect::<Vec<_>>().join("; "))),
        );
    }
    found.map(|row| (row.pitch, row.authority.clone()))
}

/// Writes the diameter of a catalog row: a fraction of an inch, or a metric size.
fn rod_size(diameter: Length, unit: Unit) -> String {
    if unit == Unit::Millimetre {
        return format!("M{}", Style::new(System::Metric, 16).exact(diameter).trim_end_matches(" mm"));
    }
    Style::new(System::Inch, 16).exact(diameter).trim_end_matches('"').to_owned()
}

/// Finds the row of a series by rod size, and notes what is not known.
fn row<'c, Row>(
    walk: Walk<'_>,
    node: &Node,
    all: &'c [Series<Row>],
    what: &str,
    size: Option<&Size>,
) -> Option<(&'c Series<Row>, &'c Row)> {
    let name = walk.name(node)?;
    let Some(series) = all.iter().find(|series| series.name == name) else {
        let known = all.iter().map(|series| series.name.as_str());
        let problem = Problem::at(node.place, format!("{} is not a series of {what}s", quoted(&name)));
        walk.problems.note(match nearest(&name, known.clone()) {
            Some(name) => problem.fix(format!("did you mean `{name}`?")),
            None => problem.fix(known_names(known).unwrap_or_default()),
        });
        return None;
    };
    let size = size?;
    let Some(row) = series.row(size.diameter) else {
        let having = all.iter().filter(|series| series.row(size.diameter).is_some());
        let having: Vec<&str> = having.map(|series| series.name.as_str()).collect();
        let message = format!("`{name}` has no {what} for a rod of {}", quoted(&size.called));
        let own = if what == "nut" { "height" } else { "thickness" };
        walk.problems.note(Problem::at(node.place, message).fix(if having.is_empty() {
            format!("no series has one: give its {own} as {{ {own} = [least, nominal, most] }}")
        } else {
            format!("series that have one: {}", and(&having))
        }));
        return None;
    };
    Some((series, row))
}

/// Reads one washer.
pub(super) fn washer(
    walk: Walk<'_>,
    node: &Node,
    size: Option<&Size>,
    catalog: &Catalog,
) -> Option<WasherPart> {
    if matches!(node.kind, Kind::Table(_)) {
        let table = walk.table(node, "a washer")?;
        let thickness = table.need(walk, "thickness", "[\"0.122\", \"0.148\", \"0.177\"]");
        let thickness = thickness.and_then(|node| Extent::read(walk, node));
        let outer = table.get("outer").and_then(|node| walk.thickness(node));
        table.close(walk);
        let series = AS_MEASURED.to_owned();
        return Some(WasherPart { series, thickness: thickness?, outer, authority: Authority::this_job() });
    }
    let (series, row): (&Series<Washer>, &Washer) = row(walk, node, &catalog.washers, "washer", size)?;
    let authority = row.authority.clone();
    Some(WasherPart { series: series.name.clone(), thickness: row.thickness, outer: row.outer, authority })
}

/// Reads one nut: a series, a series and its grade, or its height as measured.
pub(super) fn nut(
    context: Context<'_>,
    node: &Node,
    size: Option<&Size>,
    catalog: &Catalog,
) -> Option<NutPart> {
    let walk = context.walk;
    let of_series = |node: &Node| {
        let (series, row): (&Series<Nut>, &Nut) = row(walk, node, &catalog.nuts, "nut", size)?;
        Some(NutPart {
            series: series.name.clone(),
            height: row.height,
            flats: row.flats,
            style: NutStyle::of_series(&series.name),
            steel: None,
            authority: row.authority.clone(),
        })
    };
    if !matches!(node.kind, Kind::Table(_)) {
        return of_series(node);
    }
    let table = walk.table(node, "a nut")?;
    let grade = table.get("grade").map(|node| steel::nut_grade(context, node, catalog));
    let part = if let Some(node) = table.get("series") {
        of_series(node)
    } else {
        let height = table.need(walk, "height", "[\"0.710\", \"47/64\", \"0.758\"]");
        let height = height.and_then(|node| Extent::read(walk, node));
        let style = table.get("style").map(|node| one_of(walk, node, NutStyle::WRITTEN));
        height.zip(sound(style)).map(|(height, style)| NutPart {
            series: AS_MEASURED.to_owned(),
            height,
            flats: None,
            style,
            steel: None,
            authority: Authority::this_job(),
        })
    };
    table.close(walk);
    let (part, grade) = (part?, sound(grade)?);
    let steel =
        grade.zip(size).map(|(grade, size)| NutSteel::find(catalog, &grade, part.style, size.diameter));
    Some(NutPart { steel, ..part })
}
