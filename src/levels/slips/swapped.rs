//! Two readings of one setup that were written down for each other.

use super::{Bad, Posed, Slip, SlipKind};
use crate::levels::adjust::Adjustment;
use crate::levels::observation::From;
use crate::levels::reliability::{Judged, judged};
use crate::model::SpotKind;

/// Readings with a residual below this are not looked at, in their own standard deviations.
const NOTICED: f64 = 1.5;

/// Most pairs that are tried.
const MOST: usize = 60;

/// Finds pairs of readings which, swapped, make all readings agree; the best, and those that are just as good.
pub(super) fn swapped(posed: &Posed<'_>, adjustment: &Adjustment, bad: &Bad) -> Vec<Slip> {
    let observations = &posed.observations;
    let judged = judged(adjustment, observations, posed.precision);
    let noticed: Vec<&Judged> = judged
        .iter()
        .filter(|it| {
            it.standardised().is_some_and(|it| it.abs() >= NOTICED)
                && is_pad(posed, observations[it.index].point)
        })
        .collect();
    let mut pairs: Vec<(f64, usize, usize)> = Vec::new();
    for (at, one) in noticed.iter().enumerate() {
        for other in &noticed[at + 1..] {
            let (a, b) = (&observations[one.index], &observations[other.index]);
            let same = matches!((a.from, b.from), (From::Line(a), From::Line(b)) if a == b);
            // a pair that was swapped is off both ways by as much
            if same && a.point != b.point && one.residual * other.residual < 0.0 {
                pairs.push((one.residual.abs().min(other.residual.abs()), one.index, other.index));
            }
        }
    }
    pairs.sort_by(|one, other| other.0.total_cmp(&one.0));
    let mut best: Vec<(f64, Slip)> = Vec::new();
    for (_, a, b) in pairs.into_iter().take(MOST) {
        let mut turned = observations.clone();
        (turned[a].point, turned[b].point) = (turned[b].point, turned[a].point);
        let again = posed.adjusted(&turned);
        let Some(test) = posed.test(&again, &turned) else { continue };
        if !test.passed || test.statistic >= bad.without_worst {
            continue;
        }
        let least = best.first().map_or(f64::INFINITY, |(least, _)| *least);
        if test.statistic > least + 1.0 {
            continue;
        }
        if test.statistic < least - 1.0 {
            best.clear();
        }
        let [one, other] = [a, b].map(|index| &observations[index]);
        let setup = if let From::Line(setup) = one.from { Some(setup) } else { None };
        let slip = Slip {
            kind: SlipKind::Swapped,
            setup,
            points: vec![one.point, other.point],
            places: vec![one.place, other.place],
            size: (one.rise - other.rise).abs(),
        };
        best.push((test.statistic, slip));
    }
    best.into_iter().map(|(_, slip)| slip).collect()
}

/// Tells whether a point is a pad or another point of its own, and no rod top.
fn is_pad(posed: &Posed<'_>, point: usize) -> bool {
    let spots = &posed.job.readings.spots;
    !spots.iter().any(|spot| spot.point == point && matches!(spot.what, SpotKind::Rod(_)))
}
