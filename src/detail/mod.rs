//! The projection and the thread length to specify, from tolerances and from jobs already measured.
//!
//! The worst case is a sum of exact lengths (`terms`). What is said at a probability is worked out
//! in floats (`chance`, `order_statistics`), and rounded up to whole nanometres once.

mod asked;
mod chance;
mod kinds;
mod measured;
mod order_statistics;
mod percent;
mod plane;
mod specification;
mod terms;

pub use asked::{Asked, Spread, Spreads};
pub use chance::{Likely, likely};
pub use kinds::{Detail, Drawing, Kind, Member, Studied, detail};
pub use measured::{
    Between, Candidate, Claim, Counts, Figures, JobMeasured, Measured, MeasuredColumn, MeasuredRod, Missed,
    Need,
};
pub use order_statistics::{
    confidence_between, confidence_up_to, content_between_ends, content_up_to, least_rank, least_sample,
    least_sample_between,
};
pub use percent::Percent;
pub use plane::{End, Origin, Plane, ShimTolerance, plane};
pub use specification::{Specification, allowed, specify, thread_needed};
pub use terms::{Group, Term, Terms, terms};
