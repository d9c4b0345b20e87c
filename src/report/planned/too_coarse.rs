//! A limit that is closer than what the levels are good to.

use crate::check::style;
use crate::length::Rounding;
use crate::model::Job;
use crate::plan::{Tie, TooCoarse};
use crate::text::and;

/// Says which limit cannot be shown to be kept, by how much, and what to do.
#[must_use]
pub fn too_coarse_words(job: &Job, coarse: &TooCoarse) -> String {
    let style = style(job);
    let marks = coarse.columns.iter().filter_map(|&column| job.columns.get(column));
    let marks: Vec<String> = marks.map(|column| column.mark.clone()).collect();
    let line = |line: usize| job.lines.get(line).map_or("?", |line| line.name.as_str());
    let what = match coarse.tie {
        Some(Tie::Neighbours { line: index }) => {
            format!("the limit between next columns on line {}", line(index))
        }
        Some(Tie::Wall { line: index }) => format!("the limit along wall {}", line(index)),
        Some(Tie::Building) => "the limit over the building".to_owned(),
        None => "the limit from the design seat".to_owned(),
    };
    format!(
        "--guarded: {what} is {}, and the level at {} is good to +-{} only: nothing can be shown to keep it\n\
         read these pads again, from one setup or with a better instrument, or plan without --guarded",
        style.exact(coarse.most),
        and(&marks),
        style.write(coarse.plus_minus, Rounding::Up),
    )
}
