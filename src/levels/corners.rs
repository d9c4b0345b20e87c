//! Where the spots of a pad stand, and what of them makes its centre.

use crate::model::{Job, SpotKind};

/// Gives the height of a pad's centre as shares of the heights of its spots; none where no spot was read.
///
/// The shares add up to 1. Rod tops are no spots of the pad.
pub(super) fn centre(job: &Job, column: usize) -> Vec<(usize, f64)> {
    let places = job.readings.spots.iter().filter(|spot| spot.column == column);
    let places = places.filter(|spot| matches!(spot.what, SpotKind::Place(_)));
    let points: Vec<usize> = places.map(|spot| spot.point).collect();
    let share = 1.0 / points.len() as f64;
    points.into_iter().map(|point| (point, share)).collect()
}
