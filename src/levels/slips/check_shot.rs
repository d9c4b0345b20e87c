//! A check shot that does not come back: one point read twice from one setup.

use super::{Posed, Slip, SlipKind};
use crate::length::Length;
use crate::levels::observation::rise;
use std::collections::BTreeMap;

/// Lists the check shots that differ from the first reading by more than two readings do, the largest difference of each.
pub(super) fn check_shots(posed: &Posed<'_>) -> Vec<Slip> {
    let readings = &posed.job.readings;
    let observed = |sight: usize| posed.observations.iter().find(|it| it.sight == Some(sight));
    let mut first: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    let mut found: BTreeMap<(usize, usize), Slip> = BTreeMap::new();
    for (index, sight) in readings.sights.iter().enumerate() {
        let key = (sight.setup, sight.point);
        let Some(&before) = first.get(&key) else {
            first.insert(key, index);
            continue;
        };
        let earlier = &readings.sights[before];
        let off = (rise(readings.sense, sight.reading) - rise(readings.sense, earlier.reading)).abs();
        let weight = observed(index).map_or(1.0, |it| it.weight);
        let good_to = posed.precision.unit * (2.0 / weight).sqrt();
        let allowed = if posed.precision.exact { Length::ZERO } else { Length::from_nm(good_to as i64) };
        if off > allowed && found.get(&key).is_none_or(|it| off > it.size) {
            let places = vec![earlier.place, sight.place];
            let slip = Slip {
                kind: SlipKind::CheckShot,
                setup: Some(sight.setup),
                points: vec![sight.point],
                places,
                size: off,
            };
            found.insert(key, slip);
        }
    }
    found.into_values().collect()
}
