//! Jobs of one line that are small enough to be worked by hand.

use crate::tool::Job;

/// One sixteenth of an inch.
pub(crate) const SIXTEENTH: i64 = 1_587_500;

/// A job of columns on one frame line: mark, pad in sixteenths above the seat, and the most sixteenths its rod allows.
///
/// Next columns may be 3/16" apart. Shims of 1/8" and 1/4", two a stack; grinding to 1/8" in steps of 1/16".
pub(crate) fn job(columns: &[(&str, i64, i64)], plus_minus: i64) -> Job {
    let marks: Vec<String> = columns.iter().map(|(mark, ..)| format!("\"{mark}\"")).collect();
    let toml = format!(
        r#"
[job]
name = "by hand"
units = "in"
limits = "low-rise"
seat = "0"
[measure]
elevations = "elevations.csv"
rods = "rods.csv"
rods_plus_minus = "0"
[[base]]
mark = "B1"
plate = {{ thickness = "1/2", tolerance = ["0", "0"] }}
rods = {{ diameter = "3/4", count = 4 }}
washers = [{{ thickness = ["1/4", "1/4", "1/4"], outer = "2" }}]
nuts = [{{ height = ["3/4", "3/4", "3/4"] }}]
{}
[[line]]
name = "A"
kind = "frame"
columns = [{}]
[shims]
thicknesses = ["1/8", "1/4"]
pieces = 2
[limits.neighbours]
desired = "3/16"
accept = "3/16"
[limits.wall]
off = true
[limits.building]
off = true
[limits.grout]
off = true
[limits.shim]
most = "1"
tall = "1"
[limits.grind]
most = "1/8"
step = "1/16"
"#,
        columns
            .iter()
            .map(|(mark, ..)| format!("[[column]]\nmark = \"{mark}\"\nbase = \"B1\"\n"))
            .collect::<String>(),
        marks.join(", "),
    );
    let pads = columns.iter().map(|(mark, pad, _)| format!("{mark},{pad}/16 in,{plus_minus}/16 in\n"));
    // plate, washer and nut are 1-1/2" together, so a rod of 1-1/2" + n/16" is full up to a raise of n/16"
    let rods = columns.iter().map(|(mark, _, most)| format!("{mark},,{}/16 in,4\n", 24 + most));
    Job::of(&[
        ("job.toml", &toml),
        ("elevations.csv", &format!("point,elevation,plus_minus\n{}", pads.collect::<String>())),
        ("rods.csv", &format!("column,rod,projection,thread\n{}", rods.collect::<String>())),
    ])
}
