//! What is done under a column.

use serde::{Deserialize, Serialize};

/// What is done under a column, as a plan chooses and an answer tells it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Action {
    /// It is left as it is.
    NoShim,
    /// A stack of shims.
    Shim,
    /// Set to height and grouted.
    Grout,
    /// The pad is ground down.
    Grind,
    /// Nothing that is open brings it where it must be: the engineer decides.
    Refer,
    /// Its pad has no elevation.
    Unmeasured,
}
