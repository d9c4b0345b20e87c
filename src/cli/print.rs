//! Writing answers: to the screen, or into a file whole or not at all.
#![allow(clippy::print_stderr, clippy::print_stdout, reason = "this is the one place that prints")]

use super::Refusal;
use super::args::{Command, FormatArg, OutArgs};
use crate::output::{Format, csv, html, json, md, table};
use crate::report::{Answer, Workbook};
use crate::source::{Files, Fingerprint};
use std::io::Write;
use std::path::Path;

/// Writes an answer as asked, or its workbook where the file ends so, and tells whether all is well.
pub(super) fn answer_or_workbook(
    answer: &Answer,
    workbook: impl FnOnce() -> Workbook,
    out: &OutArgs,
) -> Result<bool, Refusal> {
    match &out.output {
        Some(path) if is_workbook(out) => file(path, &workbook_bytes(&workbook())?)?,
        _ => return self::answer(answer, out),
    }
    Ok(answer.clear)
}

#[cfg(feature = "xlsx")]
fn workbook_bytes(workbook: &Workbook) -> Result<Vec<u8>, Refusal> {
    crate::output::xlsx(workbook).map_err(|why| Refusal(format!("the workbook could not be written: {why}")))
}

#[cfg(not(feature = "xlsx"))]
fn workbook_bytes(_: &Workbook) -> Result<Vec<u8>, Refusal> {
    Err(Refusal(NO_WORKBOOKS.to_owned()))
}

/// What a build without workbooks says of them.
#[cfg(not(feature = "xlsx"))]
const NO_WORKBOOKS: &str = "this build of rodreach writes no .xlsx; use .json, .csv or .md";

/// Writes an answer as asked and tells whether all is well.
pub(super) fn answer(answer: &Answer, out: &OutArgs) -> Result<bool, Refusal> {
    answer_or(answer, out, Format::Table)
}

/// Writes an answer as asked, or in a format of its own where nothing is, and tells whether all is well.
pub(super) fn answer_or(answer: &Answer, out: &OutArgs, own: Format) -> Result<bool, Refusal> {
    let text = match format_or(out, own)? {
        Format::Table => table(answer),
        Format::Json => json(answer),
        Format::Csv => csv(answer),
        Format::Md => md(answer),
        Format::Html => html(answer),
    };
    deliver(&text, out)?;
    Ok(answer.clear)
}

/// Writes a text where it is asked for.
pub(super) fn deliver(text: &str, out: &OutArgs) -> Result<(), Refusal> {
    match &out.output {
        Some(path) => file(path, anstream::adapter::strip_str(text).to_string()),
        None => {
            screen(text);
            Ok(())
        }
    }
}

/// Tells in which format an answer is asked for.
pub(super) fn format(out: &OutArgs) -> Result<Format, Refusal> {
    format_or(out, Format::Table)
}

