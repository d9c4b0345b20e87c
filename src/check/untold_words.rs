//! What the readings cannot tell apart, in words, and what would tell it.

use crate::levels::{Axis, Entangled, Parameter, Untold};
use crate::model::Job;
use crate::text::and;

/// Names a slope.
#[must_use]
pub fn slope_words(job: &Job, slope: Parameter) -> String {
    let instrument = |index: usize| match job.readings.instruments.get(index) {
        Some(it) if !it.name.is_empty() => it.name.clone(),
        _ => "the instrument".to_owned(),
    };
    let setup = |index: usize| job.readings.setups.get(index).map_or("", |it| it.name.as_str());
    let along = |axis: Axis| match axis {
        Axis::X => "x",
        Axis::Y => "y",
    };
    match slope {
        Parameter::Slope(index) => format!("the slope of the line of sight of {}", instrument(index)),
        Parameter::Tilt(index, axis) => format!("the tilt of setup {} along {}", setup(index), along(axis)),
        Parameter::BodyTilt(index, axis) => {
            format!("the tilt of {} along its own {}", instrument(index), along(axis))
        }
    }
}

/// Says what all readings together cannot tell, and what would: one sentence each.
#[must_use]
pub fn untold_words(job: &Job, untold: &[Untold]) -> Vec<String> {
    let mut slopes: Vec<Parameter> = untold.iter().flat_map(|it| it.slopes.iter().copied()).collect();
    slopes.sort_unstable();
    slopes.dedup();
    if slopes.is_empty() {
        return Vec::new();
    }
    let has = |wanted: fn(&Parameter) -> bool| slopes.iter().any(wanted);
    let line = has(|it| matches!(it, Parameter::Slope(_)));
    let tilt = has(|it| matches!(it, Parameter::Tilt(..)));
    let body = has(|it| matches!(it, Parameter::BodyTilt(..)));
    let mut setups: Vec<&str> = slopes
        .iter()
        .filter_map(|it| match it {
            Parameter::Tilt(setup, _) => job.readings.setups.get(*setup).map(|it| it.name.as_str()),
            _ => None,
        })
        .collect();
    setups.dedup();
    let who = match setups.as_slice() {
        [] => "these readings".to_owned(),
        [one] => format!("setup {one}"),
        many => format!("setups {}", and(many)),
    };
    let mut said = Vec::new();
    if tilt || body {
        said.push(format!(
            "{who} cannot tell a sloping slab from a tilted instrument: read three pads that are not in a row again \
             with the instrument turned half round, or from a setup that is level, or state how level the bubble was"
        ));
    }
    if line {
        let with = if tilt || body { ", nor a sloping line of sight from either" } else { "" };
        said.push(format!(
            "the slope of the line of sight cannot be told from the heights of the pads{with}: read the same pads from \
             another side, so that near ones become far ones, or make a peg test and give it as [[instrument.peg]]"
        ));
    }
    said
}

/// Says which two slopes can hardly be told apart.
#[must_use]
pub fn entangled_words(job: &Job, entangled: &Entangled) -> String {
    let [one, other] = entangled.slopes.map(|slope| slope_words(job, slope));
    format!(
        "{one} and {other} can hardly be told apart (correlation {}.{:03}): a peg test, or a statement of how level the \
         bubble was, would tell them",
        entangled.thousandths / 1000,
        entangled.thousandths % 1000
    )
}
