//! A small job as its files.

use super::{Case, Column, Limit, Shims};
use crate::tool::Job;
use std::fmt::Write;

/// Writes a length with its unit: whole inches, parts of one, or millimetres to the nanometre.
pub(crate) fn len(nm: i64) -> String {
    let sign = if nm < 0 { "-" } else { "" };
    let whole = nm.abs();
    if whole % 25_400_000 == 0 {
        format!("{sign}{} in", whole / 25_400_000)
    } else if whole % 793_750 == 0 {
        format!("{sign}{}/32 in", whole / 793_750)
    } else {
        format!("{sign}{}.{:06} mm", whole / 1_000_000, whole % 1_000_000)
    }
}

/// Writes the job into a folder.
pub(crate) fn job(case: &Case) -> Job {
    let files = files(case);
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, text.as_str())).collect();
    Job::of(&files)
}

/// Shows the files one after the other.
pub(crate) fn shown(case: &Case) -> String {
    files(case).into_iter().fold(String::new(), |mut out, (name, text)| {
        let _ = write!(out, "--- {name}\n{text}\n");
        out
    })
}

/// Runs `check` with what the case asks for.
pub(crate) fn arguments(case: &Case) -> Vec<&'static str> {
    let mut arguments = vec!["--format", "json"];
    if case.desired {
        arguments.extend(["--to", "desired"]);
    }
    arguments
}

fn files(case: &Case) -> Vec<(&'static str, String)> {
    let pads = rows(case, |column| Some(format!("{},{}", column.mark, len(column.read?))));
    let levels = if case.absolute {
        ("elevations.csv", format!("point,elevation\n{pads}"))
    } else {
        ("levels.csv", format!("point,reading\n{pads}"))
    };
    let rods = rows(case, |column| {
        let rows = column.rods.iter().zip(["low", "high"]).map(|(rod, which)| {
            let thread = rod.thread.map(len).unwrap_or_default();
            let bent = if rod.bent { "bent" } else { "" };
            format!("{},{which},{},{thread},{bent}", column.mark, len(rod.projection))
        });
        let rows: Vec<String> = rows.collect();
        if rows.is_empty() { None } else { Some(rows.join("\n")) }
    });
    vec![
        ("job.toml", toml(case)),
        ("limits.toml", limits(case)),
        levels,
        ("rods.csv", format!("column,rod,projection,thread,condition\n{rods}")),
    ]
}

fn rows(case: &Case, row: impl Fn(&Column) -> Option<String>) -> String {
    case.columns.iter().filter_map(row).map(|row| row + "\n").collect()
}

fn quoted(nm: i64) -> String {
    format!("\"{}\"", len(nm))
}

fn list(all: impl IntoIterator<Item = i64>) -> String {
    format!("[{}]", all.into_iter().map(quoted).collect::<Vec<_>>().join(", "))
}

fn key(name: &str, value: Option<i64>) -> String {
    value.map(|value| format!("{name} = {}\n", quoted(value))).unwrap_or_default()
}

fn toml(case: &Case) -> String {
    let parts = &case.parts;
    let [least, nominal, most] = parts.plate;
    let mut toml = format!(
        r#"[job]
name = "oracle"
units = "in"
limits = "limits.toml"
{}
[measure]
{} = "{}.csv"
sense = "height"
rods = "rods.csv"
rods_plus_minus = {}

"#,
        key("seat", case.seat),
        if case.absolute { "elevations" } else { "levels" },
        if case.absolute { "elevations" } else { "levels" },
        quoted(parts.tape),
    );
    let mut beds: Vec<i64> = case.columns.iter().map(|column| column.bed).collect();
    beds.sort_unstable();
    beds.dedup();
    for (number, bed) in beds.iter().enumerate() {
        let _ = write!(
            toml,
            r#"
[[base]]
mark = "B{number}"
plate = {{ thickness = {}, tolerance = {}, holes = "15/16" }}
rods = {{ diameter = "3/4", count = 4, thread = "6" }}
washers = [{{ thickness = {}, outer = "2" }}]
nuts = [{{ height = {} }}]
{}"#,
            quoted(nominal),
            list([least - nominal, most - nominal]),
            list(parts.washer),
            list(parts.nut),
            key("bed", Some(*bed).filter(|bed| *bed > 0)),
        );
    }
    for column in &case.columns {
        let seat = key("seat", column.seat);
        let base = beds.iter().position(|bed| *bed == column.bed).unwrap();
        let _ = write!(toml, "\n[[column]]\nmark = \"{}\"\nbase = \"B{base}\"\n{seat}", column.mark);
    }
    for (number, line) in case.lines.iter().enumerate() {
        let kind = if line.wall { "wall" } else { "frame" };
        let marks: Vec<String> =
            line.columns.iter().map(|&column| format!("\"{}\"", case.columns[column].mark)).collect();
        let _ = write!(
            toml,
            "\n[[line]]\nname = \"{}\"\nkind = \"{kind}\"\ncolumns = [{}]\nspacing = {}\n{}",
            number + 1,
            marks.join(", "),
            list(line.spacing.iter().copied()),
            key("accept", line.accept),
        );
    }
    toml + "\n" + &shims(&case.shims)
}

fn shims(shims: &Shims) -> String {
    let kinds = match shims.tolerance {
        Some(tolerance) => format!(
            "thicknesses = {}\ntolerance = {}",
            list(shims.thicknesses.iter().copied()),
            list(tolerance)
        ),
        None => "catalog = \"plate-mm\"".to_owned(),
    };
    format!("[shims]\n{kinds}\npieces = {}\n", shims.pieces)
}

fn limits(case: &Case) -> String {
    let mut limits = "name = \"oracle\"\ntitle = \"Made up\"\nunits = \"in\"\n".to_owned();
    let mut table = |name: &str, keys: String| {
        let source = "source = { kind = \"house rule\", text = \"made up\" }";
        let _ = write!(limits, "\n[{name}]\n{keys}{source}\n");
    };
    let accept = |limit: Limit| key("accept", Some(limit.accept)) + &key("desired", limit.desired);
    let parts = &case.parts;
    let engagement = key("beyond", Some(parts.beyond)) + &key("clear", Some(parts.clear));
    table("engagement", engagement + &format!("extra = {}\n", parts.extra));
    if let Some(limit) = case.limits.neighbours {
        table("neighbours", accept(limit));
    }
    if let Some(limit) = case.limits.wall {
        table("wall", accept(limit) + &key("length", case.limits.stretch));
    }
    if let Some(limit) = case.limits.building {
        table("building", accept(limit));
    }
    if let Some(limit) = case.limits.design {
        table("design", accept(limit));
    }
    if case.shims.most.is_some() || case.shims.tall.is_some() {
        table("shim", key("most", case.shims.most) + &key("tall", case.shims.tall));
    }
    if let Some([least, most, step]) = case.grout {
        table("grout", key("least", Some(least)) + &key("most", Some(most)) + &key("step", Some(step)));
    }
    if let Some([most, step]) = case.grind {
        table("grind", key("most", Some(most)) + &key("step", Some(step)));
    }
    limits
}
