//! What `catalog` lists: every figure with its source and standing.

mod grades;
mod instruments;
pub(super) mod list;
mod loads;
mod setting;
#[cfg(test)]
mod unverified;
