//! Clean jobs: every column may be set and nothing asks.

use super::Job;

/// An inch job in the short form.
pub(crate) const WALK_JOB: &str = r#"
[job]
name = "Clean (invented)"
units = "in"
limits = "low-rise"

[measure]
walk = "walk.csv"
levels_units = "ft"

[[base]]
mark = "B1"
plate = { size = ["10", "14"], thickness = "1/2", holes = "15/16" }
rods = { diameter = "3/4", count = 4, projection = "2-1/2", thread = "4" }
washers = ["wide"]
nuts = ["heavy-hex"]

[[line]]
name = "A"
kind = "wall"
columns = ["A1", "A2", "A3"]
spacing = "20'"

[shims]
catalog = "plate"
"#;

/// Its walk.
pub(crate) const WALK: &str =
    "mark,reading,low,high\nA1,4.52,2-1/2,2-5/8\nA2,4.53,2-1/2,2-9/16\nA3,4.54,2-9/16,2-5/8\n";

/// Makes the inch job.
pub(crate) fn walk_job() -> Job {
    Job::of(&[("job.toml", WALK_JOB), ("walk.csv", WALK)])
}

/// A metric job with level notes and numbered rods.
pub(crate) const LEVELS_JOB: &str = r#"
[job]
name = "Clean, metric (invented)"
units = "mm"
limits = "en-1090"
seat = "100.2 m"
columns = "columns.csv"

[measure]
levels = "levels.csv"
levels_units = "m"
rods = "rods.csv"

[[benchmark]]
point = "BM1"
elevation = "100 m"

[[base]]
mark = "P1"
plate = { size = ["300", "400"], thickness = "25", holes = "30" }
rods = { diameter = "M24", count = 4, projection = "80", thread = "110" }
washers = ["iso-7089"]
nuts = ["iso-4032"]

[shims]
catalog = "plate-mm"
"#;

/// Its columns.
pub(crate) const COLUMNS: &str = "mark,base,x,y\nC1,P1,0,0\nC2,P1,6 m,0\nD1,P1,0,9 m\nD2,P1,6 m,9 m\n";

/// Its level notes.
pub(crate) const LEVELS: &str = "setup,point,sight,reading\n1,BM1,BS,1.4320\n1,C1,IS,1.2330\n1,C2,IS,1.2340\n1,D1,IS,1.2320\n1,D2,FS,1.2350\n";

/// Its rods.
pub(crate) fn rods() -> String {
    let mut text = "column,rod,projection,thread\n".to_owned();
    for mark in ["C1", "C2", "D1", "D2"] {
        for rod in 1..=4 {
            text.push_str(&format!("{mark},{rod},{},{}\n", 80 + rod, 90));
        }
    }
    text
}

/// Makes the metric job.
pub(crate) fn levels_job() -> Job {
    let rods = rods();
    Job::of(&[
        ("job.toml", LEVELS_JOB),
        ("columns.csv", COLUMNS),
        ("levels.csv", LEVELS),
        ("rods.csv", &rods),
    ])
}

/// The metric job with elevations measured elsewhere.
pub(crate) fn elevations_job() -> Job {
    let job = levels_job();
    job.replace("job.toml", "levels = \"levels.csv\"", "elevations = \"asbuilt.csv\"");
    job.replace("job.toml", "[[benchmark]]\npoint = \"BM1\"\nelevation = \"100 m\"\n", "");
    job.write(
        "asbuilt.csv",
        "point,elevation,plus_minus\nC1,100.199,1 mm\nC2,100.198,1 mm\nD1,100.200,1 mm\nD2,100.197,1 mm\n",
    );
    job
}

/// The metric job with elevations measured elsewhere, its bases on designed beds of 30 mm.
pub(crate) fn bedded_job() -> Job {
    let job = elevations_job();
    job.replace("job.toml", "seat = \"100.2 m\"", "seat = \"100.23 m\"");
    job.replace("job.toml", "mark = \"P1\"", "mark = \"P1\"\nbed = \"30\"");
    job.replace(
        "job.toml",
        "projection = \"80\", thread = \"110\"",
        "projection = \"110\", thread = \"110\"",
    );
    job.write("rods.csv", rods().replace(",8", ",11").replace(",90", ",95"));
    job
}
