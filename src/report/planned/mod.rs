//! A plan in words and values: what it aims at and costs, what stands in its way, what was tried.

pub(super) mod aim;
pub(super) mod clash;
pub(super) mod cost_json;
pub(super) mod hurdle_json;
pub(super) mod too_coarse;
pub(super) mod tried;
