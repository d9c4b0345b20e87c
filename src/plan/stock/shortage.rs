//! What would have to be bought for the plan that all thicknesses allow.

use super::shelf::taken;
use crate::length::Length;
use crate::model::Job;
use crate::plan::action::{Action, Shortage, StackPiece};
use crate::plan::options::{Open, PlannedOption, judge};
use crate::plan::pose::Posed;
use crate::plan::solve::Chosen;
use crate::plan::stacks::every_stack;
use std::collections::BTreeMap;

/// Counts the pieces that a plan needs beyond what is on hand.
///
/// Where a stack can be changed for another that costs just as much, the one that leaves fewer pieces missing is taken.
/// Other lists may do as well; this one does.
pub(super) fn shortage(job: &Job, posed: &Posed, chosen: &Chosen) -> Option<Shortage> {
    let tallest = job.limits.tables.shim.as_ref().and_then(|shim| shim.tall.as_ref()).map(|tall| tall.value);
    let by_height = every_stack(&job.shims, tallest);
    // for every pad what it can take, the planned stack first
    let mut pads: Vec<Vec<PlannedOption>> = Vec::new();
    for (pad, choice) in posed.task.pads.iter().zip(chosen) {
        let Some(candidate) = choice.map(|choice| &pad.open[choice]) else { continue };
        let planned = &posed.task.options[candidate.option];
        let mut can = vec![planned.clone()];
        if planned.action == Action::Shim && pad.referable {
            for stack in by_height.get(&planned.raise.nominal).into_iter().flatten() {
                let pieces = stack.count();
                let (raise, stack) = (stack.height, stack.pieces.clone());
                let option = PlannedOption { action: Action::Shim, raise, stack, pieces, on_bed: None };
                let held = match judge(job, &job.columns[pad.column], &option) {
                    Open::Yes => false,
                    Open::Held => true,
                    Open::No => continue,
                };
                if option != *planned && option.cost(held) == candidate.cost {
                    can.push(option);
                }
            }
        }
        pads.push(can);
    }
    let mut picks = vec![0; pads.len()];
    let mut missing = missing_in(job, &pads, &picks);
    loop {
        let before = total(&missing);
        for pad in 0..pads.len() {
            for other in 0..pads[pad].len() {
                let was = std::mem::replace(&mut picks[pad], other);
                let now = missing_in(job, &pads, &picks);
                if total(&now) < total(&missing) {
                    missing = now;
                } else {
                    picks[pad] = was;
                }
            }
        }
        if total(&missing) == before {
            break;
        }
    }
    let pieces: Vec<StackPiece> =
        missing.into_iter().rev().map(|(thickness, count)| StackPiece { thickness, count }).collect();
    (!pieces.is_empty()).then(|| Shortage { pieces, cost: posed.cost(chosen) })
}

/// Counts the pieces that are missing, by thickness.
fn missing_in(job: &Job, pads: &[Vec<PlannedOption>], picks: &[usize]) -> BTreeMap<Length, u32> {
    let options = pads.iter().zip(picks).filter_map(|(can, pick)| can.get(*pick));
    let missing = taken(options).into_iter().filter_map(|(thickness, count)| {
        let short = count.saturating_sub(job.shims.on_hand(thickness)?);
        (short > 0).then_some((thickness, short))
    });
    missing.collect()
}

fn total(missing: &BTreeMap<Length, u32>) -> u64 {
    missing.values().map(|count| u64::from(*count)).sum()
}
