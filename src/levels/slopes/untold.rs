//! What the readings cannot tell apart, and which heights hang on it.

use super::parameter::Parameter;
use super::systematic::Systematic;
use crate::levels::network::Node;
use crate::levels::spread::Shares;
use nalgebra::DVector;
use std::collections::BTreeMap;

/// A part of a direction below this counts as nothing.
const NOTHING: f64 = 1e-7;

/// Slopes whose estimates go together more closely than this can hardly be told apart.
///
/// House rule: where a correlation exceeds 0.95 the readings are asked for more.
const CLOSE: f64 = 0.95;

/// Slopes that the readings cannot tell from a slope of the pads, or from each other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Untold {
    /// The slopes, in their order.
    pub slopes: Vec<Parameter>,
}

/// Two slopes that can hardly be told apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Entangled {
    /// The slopes.
    pub slopes: [Parameter; 2],
    /// How closely their estimates go together, in thousandths, without sign.
    pub thousandths: u32,
}

/// Names the slopes of every direction that nothing tells.
pub(in crate::levels) fn untold(systematic: &Systematic, slopes: &[Parameter]) -> Vec<Untold> {
    let directions = systematic.untold.iter();
    let mut found: Vec<Untold> = Vec::new();
    for direction in directions {
        let slopes = slopes.iter().enumerate().filter(|(index, _)| direction[*index].abs() > NOTHING);
        let untold = Untold { slopes: slopes.map(|(_, slope)| *slope).collect() };
        if !found.contains(&untold) {
            found.push(untold);
        }
    }
    found
}

/// Names the pairs of slopes that are told, but can hardly be told apart.
pub(in crate::levels) fn entangled(systematic: &Systematic, slopes: &[Parameter]) -> Vec<Entangled> {
    let cofactor = systematic.cofactor();
    let mut found = Vec::new();
    for one in 0..slopes.len() {
        for other in one + 1..slopes.len() {
            let size = (cofactor[(one, one)] * cofactor[(other, other)]).sqrt();
            let together = if size > 0.0 { (cofactor[(one, other)] / size).abs() } else { 0.0 };
            let told = [one, other].iter().all(|slope| is_told(systematic, *slope));
            if told && together > CLOSE {
                let thousandths = (together * 1e3).round() as u32;
                found.push(Entangled { slopes: [slopes[one], slopes[other]], thousandths });
            }
        }
    }
    found
}

/// Tells whether a slope is in no direction that nothing tells.
fn is_told(systematic: &Systematic, slope: usize) -> bool {
    systematic.untold.iter().all(|direction| direction[slope].abs() <= NOTHING)
}

/// Tells which points keep a height: those whose differences the readings tell, as many of `pads` among them as can be.
///
/// Where heights are held from outside, those that hang on them; where of several pads no two can be compared, none.
pub(in crate::levels) fn told(
    systematic: &Systematic,
    points: &[Option<Shares>],
    pads: &[usize],
    held_outside: bool,
) -> Vec<bool> {
    if systematic.untold.is_empty() {
        return points.iter().map(Option::is_some).collect();
    }
    let goes = |shares: &[(Node, f64)]| -> Vec<f64> {
        let along = systematic.along(shares);
        systematic.untold.iter().map(|direction: &DVector<f64>| direction.dot(&along)).collect()
    };
    let goes: Vec<Option<Vec<f64>>> = points.iter().map(|it| it.as_deref().map(goes)).collect();
    let largest = goes.iter().flatten().flatten().fold(0.0_f64, |largest, it| largest.max(it.abs()));
    let near = |one: &[f64], other: &[f64]| {
        one.iter().zip(other).all(|(one, other)| (one - other).abs() <= NOTHING * largest.max(1.0))
    };
    let alike = |with: &[f64]| -> Vec<bool> {
        goes.iter().map(|it| it.as_deref().is_some_and(|it| near(it, with))).collect()
    };
    if held_outside {
        return alike(&vec![0.0; systematic.untold.len()]);
    }
    let candidates = pads.iter().filter_map(|pad| goes.get(*pad)?.as_deref());
    let mut best: BTreeMap<usize, Vec<bool>> = BTreeMap::new();
    for candidate in candidates {
        let with = alike(candidate);
        let count = pads.iter().filter(|pad| with.get(**pad) == Some(&true)).count();
        best.entry(count).or_insert(with);
    }
    let read = pads.iter().filter(|pad| goes.get(**pad).is_some_and(Option::is_some)).count();
    match best.pop_last() {
        Some((count, with)) if count > 1 || read <= 1 => with,
        _ => vec![false; points.len()],
    }
}
