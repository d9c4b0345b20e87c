//! What `check` tells: its screen, its sheet and its values, what is held, and what the plan takes.

pub(super) mod compare;
pub(super) mod held;
pub(super) mod json;
pub(super) mod on_hand;
pub(super) mod screen;
pub(super) mod sheet;
mod totals;
