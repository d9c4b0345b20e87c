//! A reading that fits another point than the one it was written down for.

use super::{Posed, Slip, SlipKind, Suspect, without};
use crate::length::Length;
use crate::levels::observation::From;
use crate::source::Place;

/// Points that a reading would fit; where it fits more, that tells nothing.
const MOST: usize = 3;

/// Finds, for every suspect sight, the points it would fit.
pub(super) fn wrong_mark(posed: &Posed<'_>, suspects: &[Suspect]) -> Vec<Slip> {
    let mut found = Vec::new();
    for suspect in suspects {
        let places = [suspect.place].into_iter().chain(suspect.tied_with.iter().copied());
        found.extend(places.filter_map(|place| fits(posed, place)));
    }
    found
}

fn fits(posed: &Posed<'_>, place: Place) -> Option<Slip> {
    let observation = posed.observations.iter().find(|it| it.place == place)?;
    let From::Line(setup) = observation.from else { return None };
    let left = without(&posed.observations, place);
    let adjustment = posed.adjusted(&left);
    let line = adjustment.line(setup)?;
    let by_slopes: f64 =
        observation.shares.iter().map(|(slope, share)| share * adjustment.slopes[*slope]).sum();
    let seen = observation.rise + Length::from_nm(by_slopes as i64);
    let within = Length::from_nm((2.0 * posed.precision.unit / observation.weight.sqrt()) as i64);
    let off = |point: usize| {
        let height = adjustment.points.get(point).copied().flatten()?;
        Some((height.above(line) - seen).abs())
    };
    let size = off(observation.point)?;
    // a point that stands as high as the one it was written down for would fit by that alone
    if size <= within * 2 {
        return None;
    }
    let on: Vec<usize> = (0..adjustment.points.len())
        .filter(|point| *point != observation.point && off(*point).is_some_and(|off| off <= within))
        .collect();
    if on.is_empty() || on.len() > MOST {
        return None;
    }
    Some(Slip {
        kind: SlipKind::WrongMark(on),
        setup: Some(setup),
        points: vec![observation.point],
        places: vec![place],
        size,
    })
}
