//! What `explain` tells: one column step by step, and every option at it.

pub(super) mod considered;
pub(super) mod json;
pub(super) mod screen;
