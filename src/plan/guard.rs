//! Limits less what the levels are good to, so that a plan keeps them by value and by +-.
//!
//! A difference that comes out at the limit is as likely out as in. Guarded, a plan takes a difference only where its value
//! and its +- (95 %) together are within: guarded acceptance as JCGM 106:2012 has it (8.3.2, the clause from memory), with the +- itself as the guard band.

use super::fewest::Wish;
use super::limits_kept::{LimitsKept, Spread, Step, Tie, limits_kept};
use crate::length::Length;
use crate::levels::Levelled;
use crate::model::Job;
use std::collections::BTreeMap;

/// Most columns of a spread that are compared pair by pair; in a larger one the +- of every pair counts as the largest could be.
const MOST_IN_PAIRS: usize = 150;

/// A limit that is closer than what the levels are good to: nothing can be shown to keep it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TooCoarse {
    /// Which limit.
    pub tie: Option<Tie>,
    /// The columns compared, indices into [`Job::columns`]; one where it is compared with its design seat.
    pub columns: Vec<usize>,
    /// The limit.
    pub most: Length,
    /// What the difference is good to, at 95 %.
    pub plus_minus: Length,
}

/// Reads the limits a plan is asked to keep.
///
/// # Errors
/// Guarded: the first limit that is closer than what its levels are good to.
pub(super) fn limits_for(job: &Job, levels: &Levelled, wish: &Wish) -> Result<LimitsKept, TooCoarse> {
    let limits = limits_kept(job, levels, wish.to);
    if wish.guarded { guarded(&limits, job, levels) } else { Ok(limits) }
}

/// Takes off every limit what the difference it compares is good to.
///
/// # Errors
/// The first limit that is closer than that.
fn guarded(limits: &LimitsKept, job: &Job, levels: &Levelled) -> Result<LimitsKept, TooCoarse> {
    let point = |column: usize| job.columns.get(column)?.point;
    let between = |a: usize, b: usize| levels.difference_plus_minus(point(a)?, point(b)?);
    let own = |column: usize| Some(levels.height(point(column)?)?.plus_minus);
    let mut steps: BTreeMap<[usize; 2], Step> = BTreeMap::new();
    let mut keep = |columns: [usize; 2], most: Length, tie: Tie| {
        // what is not measured is left out of the plan
        let Some(plus_minus) = between(columns[0], columns[1]) else { return Ok(()) };
        if plus_minus > most {
            return Err(TooCoarse { tie: Some(tie), columns: columns.to_vec(), most, plus_minus });
        }
        let step = Step { columns, most: most - plus_minus, tie };
        let kept = steps.entry([columns[0].min(columns[1]), columns[0].max(columns[1])]);
        let kept = kept.or_insert_with(|| step.clone());
        if step.most < kept.most {
            *kept = step;
        }
        Ok(())
    };
    for step in &limits.steps {
        keep(step.columns, step.most, step.tie)?;
    }
    let mut spreads = Vec::new();
    for spread in &limits.spreads {
        let measured: Vec<usize> = spread.columns.iter().copied().filter(|&it| own(it).is_some()).collect();
        if measured.len() <= MOST_IN_PAIRS {
            for (place, &a) in measured.iter().enumerate() {
                for &b in &measured[place + 1..] {
                    keep([a, b], spread.most, spread.tie)?;
                }
            }
            continue;
        }
        let mut each: Vec<(Length, usize)> = measured.iter().filter_map(|&it| Some((own(it)?, it))).collect();
        each.sort_unstable();
        let worst: Vec<(Length, usize)> = each.into_iter().rev().take(2).collect();
        let plus_minus = worst.iter().map(|it| it.0).sum();
        if plus_minus > spread.most {
            let columns = worst.iter().map(|it| it.1).collect();
            return Err(TooCoarse { tie: Some(spread.tie), columns, most: spread.most, plus_minus });
        }
        spreads.push(Spread { most: spread.most - plus_minus, ..spread.clone() });
    }
    let mut design = Vec::with_capacity(limits.design.len());
    for (column, most) in limits.design.iter().enumerate() {
        design.push(match (most, own(column)) {
            (Some(most), Some(plus_minus)) if plus_minus > *most => {
                return Err(TooCoarse { tie: None, columns: vec![column], most: *most, plus_minus });
            }
            (Some(most), Some(plus_minus)) => Some(*most - plus_minus),
            (most, _) => *most,
        });
    }
    Ok(LimitsKept { steps: steps.into_values().collect(), spreads, design })
}
