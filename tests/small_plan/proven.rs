//! The cases of `tests/plan_cases`, whose optima were proven by other solvers, as small jobs.

use super::{Case, Column, FOOT, Limit, Limits, Line, Parts, Rod, Shims};
use serde_json::Value;
use std::path::Path;

/// The cases by name.
pub(crate) const NAMES: [&str; 6] = [
    "01-four-pads-in",
    "03-one-high-pad-grind-in",
    "05-two-refers-in-a-row-in",
    "07-grout-mm",
    "09-datum-in",
    "11-hall-60-in",
];

/// Reads a case.
pub(crate) fn read(name: &str) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/plan_cases").join(format!("{name}.json"));
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// Gives a length of a case.
pub(crate) fn nm(value: &Value) -> i64 {
    value.as_i64().unwrap_or_else(|| panic!("{value} is no whole number of nanometres"))
}

/// Gives the tolerance of a wall: its own, or that of all walls.
pub(crate) fn wall_tolerance(case: &Value, wall: &Value) -> Option<i64> {
    wall["tol_nm"].as_i64().or(case["tolerances"]["wall_nm"].as_i64())
}

/// Gives the names of a list.
pub(crate) fn names(list: &Value) -> Vec<&str> {
    list.as_array().unwrap().iter().map(|name| name.as_str().unwrap()).collect()
}

/// Says a case as a job: exact parts, a projection that sets the highest raise and a thread that sets the lowest.
pub(crate) fn job_of(case: &Value) -> Case {
    let parts = Parts {
        plate: [12_700_000; 3],
        washer: [4_000_000; 3],
        nut: [18_000_000; 3],
        beyond: 0,
        clear: 0,
        extra: 0,
        tape: 0,
    };
    let pads = case["pads"].as_array().unwrap();
    let columns = pads.iter().map(|pad| {
        let projection = nm(&pad["max_raise_nm"]) + parts.plate[1] + parts.washer[1] + parts.nut[1];
        // thread left = thread - (projection - raise - plate - washer)
        let thread = projection - parts.plate[1] - parts.washer[1] - nm(&pad["min_raise_nm"]);
        let rod = Rod { projection, thread: Some(thread), bent: false };
        Column {
            mark: pad["id"].as_str().unwrap().to_owned(),
            read: Some(nm(&pad["z_nm"])),
            seat: None,
            bed: 0,
            rods: vec![rod.clone(), rod],
        }
    });
    let tolerances = &case["tolerances"];
    let limit = |value: &Value| value.as_i64().map(|accept| Limit { accept, desired: None });
    let walls = case["walls"].as_array().unwrap();
    let wall: Vec<i64> = walls.iter().filter_map(|wall| wall_tolerance(case, wall)).collect();
    assert!(wall.windows(2).all(|pair| pair[0] == pair[1]), "a job has one limit of walls");
    let steps = |beds: &Value, keys: &[&str]| -> Option<Vec<i64>> {
        beds.as_object().map(|beds| keys.iter().map(|key| nm(&beds[*key])).collect())
    };
    Case {
        columns: columns.collect(),
        lines: lines(case),
        absolute: true,
        seat: tolerances["datum"]["design_nm"].as_i64(),
        limits: Limits {
            neighbours: limit(&tolerances["adjacent_nm"]),
            wall: wall.first().map(|&accept| Limit { accept, desired: None }),
            stretch: None,
            building: limit(&tolerances["all_nm"]),
            design: limit(&tolerances["datum"]["tol_nm"]),
        },
        shims: Shims {
            thicknesses: case["shims"]["thickness_nm"].as_array().unwrap().iter().map(nm).collect(),
            tolerance: Some([0, 0]),
            pieces: usize::try_from(nm(&case["shims"]["max_pieces"])).unwrap(),
            most: None,
            tall: None,
        },
        grout: steps(&case["grout"], &["min_nm", "max_nm", "step_nm"]).map(|it| it.try_into().unwrap()),
        grind: steps(&case["grind"], &["max_nm", "step_nm"]).map(|it| it.try_into().unwrap()),
        parts,
        desired: false,
    }
}

/// Gives a frame of two columns for every adjacent pair, and a wall for every wall.
///
/// A wall's own limit of neighbours is so large that it adds nothing.
fn lines(case: &Value) -> Vec<Line> {
    let marks: Vec<&str> =
        case["pads"].as_array().unwrap().iter().map(|pad| pad["id"].as_str().unwrap()).collect();
    let line = |list: &Value, wall: bool| {
        let at = |name: &str| marks.iter().position(|mark| *mark == name).unwrap();
        let columns: Vec<usize> = names(list).into_iter().map(at).collect();
        let spacing = vec![20 * FOOT; columns.len() - 1];
        Line { wall, columns, spacing, accept: wall.then_some(100 * FOOT) }
    };
    let frames = case["adjacency"].as_array().unwrap().iter().map(|pair| line(pair, false));
    let walls = case["walls"].as_array().unwrap().iter().map(|wall| line(&wall["pads"], true));
    frames.chain(walls).collect()
}