fn format_or(out: &OutArgs, own: Format) -> Result<Format, Refusal> {
    let ending = ending(out);
    let fix = match ending.as_deref() {
        Some("xls" | "xlsm" | "xlsb" | "ods") => Some("check and hardware write .xlsx, all commands .csv"),
        Some("pdf") => Some("rodreach report JOB -o FILE.html writes a page that prints into one"),
        Some("dxf" | "svg") => Some("rodreach order JOB --cut -o FOLDER draws the shim plates"),
        _ => None,
    };
    if let Some(fix) = fix {
        return Err(Refusal(format!("an answer is not written as .{}; {fix}", ending.unwrap_or_default())));
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

/// Tells whether the file that is to be written is a workbook, by its ending.
fn is_workbook(out: &OutArgs) -> bool {
    ending(out).as_deref() == Some("xlsx")
}

/// Gives the ending of the file that is to be written, in small letters.
fn ending(out: &OutArgs) -> Option<String> {
    let ending = out.output.as_ref()?.extension()?.to_str()?;
    Some(ending.to_ascii_lowercase())
}

/// Refuses a format that a command does not have, before anything is read.
pub(super) fn offered(command: &Command) -> Result<(), Refusal> {
    let Some(out) = command.out() else { return Ok(()) };
    // what -o names then is a folder
    if matches!(command, Command::Order(args) if args.cut) && out.format != Some(FormatArg::Html) {
        return Ok(());
    }
    if is_workbook(out) {
        #[cfg(not(feature = "xlsx"))]
        return Err(Refusal(NO_WORKBOOKS.to_owned()));
        #[cfg(feature = "xlsx")]
        workbook_offered(command, out)?;
    }
    let html = out.format == Some(FormatArg::Html)
        || out.format.is_none() && matches!(ending(out).as_deref(), Some("html" | "htm"));
    if html && !matches!(command, Command::Ask(_) | Command::Report(_) | Command::Sheet(_)) {
        let fix = "use table, json, csv or md here, rodreach report for the whole answer, or rodreach ask for pages to sign";
        return Err(Refusal(format!("only ask, report and sheet write html; {fix}")));
    }
    Ok(())
}

#[cfg(feature = "xlsx")]
fn workbook_offered(command: &Command, out: &OutArgs) -> Result<(), Refusal> {
    if !matches!(command, Command::Check(_) | Command::Hardware(_) | Command::Order(_)) {
        return Err(Refusal(
            "only check, hardware and order write .xlsx; use .json, .csv or .md here".to_owned(),
        ));
    }
    if matches!(command, Command::Check(args) if args.since.is_some()) {
        return Err(Refusal(
            "a workbook does not hold what changed: leave --since away, or use .json, .csv or .md".to_owned(),
        ));
    }
    match out.format {
        Some(_) => Err(Refusal("a file that ends in .xlsx is a workbook: leave --format away".to_owned())),
        None => Ok(()),
    }
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

/// Refuses to put an answer in the place of a file that it is made from: readings are there once.
pub(super) fn spare_inputs(out: &OutArgs, files: &Files) -> Result<(), Refusal> {
    let Some(path) = out.output.as_ref().filter(|path| path.is_file()) else { return Ok(()) };
    // what cannot be read is no file of this job
    let Ok(bytes) = std::fs::read(path) else { return Ok(()) };
    let mark = Fingerprint::of(&bytes);
    match files.all().any(|file| file.mark == Some(&mark)) {
        true => Err(Refusal(format!(
            "{} is a file that this answer is made from; nothing was written: name another file",
            path.display()
        ))),
        false => Ok(()),
    }
}

/// Writes a file whole or not at all: beside it first, then in its place.
pub(super) fn file(path: &Path, bytes: impl AsRef<[u8]>) -> Result<(), Refusal> {
    let named = path;
    let refuse = |error: std::io::Error| Refusal(format!("{} cannot be written: {error}", named.display()));
    if path == Path::new("-") {
        return Err(Refusal("- is no name of a file: leave -o away to print the answer".to_owned()));
    }
    // a link stays one: what it leads to is written
    let target = if path.is_symlink() { path.canonicalize().ok() } else { None };
    let path = target.as_deref().unwrap_or(path);
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    if path.is_dir() {
        return Err(Refusal(format!("{} is a folder; give the name of a file in it", named.display())));
    }
    if path.exists() && !path.is_file() {
        return Err(Refusal(format!("{} is no file; leave -o away to print the answer", named.display())));
    }
    if !folder.is_dir() {
        let folder = folder.display();
        return Err(Refusal(format!("{} cannot be written: there is no folder {folder}", named.display())));
    }
    let mut builder = tempfile::Builder::new();
    builder.prefix(".rodreach-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut beside = builder.tempfile_in(folder).map_err(refuse)?;
    beside.write_all(bytes.as_ref()).map_err(refuse)?;
    beside.as_file().sync_all().map_err(refuse)?;
    beside.persist(path).map_err(|error| refuse(error.error))?;
    Ok(())
}
