//! Whole notes: published ones, worked by hand, against dense solutions, and any notes at all.

mod any_notes;
mod dense;
mod estimability;
mod grid;
mod published;
mod published_networks;
mod rules_of_thumb;
pub(super) mod sample;
mod tilted;
