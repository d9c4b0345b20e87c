//! What `explain` tells: one column step by step, and every option at it.

pub(super) mod considered;
mod json;
pub(super) mod screen;
