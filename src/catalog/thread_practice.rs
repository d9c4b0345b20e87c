//! What is published of the length of thread on an anchor rod: shown beside a worked-out length, never mixed with it.

use super::authority::{Authority, Standing};
use crate::length::{Length, Unit};

/// Gives on whose word [`spare_thread`] stands.
#[must_use]
pub fn spare_thread_authority() -> Authority {
    let text = "AISC Design Guide 1, 2nd ed., 2.7: specify the thread at least 3 in. (75 mm) longer than required; as quoted \
                by a second party";
    Authority::new(Standing::Published, text)
}

/// Gives how much longer than required the thread is advised to be, in inches or in round millimetres.
#[must_use]
pub const fn spare_thread(metric: bool) -> Length {
    if metric { Length::from_nm(75 * Unit::Millimetre.nm()) } else { Length::from_nm(3 * Unit::Inch.nm()) }
}
