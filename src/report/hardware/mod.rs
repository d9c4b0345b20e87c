//! What `hardware` tells: the table of what stands at each column, and what it comes to.

pub(super) mod screen;
pub(super) mod setting;
pub(super) mod totals;
