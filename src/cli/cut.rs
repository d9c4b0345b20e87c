//! `rodreach order --cut`.

use super::Refusal;
use super::args::{OrderArgs, OutArgs};
use super::folder;
use super::planned::Planned;
use super::print;
use crate::output::{csv, dxf, svg_cut};
use crate::report::{CutOrder, cut_order};
use std::path::Path;

/// Endings of files: a folder of such a name is a slip.
const FILES: [&str; 12] =
    ["dxf", "svg", "dwg", "csv", "json", "md", "txt", "html", "htm", "pdf", "xlsx", "zip"];

/// Writes the drawings into a new folder, all of them or none, and tells whether all is well.
pub(super) fn run(args: &OrderArgs, output: &Path) -> Result<bool, Refusal> {
    let ending = output.extension().and_then(|ending| ending.to_str()).map(str::to_ascii_lowercase);
    if ending.is_some_and(|ending| FILES.contains(&ending.as_str())) {
        return Err(Refusal(format!(
            "{} looks like a file, and --cut writes a folder of drawings: give the name of a folder",
            output.display()
        )));
    }
    folder::free(output)?;
    let planned = Planned::read(&args.job, &args.plan)?;
    let CutOrder { mut answer, drawings } = cut_order(&planned.judged(), &output.display().to_string());
    planned.tried.tell(&mut answer);
    if !drawings.is_empty() {
        let mut files = vec![("cut-list.csv".to_owned(), csv(&answer))];
        for (name, drawing) in &drawings {
            files.push((format!("{name}.dxf"), dxf(drawing)));
            files.push((format!("{name}.svg"), svg_cut(drawing)));
        }
        folder::write(output, &files)?;
    }
    print::answer(&answer, &OutArgs { format: args.job.out.format, output: None })
}
