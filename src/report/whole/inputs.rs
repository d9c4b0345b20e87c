//! What the report was made of: files by name, size and SHA-256, program, command; the files themselves folded away.

use super::super::ask::by_whom;
use super::super::document::{Align, Block, Document, Listing, Tone};
use super::Told;
use crate::model::Job;
use serde::Serialize;
use serde_json::Value;

/// Largest file, in bytes, that the report carries along.
const MOST_CARRIED: usize = 200_000;

#[derive(Serialize)]
struct ReportJson<'a> {
    program: &'static str,
    version: &'static str,
    command: &'a str,
    inputs: Vec<InputJson<'a>>,
    figures: Vec<FigureJson<'a>>,
}

#[derive(Serialize)]
struct InputJson<'a> {
    name: &'a str,
    bytes: Option<usize>,
    sha256: Option<&'a str>,
}

#[derive(Serialize)]
struct FigureJson<'a> {
    title: &'a str,
    alt: &'a str,
}

/// Gives what JSON has beside the values of `check`.
pub(super) fn value(told: &Told<'_>, document: &Document) -> Value {
    let inputs = told.files.all().map(|file| InputJson {
        name: file.name,
        bytes: file.mark.map(|mark| mark.bytes),
        sha256: file.mark.map(|mark| mark.sha256.as_str()),
    });
    let figures = document.blocks.iter().filter_map(|block| match block {
        Block::Figure(figure) => Some(FigureJson { title: &figure.title, alt: &figure.alt }),
        _ => None,
    });
    let json = ReportJson {
        program: "rodreach",
        version: told.version,
        command: &told.command,
        inputs: inputs.collect(),
        figures: figures.collect(),
    };
    serde_json::to_value(json).unwrap_or(Value::Null)
}

/// Adds who measured, and what the report was made of.
pub(super) fn section(document: &mut Document, job: &Job, told: &Told<'_>) {
    by_whom(document, job, told.files);
    document.heading(Tone::Plain, "TO MAKE THIS REPORT AGAIN");
    document.item(Tone::Plain, "program", format!("rodreach {}", told.version));
    let command = format!("{} (JOB: the folder with the files below)", told.command);
    document.item(Tone::Plain, "command", command);
    let rows = told.files.all().map(|file| {
        let (bytes, sha256) = match file.mark {
            Some(mark) => (mark.bytes.to_string(), mark.sha256.clone()),
            None => ("?".to_owned(), "?".to_owned()),
        };
        vec![file.name.to_owned(), bytes, sha256]
    });
    document
        .grid(&[("file", Align::Wrap), ("bytes", Align::Right), ("SHA-256", Align::Wrap)], rows.collect());
    document.text(
        Tone::Quiet,
        "The same files, command and program give this file again, byte for byte; nothing else goes into it, no clock and no network.",
    );
    let mut left_out = Vec::new();
    for file in told.files.all() {
        if file.text.len() > MOST_CARRIED {
            left_out.push(file.name);
            continue;
        }
        let what = if file.is_sheet { "its cells as they were read" } else { "as it was read" };
        let title = format!("{}, {what} (opens on a screen; not printed while it is closed)", file.name);
        document.blocks.push(Block::Listing(Listing { title, text: file.text.to_owned() }));
    }
    if !left_out.is_empty() {
        document.text(Tone::Plain, format!("Too long to be carried here: {}.", left_out.join(", ")));
    }
}
