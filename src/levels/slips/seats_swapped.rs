//! Two pads that nothing checks and that come out at each other's design seat.

use super::{Slip, SlipKind, Unchecked};
use crate::length::Length;

/// Finds pairs of columns whose pads stand where the other's design seat is.
///
/// Each must be nearer to the other's seat than a quarter of what the two seats differ by.
pub(super) fn seats_swapped(unchecked: &Unchecked<'_, '_>) -> Vec<Slip> {
    let job = unchecked.posed.job;
    let mut departures: Vec<Length> = unchecked.departures.iter().copied().flatten().collect();
    departures.sort_unstable();
    // what most pads stand from their design is no slip of one
    let Some(&usual) = departures.get(departures.len() / 2) else { return Vec::new() };
    let off = |column: usize| Some(unchecked.departures.get(column).copied().flatten()? - usual);
    // only a pad that is far off its own seat can stand at another's
    let far: Vec<(usize, Length)> = (0..job.columns.len())
        .filter_map(|column| Some((column, off(column).filter(|off| off.abs() > unchecked.good_to() * 4)?)))
        .collect();
    let mut found = Vec::new();
    for (at, (one, off_one)) in far.iter().enumerate() {
        for (other, off_other) in &far[at + 1..] {
            let seat = |column: usize| job.design_seat(&job.columns[column]);
            let apart = seat(*other) - seat(*one);
            let near = |off: Length| off.abs() * 4 <= apart.abs();
            if apart != Length::ZERO && near(*off_one - apart) && near(*off_other + apart) {
                let points = [*one, *other].into_iter().filter_map(|column| job.columns[column].point);
                found.push(Slip {
                    kind: SlipKind::SeatsSwapped,
                    setup: None,
                    points: points.collect(),
                    places: Vec::new(),
                    size: apart.abs(),
                });
            }
        }
    }
    found
}
