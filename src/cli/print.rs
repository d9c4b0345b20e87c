//! Writing answers: to the screen, or into a file whole or not at all.
#![allow(clippy::print_stderr, clippy::print_stdout, reason = "this is the one place that prints")]

use super::Refusal;
use super::args::{Command, FormatArg, OutArgs};
use crate::output::{Format, csv, html, json, md, table};
use crate::report::Answer;
use std::io::Write;
use std::path::Path;

/// Writes an answer as asked and tells whether all is well.
pub(super) fn answer(answer: &Answer, out: &OutArgs) -> Result<bool, Refusal> {
    answer_or(answer, out, Format::Table)
}

/// Writes an answer as asked, or in a format of its own where nothing is, and tells whether all is well.
pub(super) fn answer_or(answer: &Answer, out: &OutArgs, own: Format) -> Result<bool, Refusal> {
    let format = format(out, own)?;
    let text = match format {
        Format::Table => table(answer),
        Format::Json => json(answer),
        Format::Csv => csv(answer),
        Format::Md => md(answer),
        Format::Html => html(answer),
    };
    match &out.output {
        Some(path) => file(path, &anstream::adapter::strip_str(&text).to_string())?,
        None => screen(&text),
    }
    Ok(answer.clear)
}

fn format(out: &OutArgs, own: Format) -> Result<Format, Refusal> {
    let ending = ending(out);
    if matches!(ending.as_deref(), Some("xlsx" | "xls" | "ods" | "pdf")) {
        return Err(Refusal(format!(
            "writing .{} is not built yet; use .json, .csv, .md or a plain text file",
            ending.unwrap_or_default()
        )));
    }
    Ok(match (out.format, ending.as_deref()) {
        (Some(FormatArg::Table), _) => Format::Table,
        (Some(FormatArg::Json), _) | (None, Some("json")) => Format::Json,
        (Some(FormatArg::Csv), _) | (None, Some("csv")) => Format::Csv,
        (Some(FormatArg::Md), _) | (None, Some("md")) => Format::Md,
        (Some(FormatArg::Html), _) | (None, Some("html" | "htm")) => Format::Html,
        (None, _) => own,
    })
}

/// Gives the ending of the file that is to be written, in small letters.
fn ending(out: &OutArgs) -> Option<String> {
    let ending = out.output.as_ref()?.extension()?.to_str()?;
    Some(ending.to_ascii_lowercase())
}

/// Refuses a format that a command does not have, before anything is read.
pub(super) fn offered(command: &Command) -> Result<(), Refusal> {
    let Some(out) = command.out() else { return Ok(()) };
    let html = out.format == Some(FormatArg::Html)
        || out.format.is_none() && matches!(ending(out).as_deref(), Some("html" | "htm"));
    if html && !matches!(command, Command::Ask(_) | Command::Report(_)) {
        let fix = "use table, json, csv or md here, rodreach report for the whole answer, or rodreach ask for pages to sign";
        return Err(Refusal(format!("only ask and report write html; {fix}")));
    }
    Ok(())
}

/// Prints to standard output; a reader that went away is not an error of ours.
fn screen(text: &str) {
    let mut out = anstream::stdout().lock();
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}

/// Prints a line to standard output.
pub(super) fn line(text: &str) {
    screen(text);
}

/// Prints a refusal to standard error.
pub(super) fn error(refusal: &Refusal) {
    let text = refusal.to_string();
    let start = if text.starts_with("error") { "" } else { "error: " };
    let _ = writeln!(anstream::stderr().lock(), "{start}{}", text.trim_end());
}

/// Writes a file whole or not at all: beside it first, then in its place.
pub(super) fn file(path: &Path, text: &str) -> Result<(), Refusal> {
    let refuse = |error: std::io::Error| Refusal(format!("{} cannot be written: {error}", path.display()));
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    if path.is_dir() {
        return Err(Refusal(format!("{} is a folder; give the name of a file in it", path.display())));
    }
    let mut builder = tempfile::Builder::new();
    builder.prefix(".rodreach-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut beside = builder.tempfile_in(folder).map_err(refuse)?;
    beside.write_all(text.as_bytes()).map_err(refuse)?;
    beside.as_file().sync_all().map_err(refuse)?;
    beside.persist(path).map_err(|error| refuse(error.error))?;
    Ok(())
}
