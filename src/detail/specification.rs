//! The specification: a projection and a thread on a step, and the raise they allow.

use super::terms::Terms;
use crate::catalog::spare_thread;
use crate::length::{Length, Rounding};

/// What to write on the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Specification {
    /// The projection, on the step.
    pub projection: Length,
    /// The least full thread with that projection, not rounded.
    pub thread_least: Length,
    /// The same, on the step.
    pub thread: Length,
    /// The thread that Design Guide 1 advises: so much more than the least, on the step.
    pub thread_advised: Length,
    /// Where the underside of the plate may then stand at every rod within its limits, shim tolerance apart.
    pub allowed: [Length; 2],
}

/// Gives the specification that is no less than a projection asked for.
#[must_use]
pub fn specify(terms: &Terms, least: Length, step: Length, metric: bool) -> Specification {
    let projection = least.to_step(step, Rounding::Up);
    let thread_least = thread_needed(terms, projection);
    let thread = thread_least.to_step(step, Rounding::Up);
    Specification {
        projection,
        thread_least,
        thread,
        thread_advised: (thread_least + spare_thread(metric)).to_step(step, Rounding::Up),
        allowed: allowed(terms, projection, Some(thread)),
    }
}

/// Gives the least full thread that leaves clear thread under the nut with the rod as high and the plate as low as they
/// may be, parts at their least, no washer added; under a levelling nut, where there is one, nut and washer at their most.
#[must_use]
pub fn thread_needed(terms: &Terms, projection: Length) -> Length {
    let above_underside = projection + terms.rod_top[1] - terms.lowest();
    (above_underside + terms.thread_below() + terms.clear + terms.reading).max(Length::ZERO)
}

/// Gives where the underside of the plate may stand at every rod within its limits: lowest and highest, shim tolerance
/// apart; without a thread nothing is said of the lowest, and it is where the plane has it.
#[must_use]
pub fn allowed(terms: &Terms, projection: Length, thread: Option<Length>) -> [Length; 2] {
    let [rod_low, rod_high] = terms.rod_top;
    let most = terms.plate.most + terms.washers.most + terms.nuts.most + terms.beyond;
    let high = projection + rod_low - most - terms.reading;
    let low = thread.map_or(terms.plane.low.height, |thread| {
        projection + rod_high + terms.thread_below() + terms.clear + terms.reading - thread
    });
    [low, high]
}
