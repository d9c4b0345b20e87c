//! The heights that come out: of points, of pads by the places they were read at, of nothing that is not told.

use super::adjust::{Adjusted, Adjustment};
use super::pad::corners::centre;
use super::posed::Posed;
use super::slopes::untold::told;
use super::spread::Shares;

/// The height of every point, and what it is made of.
pub(super) struct Made {
    /// The heights, before any rounding.
    pub(super) heights: Vec<Option<Adjusted>>,
    /// What they are made of.
    pub(super) points: Vec<Option<Shares>>,
    /// Whether the readings tell the height of each setup's line of sight.
    pub(super) lines: Vec<bool>,
}

impl Made {
    /// Takes the heights of an adjustment; a pad that was read only at other places has that of its centre.
    ///
    /// A height that hangs on what the readings do not tell is none.
    pub(super) fn of(posed: &Posed<'_>, adjustment: &Adjustment) -> Self {
        let nodes = &posed.nodes;
        let heights = adjustment.points.clone();
        let points = (0..heights.len()).map(|point| Some(vec![(nodes.point(point)?, 1.0)])).collect();
        let mut made = Self { heights, points, lines: Vec::new() };
        let columns = posed.job.columns.iter();
        for (column, pad) in columns.clone().enumerate().filter_map(|(column, it)| Some((column, it.point?)))
        {
            if posed.carried.points.get(pad).is_some_and(Option::is_none) {
                made.centred(posed, column, pad);
            }
        }
        let pads: Vec<usize> = columns.filter_map(|column| column.point).collect();
        let lines = (0..posed.carried.setups).map(|setup| Some(vec![(nodes.line(setup)?, 1.0)]));
        let all: Vec<Option<Shares>> = made.points.iter().cloned().chain(lines).collect();
        let mut keep = told(&adjustment.systematic, &all, &pads, posed.block.is_none());
        made.lines = keep.split_off(made.points.len());
        for (point, keep) in keep.into_iter().enumerate() {
            if !keep {
                made.heights[point] = None;
                made.points[point] = None;
            }
        }
        made
    }

    fn centred(&mut self, posed: &Posed<'_>, column: usize, pad: usize) {
        let centre = centre(posed.job, column);
        let height =
            |&(point, share): &(usize, f64)| Some((self.heights.get(point).copied().flatten()?, share));
        let each: Option<Vec<(Adjusted, f64)>> = centre.iter().map(height).collect();
        let node = |&(point, share): &(usize, f64)| Some((posed.nodes.point(point)?, share));
        let shares: Option<Shares> = centre.iter().map(node).collect();
        if let (Some(each), Some(shares)) = (each, shares)
            && let Some(mean) = Adjusted::mean(&each)
        {
            self.heights[pad] = Some(mean);
            self.points[pad] = Some(shares);
        }
    }
}
